"""Whether a row uses up the row below: the outcome that fits, or what is wrong by how much."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import islice

from coach.craft import fabric
from coach.craft.beginning_chains import along_chains, stand
from coach.craft.beginning_chains import counted_as as chain_counted_as
from coach.craft.fabric_ahead import items_of, rest_of, spaces_left, stitches_left
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.hook_chains import (
    as_turning_chain,
    chains_ahead,
    leaves_hook_unsaid,
    with_chains_worked,
    with_hook_skipped,
)
from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Repeated,
    Skip,
)
from coach.craft.open_ends import is_open
from coach.craft.passed_unsaid import settled
from coach.craft.pattern import SpecialStitch
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Ground, Misfit, RowResult, Switches
from coach.craft.row_closings import leave
from coach.craft.row_proof import MOST_OUTCOMES, outcomes, step, work_all
from coach.craft.row_words import (
    first_stitch,
    into_ring,
    slips_in_turn,
    with_last_slip_stitch_joining,
    with_mesh_skips,
    with_stitches_behind,
    without_closing_chain,
)
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
    body, closing, turned, ground = _as_meant(items, ground, switches)
    bench = Bench(ground, switches, counts_as, specials, step, work_all)
    body = _on_the_bench(bench, body)
    bench.states_count = as_stated is not None
    start = Hand(rest_of(ground.below), color=ground.color, chained=_opens_with_a_loop(body))
    fault: tuple[Verdict, Place, str] | None = None
    best: Hand | None = None
    try:
        start = _after_chains_made(bench, body, start)
        for hand in islice(outcomes(bench, body, start), MOST_OUTCOMES):
            done = settled(hand, ground, body)
            if as_stated is not None and as_stated(items_made(done)):
                done = _left_at_the_end(bench, body, done)
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


def _opens_with_a_loop(body: Sequence[Instruction]) -> bool:
    """Tell whether a row begins "*ch 3, sk 3, sl st in next": its chain is a loop, as in each pass."""
    first = next((item for item in body if not isinstance(item, Act)), None)
    if not isinstance(first, Repeated) or len(first.body) < 3:
        return False
    chain, skip = first.body[:2]
    return isinstance(chain, Chain) and chain.counts_as is None and isinstance(skip, Skip)


def _left_at_the_end(bench: Bench, body: Sequence[Instruction], hand: Hand) -> Hand:
    """Leave what a row stops before, where it turns there and its count says so.

    "Sc in each st to last 4 sts, turn. (12)": the shaping of an armhole.
    """
    left = stitches_left(hand.rest)
    turns = any(isinstance(item, Act) and item.kind in ("turn", "fasten off") for item in body)
    if bench.ground.round or not left or not turns or hand.over or left != _stops_before(body):
        return hand
    bench.looked.add(("end", 0))
    if bench.switches.ends_worked:
        return hand
    return leave(bench, Leave(_last_place(body), left), hand)


def _stops_before(body: Sequence[Instruction]) -> int:
    """Return how many stitches the last words of a row stop before: "to last 4 sts"; 0 for none."""
    last = next((item for item in reversed(body) if not isinstance(item, Act | Chain)), None)
    until = None
    if isinstance(last, Make | GroupIn) and last.target is not None:
        stretches = [each.until for each in (last.target, *last.target.also)]
        until = next((each for each in stretches if each is not None), None)
    elif isinstance(last, Repeated | EachOf):
        until = last.until
    return until.count if until is not None and until.kind == "last" else 0


def _as_meant(
    items: Sequence[Instruction], ground: Ground, switches: Switches
) -> tuple[tuple[Instruction, ...], Chain | None, bool, Ground]:
    """Return the words of a row without the chain that belongs to the next, and that chain."""
    if switches.mesh:
        items = with_mesh_skips(items)
    items = with_stitches_behind(with_last_slip_stitch_joining(items, ground.round))
    items, ground = as_turning_chain(with_chains_worked(items, ground), ground)
    body, closing, turned = without_closing_chain(items, ground.round)
    return body, closing, turned, ground


def _on_the_bench(bench: Bench, body: tuple[Instruction, ...]) -> tuple[Instruction, ...]:
    """Note on *bench* what the words of the row decide; return them with what they leave unsaid."""
    ground, switches = bench.ground, bench.switches
    bench.first_height = first_stitch(body, bench.specials)
    if leaves_hook_unsaid(body, ground):
        bench.looked.add(("hook", 0))
        if not switches.whole_chain:
            body = with_hook_skipped(body, bench.first_height)
    bench.ring_ahead = into_ring(body)
    bench.slips_in_turn = slips_in_turn(body)
    if (
        not switches.mesh
        and ground.below
        and not fabric.size(ground.below)[1]
        and any(isinstance(item, Skip) for item in body)
        and with_mesh_skips(body) != body
    ):
        bench.looked.add(("mesh", 0))
    return body


def _begins_unsaid(body: Sequence[Instruction], ground: Ground) -> bool:
    """Tell whether a first round only says "6 sc": the ring stands in the words before it, or nowhere."""
    if ground.kind != "none" or not ground.round:
        return False
    first = next((item for item in body if not isinstance(item, Act)), None)
    return isinstance(first, Make) and first.target is None and not first.increase


def _after_chains_made(bench: Bench, body: Sequence[Instruction], start: Hand) -> Hand:
    """Return the hand after the chain that was made before the turn, if there was one."""
    if _begins_unsaid(body, bench.ground):
        bench.looked.add(("ring", 0))
        return start if bench.switches.no_ring else replace(start, ring=True)
    if ahead := chains_ahead(body, bench.ground):
        return along_chains(start, ahead, already=True)
    if not bench.ground.already:
        return start
    count, said = bench.ground.already
    return stand(bench, count, chain_counted_as(bench, count, said), start, already=True)


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
        leaves=items_of(hand.leaves),
    )


def _misfit(hand: Hand) -> tuple[int, int]:
    """Order outcomes: asking for too much is worse than leaving places."""
    left = stitches_left(hand.rest) + spaces_left(hand.rest)
    if hand.ends or hand.ring:
        return (0, 0)
    return (hand.over + hand.over_spaces, left)


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
