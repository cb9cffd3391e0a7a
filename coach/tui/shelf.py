"""The shelf: every pattern at hand, one at a time, and the way to the settings and out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from coach.ports import Display
from coach.tui.menus import Item, Menu, Say, Sheet

SETTINGS, LEAVE = "settings", "leave"


@dataclass(frozen=True, slots=True)
class Book:
    """One pattern on the shelf. place: where the maker is in it ("row 6"), "" if not begun."""

    name: str
    title: str
    place: str = ""


def shelf(
    books: Sequence[Book],
    display: Display,
    say: Say,
    *,
    opened: Callable[[str], None],
    settings: Callable[[], None],
) -> Menu:
    """Return the shelf as a menu. opened: called with the name of the pattern that was taken."""
    items = [
        Item(book.name, book.title, f"You are at {book.place}." if book.place else "Not begun.")
        for book in books
    ]
    items.append(Item(SETTINGS, "Settings", "Size, colours, speech, keys and more."))
    items.append(Item(LEAVE, "Leave the coach"))
    intro = "This is the shelf." if books else "The shelf is empty. Start the coach with a pattern."

    def taken(item: Item) -> None:
        if item.name == LEAVE:
            menu.over = True
        elif item.name == SETTINGS:
            settings()
        else:
            opened(item.name)

    sheet = Sheet("Shelf", intro, tuple(items), "Say yes to open it, or next.")
    menu = Menu(sheet, display, say, taken=taken)
    return menu
