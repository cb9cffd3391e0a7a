"""Plain lines hold letters, digits, ASCII punctuation and line ends, in eighty columns or forty."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from coach.adapters.plain import PlainDisplay
from coach.ports import View
from tests.a11y.works import PATTERNS, worked

# Control characters (escape among them) but the line end, drawing, blocks, braille dots.
NOT_PLAIN = re.compile("[\x00-\x09\x0b-\x1f\x7f\u2500-\u28ff\U0001cc00-\U0001fbff]")


@pytest.mark.parametrize("width", [80, 40])
@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_a_whole_piece_in_plain_lines(path: Path, width: int) -> None:
    stream = io.StringIO()
    display = PlainDisplay(stream, width=width)
    display.mode("you asked for it with --plain")
    for one in worked(path):
        if isinstance(one, View):
            display.show(one)
        else:
            display.tell(one)
    lines = stream.getvalue().split("\n")
    assert NOT_PLAIN.findall(stream.getvalue()) == []
    assert max(map(len, lines)) <= width
    assert " ".join(lines[:2]).startswith("Plain mode, because you asked for it with --plain.")
    assert len(lines) > 10
