"""Patterns from disk, from standard input and from the built-in shelf, as text.

Refuses, with a sentence, what can't be a pattern: nothing, a folder, a picture, far too
much. Reads no pattern language: the text goes on as it came.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from importlib import resources
from pathlib import Path
from typing import BinaryIO

from coach.ports import Missing

LARGEST = 2_000_000  # bytes; a long garment with ten sizes stays under 200,000


@dataclass(frozen=True, slots=True)
class PatternText:
    """A pattern as given: its short name, where it came from, and its text."""

    name: str
    source: str
    text: str


def built_in_names() -> tuple[str, ...]:
    """Return the names of the built-in patterns, the small one for learning first."""
    folder = resources.files("coach.patterns")
    names = (each.name for each in folder.iterdir() if each.name.endswith(".txt"))
    return tuple(sorted((name[:-4] for name in names), key=lambda name: (len(name), name)))


def load(pattern: str, stdin: BinaryIO) -> PatternText | Missing:
    """Return the text of *pattern*: a file, "-" for *stdin*, or a built-in name.

    A Missing tells in plain words what is wrong and what to do next.
    """
    if pattern == "-":
        return _decoded("-", "standard input", stdin.read(LARGEST + 1))
    if pattern in built_in_names():
        built_in = resources.files("coach.patterns").joinpath(f"{pattern}.txt")
        return PatternText(pattern, f"built-in {pattern}", built_in.read_text(encoding="utf-8"))
    return _from_file(pattern)


def _from_file(pattern: str) -> PatternText | Missing:
    if not pattern.isprintable():
        return Missing("That name has signs that can't be shown.", "Check the name and try again.")
    path = Path(pattern)
    try:
        if path.is_dir():
            return Missing(
                f"{pattern} is a folder, not a pattern.",
                "Give the name of one text file inside it.",
            )
        if not path.exists():
            return _not_found(pattern)
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except PermissionError:
        return Missing(
            f"{pattern} may not be read by you.", "Ask its owner, or copy it to your own folder."
        )
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "the name can't be used"
        return Missing(f"{pattern} can't be read: {reason}.", "Check the name and try again.")
    return _decoded(path.stem, pattern, raw)


def _not_found(pattern: str) -> Missing:
    names = built_in_names()
    near = get_close_matches(pattern.lower(), names, n=1, cutoff=0.5)
    remedy = f"Did you mean {near[0]}?" if near else f"Built-in patterns: {', '.join(names)}."
    return Missing(
        f"There is no file or built-in pattern named {pattern}.",
        f"{remedy} Or give the path of a text file.",
    )


def _decoded(name: str, source: str, raw: bytes) -> PatternText | Missing:
    if len(raw) > LARGEST:
        return Missing(
            f"{source} is larger than {LARGEST // 1_000_000} megabytes, too large for a pattern.",
            "Keep the pattern's words only, as plain text, and try again.",
        )
    text = _text_of(raw)
    if text is None:
        return Missing(
            f"{source} is not plain text. It may be a picture, a PDF or a word processor's file.",
            "Open it in its own program, save or copy the words as plain text, and try again.",
        )
    if not text.strip():
        return Missing(f"{source} is empty.", "Give a file that holds a pattern's words.")
    return PatternText(name, source, text)


def _text_of(raw: bytes) -> str | None:
    """Return the text in *raw*, whichever usual encoding it has, or None if it is no text."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return raw.decode("utf-16")
        except UnicodeDecodeError:
            return None
    if b"\x00" in raw:
        return None
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        # Older word processors on Windows still save in this one; every byte means something in
        # Latin-1, so it never fails where cp1252 has gaps.
        text = raw.decode("cp1252", errors="replace")
    signs = sum(ord(sign) < 32 and sign not in "\t\n\r\f\v" for sign in text)
    odd = signs + text.count("\ufffd")
    return None if odd * 20 > len(text) else text
