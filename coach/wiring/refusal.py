"""The one way to say that a command can't be carried out."""

from __future__ import annotations


class UnusableError(Exception):
    """The command or its input can't be used; the message says what to do next."""
