"""The one widget: paints a page, and only those of its lines that have changed."""

from __future__ import annotations

from collections.abc import Mapping

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region, Size
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from coach.tui.inks import THEMES, Theme
from coach.tui.window import Ink, Line, Page

_KEPT = 512  # painted lines


class Sheet(Widget):
    """A window full of lines. Knows nothing of what they say."""

    class Resized(Message):
        """The window has another size now."""

    def __init__(self, theme: Theme = THEMES[0]) -> None:
        super().__init__()
        self._styles_of_inks: Mapping[Ink, Style] = theme.styles()
        self._lines: tuple[Line, ...] = ()
        self._strips: dict[tuple[Line, int], Strip] = {}

    def turn_to(self, page: Page) -> bool:
        """Show *page*; return whether any line had to be painted."""
        before, self._lines = self._lines, page.lines
        changed = [
            number
            for number, line in enumerate(page.lines)
            if number >= len(before) or before[number] != line
        ]
        if len(before) > len(page.lines):
            self.refresh()
        elif changed:
            self.refresh(*(Region(0, number, self.size.width, 1) for number in changed))
        return bool(changed)

    def wear(self, theme: Theme) -> None:
        """Paint in other colours from now on."""
        self._styles_of_inks = theme.styles()
        self._strips.clear()
        self.refresh()

    def on_resize(self, event: events.Resize) -> None:
        """Ask for a page of the new size."""
        self.post_message(self.Resized())

    def render_lines(self, crop: Region) -> list[Strip]:
        """Return the lines of *crop* as they are: no border, no padding, no style sheet.

        Textual would ask its style sheet again for each line, a third of the time of a repaint.
        """
        strips = [self.render_line(y) for y in crop.line_range]
        background = self.background_colors[1]
        for each in self.get_line_filters():
            strips = [strip.apply_filter(each, background) for strip in strips]
        if crop.column_span != (0, self.size.width):
            strips = [strip.crop(*crop.column_span) for strip in strips]
        return strips

    def render_line(self, y: int) -> Strip:
        """Return line *y* as one run of one ink; a line once painted is kept at hand."""
        width = self.size.width
        line = self._lines[y] if y < len(self._lines) else Line("")
        style = self._styles_of_inks[line.ink]
        strip = self._strips.get((line, width))
        if strip is None:
            if len(self._strips) >= _KEPT:
                self._strips.clear()
            strip = Strip([Segment(line.text[:width].ljust(width), style)], width)
            self._strips[line, width] = strip
        return strip

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """All of the window."""
        return container.width
