"""The shelf: built-in patterns and the pieces that were begun, each with its place.

What was touched last stands first, so that one word takes it up again. It opens nothing itself.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coach.ports import KeptPiece
from coach.wording.plain_text import say


@dataclass(frozen=True, slots=True)
class OnTheShelf:
    """One pattern at hand. name: what to open it by. place: in words, "" if it isn't begun.

    last: when it was last touched, ISO 8601; "" if never.
    """

    name: str
    title: str
    place: str = ""
    last: str = ""


def shelf(built_in: Mapping[str, str], pieces: Sequence[KeptPiece]) -> tuple[OnTheShelf, ...]:
    """Return all that is on the shelf, the piece that was touched last first.

    built_in: name and title of the patterns that come with the coach. pieces: those that have
    a place, the last touched first.
    """
    begun = [
        OnTheShelf(
            each.piece,
            each.title or built_in.get(each.piece) or each.piece,
            place_told(each.state),
            each.last,
        )
        for each in pieces
    ]
    names = {each.name for each in begun}
    new = [OnTheShelf(name, title) for name, title in built_in.items() if name not in names]
    return (*begun, *new)


def place_told(state: str) -> str:
    """Return a stored place in words: "Row 6, block 2", "finished"; "" if it can't be read."""
    try:
        kept = json.loads(state)
        if kept["done"]:
            return "finished"
        return f"{say(str(kept['label']))}, block {int(kept['guide']['step']) + 1}"
    except (ValueError, KeyError, TypeError):
        return ""


def shelf_json(shelved: Sequence[OnTheShelf]) -> str:
    """Return the shelf as the contract's JSON: name, title, place, last; null where not begun."""
    return json.dumps(
        [
            {
                "name": each.name,
                "title": each.title,
                "place": each.place or None,
                "last": each.last or None,
            }
            for each in shelved
        ],
        ensure_ascii=False,
    )


def found(name: str, pieces: Sequence[KeptPiece]) -> KeptPiece | None:
    """Return the begun piece that is called *name*, to be opened without its file; else None."""
    wanted = name.strip().casefold()
    return next(
        (each for each in pieces if wanted in {each.piece.casefold(), each.title.casefold()}), None
    )
