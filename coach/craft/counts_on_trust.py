"""Counts that nothing but the pattern's own figure bears out: "sc evenly around (64 sc)"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from coach.craft.proof import ProvedRow
from coach.craft.working import Block, Into, Passes, Work


def taken_on_trust(row: ProvedRow) -> bool:
    """Tell whether a stated count was taken as it stands: its words give no number along an edge.

    An edge has no stitches to count, so only a number in the words could bear the figure out.
    """
    if row.stated is None or row.worked is not None:
        return False
    said = [int(number) for number in re.findall(r"(?<!\d)\d{1,6}(?!\d)", row.text)]
    if row.stated in said:
        said.remove(row.stated)  # the count itself is no witness
    along = [block.count for block in _blocks(row.work) if block.where.into is Into.ROW_END]
    return any(count not in said for count in along)


def _blocks(works: Iterable[Work]) -> Iterator[Block]:
    for work in works:
        if isinstance(work, Block):
            yield work
        elif isinstance(work, Passes):
            yield from _blocks(work.parts)
