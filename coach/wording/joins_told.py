"""How a round is closed, told from the round itself: its designer's words are in other terms."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coach.craft.stage import Stage, blocks
from coach.craft.working import Block, Group, Into
from coach.wording.blocks_told import join_word
from coach.wording.numbers_told import ordinal
from coach.wording.stitch_names import stitch_name


def join_told(stage: Stage, join: Block, terms: str) -> str:
    """Return how a round is closed: in the top of its beginning chain, or in its first stitch."""
    how = join_word(join, terms)
    first = next(iter(blocks(stage.row.work)), None) if stage.row is not None else None
    if isinstance(first, Group) and first.parts:
        first = first.parts[0]
    remark = join.where.remark or ""
    if nth := re.search(r"(\d+)(?:st|nd|rd|th) ?(?:of\b|ch)", remark):
        return f"{how} in the {ordinal(int(nth[1]))} of the beginning chains"
    if (isinstance(first, Block) and first.counts_as) or re.search(r"top.*\bch", remark):
        return f"{how} in the top of the beginning chain"
    made = next((each for each in _made(stage) if each.makes), None)
    where = "top of the first" if "top" in remark else "first"
    if made is None or made.pattern_stitch or made.where.into is Into.TOGETHER:
        return f"{how} in the {where} stitch"
    name = stitch_name(made.stitch, terms).removeprefix("beginning ")
    return f"{how} in the {where} {name}"


def _made(stage: Stage) -> Iterator[Block]:
    for each in blocks(stage.row.work if stage.row is not None else ()):
        if isinstance(each, Group):
            yield from each.parts
        else:
            yield each
