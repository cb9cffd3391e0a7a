"""Every window from forty by twelve to three hundred by a hundred shows every fact, none sideways."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from coach.tui.page import lay_out
from coach.tui.window import Look, Page
from tests.tui.giant import stands_on
from tests.tui.terminal import Terminal
from tests.tui.views import ALL, RIB

WIDTHS = (40, 57, 80, 120, 300)
HEIGHTS = (12, 17, 24, 40, 100)


def sentence_whole(page: Page, sentence: str) -> bool:
    column, row = page.cursor
    rest = [page.lines[row].text[column:], *(line.text for line in page.lines[row + 1 :])]
    return " ".join(" ".join(rest).split()).startswith(sentence)


@pytest.mark.parametrize("height", HEIGHTS)
@pytest.mark.parametrize("width", WIDTHS)
def test_no_window_loses_a_fact(width: int, height: int) -> None:
    for view in ALL.values():
        page = lay_out(view, width, height)
        assert {len(line.text) for line in page.lines} == {width}
        assert sentence_whole(page, view.sentence)
        facts = (view.headline, view.side, view.group, view.count, view.notice, *view.choices)
        assert [fact for fact in facts if fact and not stands_on(page, fact)] == []
        assert [word for word in " ".join(view.big).split() if not stands_on(page, word)] == []
        assert [sign for sign in view.signs if not stands_on(page, sign)] == []


@pytest.mark.parametrize("size", range(1, 9))
def test_no_size_loses_a_fact(size: int) -> None:
    for window in ((40, 12), (80, 24), (120, 40)):
        page = lay_out(RIB, *window, Look(size))
        facts = (RIB.headline, RIB.side, RIB.group, RIB.count, *RIB.big, *RIB.signs)
        assert [fact for fact in facts if not stands_on(page, fact)] == []


def follow(*options: str) -> list[str]:
    command = [sys.executable, "-m", "coach", "follow", "pebble-cloth"]
    return [*command, "--no-speech", "--no-ear", *options]


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
@pytest.mark.parametrize(
    ("environment", "first"),
    [
        ({"NO_COLOR": "1"}, "Chain 17."),
        ({"TERM": "xterm"}, "Chain 17."),
        ({"TERM": "linux"}, "Chain 17."),
        ({"TERM": "dumb"}, "Plain mode, because the terminal calls itself dumb."),
        ({"COACH_PLAIN": "1"}, "Plain mode, because COACH_PLAIN is set."),
    ],
    ids=str,
)
def test_every_kind_of_terminal_gives_a_working_program(
    environment: dict[str, str], first: str, tmp_path: Path
) -> None:
    with Terminal(follow(), environment={**environment, "COACH_HOME": str(tmp_path)}) as terminal:
        terminal.read_until(first)
        terminal.type("\r")
        terminal.read_until("Row 1. Right side facing.")


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_plain_lines_go_out_beside_the_giant_screen(tmp_path: Path) -> None:
    lines = tmp_path / "lines.txt"
    shell = f'exec "$@" --also-plain > "{lines}"'
    command = ["bash", "-c", shell, "coach", *follow()]
    with Terminal(command, 60, 20, environment={"COACH_HOME": str(tmp_path)}) as terminal:
        terminal.read_until("Chain 17.")
        terminal.type(" ")
        terminal.read_until("Row 1. Right side facing.")
        assert terminal.at_cursor.startswith("Row 1. Right side facing.")
        assert "█" in terminal.text
    written = lines.read_text(encoding="utf-8")
    assert "\x1b" not in written
    assert written.isascii()
    assert [line for line in written.splitlines() if line.startswith("Row 1. Right side facing.")]
    assert os.path.getsize(lines) < 2000
