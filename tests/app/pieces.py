"""Proofs made by hand for the tests of the guide: right counts, as the reader would give them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.problem import Verdict
from coach.craft.proof import Foundation, Proof, ProvedRow
from coach.craft.working import Block, Group, Into, Passes, Where, Work


def sc(count: int, into: Into = Into.NEXT, **more: object) -> Block:
    """Single crochet in each of the next *count* places."""
    return Block("sc", count, Where(into, count), uses=count, makes=count)


def dc(count: int, into: Into = Into.NEXT) -> Block:
    """Double crochet in each of the next *count* places."""
    return Block("dc", count, Where(into, count), uses=count, makes=count)


def chain(count: int, counts_as: str | None = None, role: str = "turning") -> Block:
    """The chain that a row begins with."""
    counted = counts_as is not None
    return Block(
        "ch",
        count,
        Where(Into.NOTHING, 0),
        uses=1 if counted else 0,
        makes=1 if counted else 0,
        counts_as=counts_as,
        role=role,
    )


def row(
    number: int,
    work: Sequence[Work],
    made: int,
    *,
    before: int | None = None,
    side: str | None = None,
    kind: str = "row",
    **more: object,
) -> ProvedRow:
    """One proved row with its sums."""
    name = "Rnd" if kind == "round" else "Row"
    return ProvedRow(
        kind=kind,
        label=f"{name} {number}",
        number=number,
        part=None,
        side=side or ("RS" if number % 2 else "WS"),
        line=number + 2,
        worked=made if before is None else before,
        spaces_worked=0,
        made=made,
        spaces=0,
        by_stitch={"sc": made},
        stated=made,
        verdict=Verdict.OK,
        work=tuple(work),
        before=made if before is None else before,
        turned=number > 1 and kind == "row",
        text=f"Row {number}: by hand, {made}",
        **more,  # type: ignore[arg-type]
    )


def plain_cloth(stitches: int = 26, rows: int = 10) -> Proof:
    """Ch 27. Row 1: Sc in 2nd ch from hook and in each ch across. Rows 2-10: Ch 1, turn, sc across."""
    first = row(
        1,
        (Block("ch", 1, Where(Into.CHAIN), role="skipped chains"), sc(stitches, Into.CHAIN)),
        stitches,
        before=stitches + 1,
    )
    rest = (row(number, (chain(1), sc(stitches)), stitches) for number in range(2, rows + 1))
    return Proof("Plain cloth", "US", Foundation(chains=stitches + 1), (first, *rest))


def open_cloth() -> Proof:
    """Row 14 of 18 sts: 5 sc, [dc in next st, ch 1, sk next st] 4 times, 5 sc; rows of 18 around it."""
    group = (
        Block("dc", 1, Where(Into.NEXT), uses=1, makes=1),
        Block("ch", 1, Where(Into.NOTHING, 0), makes_spaces=1),
        Block("sk", 1, Where(Into.NEXT), uses=1),
    )
    plain = [row(number, (chain(1), sc(18)), 18) for number in range(1, 14)]
    open_row = row(14, (chain(1), sc(5), Passes(group, 4), sc(5)), 14, before=18)
    return Proof("Open cloth", "US", Foundation(chains=19), (*plain, open_row))


def shells() -> Proof:
    """*(2 dc, ch 1, 2 dc) in next st; rep from * across, over 4 stitches, after 4 sc."""
    shell = Group(
        (
            Block("dc", 2, Where(Into.SAME), makes=2),
            Block("ch", 1, Where(Into.NOTHING, 0), makes_spaces=1),
            Block("dc", 2, Where(Into.SAME), makes=2),
        ),
        Where(Into.NEXT),
        uses=1,
        name="shell",
    )
    below = row(1, (sc(4, Into.CHAIN),), 4, before=5)
    return Proof("Shells", "US", Foundation(chains=5), (below, row(2, (Passes((shell,), 4),), 16)))
