"""The coach's own colours: two a theme, at 10 to 1 or better, and one theme with none at all.

No theme has a third colour, half-bright text or anything told by colour alone: what stands out is
bold, or has the two colours changed over, and says what it is in words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rich.color import Color
from rich.style import Style

from coach.tui.window import Ink


@dataclass(frozen=True, slots=True)
class Theme:
    """A pair of colours with the name a maker says. None: the terminal's own colours."""

    name: str
    text: str | None
    ground: str | None

    def styles(self) -> Mapping[Ink, Style]:
        """Return how each ink is painted; without colours the band is the terminal's reverse."""
        if self.text is None or self.ground is None:
            return {
                Ink.TEXT: Style(),
                Ink.STRONG: Style(bold=True),
                Ink.BAND: Style(bold=True, reverse=True),
            }
        text, ground = Color.parse(self.text), Color.parse(self.ground)
        return {
            Ink.TEXT: Style(color=text, bgcolor=ground),
            Ink.STRONG: Style(color=text, bgcolor=ground, bold=True),
            Ink.BAND: Style(color=ground, bgcolor=text, bold=True),
        }


# Every pair is black, white or yellow (or a blue as dark as black), so that a terminal of eight or
# sixteen colours has it too. Ratios by the formula of WCAG 2.2: 21, 21, 19.6, 19.6.
THEMES: tuple[Theme, ...] = (
    Theme("black on white", "#000000", "#ffffff"),
    Theme("white on black", "#ffffff", "#000000"),
    Theme("yellow on black", "#ffff00", "#000000"),
    Theme("black on yellow", "#000000", "#ffff00"),
    Theme("own colours", None, None),
)
OWN_COLOURS = THEMES[-1]


def theme_named(name: str) -> Theme:
    """Return the theme called *name*, or the first one."""
    return next((theme for theme in THEMES if theme.name == name), THEMES[0])
