"""Words: one message for every channel, in full for the ear and in brief for the eye."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """One message: *full* is spoken and written in plain mode, *brief* is shown large."""

    full: str
    brief: str
