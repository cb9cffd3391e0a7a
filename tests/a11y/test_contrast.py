"""Every painted cell, on every screen, in every theme, has a contrast of ten to one or more.

WCAG 2.2, 1.4.6 (level AAA), asks for 7 to 1; the coach's own goal is 10 to 1. Never colour alone:
what stands out is also bold or has its colours changed over.
"""

from __future__ import annotations

import pytest
from rich.color import Color
from rich.style import Style
from textual.geometry import Size

from coach.tui.board import board
from coach.tui.inks import THEMES, Theme
from coach.tui.page import lay_out
from coach.tui.sheet import Sheet
from coach.tui.window import Ink, Look, Page, Told
from tests.a11y.colour import EYES, SIXTEEN, contrast, linear, seen_by
from tests.tui.terminal import Terminal, python
from tests.tui.test_board import TUESDAY
from tests.tui.views import ALL, RIB

LEAST = 10.0
WINDOWS = [(80, 24), (40, 12), (20, 8), (120, 40)]
COLOURED = [theme for theme in THEMES if theme.text is not None]


def pages() -> list[Page]:
    told = [Told("You are in row 6.", "Row 6")]
    every = [
        lay_out(view, *window, Look(size), messages)
        for view in ALL.values()
        for window in WINDOWS
        for size in (8, 3, 1)
        for messages in ([], told)
    ]
    return [*every, board(TUESDAY, 80, 24), board(TUESDAY, 160, 50)]


def hex_of(colour: Color | None) -> str:
    assert colour is not None
    return colour.get_truecolor().hex.removeprefix("#")


@pytest.mark.parametrize("theme", COLOURED, ids=lambda theme: theme.name)
def test_every_cell_of_every_screen(theme: Theme) -> None:
    cells = 0
    styles = theme.styles()
    for page in pages():
        for line in page.lines:
            style = styles[line.ink]
            text, ground = linear(hex_of(style.color)), linear(hex_of(style.bgcolor))
            assert contrast(text, ground) >= LEAST
            for eyes in EYES:
                assert contrast(seen_by(eyes, text), seen_by(eyes, ground)) >= LEAST
            assert not style.dim
            cells += len(line.text)
    assert cells > 100_000


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_no_ink_differs_by_colour_alone(theme: Theme) -> None:
    styles = theme.styles()
    shapes = {
        ink: (bool(style.bold), bool(style.reverse) or swapped(style, styles[Ink.TEXT]))
        for ink, style in styles.items()
    }
    assert len(set(shapes.values())) == len(Ink)


def swapped(style: Style, plain: Style) -> bool:
    return plain.color is not None and (style.color, style.bgcolor) == (plain.bgcolor, plain.color)


def test_the_sheet_paints_every_cell_of_a_line_in_one_ink() -> None:
    sheet = Sheet(THEMES[0])
    sheet._size = sheet._container_size = Size(80, 24)
    sheet._lines = lay_out(RIB, 80, 24).lines
    for number, line in enumerate(sheet._lines):
        strip = sheet.render_line(number)
        assert [segment.style for segment in strip] == [THEMES[0].styles()[line.ink]]


PROGRAM = """
from coach.tui.app import CoachApp
from coach.tui.inks import theme_named
from tests.tui.talks import Talk
app = CoachApp(theme=theme_named({theme!r}))
app.conversation = Talk(app)
app.run()
"""


@pytest.mark.parametrize(
    ("terminal_kind", "colours"),
    [("xterm", ""), ("xterm-256color", ""), ("xterm-256color", "truecolor")],
    ids=["16 colours", "256 colours", "all colours"],
)
@pytest.mark.parametrize("theme", COLOURED[1:3], ids=lambda theme: theme.name)
def test_what_a_terminal_of_few_colours_paints(
    theme: Theme, terminal_kind: str, colours: str
) -> None:
    environment = {"TERM": terminal_kind, "COLORTERM": colours}
    program = python(PROGRAM.format(theme=theme.name))
    with Terminal(program, environment=environment) as terminal:
        terminal.read_until(RIB.sentence)
        cells = [terminal.screen.buffer[row][column] for row in range(24) for column in range(80)]
    for cell in cells:
        text, ground = (SIXTEEN.get(name, name) for name in (cell.fg, cell.bg))
        if cell.reverse:
            text, ground = ground, text
        assert contrast(linear(text), linear(ground)) >= LEAST, cell


def test_the_formula_gives_the_known_ratios() -> None:
    # WCAG 2.2: black on white is 21 to 1; #767676 on white is the well-known least grey of 4.54.
    assert round(contrast(linear("ffffff"), linear("000000")), 2) == 21
    assert round(contrast(linear("767676"), linear("ffffff")), 2) == 4.54
