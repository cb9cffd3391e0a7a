"""Use cases, on ports only."""
