"""Where a piece is joined to another as it is worked: "sl st in a ch-5 lp of Motif One".

Such a stitch goes into the other piece: it uses no place of this one and adds nothing to it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Act, Instruction, Make, Of, Repeated, Which

_OTHER = re.compile(
    r"(?:of\s+|on\s+)?(?:the\s+)?(?:(?:first|second|third|previous|last|other|adjoining|adjacent|next|neighbou?ring|corresponding)\s+)?"
    r"(?:motif|square|hexagon|octagon|triangle|medallion|flower|circle|star|snowflake|piece|panel|strip)\b",
    re.IGNORECASE,
)


def joined_to_others(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Return *items* with each slip stitch into another piece as a joining that uses no place."""
    out: list[Instruction] = []
    for item in items:
        if isinstance(item, Repeated):
            out.append(replace(item, body=joined_to_others(item.body)))
            continue
        before = out[-1] if out else None
        if (
            isinstance(item, Act)
            and item.kind == "remark"
            and _OTHER.match(item.text)
            and isinstance(before, Make)
            and _into_another(before)
        ):
            length = before.target.noun.length if before.target is not None else None
            space = f"a ch-{length} sp" if length else "a ch sp"
            out[-1] = Act("remark", before.place, f"sl st in {space} of {item.text}")
            continue
        out.append(item)
    return tuple(out)


def _into_another(made: Make) -> bool:
    """Tell whether it is one slip stitch into a space that no word places in this piece."""
    where = made.target
    return (
        made.stitch == "sl st"
        and made.each == 1
        and where is not None
        and where.noun.of is Of.SPACE
        and where.which in (Which.ANY, Which.NEXT)
    )
