"""Where the hook goes, in words: into the next stitch, a chain space, around a post.

It always says whether it is a stitch, a space or a loop: a maker who feels the work needs
to know which to feel for.
"""

from __future__ import annotations

from coach.craft.working import Into, Where
from coach.wording.plain_text import say
from coach.wording.stitch_names import plural, stitch_name

_LOOPS = {
    "back": ", back loop only",
    "front": ", front loop only",
    "third": ", in the third loop",
}
_POSITIONS = {"center": "middle", "centre": "middle"}


def place(where: Where, terms: str, *, around: bool = False, places: int | None = None) -> str:
    """Return where the hook goes, with its preposition: "in each of the next 5 stitches"."""
    count = where.places if places is None else places
    return _place(where, terms, count, around=around) + loop_told(where)


def single_place(where: Where, terms: str, *, around: bool = False) -> str:
    """Return the one place where several stitches go together."""
    return place(where, terms, around=around, places=1)


_WHOLE = {
    Into.RING: "into the ring",
    Into.NOTHING: "",
}
_OTHER_SIDE = ", on the other side of the foundation chain"


def _place(where: Where, terms: str, count: int, *, around: bool) -> str:
    into = where.into
    if into in _WHOLE:
        return _WHOLE[into]
    if into in {Into.SPACE, Into.BETWEEN}:
        return f"into {the_places(where, terms, count)}"
    preposition = "around" if around else "in"
    told = f"{preposition} {the_places(where, terms, count)}"
    return f"{told}{_OTHER_SIDE}" if into is Into.FREE_LOOP else told


def the_places(where: Where, terms: str, count: int) -> str:
    """Return the places without a preposition: "the next 2 stitches", "each of the next 5 chains"."""
    into = where.into
    if into is Into.TURNING_CHAIN:
        return _turning_chain(where)
    if into is Into.SAME:
        return _same(where, terms)
    if into is Into.STITCH_OR_SPACE:
        return (
            f"each of the next {count} stitches and spaces, as they come"
            if count > 1
            else ("the next stitch or space, whichever comes first")
        )
    below = _below(where)
    return _each(count, place_noun(where, terms), where.position) + _owner(where, terms) + below


_NOUNS = {
    Into.CHAIN: "chain",
    Into.ROW_END: "row end",
    Into.FREE_LOOP: "free loop",
    Into.SKIPPED: "skipped stitch",
    Into.BETWEEN: "gap between the groups",
}


def place_noun(where: Where, terms: str) -> str:
    """Return what is met there: "stitch", "double crochet", "chain-2 space", "row end"."""
    if where.into is Into.SPACE:
        return f"chain-{where.chain_length} space" if where.chain_length else "space"
    if where.into in _NOUNS:
        return _NOUNS[where.into]
    if where.named and where.position not in _POSITIONS:
        return stitch_name(where.named, terms)
    return "stitch"


def next_places(where: Where, terms: str, count: int) -> str:
    """Return "the next stitch", "the next 3 double crochet": places taken as one, not each."""
    if where.into is Into.TURNING_CHAIN:
        return "the turning chain"
    word = _POSITIONS.get(where.position or "", where.position) or "next"
    noun = place_noun(where, terms)
    return f"the {word} {noun}" if count == 1 else f"the {word} {count} {plural(noun, count)}"


def _each(count: int, noun: str, position: str | None) -> str:
    word = _POSITIONS.get(position or "", position) or "next"
    if count > 1:
        return f"each of the {word} {count} {plural(noun, count)}"
    return f"the {word} {noun}"


def _owner(where: Where, terms: str) -> str:
    """ "the middle stitch of the next shell": the middle is of the named thing."""
    if where.named and where.position in _POSITIONS:
        return f" of the next {stitch_name(where.named, terms)}"
    return ""


def _same(where: Where, terms: str) -> str:
    if where.chain_length or where.named in {"sp", "space"}:
        return "the same space"
    if where.named and where.position:
        return f"the same {stitch_name(where.named, terms)}"
    return "the same stitch"


def _turning_chain(where: Where) -> str:
    if where.remark:
        told = say(where.remark)
        return told if told.startswith(("the ", "top ")) else f"the {told}"
    return "the top of the turning chain"


def _below(where: Where) -> str:
    if where.into is Into.BELOW or where.rows_below:
        rows = max(where.rows_below, 1)
        return f", {rows} rows below" if rows > 1 else ", one row below"
    return ""


def loop_told(where: Where) -> str:
    """Return ", back loop only" where the hook takes one loop of a stitch, else ""."""
    return _LOOPS.get(where.loop or "", "")
