"""Pattern text to craft objects and their faults, and back to text."""
