"""Post stitches told by the post they go round: "around front post of next st", "from behind"."""

from __future__ import annotations

from coach.craft.instruction import Target
from coach.notation.cursor import Cursor

_SIDES = {"front": "FP", "back": "BP", "behind": "BP"}


def post_named(cursor: Cursor) -> str | None:
    """Take "front post of" of "around the front post of next st": "FP", "BP", or None.

    The place itself is left at the cursor.
    """
    start = cursor.at
    if cursor.takes("around", "round", "rnd", "in", "into", "on"):
        cursor.skip_fillers()
        side = cursor.takes("front", "back")
        if side is not None and cursor.takes("post"):
            cursor.takes("only")
            cursor.takes("of", "on")
            return _SIDES[side.text]
    cursor.at = start
    return None


def side_of_post(cursor: Cursor, where: Target | None) -> str | None:
    """Take "from behind", "from front to back" after a stitch round a post: "FP", "BP", or None."""
    if where is None or not where.around:
        return None
    start = cursor.at
    cursor.takes("inserting", "working")
    cursor.takes("hook")
    if cursor.takes("from"):
        cursor.skip_fillers()
        if (side := cursor.takes(*_SIDES)) is not None:
            if cursor.takes("to"):
                cursor.skip_fillers()
                cursor.takes(*_SIDES)
            cursor.takes("side")
            return _SIDES[side.text]
    cursor.at = start
    return None
