"""Whether a row uses up the row below: the outcome that fits, or what is wrong by how much."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import islice

from coach.craft import fabric
from coach.craft.beginning_chains import counted_as as chain_counted_as
from coach.craft.beginning_chains import stand
from coach.craft.fabric import rest_of, spaces_left, stitches_left
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.next_places import BEHIND
from coach.craft.open_ends import is_open
from coach.craft.pattern import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Noun,
    Of,
    Repeated,
    Sides,
    Skip,
    SpecialStitch,
    Target,
    Which,
    makes_in,
)
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Ground, Misfit, RowResult, Switches
from coach.craft.row_proof import MOST_OUTCOMES, outcomes, step, work_all
from coach.craft.working import Block, Into, Where


def prove_row(  # noqa: PLR0917
    items: Sequence[Instruction],
    ground: Ground,
    switches: Switches,
    counts_as: Mapping[int, str],
    specials: Mapping[str, SpecialStitch],
    as_stated: Callable[[tuple[fabric.Item, ...]], bool] | None = None,
) -> RowResult:
    """Work *items* on *ground*; return the sums, and the fault if it does not fit.

    as_stated: tells whether what was made is what the row states; of several ways to end an
    open repeat that fit, the one that meets the count is taken.
    """
    if switches.mesh:
        items = with_mesh_skips(items)
    items = with_stitches_behind(items)
    body, closing, turned = _without_closing_chain(items, ground.round)
    bench = Bench(ground, switches, counts_as, specials, step, work_all)
    bench.first_height = first_stitch(body, specials)
    bench.ring_ahead = _into_ring(body)
    bench.states_count = as_stated is not None
    if not switches.mesh and ground.below and not fabric.size(ground.below)[1]:  # noqa: SIM102
        if any(isinstance(item, Skip) for item in items) and with_mesh_skips(items) != tuple(items):
            bench.looked.add(("mesh", 0))
    start = Hand(rest_of(ground.below), color=ground.color)
    fault: tuple[Verdict, Place, str] | None = None
    best: Hand | None = None
    try:
        if ground.already:
            count, said = ground.already
            start = stand(bench, count, chain_counted_as(bench, count, said), start, already=True)
        for hand in islice(outcomes(bench, body, start), MOST_OUTCOMES):
            done = _settled(hand, ground, body)
            fits = _misfit(done) == (0, 0)
            if best is None or _misfit(done) < _misfit(best):
                best = done
            if fits and (as_stated is None or as_stated(items_made(done))):
                best = done
                break
    except Misfit as misfit:
        fault = (misfit.code, misfit.place, misfit.message)
    except RecursionError:
        fault = (Verdict.BROKEN_NOTATION, _first_place(items), "the repeats are nested too deep")
    if best is None:
        best = start
        if fault is None:
            fault = (Verdict.REPEAT_DOES_NOT_FIT, _open_place(body), "")
    if fault is None:
        fault = _fault(best, body)
    return _result(bench, best, fault, closing, turned, body)


def _result(  # noqa: PLR0917
    bench: Bench,
    hand: Hand,
    fault: tuple[Verdict, Place, str] | None,
    closing: Chain | None,
    turned: bool,
    body: Sequence[Instruction],
) -> RowResult:
    works = work_done(hand)
    if closing is not None:
        works += (
            Block("ch", closing.count, Where(Into.NOTHING), role="turning", color=hand.color),
        )
    return RowResult(
        used=hand.used,
        used_spaces=hand.used_spaces,
        out=items_made(hand),
        work=works,
        fault=fault,
        over=hand.over,
        left=stitches_left(hand.rest),
        left_spaces=spaces_left(hand.rest),
        closing=(closing.count, closing.counts_as) if closing else None,
        looked=frozenset(bench.looked),
        from_nothing=bench.ground.kind == "none" or hand.ring or hand.ends,
        turned=turned,
        joined=any(isinstance(item, Join) and not item.ring for item in body),
        color=hand.color,
        fit=bench.fit,
        taken_counts=tuple(sorted(bench.taken.items())),
    )


def _misfit(hand: Hand) -> tuple[int, int]:
    """Order outcomes: asking for too much is worse than leaving places."""
    left = stitches_left(hand.rest) + spaces_left(hand.rest)
    if hand.ends or hand.ring:
        return (0, 0)
    return (hand.over + hand.over_spaces, left)


def _settled(hand: Hand, ground: Ground, body: Sequence[Instruction]) -> Hand:
    """Pass what a maker passes without a word: spaces or stitches after the last place."""
    if hand.rest is None:
        return hand
    stitches, spaces = stitches_left(hand.rest), spaces_left(hand.rest)
    if not hand.moved and not hand.begun:
        return hand
    all_passed = replace(
        hand, rest=None, used=hand.used + stitches, used_spaces=hand.used_spaces + spaces
    )
    if not stitches and spaces and (hand.last != "space" or (spaces <= 1 and _each_space(body))):
        return all_passed
    if stitches and not spaces:
        under_chain = ground.round and stitches == _under_last_chain(hand, body)
        along = hand.last == "space" and (ground.round or _each_space(body))
        if under_chain or (along and stitches <= _longest_group(ground.below)):
            return all_passed
    if stitches and spaces and _each_space(body) and not hand.over:
        return all_passed
    return hand


def _under_last_chain(hand: Hand, body: Sequence[Instruction]) -> int:
    """Return how many places a round's last chain spans: as many as each chain of its repeat.

    The join closes it: "*sk 2 sts, sc in next st, ch 3; rep from * around, join".
    """
    made = items_made(hand)
    last = made[-1] if made else None
    while isinstance(last, fabric.Section):
        last = last.items[-1]
    if last is None or last.cell.is_stitch:
        return 0
    repeat = next((item for item in body if isinstance(item, Repeated)), None)
    if repeat is None or not isinstance(repeat.body[-1], Chain):
        return 0
    skipped = [item.target.count for item in repeat.body if isinstance(item, Skip)]
    return skipped[0] if len(skipped) == 1 else 0


def _each_space(body: Sequence[Instruction]) -> bool:
    """Tell whether the row goes from space to space to its end ("in each ch-1 sp across")."""
    real = [item for item in body if not isinstance(item, Act | Join | Chain)]
    if not real:
        return False
    last = real[-1]
    if isinstance(last, Make | GroupIn) and last.target is not None:
        return last.target.which is Which.EACH and last.target.noun.of is Of.SPACE
    return isinstance(last, EachOf) and any(
        part.target is not None and part.target.noun.of is Of.SPACE for part in last.parts
    )


def _longest_group(below: tuple[fabric.Item, ...]) -> int:
    """Return the most stitches that stand between two spaces of *below*."""
    longest = now = 0
    for cell in fabric.cells_one_by_one(below, 4000):
        now = now + 1 if cell.is_stitch else 0
        longest = max(longest, now)
    return longest


def _fault(hand: Hand, body: Sequence[Instruction]) -> tuple[Verdict, Place, str] | None:
    if hand.ends or hand.ring:
        return None
    left, left_spaces = stitches_left(hand.rest), spaces_left(hand.rest)
    over = hand.over + hand.over_spaces
    if not over and not left and not left_spaces:
        return None
    if hand.rest is not None and not hand.moved and not hand.begun:
        return _nothing_worked(body)
    opens = [item for item in body if is_open(item)]
    if any(isinstance(item, Repeated) for item in opens):
        return Verdict.REPEAT_DOES_NOT_FIT, _open_place(body), ""
    place = _last_place(body)
    if over:
        return Verdict.TOO_MANY_STITCHES, place, ""
    return Verdict.STITCHES_LEFT_OVER, place, ""


def _nothing_worked(body: Sequence[Instruction]) -> tuple[Verdict, Place, str]:
    """Nothing goes into what lies below: work that is told nowhere, or a row that leaves it all."""
    told = [item for item in body if isinstance(item, Chain | Make | Skip | Repeated | Join)]
    turned = [item for item in body if isinstance(item, Act) and item.kind == "turn"]
    if told or turned:
        return Verdict.STITCHES_LEFT_OVER, (told or turned)[0].place, ""
    return Verdict.NO_WORDS, _first_place(body), "it says nothing that can be worked"


def _open_place(body: Sequence[Instruction]) -> Place:
    for item in body:
        if isinstance(item, Repeated) and item.times is None:
            return item.place
    return _first_place(body)


def _first_place(body: Sequence[Instruction]) -> Place:
    return body[0].place if body else Place(1, 1)


def _last_place(body: Sequence[Instruction]) -> Place:
    for item in reversed(body):
        if not isinstance(item, Act | Join | Leave):
            return item.place
    return _first_place(body)


def _without_closing_chain(
    items: Sequence[Instruction], rounds: bool
) -> tuple[tuple[Instruction, ...], Chain | None, bool]:
    """Part the chain that a row ends with, which belongs to the next row; tell if it is turned."""
    turned = any(isinstance(item, Act) and item.kind == "turn" for item in items)
    body = list(items)
    while (
        body
        and isinstance(body[-1], Sides | Act)
        and any(isinstance(item, Sides) for item in body[-1:])
    ):
        body.pop()
    for index in range(len(body) - 1, 0, -1):
        item = body[index]
        if isinstance(item, Act):
            continue
        made = any(isinstance(each, Make | GroupIn | EachOf | Repeated) for each in body[:index])
        after_join = index and isinstance(body[index - 1], Join)
        if isinstance(item, Chain) and made and (not rounds or turned or after_join):
            return (*body[:index], *body[index + 1 :]), item, turned
        break
    return tuple(body), None, turned


def with_stitches_behind(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Mark a stitch worked rows below whose place in this row is the skip that follows it."""
    out: list[Instruction] = []
    for index, item in enumerate(items):
        following = items[index + 1] if index + 1 < len(items) else None
        if isinstance(item, Repeated):
            item = replace(item, body=with_stitches_behind(item.body))  # noqa: PLW2901
        elif (
            isinstance(item, Make)
            and item.target is not None
            and item.target.rows_below
            and isinstance(following, Skip)
            and following.target.count == item.target.count
        ):
            item = replace(item, target=replace(item.target, remark=BEHIND))  # noqa: PLW2901
        out.append(item)
    return tuple(out)


