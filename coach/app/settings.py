"""All settings of one maker as one value; how it is stored is an adapter's business.

Every setting can be given by name and text, checked, and told what it may be if it isn't that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any

from coach.craft.steps import Pace
from coach.guide.interrupting import WhileSpeaking
from coach.guide.manner import (
    FASTEST,
    LOUDEST,
    SLOWEST,
    SOFTEST,
    USUAL_LOUDNESS,
    USUAL_RATE,
    Manner,
)

Value = str | int | float | bool

TABLES = ("keys", "own_words")  # settings of several lines, each a name and a text
SMALLEST, LARGEST = 1, 8  # sizes of the giant letters


@dataclass(frozen=True, slots=True)
class Settings:
    """How one maker wants the coach to be.

    rate: words a minute. loudness: percent. size: 1 to 8. terms: "US", "UK", or "" for the
    pattern's own. keys: the maker's own keys, key name to command. lock_out: seconds in which a
    second press doesn't count. check_rows: offer a count or a width after so many rows without
    one; 0 for never. acceptance: seconds that a key is held until it counts. letters:
    the block characters that giant letters are built of. scan_seconds: how long each answer stands when answers are
    walked over by one switch; 0 for never by itself. long_words: only the longer twins of the
    spoken commands are listened for (loud rooms). loudspeaker, microphone_name: devices by name,
    "" for the machine's own choice. natural_voice: a folder with a Piper voice, or "".
    while_speaking: what the ear takes while the coach speaks; cancel_echo: with the coach's own
    sound taken out first (the optional package livekit). own_words: what the ear makes of a maker's
    own way of saying a phrase, to the phrase that is meant.
    """

    rate: int = USUAL_RATE
    loudness: int = USUAL_LOUDNESS
    colours: str = "black on white"
    size: int = LARGEST
    pace: str = Pace.BLOCK.value
    terms: str = ""
    hand: str = "right"
    gentle: bool = False
    rest_minutes: int = 0
    check_rows: int = 10
    speech: bool = True
    microphone: bool = True
    plain: bool = False
    long_words: bool = False
    letters: str = "half"
    lock_out: float = 0.7
    acceptance: float = 0.0
    scan_seconds: float = 0.0
    voice: str = ""
    natural_voice: str = ""
    loudspeaker: str = ""
    microphone_name: str = ""
    while_speaking: str = WhileSpeaking.NOTHING.value
    cancel_echo: bool = False
    own_words: Mapping[str, str] = field(default_factory=dict)
    keys: Mapping[str, str] = field(default_factory=dict)

    def manner(self, pattern_terms: str | None) -> Manner:
        """Return the manner that a session begins with, for a pattern in *pattern_terms*."""
        return Manner(
            pace=Pace.STITCH if self.gentle else Pace(self.pace),
            terms=self.terms or pattern_terms or "US",
            hand=self.hand,
            gentle=self.gentle,
            rate=self.rate,
            loudness=self.loudness,
            rest_minutes=self.rest_minutes,
            usual_pace=Pace(self.pace),
            microphone=self.microphone,
        )


class UnknownSettingError(ValueError):
    """There is no such setting, or it can't be that; the message says what it may be."""


_CHOICES: Mapping[str, tuple[str, ...]] = {
    "pace": tuple(each.value for each in Pace),
    "terms": ("", "US", "UK"),
    "hand": ("right", "left"),
    "while_speaking": tuple(each.value for each in WhileSpeaking),
    "letters": ("half", "quadrant", "octant"),
}
_RANGES: Mapping[str, tuple[float, float]] = {
    "rate": (SLOWEST, FASTEST),
    "loudness": (SOFTEST, LOUDEST),
    "size": (SMALLEST, LARGEST),
    "rest_minutes": (0, 24 * 60),
    "check_rows": (0, 1000),
    "lock_out": (0, 10),
    "acceptance": (0, 10),
    "scan_seconds": (0, 60),
}


def changed(settings: Settings, name: str, value: Value) -> Settings:
    """Return *settings* with one of them changed. "keys.f13" is one line of the keys.

    Raises:
        UnknownSettingError: no such setting, or it can't be *value*.
    """
    table, _, key = name.partition(".")
    if table in TABLES and key:
        lines: Mapping[str, str] = getattr(settings, table)
        lengthened: dict[str, Any] = {table: {**lines, key: str(value)}}
        return replace(settings, **lengthened)
    present = next((each.name for each in fields(settings) if each.name == name), None)
    if present is None or present in TABLES:
        raise UnknownSettingError(f"There is no setting {name}.")
    change: dict[str, Any] = {name: _checked(name, value, type(getattr(settings, name)))}
    return replace(settings, **change)


def _checked(name: str, value: Value, kind: type) -> Value:
    if kind is bool:
        if not isinstance(value, bool):
            raise UnknownSettingError(f"{name} is true or false, not {value}.")
        return value
    if kind is str:
        return _choice(name, value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise UnknownSettingError(f"{name} is a number, not {value}.")
    low, high = _RANGES[name]
    if not low <= value <= high:
        raise UnknownSettingError(f"{name} is between {low:g} and {high:g}, not {value:g}.")
    return float(value) if kind is float else int(value)


def _choice(name: str, value: Value) -> str:
    if not isinstance(value, str):
        raise UnknownSettingError(f"{name} is a word, not {value}.")
    allowed = _CHOICES.get(name)
    if allowed is None:
        return value
    found = next((each for each in allowed if each.lower() == value.lower()), None)
    if found is None:
        listed = ", ".join(each or "nothing" for each in allowed)
        raise UnknownSettingError(f"{name} is one of: {listed}. It can't be {value}.")
    return found


def from_values(values: Mapping[str, Value]) -> tuple[Settings, tuple[str, ...]]:
    """Return the settings that *values* give, and a sentence for each that was left out."""
    settings, left_out = Settings(), []
    for name, value in values.items():
        try:
            settings = changed(settings, name, value)
        except UnknownSettingError as fault:
            left_out.append(str(fault))
    return settings, tuple(left_out)


def to_values(settings: Settings) -> dict[str, Value]:
    """Return what differs from the usual, as names and values to be stored."""
    usual = Settings()
    values: dict[str, Value] = {
        each.name: getattr(settings, each.name)
        for each in fields(settings)
        if each.name not in TABLES and getattr(settings, each.name) != getattr(usual, each.name)
    }
    for table in TABLES:
        values.update({f"{table}.{key}": held for key, held in getattr(settings, table).items()})
    return values


def with_manner(settings: Settings, manner: Manner) -> Settings:
    """Return *settings* as a maker has changed them by command, to be kept for the next time."""
    pace = manner.usual_pace if manner.gentle else manner.pace
    return replace(
        settings,
        rate=manner.rate,
        loudness=manner.loudness,
        hand=manner.hand,
        pace=pace.value,
        gentle=manner.gentle,
        rest_minutes=manner.rest_minutes,
        microphone=manner.microphone,
    )
