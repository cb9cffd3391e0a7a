"""In a real terminal: still without input, the cursor on the sentence, no colour where none is wanted."""

from __future__ import annotations

import re

import pytest

from tests.tui.terminal import Terminal, python
from tests.tui.views import CHAIN, RIB

PROGRAM = """
import os
from coach.guide.commands import Command
from coach.tui.app import CoachApp
from coach.tui.keys import PEDALS
from tests.tui.talks import Talk
from tests.tui.views import CHAIN, RIB
class Noisy(Talk):
    def receive(self, order):
        os.write(2, b"ALSA lib cannot open slave" * 8)
        os.write(1, b"cannot open slave" * 8)
        super().receive(order)
app = CoachApp(keys={**PEDALS, "w": Command.WHERE, "q": Command.QUIT})
app.conversation = Noisy(app, (RIB, CHAIN))
app.run()
print("The end.")
"""


def colour_codes(written: bytes) -> list[bytes]:
    codes = re.findall(rb"\x1b\[([0-9;]*)m", written)
    return [
        code
        for code in codes
        if re.search(rb"(^|;)(3[0-79]|4[0-79]|38|48|9[0-7]|10[0-7])(;|$)", code)
    ]


def test_without_input_not_one_byte_is_written() -> None:
    with Terminal(python(PROGRAM)) as terminal:
        terminal.read_until(RIB.sentence)
        assert terminal.read(3) == b""
        terminal.type(" ")
        terminal.read_until(CHAIN.sentence)
        assert terminal.read(2) == b""


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (40, 12), (20, 8)])
def test_the_real_cursor_is_seen_on_the_sentence_after_each_step(columns: int, rows: int) -> None:
    with Terminal(python(PROGRAM), columns, rows) as terminal:
        for view in (RIB, CHAIN, RIB, CHAIN):
            terminal.read_until(view.sentence)
            assert terminal.at_cursor.startswith(view.sentence)
            assert not terminal.screen.cursor.hidden
            terminal.read(0.7)
            terminal.type("\x1b[6~")  # PageDown, a pedal


def test_an_answer_is_under_the_cursor_too() -> None:
    with Terminal(python(PROGRAM)) as terminal:
        terminal.read_until(RIB.sentence)
        terminal.type("w")
        terminal.read_until("You asked: where.")
        assert terminal.at_cursor.startswith("You asked: where.")


def test_a_pedal_held_ten_seconds_goes_on_one_step() -> None:
    # 30 presses a second is the usual rate of a held key; 0.5 s of it show the same as ten
    # (the ten seconds are counted in test_keys.py with a clock of its own).
    with Terminal(python(PROGRAM)) as terminal:
        terminal.read_until(RIB.sentence)
        for _ in range(45):
            terminal.type(" ")
            terminal.read(1 / 30)
        terminal.read_until(CHAIN.sentence)


@pytest.mark.parametrize("environment", [{"NO_COLOR": "1"}, {"NO_COLOR": "1", "TERM": "linux"}])
def test_no_color_means_no_colour_codes_at_all(environment: dict[str, str]) -> None:
    with Terminal(python(PROGRAM), environment=environment) as terminal:
        terminal.read_until(RIB.sentence)
        terminal.type(" ")
        terminal.read_until(CHAIN.sentence)
        assert colour_codes(terminal.written) == []


def test_lines_of_sound_libraries_never_reach_the_screen() -> None:
    with Terminal(python(PROGRAM)) as terminal:
        terminal.read_until(RIB.sentence)
        terminal.type(" ")
        terminal.read_until(CHAIN.sentence)
        assert b"slave" not in terminal.written


def test_leaving_gives_the_terminal_back_as_it_was() -> None:
    with Terminal(python(PROGRAM)) as terminal:
        terminal.read_until(RIB.sentence)
        terminal.type("q")
        last = terminal.read(2)
        assert b"\x1b[?1049l" in last
        assert b"\x1b[?25h" in last
        assert b"The end." in last
