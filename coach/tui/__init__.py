"""The Textual screen."""
