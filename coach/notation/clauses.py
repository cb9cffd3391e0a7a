"""What the words of a clause tell: where it ends, whether it names a colour, a ring, a remark.

Looks at tokens and at instructions already read; takes nothing from the cursor.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Make,
    Of,
    Repeated,
    Which,
)
from coach.notation.tokens import Token

COLOUR_WORDS = frozenset(
    [
        "white",
        "cream",
        "ivory",
        "black",
        "grey",
        "gray",
        "silver",
        "red",
        "pink",
        "rose",
        "orange",
        "yellow",
        "gold",
        "green",
        "blue",
        "navy",
        "turquoise",
        "teal",
        "purple",
        "violet",
        "lilac",
        "mauve",
        "brown",
        "tan",
        "beige",
    ]
)


def closing_bracket(tokens: Sequence[Token], start: int) -> int | None:
    """Return where the bracket at *start* closes, whatever its kind."""
    depth = 0
    for index in range(start, len(tokens)):
        if tokens[index].is_("(", "[", "{"):
            depth += 1
        elif tokens[index].is_(")", "]", "}"):
            depth -= 1
            if depth == 0:
                return index
    return None


def clause_end(tokens: Sequence[Token], start: int, *, stop_at_comma: bool = False) -> int:
    """Return where the clause at *start* ends: at a stop or a star, and at a comma where asked."""
    stops = (".", ";", "*", "**") + (
        (",", "(", "[", ")", "]", "–", ":", '"') if stop_at_comma else (")", "]")
    )
    index = start
    while index < len(tokens) and not tokens[index].is_(*stops):
        index += 1
    return index


def colour_name(token: Token | None) -> bool:
    """A colour is a capital letter, MC or CC, or a capitalised name that is no word of the craft."""
    if token is None or token.kind not in ("word", "unit"):
        return False
    return (
        (len(token.raw) == 1 and token.raw.isupper() and token.raw != "I")
        or token.raw in ("MC", "CC", "CA", "CB", "RS", "WS")
        or token.text in COLOUR_WORDS
        or (token.raw[:2] == "CC" and token.raw[2:].isdigit())
    )


def joins_yarn(words: Sequence[Token]) -> bool:
    """Tell whether new yarn is joined: a colour, and a place to join it."""
    return any(colour_name(token) for token in words[:2]) and any(
        token.is_("any", "corner", "sp", "place") for token in words
    )


def first_chain(words: Sequence[Token]) -> bool:
    """ "first ch", "first of the 4 ch": the chain closes on itself; "first 3 dc and ch-3 sp" does not."""
    if any(token.kind == "stitch" for token in words):
        return False
    return any(token.is_("ch") for token in words) or len(words) == 1


def lone_one(token: Token | None) -> bool:
    """Tell whether the token is a lone "l" or "I" that stands for 1."""
    return token is not None and token.kind == "word" and token.raw in ("l", "I")


def same_name(one: str, two: str) -> bool:
    """Tell whether two stitch names differ only in their signs."""
    plain = [re.sub(r"[^a-z0-9]+", " ", name.lower()).strip() for name in (one, two)]
    return plain[0].replace("cluster", "cl") == plain[1].replace("cluster", "cl")


def more_work(tokens: Sequence[Token]) -> bool:
    """Tell whether work still follows."""
    return any(
        token.kind in ("num", "stitch", "unit") or token.is_("x", "times", "in", "rep")
        for token in tokens
    )


def count_like(inner: Sequence[Token]) -> bool:
    """Tell whether a bracket opens with a number and more."""
    return bool(inner) and inner[0].kind == "num" and len(inner) > 1


def row_ended(items: Sequence[Instruction]) -> bool:
    """Tell whether the row was closed: joined, turned or fastened off."""
    return bool(items) and (
        isinstance(items[-1], Join)
        or (isinstance(items[-1], Act) and items[-1].kind in ("turn", "fasten off", "do not turn"))
    )


def worked_yet(items: Sequence[Instruction]) -> bool:
    """Tell whether a stitch was worked before."""
    return any(isinstance(item, Make | GroupIn | EachOf | Repeated) for item in items)


def stops_before_last(items: Sequence[Instruction]) -> bool:
    """Tell whether the stitches before stop at the last place, which is still to be worked."""
    for item in reversed(items):
        if isinstance(item, Make | GroupIn) and item.target is not None:
            until = item.target.until
        elif isinstance(item, Repeated | EachOf):
            until = item.until
        else:
            continue
        return until is not None and until.kind == "last" and until.count == 1
    return False


def is_bare(item: Instruction) -> bool:
    """Tell whether it is a chain, or stitches with no place of their own."""
    return isinstance(item, Chain) or (isinstance(item, Make) and item.target is None)


def same_kind(one: Make | GroupIn, two: Make | GroupIn) -> bool:
    """Tell whether both go into the same kind of place."""
    return one.target is not None and two.target is not None and one.target.noun == two.target.noun


def is_open(item: Instruction) -> bool:
    """Tell whether it goes on as far as there are places."""
    if isinstance(item, Repeated):
        return item.times is None
    if isinstance(item, Make | GroupIn):
        return item.target is not None and item.target.which is Which.EACH
    return isinstance(item, EachOf)


def along_an_edge(item: Instruction) -> bool:
    """Tell whether it is worked into row ends."""
    return isinstance(item, Make) and item.target is not None and item.target.noun.of is Of.ROW_END
