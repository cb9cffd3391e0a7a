"""The outside world: voice, ear, disk."""
