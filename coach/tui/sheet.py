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
from coach.tui.page import Ink, Line, Page


class Sheet(Widget):
    """A window full of lines. Knows nothing of what they say."""

    class Resized(Message):
        """The window has another size now."""

    def __init__(self, theme: Theme = THEMES[0]) -> None:
        super().__init__()
        self._styles_of_inks: Mapping[Ink, Style] = theme.styles()
        self._lines: tuple[Line, ...] = ()

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
        self.refresh()

    def on_resize(self, event: events.Resize) -> None:
        """Ask for a page of the new size."""
        self.post_message(self.Resized())

    def render_line(self, y: int) -> Strip:
        """Return line *y* as one run of one ink."""
        width = self.size.width
        line = self._lines[y] if y < len(self._lines) else Line("")
        text = line.text[:width].ljust(width)
        return Strip([Segment(text, self._styles_of_inks[line.ink])], width)

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """All of the window."""
        return container.width
