"""Brackets that ask for no work: a colour, a side, what a chain counts as, "(corner made)"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Act, Chain, Instruction, Make, Of, Skip
from coach.craft.stitch import LEG, ONE_TOP, family, legs
from coach.notation.clauses import colour_name
from coach.notation.counts_as import counts_as_remark
from coach.notation.nouns import PREPOSITIONS
from coach.notation.remarks import is_remark
from coach.notation.row_state import RowState
from coach.notation.tokens import Token

_TELLING = ("is", "are", "was", "takes", "replaces", "stands", "becomes", "represents", "acts")


def _begun_together(items: list[Instruction], counts_as: str) -> bool:
    """ "Ch 2, dc in next st (counts as dc2tog)": the chain and the stitch close to one top."""
    if legs(counts_as) < 2 and family(counts_as) not in ONE_TOP:
        return False
    worked = [index for index, item in enumerate(items) if not isinstance(item, Act)]
    if len(worked) < 2 or not isinstance(items[worked[-2]], Chain):
        return False
    last, chain = items[worked[-1]], items[worked[-2]]
    if not isinstance(last, Make) or not isinstance(chain, Chain) or chain.counts_as is not None:
        return False
    items[worked[-2]] = replace(chain, counts_as=LEG)
    return True


def _noted(items: list[Instruction], said: tuple[str, bool]) -> None:
    """Put what a bracket says that a chain counts as where it belongs."""
    if _begun_together(items, said[0]):
        return
    for index in range(len(items) - 1, -1, -1):
        item = items[index]
        if isinstance(item, Chain) and item.counts_as is None:
            items[index] = replace(item, counts_as=said[0], throughout=said[1])
            return
        if isinstance(item, Skip) and item.target.noun.of is Of.FROM_HOOK:
            items[index] = replace(item, counts_as=said[0])
            return


def passing_bracket(reader: RowState, inner: Sequence[Token], items: list[Instruction]) -> bool:  # noqa: PLR0911
    """Pass a bracket that holds a colour, a side, a remark such as "(corner made)"."""
    if not inner:
        return True
    if inner[0].is_("draw", "pull", "insert"):
        return False  # a stitch told loop by loop, even if it ends "a decrease made"
    if (
        inner[0].kind == "num"
        and all(
            token.kind == "num" or token.is_("row", "rnd", "x", "in", "all", "total", "more")
            for token in inner
        )
        and any(token.is_("row", "rnd") for token in inner)
    ):
        return True  # "(5 rounds)" after the count
    if any(token.is_("row", "rnd") for token in inner) and not any(
        token.kind == "num" or token.is_(*PREPOSITIONS) for token in inner
    ):
        return True
    if len(inner) == 1 and (colour_name(inner[0]) and inner[0].kind == "word"):
        if inner[0].text in ("rs", "ws"):
            return True
        items.append(Act("colour", inner[0].place, inner[0].raw))
        return True
    said = counts_as_remark(inner)
    if said is not None:
        _noted(items, said)
        return True
    if inner[0].is_("sk") and any(t.is_("behind") for t in inner):
        return True
    if any(t.is_(*_TELLING) for t in inner):
        return True  # "(the ch-3 takes its place)"
    return _tells_what_is_made(inner) or (
        not any(token.kind in ("stitch", "unit") for token in inner)
        and not any(token.is_("ch", "inc", "dec", "sk") for token in inner)
        and not any(token.is_("*", "x") for token in inner)
        and is_remark(inner)
    )


def _tells_what_is_made(inner: Sequence[Token]) -> bool:
    """ "(corner made)", and not "(sc around next sc made in round 2, ch 5)"."""
    for index, token in enumerate(inner):
        if token.is_("made", "completed", "formed"):
            following = [each for each in inner[index + 1 : index + 4] if not each.is_("the")]
            named = len(following) > 1 and following[0].is_("in", "on", "of")
            return not (named and any(each.is_("row", "rnd") for each in following[1:]))
    return False
