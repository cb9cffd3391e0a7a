"""Which blocks of a row are one step: what a maker can hold in the head at once.

A skip belongs to the stitch after it, a short chain to the stitch before it, "chain 1, skip 1"
is one idea, and two stitches taken turn about are one alternation. It numbers nothing and
says nothing: it only groups.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from coach.craft.equal_runs import equal_runs
from coach.craft.places_named import is_skip
from coach.craft.row_ends import is_chain_of_row
from coach.craft.single_stitches import singles
from coach.craft.step_tree import Branch, Leaf, Node, Sums, branch, loop
from coach.craft.steps import Pace
from coach.craft.working import Action, Block, Group, Into, Passes, Work

ALTERNATION_AT_LEAST = 3  # "front, back, front" is one thing to remember; "front, back" is two
ALTERNATION_KINDS = 3  # more than three stitches in turn can't be kept in the head


@lru_cache(maxsize=512)
def tree(work: tuple[Work, ...], pace: Pace) -> Branch:
    """Return the steps of *work* at *pace*, before they have an address."""
    if pace is Pace.ROW:
        return branch([Leaf((), sums_of(work)._replace(steps=1), work=work)])
    return _branch(work, pace)


@lru_cache(maxsize=2048)
def sums_of(work: tuple[Work, ...]) -> Sums:
    """Return what *work* uses of the row below and makes, in all."""
    sums = Sums()
    for item in work:
        if isinstance(item, Passes):
            sums = sums.plus(sums_of(item.parts).times(item.times))
            if item.last is not None:
                sums = sums.plus(sums_of(item.last))
        elif not isinstance(item, Action):
            sums = sums.plus(_sums((item,)))
    return sums


def _branch(work: Sequence[Work], pace: Pace) -> Branch:
    """Gather what stands between repeats, and loop over the repeats."""
    nodes: list[Node] = []
    flat: list[Block | Group | Action] = []
    for item in work:
        if not isinstance(item, Passes):
            flat.append(item)
            continue
        in_turn = alternation(item) if pace is Pace.BLOCK else None
        if in_turn is not None and in_turn.turns < ALTERNATION_AT_LEAST:
            in_turn = None
        nodes.extend(_flat(flat, pace))
        flat = []
        if in_turn is not None:
            nodes.append(in_turn)
            continue
        last = None if item.last is None else _branch(item.last, pace)
        body = _branch(item.parts, pace)
        if body.sums.steps:
            nodes.append(loop(body, item.times, last))
    nodes.extend(_flat(flat, pace))
    return branch(_joined_alternations(nodes) if pace is Pace.BLOCK else nodes)


def _flat(items: Sequence[Block | Group | Action], pace: Pace) -> list[Node]:
    """Return the steps of blocks that stand one after another outside any repeat."""
    items = equal_runs(items)
    gatherer = _Gatherer(pace)
    at = 0
    while at < len(items):
        length = _turn_about(items, at) if pace is Pace.BLOCK else 0
        if length:
            run = [item for item in items[at : at + length] if isinstance(item, Block)]
            gatherer.add_leaf(_alternating((run[0], run[1]), length))
            at += length
            continue
        gatherer.add(items[at])
        at += 1
    return gatherer.finished()


class _Gatherer:
    """Takes blocks one by one and closes a step when the next one belongs to another."""

    def __init__(self, pace: Pace) -> None:
        self._pace = pace
        self._nodes: list[Node] = []
        self._parts: list[Block | Group] = []
        self._held: list[Action] = []

    def add(self, item: Block | Group | Action) -> None:
        if isinstance(item, Action):
            self._act(item)
        elif is_skip(item):
            self._skip(item)
        elif _is_short_chain(item):
            self._chain(item)
        else:
            self._main(item)

    def add_leaf(self, leaf: Leaf) -> None:
        self._close()
        self._nodes.append(replace(leaf, before=tuple(self._held)))
        self._held = []

    def finished(self) -> list[Node]:
        if self._parts and all(is_skip(part) for part in self._parts):
            self._skip_at_the_end()
        self._close()
        if self._held:  # actions with nothing after them here are a step of their own
            self._nodes.append(Leaf((), Sums(steps=1), before=tuple(self._held)))
            self._held = []
        return self._nodes

    def _act(self, action: Action) -> None:
        if action.kind == "remark" and not action.text.strip():
            return
        self._close()
        last = self._nodes[-1] if self._nodes else None
        if isinstance(last, Leaf) and last.parts and _is_row_chain(last.parts[-1]):
            self._nodes[-1] = replace(last, after=(*last.after, action))
        else:
            self._held.append(action)

    def _skip(self, item: Block | Group) -> None:
        if self._parts and _is_short_chain(self._parts[-1]):
            self._parts.append(item)  # "chain 1, skip 1" is one idea
            if self._has_main():
                self._close()
            return
        if self._has_main():
            self._close()
        self._parts.append(item)

    def _chain(self, item: Block | Group) -> None:
        if self._pace is Pace.STITCH or (self._has_main() and not _is_single(self._parts[-1])):
            self._close()
        self._parts.append(item)

    def _main(self, item: Block | Group) -> None:
        began_with_chain = any(_is_short_chain(part) for part in self._parts)
        if self._has_main() or (
            began_with_chain and (self._pace is Pace.STITCH or not _is_single(item))
        ):
            self._close()
            began_with_chain = False
        if self._pace is Pace.STITCH:
            self._stitch_by_stitch(item)
            return
        self._parts.append(item)
        if began_with_chain or _is_row_chain(item):
            self._close()

    def _stitch_by_stitch(self, item: Block | Group) -> None:
        first, *rest = singles(item)
        self._parts.extend(first[0])
        self._close()
        for parts, times in rest:
            if times:
                leaf = Leaf(parts, _sums(parts))
                self._nodes.append(leaf if times == 1 else loop(branch([leaf]), times, told=False))

    def _skip_at_the_end(self) -> None:
        """A skip with nothing after it belongs to the stitch before it."""
        last = self._nodes[-1] if self._nodes else None
        if isinstance(last, Leaf) and last.parts and _takes_skip(last):
            parts = (*last.parts, *self._parts)
            self._nodes[-1] = replace(last, parts=parts, sums=_sums(parts))
            self._parts = []

    def _has_main(self) -> bool:
        return any(not is_skip(part) and not _is_short_chain(part) for part in self._parts)

    def _close(self) -> None:
        if self._parts:
            parts = tuple(self._parts)
            self._nodes.append(Leaf(parts, _sums(parts), before=tuple(self._held)))
            self._parts, self._held = [], []


def alternation(passes: Passes) -> Leaf | None:
    """Return a repeat of single stitches as one step ("front post, back post, in turn"), or None."""
    kinds = passes.parts
    if not 2 <= len(kinds) <= ALTERNATION_KINDS or not all(
        _is_plain_single(kind) for kind in kinds
    ):
        return None
    blocks = tuple(kind for kind in kinds if isinstance(kind, Block))
    if len({_look(block) for block in blocks}) != len(blocks) or not _one_yarn(blocks):
        return None
    last = passes.last or ()
    if last != kinds[: len(last)]:
        return None
    return _alternating(blocks, len(kinds) * passes.times + len(last))


def _alternating(kinds: tuple[Block, ...], turns: int) -> Leaf:
    whole, part = divmod(turns, len(kinds))
    sums = _sums(kinds).times(whole).plus(_sums(kinds[:part]))
    return Leaf(kinds, sums._replace(steps=1), turns=turns)


def _joined_alternations(nodes: list[Node]) -> list[Node]:
    """Draw in the one stitch more that often stands after an alternation: [A, B] twice, A."""
    joined: list[Node] = []
    for node in nodes:
        last = joined[-1] if joined else None
        if (
            isinstance(node, Leaf)
            and isinstance(last, Leaf)
            and last.turns
            and not (node.turns or node.before or node.after or last.after)
            and node.parts == (last.parts[last.turns % len(last.parts)],)
        ):
            sums = last.sums.plus(node.sums)._replace(steps=1)
            joined[-1] = replace(last, turns=last.turns + 1, sums=sums)
        else:
            joined.append(node)
    return joined


def _turn_about(items: Sequence[Work], at: int) -> int:
    """Return for how many blocks from *at* two stitches are written out turn about; 0 if too few."""
    pair = items[at : at + 2]
    if len(pair) < 2 or not all(_is_plain_single(item) for item in pair):
        return 0
    blocks = [item for item in pair if isinstance(item, Block)]
    if _look(blocks[0]) == _look(blocks[1]) or not _one_yarn(blocks):
        return 0
    end = at
    while end < len(items) and items[end] == pair[(end - at) % 2]:
        end += 1
    return end - at if end - at >= ALTERNATION_AT_LEAST else 0


def _look(block: Block) -> tuple[str, str | None]:
    return block.stitch, block.where.loop


def _one_yarn(blocks: Sequence[Block]) -> bool:
    return len({block.color for block in blocks}) == 1


def _is_plain_single(item: Work) -> bool:
    """One stitch into the next stitch, with nothing else to remember about it."""
    return (
        isinstance(item, Block)
        and item.count == item.each == item.uses == item.makes == 1
        and item.where.into is Into.NEXT
        and item.where.places == 1
        and item.where.position is None
        and item.role is None
        and not item.passing
        and not is_skip(item)
    )


def _is_short_chain(item: Block | Group) -> bool:
    return (
        isinstance(item, Block)
        and item.stitch == "ch"
        and item.role is None
        and item.counts_as is None
    )


def _is_row_chain(item: Block | Group) -> bool:
    return isinstance(item, Block) and is_chain_of_row(item)


def _takes_skip(leaf: Leaf) -> bool:
    """Whether a skip may be told with a step: it holds stitches, and is no alternation."""
    last = leaf.parts[-1]
    return not leaf.turns and not leaf.after and (isinstance(last, Group) or last.role is None)


def _is_single(item: Block | Group) -> bool:
    """Worked in one place (or drawn together once), so that a chain after it is still one idea."""
    if isinstance(item, Group):
        return item.times == 1
    if item.role is not None:
        return False
    if item.where.into is Into.TOGETHER:
        return item.count == 1
    return item.count == item.each


def _sums(parts: Sequence[Block | Group]) -> Sums:
    """Return what one step of *parts* uses and makes."""
    sums = Sums()
    for part in parts:
        if isinstance(part, Group):
            made = sum(block.makes for block in part.parts) * part.times
            spaces = sum(block.makes_spaces for block in part.parts) * part.times
            sums = sums.plus(Sums(0, part.uses, part.uses_spaces, made, spaces))
        else:
            sums = sums.plus(Sums(0, part.uses, part.uses_spaces, part.makes, part.makes_spaces))
    return sums._replace(steps=1)
