"""Increases or decreases spread evenly: how many plain stitches lie between them.

The sum is the trade's own: the stitches there are, shared out among the shapings, what is left
over worked plainly at the end (common practice, no source).
"""

from __future__ import annotations

from coach.craft.instruction import Instruction, Make, Noun, Of, Repeated, Spread, Target, Which
from coach.craft.problem import Verdict
from coach.craft.row_bench import Misfit


def evenly(item: Spread, stitches: int) -> tuple[Instruction, ...]:
    """Return the row that spreads *item* over so many stitches.

    Raises Misfit where there are fewer stitches than the shapings need.
    """
    uses = 2 if item.decrease else 1
    if item.every:
        times, over = divmod(stitches, item.every)
        return _spread(item, item.every - 1, times, over)
    plain, over = divmod(stitches - item.number * uses, item.number) if item.number else (0, 0)
    if not item.number or plain < 0:
        raise Misfit(
            Verdict.TOO_MANY_STITCHES,
            item.place,
            f"{item.number} are to be spread over {stitches} stitches",
        )
    return _spread(item, plain, item.number, over)


def _spread(item: Spread, plain: int, times: int, over: int) -> tuple[Instruction, ...]:
    """Return so many plain stitches and the shaping, so often, and what is left over."""
    if item.decrease:
        shaped = Make(f"{item.stitch}2tog", 1, None, item.place)
    else:
        shaped = Make(item.stitch, 2, None, item.place, increase=True)
    body = (*_plainly(item, plain), shaped)
    return (Repeated(body, item.place, times=times, star=False), *_plainly(item, over))


def _plainly(item: Spread, count: int) -> tuple[Instruction, ...]:
    if not count:
        return ()
    return (Make(item.stitch, 1, Target(Which.NEXT, Noun(Of.STITCH), count=count), item.place),)