def _into_ring(body: Sequence[Instruction]) -> bool:
    """Tell whether the row works into a ring and does not make it itself from a chain."""
    if any(isinstance(item, Join) and item.ring for item in body):
        return False
    return any(
        make.target is not None and make.target.noun.of is Of.RING for make in makes_in(body)
    )


def with_mesh_skips(
    items: Sequence[Instruction], *, within: bool = False
) -> tuple[Instruction, ...]:
    """Return *items* as a mesh is read: each "ch 2" also passes over 2, though said only once."""
    out: list[Instruction] = []
    for index, item in enumerate(items):
        if isinstance(item, Repeated):
            out.append(replace(item, body=with_mesh_skips(item.body, within=True)))
            continue
        out.append(item)
        following = items[index + 1] if index + 1 < len(items) else None
        if (
            isinstance(item, Chain)
            and (within or any(isinstance(each, Make | Repeated) for each in items[:index]))
            and isinstance(following, Make)
            and following.target is not None
            and following.target.which in (Which.NEXT, Which.LAST)
            and following.target.noun.of in (Of.STITCH, Of.NAMED)
        ):
            out.append(Skip(Target(Which.NEXT, Noun(Of.STITCH), count=item.count), item.place))
    return tuple(out)


def first_stitch(items: Sequence[Instruction], specials: Mapping[str, SpecialStitch]) -> str | None:
    """Return the first stitch that is no slip stitch; "sl st" if there are no others."""
    found = _first_in(items, specials)
    if (
        found is None
        and any(isinstance(item, Make | EachOf | Repeated) for item in items)
        and _slips_only(items)
    ):
        return "sl st"
    return found


def _slips_only(items: Sequence[Instruction]) -> bool:
    slips = False
    for item in items:
        match item:
            case Make():
                if item.stitch != "sl st":
                    return False
                slips = True
            case EachOf():
                slips = slips or _slips_only(item.parts)
            case Repeated():
                if not _slips_only(item.body):
                    return False
                slips = True
            case GroupIn():
                return False
            case _:
                pass
    return slips


def _first_in(items: Sequence[Instruction], specials: Mapping[str, SpecialStitch]) -> str | None:
    for item in items:
        found: str | None = None
        match item:
            case Make():
                if item.stitch == "sl st":
                    continue
                special = specials.get(item.named or "")
                found = (
                    _first_in(special.parts, specials) if special and special.parts else None
                ) or item.stitch
            case GroupIn():
                found = _first_in(item.parts, specials)
            case EachOf():
                found = _first_in(item.parts, specials)
            case Repeated():
                found = _first_in(item.body, specials)
            case _:
                pass
        if found:
            return found
    return None
