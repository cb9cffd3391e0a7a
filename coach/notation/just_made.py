"""Places that came with the last stitch: "sp just formed", "joining dc", "post of dc just made"."""

from __future__ import annotations

from coach.craft.instruction import Noun, Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.nouns import noun


def space_just_made(cursor: Cursor) -> Target | None:
    """ "sp just formed", "sp formed by joining dc", "joining dc": the space that the join made."""
    start = cursor.at
    if cursor.takes("join") and cursor.sees_kind("stitch"):
        if cursor.next().text != "sl st":
            cursor.takes("sp", "lp")
            return Target(Which.SAME, Noun(Of.SPACE))
    elif (inner := noun(cursor)) is not None and inner.of is Of.SPACE:
        cursor.takes("just")
        if cursor.takes("formed", "made", "created", "completed"):
            if cursor.takes("by", "with"):
                cursor.skip_fillers()
                cursor.takes("join")
                if cursor.sees_kind("stitch"):
                    cursor.next()
            return Target(Which.SAME, inner)
    cursor.at = start
    return None


def stitch_just_made(cursor: Cursor) -> Target | None:
    """ "post of dc just made", "last dc made": beside that stitch, with no place of its own.

    At the beginning of a round it is the stitch that closed the round before.
    """
    start = cursor.at
    if cursor.takes("top", "side", "post", "stem", "base"):
        cursor.takes("of")
    cursor.skip_fillers()
    last = cursor.takes("last")
    if cursor.sees_kind("stitch") or cursor.sees("st"):
        cursor.next()
        if cursor.takes("just"):
            last = cursor.takes("made", "worked", "completed")
        elif last is not None:  # "last st worked" is where the row before ended
            last = cursor.takes("made")
        if last is not None:
            return Target(Which.SAME, Noun(Of.SPACE))
    cursor.at = start
    return None
