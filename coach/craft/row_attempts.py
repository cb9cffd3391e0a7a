"""One row worked on what lies below, and after a wrong count on what was really made as well."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft import fabric
from coach.craft.begun_elsewhere import begun_elsewhere
from coach.craft.between_increases import with_the_others_worked
from coach.craft.edge_rounds import along_the_edges
from coach.craft.fabric import Item
from coach.craft.instruction import Act, Chain, Of, Repeated, Skip
from coach.craft.lower_row import at_the_top, ground_below, lower_row, surely_lower, told_below
from coach.craft.pattern import Line, Stated
from coach.craft.proof import ProvedRow
from coach.craft.row_below import along_ends, ground_for
from coach.craft.row_bench import Ground, RowResult
from coach.craft.row_fit import prove_row
from coach.craft.short_rows import takes_up, taking_up, turned_part_way
from coach.craft.split_sides import names_its_row, sides_begun, with_passed
from coach.craft.tally import Tally, mismatch, picots_in, tally
from coach.craft.underarms import grounds_in
from coach.craft.usual_edge import usual_edge, with_its_number
from coach.craft.walk import Walk, keep, tallied


@dataclass(frozen=True, slots=True)
class Attempt:
    """One row worked on one ground: what it meets, what it comes to, what was made."""

    ground: Ground
    result: RowResult
    count: Tally
    took_up: bool = False  # it went on into what earlier rows left past its end
    short: bool = False  # it turns part way, and only so


def attempt(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt:
    """Return what the row comes to on what lies below; nothing is noted."""
    if (surely := _surely_elsewhere(walk, line, stated)) is not None:
        return surely
    side, fits = _side_of_a_split(walk, line, stated)
    if side is not None and fits:
        return side
    ground = ground_for(walk, line)
    rows = lower_row(line.items)
    lower = _lower_down(walk, line, ground, stated, rows) if rows else None
    if lower is not None and surely_lower(line.items):
        return lower
    result = proved_row(walk, line, ground, stated)
    taken = Attempt(ground, result, counted(walk, result, stated))
    if result.fault is None and mismatch(stated, taken.count, walk.unit_sizes) is None:
        return taken
    meant = _with_increases(walk, line, ground, stated)
    if result.fault is not None and meant is None:
        meant = _turned_part_way(walk, line, stated) or _on_what_is_left(walk, line, stated)
    return meant or lower or _begun_away(walk, line, taken, side, stated) or side or taken


def _surely_elsewhere(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt | None:
    """Return a row whose words say that it goes into other places than the row below alone."""
    if _begins_a_piece(walk, line):
        afresh = Ground(round=line.kind == "round")
        result = proved_row(walk, line, afresh, stated)
        if result.fault is None:
            return Attempt(afresh, result, counted(walk, result, stated))
    if walk.below.beyond and takes_up(line):
        return _on_what_is_left(walk, line, stated)
    return _around_the_piece(walk, line) if not stated else None


def _with_increases(
    walk: Walk, line: Line, ground: Ground, stated: tuple[Stated, ...]
) -> Attempt | None:
    """Return "2 sc in every other st" as increases with the others worked, where the count says so."""
    items = with_the_others_worked(line.items) if stated else None
    if items is None:
        return None
    result = prove_row(items, ground, walk.switches, walk.rules, walk.draft.specials)
    tried = Attempt(ground, result, counted(walk, result, stated))
    return tried if _fits(walk, line, tried, stated) else None


def _turned_part_way(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt | None:
    """Return a row that only turns as one that leaves the rest on purpose, where that is borne out."""
    items = turned_part_way(walk, line)
    if items is None or line.problems:
        return None
    ground = ground_for(walk, line)
    longer = [replace(ground, below=(*ground.below, *left)) for left in _left_before(walk, line)]
    for on in (ground, *longer):
        result = prove_row(items, on, walk.switches, walk.rules, walk.draft.specials)
        tried = Attempt(on, result, counted(walk, result, stated), on is not ground, short=True)
        if _fits(walk, line, tried, stated):
            return tried
    return None


def _on_what_is_left(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt | None:
    """Return a row as one that goes on into what earlier rows left, where it uses that up."""
    if line.problems:
        return None
    ground = ground_for(walk, line)
    for left in _left_before(walk, line):
        longer = replace(ground, below=(*ground.below, *left))
        items = taking_up(line.items)
        result = prove_row(items, longer, walk.switches, walk.rules, walk.draft.specials)
        tried = Attempt(longer, result, counted(walk, result, stated), took_up=True)
        if _fits(walk, line, tried, stated):
            return tried
    return None


def _left_before(walk: Walk, line: Line) -> list[tuple[Item, ...]]:
    """Return what earlier rows left where this one may come to it, past the end of the row below."""
    if any(isinstance(item, Act) and item.kind == "join yarn" for item in line.items):
        return []  # it is begun anew, elsewhere
    left = [walk.below.beyond] if walk.below.beyond else []
    if walk.splits and line.kind == "round" and walk.below.kind == "row" and along_ends(line.items):
        left.append(walk.splits[-1].items)  # the instep, past the side of the heel flap
    return left


def _lower_down(
    walk: Walk, line: Line, ground: Ground, stated: tuple[Stated, ...], rows: int
) -> Attempt | None:
    """Return a row as worked into the one that it names, so many rows below."""
    lower = ground_below(walk, line, ground, rows)
    if lower is None:
        return None
    items = at_the_top(line.items)
    as_stated = (
        (lambda made: mismatch(stated, tally(made), walk.unit_sizes) is None) if stated else None
    )
    result = prove_row(items, lower, walk.switches, walk.rules, walk.draft.specials, as_stated)
    result = replace(result, work=told_below(result.work, rows))
    return Attempt(lower, result, counted(walk, result, stated))


def _begun_away(
    walk: Walk, line: Line, taken: Attempt, side: Attempt | None, stated: tuple[Stated, ...]
) -> Attempt | None:
    """Return a row that does not fit what lies below as it is worked elsewhere, where it fits there."""
    if walk.below.kind == "row" and (edge := _edge(walk, line, stated)) is not None:
        return edge
    if side is not None and names_its_row(line):
        return side
    if taken.result.fault is None or not walk.begins_part or not stated or line.problems:
        return None
    opening = _in_an_opening(walk, line, stated)
    return opening or _elsewhere(walk, line, taken.ground, stated)


def _around_the_piece(walk: Walk, line: Line) -> Attempt | None:
    """Return a round along edges that states no number as worked with the usual one."""
    edge = usual_edge(walk.rows, line) if walk.below.kind == "row" else None
    if edge is None or line.problems:
        return None
    ground = ground_for(walk, line)
    items = with_its_number(line.items, edge)
    result = prove_row(items, ground, walk.switches, walk.rules, walk.draft.specials, None)
    if result.fault is not None:
        return None
    walk.usual_edges[line.place] = edge
    return Attempt(ground, result, counted(walk, result, ()))


def _edge(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt | None:
    """Return a first round after rows as worked along the edges, where its words leave that open."""
    items = along_the_edges(line, stated) if stated and not line.problems else None
    if items is None:
        return None
    ground = replace(ground_for(walk, line), row_ends=1)
    result = prove_row(items, ground, walk.switches, walk.rules, walk.draft.specials, None)
    count = counted(walk, result, stated)
    if result.fault is not None or mismatch(stated, count, walk.unit_sizes) is not None:
        return None
    return Attempt(ground, replace(result, from_nothing=True), count)


def _side_of_a_split(
    walk: Walk, line: Line, stated: tuple[Stated, ...]
) -> tuple[Attempt | None, bool]:
    """Return a row that joins yarn as worked on what a split left, and whether it fits there."""
    first: Attempt | None = None
    if line.problems:
        return None, False
    for side in sides_begun(line, walk.splits):
        result = prove_row(
            side.items,
            side.ground,
            walk.switches,
            walk.rules,
            walk.draft.specials,
            (lambda made: mismatch(stated, tally(made), walk.unit_sizes) is None)
            if stated
            else None,
        )
        work = with_passed(result.work, side.passed)
        result = replace(result, from_nothing=True, work=work)
        tried = Attempt(side.ground, result, counted(walk, result, stated))
        if _fits(walk, line, tried, stated):
            return tried, True
        if side.sure:
            first = first or tried
    return first, False


def _in_an_opening(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> Attempt | None:
    """Return the first row of a sleeve as worked round an opening, where its count bears it out."""
    for underarm in dict.fromkeys(walk.underarms):
        for ground in grounds_in(underarm, line.kind):
            result = prove_row(
                line.items, ground, walk.switches, walk.rules, walk.draft.specials, None
            )
            count = counted(walk, result, stated)
            if result.fault is None and mismatch(stated, count, walk.unit_sizes) is None:
                return Attempt(ground, result, count)
    return None


def _elsewhere(
    walk: Walk, line: Line, ground: Ground, stated: tuple[Stated, ...]
) -> Attempt | None:
    """Return the first row of a part as begun away from the row below, where its count bears it out."""
    begun = begun_elsewhere(line, ground)
    if begun is None:
        return None
    items, other = begun
    tried = prove_row(items, other, walk.switches, walk.rules, walk.draft.specials, None)
    result = replace(tried, from_nothing=True)
    count = counted(walk, result, stated)
    if result.fault is not None or mismatch(stated, count, walk.unit_sizes) is not None:
        return None
    return Attempt(other, result, count)


def _begins_a_piece(walk: Walk, line: Line) -> bool:
    """Tell whether a first row after other rows makes its own chain: "R1: Ch 4. Sc in 2nd ch ..."."""
    if line.number != 1 or walk.below.kind not in ("row", "round"):
        return False
    begun = [item for item in line.items if not isinstance(item, Act)]
    return (
        len(begun) > 1
        and isinstance(begun[0], Chain)
        and isinstance(begun[1], Skip)
        and begun[1].target.noun.of is Of.FROM_HOOK
        and begun[0].count > begun[1].target.count
    )


def on_both(walk: Walk, line: Line, stated: tuple[Stated, ...]) -> tuple[Attempt, Attempt | None]:
    """Work the row on what was stated, and after a wrong count on what was really made as well.

    The rows after a count show which of the two was the slip: as long as both fit, both are
    kept; where only one fits, it is gone on with, and the one slip is told once.
    """
    taken = attempt(walk, line, stated)
    if walk.below.other is None:
        return taken, None
    below = walk.below
    walk.below = replace(below, items=walk.below.other, other=None)
    # the count in doubt, said again of a further row with the same words, is no witness
    own = () if line.place == walk.slip else stated
    twin = attempt(walk, line, own)
    if not _fits(walk, line, twin, own):
        walk.below = below
        walk.twin_rows.clear()
        return taken, None
    if not _fits(walk, line, taken, own):
        for index, row in walk.twin_rows.items():
            walk.rows[index] = row
        if walk.slip is not None:
            walk.disproved.add(walk.slip)
        walk.twin_rows.clear()
        return twin, None
    walk.below = below
    return taken, twin if twin.result.out != taken.result.out else None


def _fits(walk: Walk, line: Line, tried: Attempt, stated: tuple[Stated, ...]) -> bool:
    return (
        not line.problems
        and tried.result.fault is None
        and mismatch(stated, tried.count, walk.unit_sizes) is None
    )


def on_the_twin(row: ProvedRow, twin: Attempt) -> ProvedRow:
    """Return *row* as it is worked on what was really made."""
    nothing = row.worked is None
    return replace(
        row,
        worked=None if nothing else twin.result.used,
        spaces_worked=None if nothing else twin.result.used_spaces,
        made=twin.count.made,
        spaces=twin.count.spaces,
        by_stitch=twin.count.by_stitch,
        work=twin.result.work,
        before=None if nothing else fabric.size(twin.ground.below)[0],
        before_spaces=fabric.size(twin.ground.below)[1],
    )


def counted(walk: Walk, result: RowResult, stated: tuple[Stated, ...]) -> Tally:
    """Return the count of what was made; picots, which are no fabric, only where some are stated."""
    count = tallied(walk, result.out)
    if any(figure.noun is not None and figure.noun.of is Of.UNIT for figure in stated):
        return replace(count, picots=picots_in(result.work))
    return count


def _own_count(line: Line) -> tuple[Stated, ...]:
    """Return the count that shows where "and repeat that" begins, when its row is worked again."""
    open_beginning = any(isinstance(item, Repeated) and item.loose for item in line.items)
    return line.stated[0] if open_beginning and len(line.stated) == 1 else ()


def proved_row(
    walk: Walk, line: Line, ground: Ground, stated: tuple[Stated, ...] = ()
) -> RowResult:
    """Return the row's sums; the same words on the same fabric are worked once."""
    rules = tuple(sorted(walk.rules.items()))
    key = (
        id(line.items),
        id(ground.below),
        ground.kind,
        ground.already,
        ground.round,
        ground.color,
        ground.row_ends if along_ends(line.items) else 0,
        ground.chain_edge,
        rules,
    )
    same_words = ("text", line.text, line.base_stitch, *key[1:])
    known = walk.memo.get(key) or walk.memo.get(same_words)
    if known is None:
        count = stated or _own_count(line)
        known = prove_row(
            line.items,
            ground,
            walk.switches,
            walk.rules,
            walk.draft.specials,
            (lambda made: mismatch(count, tally(made), walk.unit_sizes) is None) if count else None,
        )
        known = replace(known, out=walk.interned.setdefault(known.out, known.out))
        walk.memo[key] = known
        if known.fault is None and line.text:
            walk.memo[same_words] = known
        keep(walk, ground.below)
    return known
