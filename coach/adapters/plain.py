"""Plain lines: the same work for screen readers, braille displays, pipes and tests.

Letters, digits, ASCII punctuation and line ends, and nothing else: no colour, no drawing, no cursor
movement. Appends only. What matters comes first in a line, one message is one line unless a width
is asked for, and every message is flushed before the next is thought of.
"""

from __future__ import annotations

import json
import re
import textwrap
import unicodedata
from collections.abc import Mapping
from typing import TextIO

from coach.ports import View
from coach.wording.words import Words

_AS_WRITTEN = {
    "\u2018": "'",
    "\u2019": "'",
    "\u201c": '"',
    "\u201d": '"',
    "\u2032": "'",
    "\u2033": '"',
    "\u2010": "-",
    "\u2011": "-",
    "\u2012": "-",
    "\u2013": "-",
    "\u2014": " - ",
    "\u2212": "-",
    "\u2022": "-",
    "\u2026": "...",
    "\u2044": "/",
    "\u00d7": " times ",
    "\u00b0": " degrees",
    "\u00b1": " plus or minus ",
    "\u00df": "ss",
    "\u00e6": "ae",
    "\u00f8": "o",
    "\u0153": "oe",
}


def plain_text(text: str) -> str:
    """Return *text* in one line of letters, digits and ASCII punctuation.

    Letters of other alphabets stay, since names are written in them; signs are put in words or
    left out, and every run of white space becomes one space.
    """
    kept: list[str] = []
    for character in text:
        kept.append(_plain(character))
    return " ".join("".join(kept).split())


def _plain(character: str) -> str:
    if " " <= character <= "~":
        return character
    if character in _AS_WRITTEN:
        return _AS_WRITTEN[character]
    category = unicodedata.category(character)
    if category in ("No", "Nl"):  # a fraction or a raised figure in one character
        parts = unicodedata.normalize("NFKD", character)
        return " " + "".join(_AS_WRITTEN.get(part, part) for part in parts)
    if category[0] == "Z" or character in "\t\n\r\v\f":
        return " "
    if category[0] == "L" or category == "Mn":
        return character
    return "".join(part for part in unicodedata.normalize("NFKD", character) if " " <= part <= "~")


def why_plain(
    *, asked: bool, environment: Mapping[str, str], on_terminal: bool, setting: bool = False
) -> str | None:
    """Return why this run is in plain mode, or None if it may have the giant screen.

    A flag goes before a variable, a variable before a setting, and a setting before a guess.
    """
    if asked:
        return "you asked for it with --plain"
    for name in ("COACH_PLAIN", "ACCESSIBLE"):
        value = environment.get(name, "")
        if value and value.lower() not in ("0", "false", "no"):
            return f"{name} is set"
        if value:
            return _no_screen(environment, on_terminal)
    if setting:
        return "your settings say so"
    return _no_screen(environment, on_terminal)


def _no_screen(environment: Mapping[str, str], on_terminal: bool) -> str | None:
    if not on_terminal:
        return "there is no terminal to draw on"
    if environment.get("TERM", "") in ("dumb", "unknown"):
        return f"the terminal calls itself {environment['TERM']}"
    return None


class PlainDisplay:
    """A Display of plain lines, or of JSON lines for programs.

    width: None for one message a line; a figure breaks longer ones between words (80, or 40 for
    a braille display). Signs and numbered answers are told when they come or change.
    """

    def __init__(self, stream: TextIO, *, width: int | None = None, as_json: bool = False) -> None:
        self._stream = stream
        self._width = width
        self._json = as_json
        self._choices: tuple[str, ...] = ()
        self._signs: tuple[str, ...] = ()

    def mode(self, why: str) -> None:
        """Write the first line: which mode this is, and what set it."""
        self.tell(Words(f"Plain mode, because {why}.", "Plain mode"))

    def show(self, view: View) -> None:
        """Write the step's sentence with its place; then its numbered answers, if it asks."""
        if self._json:
            self._write_json(_said(view))
            return
        self._write(view.notice)
        self._write(step_line(view))
        if view.choices != self._choices:
            for number, choice in enumerate(view.choices, 1):
                self._write(f"{number}: {choice}")
        if view.signs != self._signs:
            self._write(_signs_line(view.signs, self._signs))
        self._choices, self._signs = view.choices, view.signs

    def tell(self, words: Words) -> None:
        """Write a message that is not the present step."""
        if self._json:
            self._write_json({"type": "say", "full": words.full, "brief": words.brief})
        else:
            self._write(words.full)

    def heard(self, text: str, confidence: float, ms: int) -> None:
        """Write what the ear took, before its answer."""
        if self._json:
            figures = {"confidence": round(confidence, 3), "ms": ms}
            self._write_json({"type": "heard", "text": text, **figures})
        else:
            self._write(f"heard: {text}")

    def _write(self, text: str) -> None:
        line = plain_text(text)
        if not line:
            return
        rows = [line]
        if self._width is not None:
            rows = textwrap.wrap(line, self._width, break_on_hyphens=False)
        self._stream.write("".join(f"{row}\n" for row in rows))
        self._stream.flush()

    def _write_json(self, message: Mapping[str, object]) -> None:
        self._stream.write(json.dumps(message, ensure_ascii=True) + "\n")
        self._stream.flush()


def step_line(view: View) -> str:
    """Return the plain line of a step: its sentence, then each fact that isn't in it already.

    What to do comes first; the row, the group, the side and the count that the giant screen
    shows beside it come after, so that a listener who knows them can go on.
    """
    sentence = plain_text(view.sentence)
    said = sentence.casefold()
    facts = [plain_text(fact) for fact in (view.headline, view.group, view.side, view.count)]
    missing = [fact for fact in facts if fact and not _tells(said, fact.casefold())]
    if not missing:
        return sentence
    place = ", ".join(missing)
    return f"{sentence} {place[:1].upper()}{place[1:]}."


def _tells(said: str, fact: str) -> bool:
    """Whether the sentence says the fact as whole words: "row 1" isn't told by "row 12"."""
    return re.search(rf"(?<!\w){re.escape(fact)}(?!\w)", said) is not None


def _signs_line(signs: tuple[str, ...], before: tuple[str, ...]) -> str:
    """What has come, in words; what has gone is told by the command that ended it."""
    new = ", ".join(sign for sign in signs if sign not in before)
    return f"{new[:1].upper()}{new[1:]}." if new else ""


def _said(view: View) -> dict[str, object]:
    message: dict[str, object] = {
        "type": "say",
        "full": view.sentence,
        "brief": " ".join(view.big),
        "at": dict(view.at),
        "row_stitches": view.row_stitches,
        "done": view.done,
        "headline": view.headline,
        "group": view.group,
        "side": view.side,
        "count": view.count,
    }
    if view.notice:
        message["notice"] = view.notice
    if view.choices:
        message["choices"] = list(view.choices)
    if view.signs:
        message["signs"] = list(view.signs)
    return message
