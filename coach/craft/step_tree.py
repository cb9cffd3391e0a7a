"""The steps of a row as a tree that is looked up, not a list that is written out.

A repeat of a hundred thousand passes costs what its words cost: any step is found by its
number, or by the stitch that it makes, without making the steps before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias, overload

from coach.craft.steps import Pass, Step
from coach.craft.working import Action, Block, Group, Work


class Sums(NamedTuple):
    """What a stretch of work comes to: steps, places used of the row below, stitches made."""

    steps: int = 0
    uses: int = 0
    uses_spaces: int = 0
    made: int = 0
    made_spaces: int = 0

    def plus(self, other: Sums) -> Sums:
        return Sums(*(mine + theirs for mine, theirs in zip(self, other, strict=True)))

    def times(self, count: int) -> Sums:
        return Sums(*(each * count for each in self))


@dataclass(frozen=True, slots=True)
class Leaf:
    """One step before it has an address."""

    parts: tuple[Block | Group, ...]
    sums: Sums
    turns: int = 0
    before: tuple[Action, ...] = ()
    after: tuple[Action, ...] = ()
    work: tuple[Work, ...] = ()


@dataclass(frozen=True, slots=True)
class Branch:
    """Steps and loops one after another; *starts* holds what comes before each of them."""

    children: tuple[Node, ...]
    starts: tuple[Sums, ...]
    sums: Sums


@dataclass(frozen=True, slots=True)
class Loop:
    """A repeat: *body* so many *times*, then *last* if the last pass differs.

    A loop that is not *told* is a block taken stitch by stitch: it has no group numbers.
    """

    body: Branch
    times: int
    last: Branch | None
    sums: Sums
    told: bool = True

    @property
    def total(self) -> int:
        return self.times + (self.last is not None)


Node: TypeAlias = Leaf | Branch | Loop


def branch(children: Sequence[Node]) -> Branch:
    """Return *children* in a row, with their running sums."""
    starts: list[Sums] = []
    sums = Sums()
    for child in children:
        starts.append(sums)
        sums = sums.plus(child.sums)
    return Branch(tuple(children), tuple(starts), sums)


def loop(body: Branch, times: int, last: Branch | None = None, *, told: bool = True) -> Loop:
    """Return *body* repeated, with its sums."""
    sums = body.sums.times(times)
    if last is not None:
        sums = sums.plus(last.sums)
    return Loop(body, times, last, sums, told)


class _Found(NamedTuple):
    leaf: Leaf
    start: Sums
    passes: tuple[Pass, ...]
    opens: int
    closes: int


class Steps(Sequence[Step]):
    """The steps of one stage, looked up by number (from 0) or by the stitch they make."""

    __slots__ = ("_available", "_closing", "_color_after", "_color_at_start", "_opening", "_root")

    def __init__(
        self,
        root: Branch,
        *,
        available: int = 0,
        opening: tuple[Action, ...] = (),
        closing: tuple[Action, ...] = (),
        color_after: str | None = None,
        color_before: str | None = None,
    ) -> None:
        self._root = root
        self._available = available
        self._opening = opening
        self._closing = closing
        self._color_after = color_after
        self._color_at_start = color_before

    def __len__(self) -> int:
        return self._root.sums.steps

    @overload
    def __getitem__(self, index: int) -> Step: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Step]: ...
    def __getitem__(self, index: int | slice) -> Step | Sequence[Step]:
        if isinstance(index, slice):
            return tuple(self[each] for each in range(*index.indices(len(self))))
        count = len(self)
        if not -count <= index < count:
            raise IndexError("no such step")
        return self._step(index % count)

    @property
    def sums(self) -> Sums:
        """What the whole stage uses and makes."""
        return self._root.sums

    def at_stitch(self, stitch: int) -> int:
        """Return the number (from 0) of the step that makes *stitch* (from 1).

        Raises:
            ValueError: the row makes no such stitch.
        """
        if not 1 <= stitch <= self.sums.made:
            raise ValueError(f"this row makes {self.sums.made} stitches, not {stitch}")
        return _step_making(self._root, stitch - 1)

    def _step(self, index: int) -> Step:
        found = _find(self._root, index, Sums(), ())
        leaf, start = found.leaf, found.start
        last_of_all = index == len(self) - 1
        made = leaf.sums.made
        done = start.uses
        return Step(
            number=index + 1,
            of=len(self),
            parts=leaf.parts,
            passes=found.passes,
            turns=leaf.turns,
            first=start.made + 1 if made else 0,
            last=start.made + made if made else 0,
            uses=leaf.sums.uses,
            uses_spaces=leaf.sums.uses_spaces,
            done_before=done,
            left_after=max(0, self._available - done - leaf.sums.uses),
            opens_repeat=found.opens > 0,
            closes_repeat=found.closes > 0,
            closes_stage=last_of_all,
            made_before=start.made,
            opens=found.opens,
            closes=found.closes,
            before=(self._opening if index == 0 else ()) + leaf.before,
            after=leaf.after + (self._closing if last_of_all else ()),
            work=leaf.work,
            color_next=self._color_next(index, leaf),
            color_before=self._color_before(index),
        )

    def _color_next(self, index: int, leaf: Leaf) -> str | None:
        mine = last_color(leaf)
        if mine is None:
            return None
        for later in range(index + 1, len(self)):
            coming = first_color(_find(self._root, later, Sums(), ()).leaf)
            if coming is not None:
                return coming if coming != mine else None
            if later - index > _LOOK_AHEAD:
                return None
        return self._color_after if self._color_after != mine else None

    def _color_before(self, index: int) -> str | None:
        for earlier in range(index - 1, max(index - 1 - _LOOK_AHEAD, 0) - 1, -1):
            color = last_color(_find(self._root, earlier, Sums(), ()).leaf)
            if color is not None:
                return color
        return self._color_at_start if index <= _LOOK_AHEAD else None


# Between two coloured blocks there may be a join or a turning chain, hardly ever more.
_LOOK_AHEAD = 3


def first_color(leaf: Leaf) -> str | None:
    """Return the yarn that a step begins with, if yarns are told at all."""
    return next((part.color for part in leaf.parts if part.color), None)


def last_color(leaf: Leaf) -> str | None:
    """Return the yarn that a step ends with, if yarns are told at all."""
    return next((part.color for part in reversed(leaf.parts) if part.color), None)


def _find(node: Node, index: int, start: Sums, passes: tuple[Pass, ...]) -> _Found:
    if isinstance(node, Leaf):
        return _Found(node, start, passes, 0, 0)
    if isinstance(node, Branch):
        return _find_in_branch(node, index, start, passes)
    per_pass = node.body.sums.steps
    done = min(index // per_pass, node.times) if per_pass else node.times
    within = index - done * per_pass
    body = node.body if done < node.times or node.last is None else node.last
    inner = (*passes, Pass(done + 1, node.total)) if node.told else passes
    found = _find(body, within, start.plus(node.body.sums.times(done)), inner)
    if not node.told:
        return found
    depth = len(found.passes) - len(inner)  # how many told repeats lie deeper than this one
    opens = found.opens + (within == 0 and found.opens == depth)
    at_end = within == body.sums.steps - 1 and done + 1 == node.total
    closes = found.closes + (at_end and found.closes == depth)
    return found._replace(opens=opens, closes=closes)


def _find_in_branch(node: Branch, index: int, start: Sums, passes: tuple[Pass, ...]) -> _Found:
    low, high = 0, len(node.children)
    while high - low > 1:
        middle = (low + high) // 2
        if node.starts[middle].steps <= index:
            low = middle
        else:
            high = middle
    # Children without steps share their start with the next one: the last such start wins.
    before = node.starts[low]
    return _find(node.children[low], index - before.steps, start.plus(before), passes)


def _step_making(node: Node, stitch: int) -> int:
    if isinstance(node, Leaf):
        return 0
    if isinstance(node, Branch):
        for child, start in zip(reversed(node.children), reversed(node.starts), strict=True):
            if start.made <= stitch and child.sums.made > stitch - start.made:
                return start.steps + _step_making(child, stitch - start.made)
        raise ValueError("no step makes this stitch")
    done = min(stitch // node.body.sums.made, node.times) if node.body.sums.made else node.times
    body = node.last if done == node.times and node.last is not None else node.body
    return done * node.body.sums.steps + _step_making(body, stitch - done * node.body.sums.made)
