"""The settings that a maker can change: each one's name, what it is called, and its values."""

from __future__ import annotations

from dataclasses import dataclass

from coach.tui.inks import THEMES
from coach.tui.window import LARGEST

Value = str | int | float | bool

SAMPLE = ("12", "double crochet")


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting: its name in the settings file, what it is called, and its values with labels."""

    name: str
    label: str
    values: tuple[tuple[Value, str], ...]
    sample: tuple[str, ...] = ()

    def label_of(self, value: Value) -> str:
        """Return what *value* is called."""
        return next((label for each, label in self.values if each == value), str(value))

    def place_of(self, value: Value) -> int:
        """Return the place of *value* in the list, or of the nearest figure."""
        figures = [each for each, _ in self.values]
        if value in figures:
            return figures.index(value)
        if isinstance(value, int | float):
            return min(range(len(figures)), key=lambda at: abs(float(figures[at]) - float(value)))
        return 0


def _on_off(name: str, label: str) -> Setting:
    return Setting(name, label, ((True, "On"), (False, "Off")))


def _figures(name: str, label: str, unit: str, *values: int | float) -> Setting:
    return Setting(name, label, tuple((value, f"{value:g} {unit}") for value in values))


def _seconds(name: str, label: str, zero: str, low: int, high: int) -> Setting:
    """Tenths of a second from *low* to *high*, and nothing at all, called *zero*."""
    values = tuple((tenths / 10, f"{tenths / 10:g} seconds") for tenths in range(low, high + 1))
    return Setting(name, label, ((0.0, zero), *values))


SETTINGS: tuple[Setting, ...] = (
    Setting(
        "size",
        "Letter size",
        tuple((size, f"Size {size}") for size in range(LARGEST, 0, -1)),
        SAMPLE,
    ),
    Setting("colours", "Colours", tuple((t.name, t.name.capitalize()) for t in THEMES), SAMPLE),
    _figures("rate", "Speed of speech", "words a minute", *range(80, 321, 10)),
    _figures("loudness", "Loudness", "percent", *range(20, 101, 10)),
    _on_off("speech", "Speech"),
    _on_off("microphone", "Microphone"),
    Setting(
        "pace",
        "How much at once",
        (("block", "One stitch block"), ("row", "A whole row"), ("stitch", "One stitch")),
    ),
    Setting(
        "terms",
        "Stitch names",
        (("", "As in the pattern"), ("US", "US names"), ("UK", "UK names")),
    ),
    Setting("hand", "Hand", (("right", "Right hand"), ("left", "Left hand"))),
    _on_off("gentle", "Gentle time"),
    Setting(
        "rest_minutes",
        "Rest",
        ((0, "Never"), *((minutes, f"Every {minutes} minutes") for minutes in range(5, 121, 5))),
    ),
    _on_off("long_words", "Longer spoken commands only"),
    Setting(
        "while_speaking",
        "Words heard while I speak",
        (
            ("nothing", "None"),
            ("stop words", "Those that stop me"),
            ("all words", "All of two words or more"),
        ),
    ),
    _on_off("cancel_echo", "Echo cancelling"),
    Setting(
        "letters",
        "Shape of large letters",
        (
            ("half", "Blocks, for every screen"),
            ("quadrant", "Finer, for most screens"),
            ("octant", "Finest, for new screens"),
        ),
        SAMPLE,
    ),
    _on_off("plain", "Plain lines in place of the large screen"),
    _seconds("lock_out", "Second press ignored for", "Not at all", 1, 50),
    _seconds("acceptance", "Key held until it counts", "At once", 1, 20),
    _seconds("scan_seconds", "One switch, time for each answer", "No switch", 5, 200),
)
