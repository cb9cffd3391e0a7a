"""The scripts that build the ear: their promises."""
