"""Proofs made by hand for the tests of the guide: right counts, as the reader would give them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.craft.problem import Verdict
from coach.craft.proof import Foundation, Proof, ProvedRow
from coach.craft.working import Block, Group, Into, Passes, Where, Work


def sc(count: int, into: Into = Into.NEXT) -> Block:
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
    spaces: int = 0,
    joined: bool = False,
    text: str | None = None,
    worked_as: str | None = None,
    repeat: tuple[int, int] | None = None,
    by_stitch: Mapping[str, int] | None = None,
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
        spaces=spaces,
        by_stitch=by_stitch or {"sc": made},
        stated=made,
        verdict=Verdict.OK,
        work=tuple(work),
        before=made if before is None else before,
        turned=number > 1 and kind == "row",
        text=text or f"{name} {number}: by hand, {made}",
        joined=joined,
        worked_as=worked_as,
        repeat=repeat,
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


def increase(count: int = 1) -> Block:
    """Two single crochet in each of the next *count* stitches."""
    return Block("sc", 2 * count, Where(Into.NEXT, count), each=2, uses=count, makes=2 * count)


def decrease(count: int = 1) -> Block:
    """Single crochet two together, *count* times."""
    return Block("sc2tog", count, Where(Into.TOGETHER, 2), uses=2 * count, makes=count)


def join() -> Block:
    """Join with a slip stitch: it is no stitch."""
    return Block("sl st", 1, Where(Into.NEXT, 1, position="first"), role="join")


def around(
    number: int, work: Sequence[Work], made: int, *, before: int | None = None, spaces: int = 0
) -> ProvedRow:
    """One joined round."""
    return row(
        number,
        (*work, join()),
        made,
        before=before,
        kind="round",
        joined=True,
        side="RS",
        spaces=spaces,
    )


def bowl() -> Proof:
    """Ring of 6. Rnd 1: Ch 3, 15 dc in ring. (16) Rnd 2: Ch 4, *dc in next dc, ch 1* around."""
    ring = Block("dc", 15, Where(Into.RING), makes=15)
    first = around(1, (chain(3, "dc", "beginning"), ring), 16, before=0)
    open_chain = Block(
        "ch",
        4,
        Where(Into.NOTHING, 0),
        uses=1,
        makes=1,
        makes_spaces=1,
        counts_as="dc+ch-1",
        role="beginning",
    )
    spaced = (dc(1), Block("ch", 1, Where(Into.NOTHING, 0), makes_spaces=1))
    second = around(2, (open_chain, Passes(spaced, 15)), 16, before=16, spaces=16)
    return Proof("Bowl", "US", Foundation(chains=6, kind="ring"), (first, second))


def hat() -> Proof:
    """Rnd 1: 6 sc in ring. Rnds 2-8: increase 6 evenly each rnd (12 ... 48). Rnds 9-20: sc around."""
    ring = Block("sc", 6, Where(Into.RING), makes=6)
    rounds = [around(1, (ring,), 6, before=0)]
    for number in range(2, 9):
        plain = number - 2
        parts = ((sc(plain),) if plain else ()) + (increase(),)
        rounds.append(around(number, (Passes(parts, 6),), 6 * number, before=6 * number - 6))
    rounds.extend(around(number, (sc(48),), 48) for number in range(9, 21))
    return Proof("Hat", "US", Foundation(kind="magic ring"), tuple(rounds))


def lace(stitches: int = 96, of: int = 12, rows: int = 6) -> Proof:
    """Rows of repeats: *sc in next of-2 sts, dc in next 2 sts; rep from * across."""
    repeat = Passes((sc(of - 2), dc(2)), stitches // of)
    first = row(1, (sc(stitches, Into.CHAIN),), stitches, before=stitches + 1)
    rest = (row(number, (chain(1), repeat), stitches) for number in range(2, rows + 1))
    return Proof("Lace", "US", Foundation(chains=stitches + 1), (first, *rest))
