"""The state machine that walks a maker through the steps: place, modes, commands, moves."""
