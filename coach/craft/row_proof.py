"""The proof of one row by places: each instruction uses places of the row below and makes new ones.

The row's instructions are worked on the fabric exactly as a maker would, with repeated
sections passed over as soon as they are seen to come round. Open repeats ("across", "to last
4 sts") are tried with every number of passes that may fit; the first that uses the row up is
taken. Nothing is guessed here: what the trade reads in two ways comes in as ``Switches``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from coach.craft import fabric
from coach.craft.fabric import (
    CHAIN,
    Cell,
    Item,
    Kind,
    Rest,
    Run,
    Section,
    count_at,
    drift,
    lowered,
    opened,
    rest_of,
    space_cell,
    spaces_left,
    stitches_left,
    take,
    without,
)
from coach.craft.hand import (
    Hand,
    items_made,
    merged_block,
    passes,
    stitches,
    tagged,
    work_done,
)
from coach.craft.pattern import (
    Act,
    Bound,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Noun,
    Of,
    Picot,
    Repeated,
    Sides,
    Skip,
    SpecialStitch,
    Target,
    Which,
)
from coach.craft.problem import Place, Verdict
from coach.craft.stitch import answers_to, family, height, legs
from coach.craft.working import Action, Block, Group, Into, Where, Work

FOUNDATION_STITCHES = ("fsc", "fhdc", "fdc", "ftr")
BEHIND = "the stitch behind it is skipped"
MOST_OUTCOMES = 600  # ways of cutting one row's open repeats that are looked at
WINDOW = 14  # passes kept before the end of an open repeat, to go back to


@dataclass(frozen=True, slots=True)
class Switches:
    """The pattern-wide readings: each a custom of wording that the trade reads in two ways.

    bare_in_one: "2 sc" is two in one stitch. star_in_all: "rep from * 5 times" is five in all.
    chains: what an unexplained beginning chain of so many chains does: counts or not.
    behind: a stitch rows below uses the place of the skip that follows it.
    """

    bare_in_one: bool = False
    star_in_all: bool = False
    chains: tuple[tuple[int, bool], ...] = ()
    skipped: tuple[tuple[int, bool], ...] = ()
    behind: bool = False
    mesh: bool = False


@dataclass(frozen=True, slots=True)
class Ground:
    """What a row is worked into, in the order in which it is met.

    kind: "none", "chain", "joined chain", "row" or "round". already: the chain made before
    turning, and what it stands for.
    """

    below: tuple[Item, ...] = ()
    kind: str = "none"
    already: tuple[int, str | None] | None = None
    round: bool = False
    color: str | None = None
    row_ends: int = 0  # rows worked so far in the piece, for what is picked up along its edge


class Misfit(Exception):  # noqa: N818
    """Inside this module only: the row can't go on here; says why."""

    def __init__(self, code: Verdict, place: Place, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.place = place
        self.message = message


@dataclass(frozen=True, slots=True)
class RowResult:
    """What a row came to.

    fault: (code, place, message), or None when it fits. closing: the chain made at its end for
    the next row. fit: (outside, each, available) of an open repeat that does not come out.
    """

    used: int
    used_spaces: int
    out: tuple[Item, ...]
    work: tuple[Work, ...]
    fault: tuple[Verdict, Place, str] | None = None
    over: int = 0
    left: int = 0
    left_spaces: int = 0
    closing: tuple[int, str | None] | None = None
    looked: frozenset[tuple[str, int]] = frozenset()
    from_nothing: bool = False
    turned: bool = False
    joined: bool = False
    color: str | None = None
    fit: tuple[int, int, int] | None = None
    taken_counts: tuple[tuple[int, str], ...] = ()


def any_stitch(cell: Cell) -> bool:
    """Tell whether *cell* can be worked as a stitch."""
    return cell.kind is not Kind.SPACE


def any_place(cell: Cell) -> bool:
    """Take every cell."""
    return True


@dataclass(slots=True)
class Bench:
    """One row on the bench: its ground, the readings in force, what was looked at."""

    ground: Ground
    switches: Switches
    counts_as: Mapping[int, str]
    specials: Mapping[str, SpecialStitch]
    looked: set[tuple[str, int]] = field(default_factory=set)
    taken: dict[int, str] = field(default_factory=dict)
    budget: int = 20000
    fit: tuple[int, int, int] | None = None
    first_height: str | None = None
    ring_ahead: bool = False  # the row works into a ring that was made before it

    # -- sequences ---------------------------------------------------------------------------

    def outcomes(self, items: Sequence[Instruction], hand: Hand) -> Iterator[Hand]:
        """Yield the hands that *items* may end with: one, or more where a repeat is open."""
        for index, item in enumerate(items):
            if isinstance(item, Chain) and hand.moved and not hand.begun and hand.last == "stitch":
                counts_as = self.stands_for(item)
                if counts_as:
                    for travelled in (False, True):
                        stood = replace(hand, moved=travelled)
                        yield from self.outcomes(
                            items[index + 1 :], self.stand(item.count, counts_as, stood)
                        )
                    return
            if is_open(item):
                tail = tuple(items[index + 1 :])
                for after in self.open_outcomes(item, hand, tail):
                    yield from self.outcomes(tail, after)
                return
            hand = self.step(item, hand)
        yield hand

    def work_all(self, items: Sequence[Instruction], hand: Hand) -> Hand:
        """Return the first hand that *items* end with."""
        for after in self.outcomes(items, hand):
            return after
        raise Misfit(Verdict.REPEAT_DOES_NOT_FIT, _place_of(items), "the repeat does not come out")

    def step(self, item: Instruction, hand: Hand) -> Hand:  # noqa: PLR0911
        """Return the hand after one instruction that has one outcome."""
        self.budget -= 1
        if self.budget < 0:
            raise Misfit(
                Verdict.BROKEN_NOTATION,
                getattr(item, "place", Place(1, 1)),
                "this row takes too many steps to work out",
            )
        match item:
            case Make():
                return self.make(item, hand)
            case Chain():
                return self.chain(item, hand)
            case Skip():
                return self.skip(item, hand)
            case GroupIn():
                return self.group(item, hand)
            case EachOf():
                return self.each_of(item, hand, None)
            case Repeated():
                return self.counted(item, hand)
            case Join():
                return self.join(item, hand)
            case Leave():
                return self.leave(item, hand)
            case Picot():
                return self.picot(item, hand)
            case Sides():
                return self.sides(item, hand)
            case Act():
                return self.act(item, hand)

    # -- chains ------------------------------------------------------------------------------

    def chain(self, item: Chain, hand: Hand) -> Hand:
        """Chains: a beginning chain, the foundation itself, or a space in the air."""
        if (
            not hand.begun
            and hand.rest is None
            and self.ground.kind == "none"
            and not hand.ring
            and not self.ring_ahead
        ):
            block = Block(
                "ch", item.count, Where(Into.NOTHING), role="foundation", color=hand.color
            )
            return replace(
                hand.making((), block),
                rest=Rest(Run(CHAIN, item.count), None),
                chains_here=item.count,
            )
        if not hand.begun and not hand.standing and (hand.moved or not hand.chained):
            return self.stand(item.count, self.stands_for(item), hand)
        block = Block("ch", item.count, Where(Into.NOTHING), makes_spaces=1, color=hand.color)
        return hand.making((Run(space_cell(item.count), 1),), block)

    def stands_for(self, item: Chain) -> str:
        """Return what a beginning chain counts as: a stitch, a stitch and a space, or nothing."""
        return self.counted_as(item.count, item.counts_as)

    def counted_as(self, count: int, said: str | None) -> str:
        """Settle what so many beginning chains are: as said, by the notes, or by custom."""
        answer = self._counted_as(count, said)
        self.taken[count] = answer
        return answer

    def _counted_as(self, count: int, said: str | None) -> str:
        usual = usual_count(count, self.first_height)
        if said is not None:
            return usual if said == "st" else said
        if count in self.counts_as:
            noted = self.counts_as[count]
            return usual if noted == "st" else noted
        if count < 2:
            return ""
        if 0 in self.counts_as:
            return "" if not self.counts_as[0] else usual
        self.looked.add(("chain", count))
        for number, counts in self.switches.chains:
            if number == count:
                return usual if counts else ""
        return "" if count == 2 else usual

    def stand(self, count: int, counts_as: str, hand: Hand, *, already: bool = False) -> Hand:
        """A chain at the beginning of a row: where it counts it uses the first place."""
        if not counts_as:
            if already:
                return hand
            role = "beginning" if self.ground.round else "turning"
            block = Block("ch", count, Where(Into.NOTHING), role=role, color=hand.color)
            return hand.making((), block, chained=True)
        stitch, length = split_counts_as(counts_as)
        uses = 0
        rest = hand.rest
        if not hand.moved and not hand.ring and rest is not None:
            got = take(rest, 1, any_stitch)
            if not got.missing and not (got.passed_spaces and self.ground.kind == "round"):
                uses, rest = 1, got.rest
                hand = replace(hand, used_spaces=hand.used_spaces + got.passed_spaces)
        made: tuple[Item, ...] = stitches(stitch, 1, turning=True) if stitch else ()
        if length:
            made += (Run(space_cell(length), 1),)
        block = Block(
            "ch",
            count,
            Where(Into.NOTHING),
            uses=uses,
            makes=1 if stitch else 0,
            makes_spaces=1 if length else 0,
            counts_as=counts_as,
            role="beginning" if self.ground.round else "turning",
            color=hand.color,
            already_made=already,
        )
        return replace(
            hand.making(made, block),
            rest=rest,
            used=hand.used + uses,
            standing=True,
            begun=True,
            moved=True,
            last=hand.last or "stitch",
        )

    # -- skips -------------------------------------------------------------------------------

    def skip(self, item: Skip, hand: Hand) -> Hand:
        """Places passed over on purpose."""
        target = item.target
        if target.noun.of is Of.FROM_HOOK:
            return self.skip_at_hook(item, hand)
        if target.which is Which.SAME or (
            target.which is Which.FIRST
            and hand.standing
            and target.count == 1
            and target.noun.of is not Of.SPACE
        ):
            if hand.standing:
                return hand
            target = replace(target, which=Which.NEXT)
        if target.which is Which.FIRST and hand.standing and target.noun.of is not Of.SPACE:
            target = replace(target, which=Which.NEXT, count=target.count - 1)
        if target.noun.of is Of.TURNING_CHAIN:
            return self._skip_turning(hand)
        if target.which is Which.LAST and target.noun.of is not Of.SPACE:
            hand = self.to_the_last(target.count, hand)
        wanted = self.wanted(target, hand)
        got = take(hand.rest, target.count, wanted)
        if target.noun.of in (Of.NAMED, Of.SPACE, Of.UNIT) and not got.found:
            got = self._none_found(got, target, hand, item.place)
        spaces = target.noun.of is Of.SPACE
        uses = got.passed + (0 if spaces else got.found + got.missing)
        uses_spaces = got.passed_spaces + (got.found + got.missing if spaces else 0)
        where = self.where(target, Into.SPACE if spaces else Into.NEXT, got)
        block = Block(
            "sk", target.count, where, uses=uses, uses_spaces=uses_spaces, color=hand.color
        )
        return self._moved(hand.making((), block), got, uses, uses_spaces)

    def _skip_turning(self, hand: Hand) -> Hand:
        got = take(hand.rest, 1, any_stitch)
        if got.missing or got.last is None or not got.last.turning:
            return hand
        block = Block("sk", 1, Where(Into.TURNING_CHAIN), uses=1)
        return self._moved(hand.making((), block), got, 1 + got.passed, got.passed_spaces)

    def skip_at_hook(self, item: Skip, hand: Hand) -> Hand:
        """Foundation chains left at the hook, and what they stand for."""
        count = item.target.count
        counts_as = self.skipped_as(count, item.counts_as)
        got = take(hand.rest, count, any_stitch)
        stitch, length = split_counts_as(counts_as)
        made: tuple[Item, ...] = stitches(stitch, 1, turning=True) if stitch else ()
        if length:
            made += (Run(space_cell(length), 1),)
        block = Block(
            "sk",
            count,
            Where(Into.CHAIN, places=count),
            uses=count,
            makes=1 if stitch else 0,
            makes_spaces=1 if length else 0,
            counts_as=counts_as or None,
            role="skipped chains",
            color=hand.color,
        )
        hand = self._moved(hand.making(made, block), got, count, 0)
        return replace(hand, standing=bool(counts_as), begun=True, chains_here=count)

    def skipped_as(self, count: int, said: str | None) -> str:
        """Settle what skipped foundation chains stand for."""
        usual = usual_skipped(count, self.first_height)
        if said is not None:
            return usual if said == "st" else said
        if count < 2 or not usual:
            return ""
        self.looked.add(("skipped", count))
        for number, counts in self.switches.skipped:
            if number == count:
                return usual if counts else ""
        if count in self.counts_as:
            return self.counts_as[count] and usual
        if 0 in self.counts_as and not self.counts_as[0]:
            return ""
        return "" if count == 2 else usual

    # -- stitches ----------------------------------------------------------------------------

    def make(self, item: Make, hand: Hand) -> Hand:
        """Stitches into places: the heart of a row."""
        target = item.target
        if target is None:
            target, item = self.bare(item, hand)
        if target.also and _all_each(target):
            return self.each_of(_mixed(item, target), hand, None)
        if (
            item.stitch == "sl st"
            and not hand.begun
            and not hand.moved
            and self.ground.kind == "round"
        ):
            hand = self.leave_join_place(target, hand)
        hand = self.make_in(item, target, hand)
        for further in target.also:
            hand = self.make_in(item, further, hand)
        return hand

    def bare(self, item: Make, hand: Hand) -> tuple[Target, Make]:
        """Give a stitch without a place its place: the next ones, or all in one by the reading."""
        if hand.ring and hand.rest is None:
            return Target(Which.SAME, Noun(Of.RING)), item
        any_next = Noun(Of.STITCH)
        if item.increase or legs(item.stitch) > 1:
            drawn = legs(item.stitch)
            places = Target(Which.NEXT, any_next, count=item.times * drawn, together=drawn > 1)
            return places, replace(item, times=1)
        if item.each in (2, 3) and item.named is None:
            self.looked.add(("bare", 0))
            if self.switches.bare_in_one:
                return Target(Which.NEXT, any_next, count=1), item
        return Target(Which.NEXT, any_next, count=item.each), replace(item, each=1)

    def leave_join_place(self, target: Target, hand: Hand) -> Hand:
        """In a joined round the join stands on the first stitch: travelling starts after it."""
        if target.which is not Which.NEXT or target.noun.of in (Of.SPACE, Of.UNIT):
            return hand
        if self.ground.below and not _starts_with_stitch(self.ground.below):
            return hand
        got = take(hand.rest, 1, any_stitch)
        if got.missing:
            return hand
        return self._moved(hand, got, 1 + got.passed, got.passed_spaces)

    def make_in(self, item: Make, target: Target, hand: Hand) -> Hand:  # noqa: PLR0911, PLR0912
        """Work one kind of stitch into one kind of place."""
        special = self.specials.get(item.named or "")
        if special and special.parts and _goes_along(special.parts):
            return self.squares(item, target.count, special, hand)
        if special and special.parts:
            return self.group(
                GroupIn(special.parts, self.spread(item, target), item.place, name=item.named), hand
            )
        if item.stitch in FOUNDATION_STITCHES and self.ground.kind == "none":
            return self.made(item, target, hand, Into.NOTHING, 0, 0, places=target.count)
        match target.noun.of:
            case Of.RING:
                hand = replace(hand, rest=None, ring=True, used=0, used_spaces=0)
                return self.made(item, target, hand, Into.RING, 0, 0, places=1, last="ring")
            case Of.SKIPPED:
                if hand.used == 0:
                    hand = replace(hand, ends=True)  # skipped in an earlier row: an opening
                return self.made(item, target, hand, Into.SKIPPED, 0, 0, places=target.count)
            case Of.ROW_END | Of.FREE_LOOP if hand.rest is None or target.noun.of is Of.ROW_END:
                hand = replace(hand, ends=True)
                if target.which is Which.EACH and self.ground.row_ends:
                    target = replace(target, count=self.ground.row_ends)
                into = Into.ROW_END if target.noun.of is Of.ROW_END else Into.FREE_LOOP
                return self.made(item, target, hand, into, 0, 0, places=target.count)
            case Of.TURNING_CHAIN:
                return self.in_turning_chain(item, target, hand)
            case Of.BETWEEN:
                return self.between(item, target, hand)
        if target.which is Which.ANY:
            travelled = hand.last == "space" and not hand.begun
            target = replace(target, which=Which.SAME if travelled else Which.NEXT)
        if target.which is Which.SAME and (hand.moved or hand.ring):
            return self.made(item, target, hand, Into.SAME, 0, 0, places=1)
        if (
            target.which is Which.FIRST
            and self.ground.round
            and hand.begun
            and not stitches_left(hand.rest)
            and self.ground.below
            and item.each == 1
        ):
            return self.join(Join(item.place, item.stitch, "first stitch"), hand)
        if (
            target.which is Which.FIRST
            and hand.standing
            and target.count == 1
            and (target.noun.of is not Of.SPACE)
        ):
            return self.made(item, target, hand, Into.SAME, 0, 0, places=1)
        if target.which is Which.EACH:
            return self.each_of(
                EachOf((replace(item, target=target),), item.place, target.until), hand, None
            )
        return self.in_next(item, target, hand)

    def squares(self, item: Make, places: int, special: SpecialStitch, hand: Hand) -> Hand:
        """A named piece of the row that has its own places: a filet square, "ch 2, dc in next dc"."""
        number = item.each * item.times * places
        if not hand.begun and not hand.standing and self.ground.kind in ("row", "round"):
            first = special.parts[0]
            if isinstance(first, Chain):
                hand = self.stand(first.count + 3, f"dc+ch-{first.count}", hand)
                hand = self.work_all(special.parts[1:], hand)
            else:
                hand = self.work_all(special.parts, self.stand(3, "dc", hand))
            number -= 1
        if not number:
            return hand
        return self.counted(Repeated(special.parts, item.place, times=number, star=False), hand)

    def spread(self, item: Make, target: Target) -> Target:
        """Return the target for *each* of a named group: "2 shells" take two places."""
        if target.which is Which.SAME or item.each == 1:
            return target
        return replace(target, count=target.count * item.each)

    def in_next(self, item: Make, target: Target, hand: Hand) -> Hand:  # noqa: PLR0912
        """The next so many places of the kind named, or the same drawn together."""
        together = legs(item.stitch)
        count = max(target.count, 1)
        if target.remark == BEHIND:
            return self.made(item, target, hand, Into.BELOW, 0, 0, places=count)
        if (hand.ends and hand.rest is None) or (hand.ends and target.noun.of is Of.SPACE):
            return self.made(item, target, hand, Into.NEXT, 0, 0, places=count)
        wanted = self.wanted(target, hand)
        if target.which is Which.LAST and target.noun.of is Of.SPACE:
            ahead = _left_of(hand.rest, wanted) - count
            if ahead > 0:
                passed = take(hand.rest, ahead, wanted)
                hand = replace(
                    hand,
                    rest=passed.rest,
                    used=hand.used + passed.passed,
                    used_spaces=hand.used_spaces + passed.passed_spaces + ahead,
                )
        if target.which is Which.LAST and target.noun.of in (Of.STITCH, Of.NAMED):
            hand = self.to_the_last(count, hand)
        if target.which is Which.NTH and not hand.begun:
            count = 1
            ahead = target.nth - 1 - (1 if hand.standing else 0)
            if ahead > 0:
                hand = self.skip(
                    Skip(Target(Which.NEXT, target.noun, count=ahead), item.place), hand
                )
        elif target.which is Which.NTH and hand.standing and target.nth == 2:
            count = 1
        drawn = 1
        if together > 1 and not (target.which is Which.SAME or target.noun.of is Of.SPACE):
            if target.together or (target.count % together == 0 and target.which is not Which.EACH):
                number = item.each * item.times
                count, drawn = max(target.count, together) * number, together
                item = replace(item, each=1, times=1)
            elif (
                target.count == 1
                and item.target is not None
                and target.which in (Which.NEXT, Which.CENTER, Which.CORNER)
            ):
                drawn = 1  # all its legs in one place: a cluster
            else:
                count, drawn = target.count * together * item.each * item.times, together
                item = replace(item, each=1, times=1)
        got = take(hand.rest, count, wanted)
        if not got.found and target.noun.of in (Of.NAMED, Of.SPACE, Of.UNIT):
            got = self._none_found(got, target, hand, item.place)
        spaces = target.noun.of is Of.SPACE or bool(got.last and not got.last.is_stitch)
        if target.noun.of is Of.STITCH_OR_SPACE:
            return self._either(item, target, hand, got)
        uses = got.passed + (0 if spaces else got.found + got.missing)
        uses_spaces = got.passed_spaces + (got.found + got.missing if spaces else 0)
        into = Into.SPACE if spaces else Into.NEXT
        if drawn > 1:
            into = Into.TOGETHER
        elif got.last and got.last.kind is Kind.CHAIN:
            into = Into.CHAIN
        if target.rows_below:
            into = Into.BELOW
        over = 0 if spaces else got.missing
        hand = replace(
            hand,
            rest=got.rest,
            used=hand.used + uses,
            used_spaces=hand.used_spaces + uses_spaces,
            over=hand.over + over,
            over_spaces=hand.over_spaces + (got.missing if spaces else 0),
        )
        return self.made(
            item,
            target,
            hand,
            into,
            uses,
            uses_spaces,
            places=count // drawn if drawn > 1 else count,
            last="space" if spaces else "stitch",
            cell=got.last,
            passing=got.passed + got.passed_spaces,
            drawn=drawn if drawn > 1 else 0,
        )

    def _either(self, item: Make, target: Target, hand: Hand, got: fabric.Taken) -> Hand:
        before = hand.rest
        uses = stitches_left(before) - stitches_left(got.rest) + got.missing
        uses_spaces = spaces_left(before) - spaces_left(got.rest)
        hand = self._moved(hand, got, uses, uses_spaces)
        return self.made(
            item,
            target,
            hand,
            Into.STITCH_OR_SPACE,
            uses,
            uses_spaces,
            places=target.count,
            last="stitch",
        )

    def made(  # noqa: PLR0917
        self,
        item: Make,
        target: Target,
        hand: Hand,
        into: Into,
        uses: int,
        uses_spaces: int,
        *,
        places: int,
        last: str | None = None,
        cell: Cell | None = None,
        passing: int = 0,
        drawn: int = 0,
    ) -> Hand:
        """Return the hand with the stitches made and the block told."""
        count = item.each * places * item.times
        where = Where(
            into,
            places=drawn or places,
            named=_named(target),
            chain_length=cell.length if cell and not cell.is_stitch else target.noun.length,
            position=_position(target),
            loop=target.loop or item.loop or hand.loop,
            rows_below=target.rows_below,
            remark=target.remark,
        )
        slip = item.stitch == "sl st"
        if slip and not self.slips_count:
            block = Block(
                "sl st",
                count,
                where,
                each=item.each,
                uses=uses,
                uses_spaces=uses_spaces,
                role="travel",
                color=hand.color,
                passing=passing,
            )
            return replace(hand.making((), block), moved=True, last=last or hand.last)
        name = item.stitch
        block = Block(
            name,
            count,
            where,
            each=item.each,
            uses=uses,
            uses_spaces=uses_spaces,
            makes=count,
            color=hand.color,
            passing=passing,
            pattern_stitch=item.named,
            role="beginning" if item.beginning else None,
        )
        cells = stitches(name, count)
        if item.each > 2 and places == 1 and item.times == 1:
            cells = tagged(cells, "")
        elif item.each > 2 and last == "space":
            cells = fabric.section(tagged(stitches(name, item.each), ""), places * item.times)
        if hand.standing and into is Into.SAME and hand.out and hand.out[1] is None:
            # a counted chain and what is worked beside it are one group, as a half shell is
            whole = (*hand.out[0], *stitches(name, count))
            hand, cells = replace(hand, out=None), tagged(whole, "") if count > 1 else whole
        return replace(
            hand.making(cells, block),
            begun=True,
            moved=True,
            last=last or hand.last or "stitch",
        )

    @property
    def slips_count(self) -> bool:
        """Slip stitches are stitches only in a row that has no others."""
        return self.first_height == "sl st"

    def in_turning_chain(self, item: Make, target: Target, hand: Hand) -> Hand:
        """The top of the turning chain: the last place of the row below."""
        hand = self.to_the_last(1, hand)
        got = take(hand.rest, 1, any_stitch)
        uses = got.passed + got.found + got.missing
        hand = replace(
            hand,
            rest=got.rest,
            used=hand.used + uses,
            used_spaces=hand.used_spaces + got.passed_spaces,
            over=hand.over + got.missing,
        )
        return self.made(
            item, target, hand, Into.TURNING_CHAIN, uses, got.passed_spaces, places=1, last="stitch"
        )

    def to_the_last(self, count: int, hand: Hand) -> Hand:
        """After a space, what stands before the last places is passed without a word."""
        ahead = stitches_left(hand.rest) - count
        if hand.last != "space" or ahead < 1 or spaces_left(hand.rest):
            return hand
        got = take(hand.rest, ahead, any_stitch)
        return replace(hand, rest=got.rest, used=hand.used + ahead)

    def between(self, item: Make, target: Target, hand: Hand) -> Hand:
        """The gap after the next group of stitches."""
        rest, passed = hand.rest, 0
        while rest is not None:
            rest = opened(rest)
            run = rest.item
            assert isinstance(run, Run)  # noqa: S101
            if not run.cell.is_stitch:
                break
            passed += 1
            unit = run.cell.unit
            rest = without(rest, 1)
            if (unit is not None and unit.index == unit.size - 1) or unit is None:
                break
        hand = replace(hand, rest=rest, used=hand.used + passed)
        return self.made(
            item, target, hand, Into.BETWEEN, passed, 0, places=1, last="stitch", passing=passed
        )

    # -- what is wanted ----------------------------------------------------------------------

    def wanted(self, target: Target, hand: Hand) -> Callable[[Cell], bool]:  # noqa: PLR0911
        """Return the test of a place for *target*."""
        noun = target.noun
        if target.rows_below:
            return any_stitch  # its name is that of a stitch farther down
        if target.within is not None:
            return self._within(target)
        match noun.of:
            case Of.SPACE:
                length = noun.length
                if target.which is Which.CORNER and length is None:
                    length = self._longest_space()
                if length is None:
                    return lambda cell: cell.kind is Kind.SPACE
                return lambda cell: cell.kind is Kind.SPACE and cell.length == length
            case Of.STITCH_OR_SPACE:
                return any_place
            case Of.UNIT:
                return self._unit(noun)
            case Of.NAMED:
                name = noun.name or "st"
                return lambda cell: (
                    cell.kind is Kind.CHAIN
                    or (cell.kind is Kind.STITCH and (cell.turning or answers_to(cell.name, name)))
                )
        if target.which is Which.CENTER or target.which is Which.CORNER:  # noqa: SIM102
            if any(cell.unit for cell in fabric.cells(self.ground.below)):
                return lambda cell: bool(
                    cell.unit and cell.unit.size % 2 and cell.unit.index == cell.unit.size // 2
                )
        return any_stitch

    def _within(self, target: Target) -> Callable[[Cell], bool]:
        """A place of a group: the center dc of the next shell, the space of the next V-stitch."""
        inner = target.within
        assert inner is not None  # noqa: S101
        if target.noun.of is Of.SPACE:
            length = target.noun.length
            return lambda cell: (
                cell.kind is Kind.SPACE and (length is None or cell.length == length)
            )
        units = self._unit(inner.noun)
        if target.which is Which.CENTER:
            return units
        nth = target.nth - 1 if target.which is Which.NTH else 0
        if target.which is Which.LAST:
            return lambda cell: bool(cell.unit and cell.unit.index == cell.unit.size - 1)
        return lambda cell: bool(cell.unit and cell.unit.index == nth)

    def _unit(self, noun: Noun) -> Callable[[Cell], bool]:
        """The middle of a group: its space where it has one, else its center stitch."""
        below = list(fabric.cells(self.ground.below))
        spaced = {
            (cell.unit.name, cell.unit.size)
            for cell in below
            if cell.unit and cell.kind is Kind.SPACE
        }
        if not any(cell.unit for cell in below):
            if any(cell.kind is Kind.SPACE for cell in below):
                return lambda cell: cell.kind is Kind.SPACE
            name = noun.name or ""
            return lambda cell: answers_to(cell.name, name)

        def middle(cell: Cell) -> bool:
            unit = cell.unit
            if unit is None:
                return False
            if (unit.name, unit.size) in spaced:
                return cell.kind is Kind.SPACE
            return unit.index == unit.size // 2

        return middle

    def _longest_space(self) -> int | None:
        return max(
            (cell.length for cell in fabric.cells(self.ground.below) if cell.kind is Kind.SPACE),
            default=None,
        )

    def _none_found(
        self, got: fabric.Taken, target: Target, hand: Hand, place: Place
    ) -> fabric.Taken:
        """No such place ahead: a fault if there is none below at all, else one place too many."""
        wanted = self.wanted(target, hand)
        if self.ground.below and not any(wanted(cell) for cell in fabric.cells(self.ground.below)):
            raise Misfit(Verdict.NO_SUCH_PLACE, place, self._what_is_there(target.noun))
        return fabric.Taken(hand.rest, missing=got.missing)

    def _what_is_there(self, noun: Noun) -> str:
        named = noun.name or (f"ch-{noun.length} space" if noun.length else "chain space")
        there = dict.fromkeys(
            cell.name.replace(" sp", " space")
            for cell in fabric.cells(self.ground.below)
            if (cell.kind is Kind.SPACE) == (noun.of is Of.SPACE)
        )
        kinds = ", ".join(there) or "no chain space"
        return f"it asks for a {named}, but the row below has {kinds}"

    def where(self, target: Target, into: Into, got: fabric.Taken) -> Where:
        """Return the place in the working tree's terms."""
        length = got.last.length if got.last and not got.last.is_stitch else target.noun.length
        return Where(
            into,
            places=target.count,
            named=_named(target),
            chain_length=length,
            position=_position(target),
        )

    def _moved(self, hand: Hand, got: fabric.Taken, uses: int, uses_spaces: int) -> Hand:
        return replace(
            hand,
            rest=got.rest,
            used=hand.used + uses,
            used_spaces=hand.used_spaces + uses_spaces,
            over=hand.over + (got.missing if uses else 0),
            moved=True,
        )

    # -- groups in one place -----------------------------------------------------------------

    def group(self, item: GroupIn, hand: Hand) -> Hand:
        """Several things in one place; the place is used once, the parts make the fabric."""
        target = item.target
        if target.which is Which.EACH:
            return self.each_of(_mixed(item, target), hand, None)
        places = [target, *target.also]
        for each in places:
            for _ in range(each.count if each.which is not Which.SAME else 1):
                hand = self.group_once(item, replace(each, count=1), hand)
        return hand

    def group_once(self, item: GroupIn, target: Target, hand: Hand) -> Hand:
        """One group in one place."""
        anchor = Make("sl st", 1, None, item.place)
        before = hand
        placed = self._place_only(anchor, target, hand)
        inner = replace(placed, out=None, work=None)
        for part in item.parts:
            if isinstance(part, Make):
                part = replace(part, target=_all_in_same(part.target))  # noqa: PLW2901
            inner = self.step(part, inner)
        made = items_made(inner)
        blocks = tuple(work for work in work_done(inner) if isinstance(work, Block))
        where = self._group_where(target, before, placed)
        group = Group(
            blocks,
            where,
            uses=placed.used - before.used,
            uses_spaces=placed.used_spaces - before.used_spaces,
            name=item.name,
            color=hand.color,
        )
        return replace(
            inner,
            out=(tagged(made, item.name or ""), before.out) if made else before.out,
            work=(group, before.work),
        )

    def _group_where(self, target: Target, before: Hand, placed: Hand) -> Where:
        node = placed.work
        if node is not None and node is not before.work and isinstance(node[0], Block):
            return node[0].where
        return Where(Into.SAME, named=_named(target), position=_position(target))

    def _place_only(self, anchor: Make, target: Target, hand: Hand) -> Hand:
        """Use the place without making anything in it."""
        placed = self.make_in(replace(anchor, stitch="sl st"), target, replace(hand))
        if placed.out is not hand.out:  # slip stitches count in a row of slip stitches
            placed = replace(placed, out=hand.out)
        return replace(placed, begun=hand.begun, standing=hand.standing)

    # -- each --------------------------------------------------------------------------------

    def each_of(self, item: EachOf, hand: Hand, most: int | None) -> Hand:
        """Go over a stretch of places, each kind getting its own stitches."""
        limit = self.stretch(item.until, hand) if most is None else most
        walk = EachWalk(self, item, hand)
        return walk.over(limit)

    def stretch(self, until: Bound | None, hand: Hand) -> int | Callable[[Cell], bool]:
        """Return how many stitches lie before the bound, or the test of the cell that stops it."""
        left = stitches_left(hand.rest)
        if until is None:
            return left
        noun = until.noun
        if until.kind == "last":
            if noun.of is Of.SPACE:
                return self.wanted(Target(Which.NEXT, noun), hand)
            return max(left - until.count, -1)
        if noun.of is Of.TURNING_CHAIN:
            return left - 1
        which = Which.CORNER if noun.of is Of.SPACE and noun.length is None else Which.NEXT
        return self.wanted(Target(which, noun), hand)

    # -- repeats -----------------------------------------------------------------------------

    def counted(self, item: Repeated, hand: Hand) -> Hand:
        """A repeat with a number: so many passes, whether they fit or not."""
        total = item.times or 1
        if item.custom == "more":
            total += 1
        elif item.custom == "either":
            self.looked.add(("star", 0))
            total += 0 if self.switches.star_in_all else 1
        last = total - 1 if item.stop_at is not None else total
        runs, hand = self.run(item.body, hand, last, None)
        if item.stop_at is not None:
            runs, hand = self.once(item.body[: item.stop_at], hand, runs)
        hand = self._told(runs, hand)
        if item.extra_stop is not None:
            hand = self.work_all(item.body[: item.extra_stop], hand)
        return hand

    def _told(self, runs: Runs, hand: Hand) -> Hand:
        return runs.told(hand)

    def once(self, body: Sequence[Instruction], hand: Hand, runs: Runs) -> tuple[Runs, Hand]:
        """One more pass, of another length."""
        after = self.work_all(body, replace(hand, out=None, work=None))
        return runs.adding(items_made(after), work_done(after), 1), replace(
            after, out=hand.out, work=hand.work
        )

    def run(
        self,
        body: Sequence[Instruction],
        hand: Hand,
        total: int,
        keep: list[tuple[Runs, Hand]] | None,
    ) -> tuple[Runs, Hand]:
        """Work *total* passes; what comes round again is not worked again."""
        runs = Runs(hand)
        states: list[tuple[Hand, Runs]] = [(hand, runs)]
        number = 0
        while number < total:
            runs, after = self.once(body, hand, runs)
            number += 1
            left = total - number
            if left and after.rest is None and hand.rest is None:
                runs, after = runs.again(1, left), _stretched(hand, after, left)
                return runs, after
            hand = after
            states.append((hand, runs))
            skipped = _come_round(states, left, 2) if left else None
            if skipped:
                times, period = skipped
                hand, runs = _wound_on(states, times, period)
                number += times * period
                states = [(hand, runs)]
        return runs, hand

    def open_outcomes(
        self, item: Instruction, hand: Hand, tail: tuple[Instruction, ...]
    ) -> Iterator[Hand]:
        """Yield the hands after an open instruction, likeliest first."""
        demand = demand_of(tail)
        if not isinstance(item, Repeated):
            yield from self.open_each(item, hand, demand)
            return
        if item.loose:
            for cut in range(len(item.body)):
                whole = replace(item, body=item.body[cut:], loose=False)
                try:
                    before = self.work_all(item.body[:cut], hand) if cut else hand
                    yield from self.open_outcomes(whole, before, tail)
                except Misfit:
                    continue
            return
        states = self.open_passes(item, hand, demand)
        self._note_fit(item, states, demand)
        yield from self._cut(item, states, demand)

    def _cut(self, item: Repeated, states: list[tuple[Hand, Runs]], demand: int) -> Iterator[Hand]:
        if item.until is not None and self._clear_bound(item.until):
            for hand, runs in states:
                if self.bound_met(item.until, hand):
                    yield runs.told(hand)
            if item.stop_at is None:
                return
        ordered = sorted(
            enumerate(states),
            key=lambda pair: (stitches_left(pair[1][0].rest) != demand, -pair[0]),
        )
        for _, (hand, runs) in ordered:
            if item.ending or item.stop_at is not None:
                yield from self._ended(item, hand, runs)
            if item.stop_at is None and runs.number:
                yield runs.told(hand)
            if not item.ending and item.stop_at is None:
                yield from self._ended(item, hand, runs)

    def _ended(self, item: Repeated, hand: Hand, runs: Runs) -> Iterator[Hand]:
        """Yield the hand after a last pass that is cut short, longest first."""
        for body in self._ends(item):
            try:
                more, after = self.once(body, hand, runs)
            except Misfit:
                continue
            if after.over == hand.over:
                yield more.told(after)

    def _ends(self, item: Repeated) -> list[tuple[Instruction, ...]]:
        body = item.body
        if item.stop_at is not None:
            return [body[: item.stop_at]]
        if item.ending:
            cut: list[tuple[Instruction, ...]] = []
            for length in range(len(body), 0, -1):
                shorter = _one_fewer(body[length - 1])
                cut += [(*body[: length - 1], each) for each in shorter]
                if length > 1:
                    cut.append(body[: length - 1])
            return cut
        first = body[0]
        if self.ground.round and isinstance(first, Make | EachOf) and _bounded(first):
            return [(first,)]
        return []

    def _clear_bound(self, until: Bound) -> bool:
        return (
            until.noun.of in (Of.STITCH, Of.NAMED, Of.CHAIN, Of.TURNING_CHAIN, Of.STITCH_OR_SPACE)
            or until.noun.of is Of.SPACE
        )

    def bound_met(self, until: Bound, hand: Hand) -> bool:
        """Tell whether the work stands where the repeat is said to stop."""
        noun = until.noun
        if until.kind == "last":
            if noun.of is Of.SPACE:
                wanted = self.wanted(Target(Which.NEXT, noun), hand)
                return _left_of(hand.rest, wanted) == until.count
            if noun.of is Of.STITCH_OR_SPACE:
                return stitches_left(hand.rest) + spaces_left(hand.rest) == until.count
            return stitches_left(hand.rest) == until.count
        if noun.of is Of.TURNING_CHAIN:
            return stitches_left(hand.rest) == 1
        if hand.rest is None:
            return False
        which = Which.CORNER if noun.of is Of.SPACE and noun.length is None else Which.NEXT
        run = opened(hand.rest).item
        return isinstance(run, Run) and self.wanted(Target(which, noun), hand)(run.cell)

    def open_passes(self, item: Repeated, hand: Hand, demand: int) -> list[tuple[Hand, Runs]]:
        """Work passes until one no longer fits; return every state that may be the last."""
        runs = Runs(hand)
        states: list[tuple[Hand, Runs]] = [(hand, runs)]
        kept: list[tuple[Hand, Runs]] = [(hand, runs)]
        idle = False
        while hand.rest is not None or not runs.number:
            try:
                runs, after = self.once(item.body, hand, runs)
            except Misfit as fault:
                if runs.number or fault.code is not Verdict.NO_SUCH_PLACE:
                    break
                raise
            if after.over > hand.over or after.over_spaces > hand.over_spaces:
                break
            if after.rest is hand.rest and idle:
                break  # passes that use nothing would never end
            idle = after.rest is hand.rest
            per_pass = max(after.used - hand.used, 1)
            hand = after
            states.append((hand, runs))
            kept.append((hand, runs))
            aside = WINDOW + (demand + self._held_back(item)) // per_pass
            skipped = _come_round(states, None, aside)
            if skipped:
                times, period = skipped
                hand, runs = _wound_on(states, times, period)
                states = [(hand, runs)]
                kept.append((hand, runs))
        return kept

    def _held_back(self, item: Repeated) -> int:
        return item.until.count if item.until and item.until.kind == "last" else 0

    def _note_fit(self, item: Repeated, states: list[tuple[Hand, Runs]], demand: int) -> None:
        if len(states) < 2:
            return
        outside = states[0][0].used + demand
        if item.stop_at is not None:
            outside += demand_of(item.body[: item.stop_at])
        each = states[1][0].used - states[0][0].used
        self.fit = (outside, each, states[0][0].used + stitches_left(states[0][0].rest))

    def open_each(self, item: Instruction, hand: Hand, demand: int) -> Iterator[Hand]:
        """An "each" that runs to the end: what follows it needs its own places."""
        many, until = _as_each(item)
        if many is None:
            yield self.step(item, hand)
            return
        firsts, many = _firsts(many)
        for first in firsts:
            hand = self.step(first, hand)
        left = stitches_left(hand.rest)
        if until is not None:
            yield self.each_of(many, hand, None)
            return
        tried = dict.fromkeys(
            most
            for most in (
                left - demand,
                left,
                left - demand - 1,
                left - demand + 1,
                left - 1,
                left - 2,
            )
            if 0 <= most <= left
        )
        if not tried:
            tried = {0: None}
        for most in tried:
            yield self.each_of(many, hand, most)

    # -- endings -----------------------------------------------------------------------------

    def join(self, item: Join, hand: Hand) -> Hand:
        """Close a round, or a chain into a ring."""
        if not hand.begun and hand.chains_here:
            block = Block("sl st", 1, Where(Into.CHAIN, position="first"), role="join")
            return hand.making((), block)
        where = Where(Into.NEXT, position="first", remark=item.into or None)
        return hand.making((), Block(item.stitch, 1, where, role="join", color=hand.color))

    def leave(self, item: Leave, hand: Hand) -> Hand:
        """Places left unworked on purpose: used up, and told."""
        count = stitches_left(hand.rest) if item.count is None else item.count
        if not count:
            return hand
        got = take(hand.rest, count, any_stitch)
        spaces = got.passed_spaces
        rest = got.rest
        if item.count is None:
            spaces += spaces_left(rest)
            rest = None
        block = Block("sk", count, Where(Into.NEXT, places=count), uses=count, uses_spaces=spaces)
        return self._moved(hand.making((), block), replace(got, rest=rest), count, spaces)

    def picot(self, item: Picot, hand: Hand) -> Hand:
        """A picot sits on the stitch before it."""
        block = Block("picot", 1, Where(Into.NOTHING), role="picot", color=hand.color)
        return hand.making((), block)

    def sides(self, item: Sides, hand: Hand) -> Hand:
        """Turn to a ring, to the other side of the chain, or to the row ends."""
        if item.of is Of.RING:
            return replace(hand, ring=True, rest=None)
        if item.of is Of.FREE_LOOP and not hand.begun and self.ground.kind == "chain":
            return hand.making((), Action("remark", "free loops of the chain"))
        if item.of is Of.FREE_LOOP:
            if hand.chains_here or self.ground.kind == "chain":
                left = fabric.size(self.ground.below)[0] or self._chains_in(hand)
                skipped = hand.chains_here if self.ground.kind == "chain" else self._skipped(hand)
                across = max(left - skipped - 1, 0)
                return replace(
                    hand.making((), Action("remark", "other side of the chain")),
                    rest=rest_of((Run(CHAIN, across),)) if across else None,
                    over=hand.over,
                )
            return replace(hand, ends=True, rest=None)
        return replace(hand, ends=True)

    def _chains_in(self, hand: Hand) -> int:
        for work in work_done(hand):
            if isinstance(work, Block) and work.stitch == "ch" and work.role == "foundation":
                return work.count
        return 0

    def _skipped(self, hand: Hand) -> int:
        for work in work_done(hand):
            if isinstance(work, Block) and work.role == "skipped chains":
                return work.count
        return 0

    def act(self, item: Act, hand: Hand) -> Hand:
        """What uses no place: turn, marker, colour, loops."""
        if item.kind == "colour":
            return replace(hand.making((), Action("colour", item.text)), color=item.text)
        if item.kind == "loop":
            return replace(hand, loop=item.text or None)
        return hand.making((), Action(item.kind, item.text))


@dataclass(frozen=True, slots=True)
class Runs:
    """The passes of a repeat so far: what each made and how it was worked, with counts."""

    start: Hand
    made: tuple[tuple[tuple[Item, ...], int], ...] = ()
    worked: tuple[tuple[tuple[Work, ...], int], ...] = ()
    number: int = 0

    def adding(self, items: tuple[Item, ...], works: tuple[Work, ...], times: int) -> Runs:
        """Return the runs with one kind of pass more, *times* over."""
        return Runs(
            self.start,
            _counted_on(self.made, items, times),
            _counted_on(self.worked, works, times),
            self.number + times,
        )

    def again(self, period: int, times: int) -> Runs:
        """Return the runs with the last *period* passes *times* over again."""
        if period == 1:
            return self.adding(self.made[-1][0], self.worked[-1][0], times)
        made = tuple(
            item
            for part, count in _last_of(self.made, period)
            for item in fabric.section(part, count)
        )
        works = tuple(
            work
            for part, count in _last_of(self.worked, period)
            for work in passes([(part, count)])
        )
        kinds = _last_of(self.worked, period)
        if len(kinds) == 1:
            return Runs(
                self.start,
                (*self.made, (fabric.joined(made), times)),
                _counted_on(self.worked, kinds[0][0], times * period),
                self.number + times * period,
            )
        return Runs(
            self.start,
            (*self.made, (fabric.joined(made), times)),
            (*self.worked, (works, times)),
            self.number + times * period,
        )

    def told(self, hand: Hand) -> Hand:
        """Return the hand with all these passes made and told after the start."""
        made = tuple(item for part, count in self.made for item in fabric.section(part, count))
        return hand.making(fabric.joined(made), *passes(list(self.worked)))


def _counted_on(parts: tuple, part: tuple, times: int) -> tuple:  # type: ignore[type-arg]
    if parts and parts[-1][0] == part:
        return (*parts[:-1], (part, parts[-1][1] + times))
    return (*parts, (part, times))


def _last_of(parts: tuple, number: int) -> list:  # type: ignore[type-arg]
    """Return the last *number* passes as (part, count), in order."""
    out: list = []  # type: ignore[type-arg]
    for part, count in reversed(parts):
        if number <= 0:
            break
        taken = min(count, number)
        out.append((part, taken))
        number -= taken
    return out[::-1]


def _come_round(
    states: list[tuple[Hand, Runs]], left: int | None, aside: int
) -> tuple[int, int] | None:
    """Return (times, period) when the work has come round and can be wound on, else None."""
    now = states[-1][0]
    if now.rest is None:
        return None
    for period in range(1, min(len(states), 13)):
        before = states[-1 - period][0]
        if before.over != now.over or before.last != now.last or before.begun != now.begun:
            continue
        moved = drift(before.rest, now.rest)
        if moved is None:
            continue
        depth, step = moved
        times = (count_at(now.rest, depth) - 1) // step - (aside + period - 1) // period
        if left is not None:
            times = min(times, left // period)
        return (times, period) if times > 0 else None
    return None


def _wound_on(states: list[tuple[Hand, Runs]], times: int, period: int) -> tuple[Hand, Runs]:
    now, runs = states[-1]
    before = states[-1 - period][0]
    moved = drift(before.rest, now.rest)
    assert moved is not None and now.rest is not None  # noqa: S101, PT018
    depth, step = moved
    hand = replace(
        now,
        rest=lowered(now.rest, depth, step * times),
        used=now.used + (now.used - before.used) * times,
        used_spaces=now.used_spaces + (now.used_spaces - before.used_spaces) * times,
    )
    return hand, runs.again(period, times)


def _stretched(before: Hand, after: Hand, times: int) -> Hand:
    """The hand after so many more passes over nothing: only the sums grow."""
    return replace(
        after,
        used=after.used + (after.used - before.used) * times,
        used_spaces=after.used_spaces + (after.used_spaces - before.used_spaces) * times,
        over=after.over + (after.over - before.over) * times,
        over_spaces=after.over_spaces + (after.over_spaces - before.over_spaces) * times,
    )


class EachWalk:
    """Going over a stretch of places with one instruction for each kind of place."""

    def __init__(self, bench: Bench, item: EachOf, hand: Hand) -> None:
        self.bench = bench
        self.item = item
        self.hand = hand
        self.tests = [(bench.wanted(_target(part), hand), part) for part in item.parts]
        self.found = 0
        below = hand.rest
        named = [part for part in item.parts if _target(part).noun.of in (Of.NAMED, Of.UNIT)]
        if below is not None and named and not self._any(below):
            fault = named[0]
            raise Misfit(
                Verdict.NO_SUCH_PLACE,
                fault.place,
                bench._what_is_there(_target(fault).noun),
            )
        spaces = [part for part in item.parts if _target(part).noun.of is Of.SPACE]
        if below is not None and spaces and not self._any(below) and len(spaces) == len(item.parts):
            raise Misfit(
                Verdict.NO_SUCH_PLACE,
                spaces[0].place,
                bench._what_is_there(_target(spaces[0]).noun),
            )
        for part in spaces:
            wanted = bench.wanted(_target(part), hand)
            there = [cell for cell in fabric.cells(bench.ground.below) if not cell.is_stitch]
            if there and not any(wanted(cell) for cell in there):
                raise Misfit(
                    Verdict.NO_SUCH_PLACE,
                    part.place,
                    bench._what_is_there(_target(part).noun),
                )
        self.only_spaces = len(spaces) == len(item.parts)

    def _any(self, rest: Rest | None) -> bool:
        while rest is not None:
            if any(fabric.holds(rest.item, test) for test, _ in self.tests):
                return True
            rest = rest.next
        return False

    def over(self, limit: int | Callable[[Cell], bool]) -> Hand:  # noqa: PLR0912
        """Return the hand after the stretch: *limit* stitches, or up to the cell that stops it."""
        hand = self.hand
        rest = hand.rest
        allowed = limit if isinstance(limit, int) else None
        stop = None if isinstance(limit, int) else limit
        if allowed is not None and allowed < 0:
            return replace(hand, over=hand.over - allowed, used=hand.used)
        out: list[Item] = []
        works: list[Work] = []
        used = used_spaces = 0
        everything = allowed is not None and allowed >= stitches_left(rest)
        while rest is not None:
            if allowed is not None and allowed <= 0 and not everything:
                rest = opened(rest)
                if not self._space_to_work(rest.item):
                    break
            item = rest.item
            if isinstance(item, Section):
                times = item.times
                if stop is not None and fabric.holds(item, stop):
                    times = 0
                elif allowed is not None and not everything:
                    times = min(times, (allowed - 1) // item.stitches if item.stitches else times)
                if times < 1:
                    rest = opened(rest)
                    continue
                made, done = self.all_of(item.items)
                out += fabric.section(made, times)
                _tell(works, passes([(done, times)]) if len(done) > 1 else _times(done, times))
                used += item.stitches * times
                used_spaces += item.spaces * times
                if allowed is not None:
                    allowed -= item.stitches * times
                left = item.times - times
                rest = Rest(replace(item, times=left), rest.next) if left else rest.next
                continue
            if stop is not None and stop(item.cell):
                break
            number = item.count
            if allowed is not None and item.cell.is_stitch and not everything:
                number = min(number, allowed)
                allowed -= number
            made, done = self.one(Run(item.cell, number))
            out += made
            _tell(works, done)
            if item.cell.is_stitch:
                used += number
            else:
                used_spaces += number
            rest = without(rest, number)
        spaces = bool(self.found) and self.only_spaces
        return replace(
            hand.making(fabric.joined(out), *works),
            rest=rest,
            used=hand.used + used,
            used_spaces=hand.used_spaces + used_spaces,
            begun=hand.begun or bool(works),
            moved=True,
            last="space" if spaces else "stitch",
        )

    def _space_to_work(self, item: Item) -> bool:
        """A space that lies before the places left aside still belongs to the stretch."""
        return (
            isinstance(item, Run)
            and item.cell.kind is Kind.SPACE
            and any(test(item.cell) for test, _ in self.tests)
        )

    def all_of(self, items: tuple[Item, ...]) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what is made over all of *items*."""
        out: list[Item] = []
        works: list[Work] = []
        for item in items:
            if isinstance(item, Section):
                made, done = self.all_of(item.items)
                out += fabric.section(made, item.times)
                _tell(
                    works,
                    passes([(done, item.times)]) if len(done) > 1 else _times(done, item.times),
                )
            else:
                made, done = self.one(item)
                out += made
                _tell(works, done)
        return fabric.joined(out), tuple(works)

    def one(self, run: Run) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what is made over a run of equal places."""
        for test, part in self.tests:
            if test(run.cell):
                self.found += run.count
                return self.worked(part, run)
        return (), ()

    def worked(self, part: Make | GroupIn, run: Run) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what one instruction makes over a run: decreases take several places."""
        bench, hand = self.bench, self.hand
        target = replace(_target(part), which=Which.NEXT, count=1, until=None, also=(), open=False)
        if isinstance(part, Make) and not (
            bench.specials.get(part.named or "") and bench.specials[part.named or ""].parts
        ):
            drawn = legs(part.stitch)
            groups = drawn if drawn > 1 and not target.together and part.target is None else 1
            number = run.count // groups
            count = number * part.each * part.times
            space = not run.cell.is_stitch
            kind = (
                Into.SPACE if space else (Into.CHAIN if run.cell.kind is Kind.CHAIN else Into.NEXT)
            )
            mixed = (
                len(self.tests) > 1
                and len(
                    {(p.stitch, p.each) if isinstance(p, Make) else ("", 0) for _, p in self.tests}
                )
                == 1
            )
            if mixed or target.noun.of is Of.STITCH_OR_SPACE:
                kind = Into.STITCH_OR_SPACE
            where = Where(
                kind,
                places=run.count,
                named=None if mixed else _named(target),
                chain_length=run.cell.length if space and not mixed else None,
                loop=target.loop or part.loop or hand.loop,
                rows_below=target.rows_below,
            )
            slip = part.stitch == "sl st" and not bench.slips_count
            block = Block(
                part.stitch,
                count,
                where,
                each=part.each,
                uses=0 if space else run.count,
                uses_spaces=run.count if space else 0,
                makes=0 if slip else count,
                color=hand.color,
                pattern_stitch=part.named,
                role="travel" if slip else None,
            )
            cells = () if slip else stitches(part.stitch, count)
            if part.each > 2 and not slip:
                cells = fabric.section(tagged(stitches(part.stitch, part.each), ""), number)
            return cells, (block,)
        group = (
            part
            if isinstance(part, GroupIn)
            else GroupIn(
                bench.specials[part.named or ""].parts, target, part.place, name=part.named
            )
        )
        single = Rest(Run(run.cell, 1), None)
        after = bench.group_once(
            group, target, Hand(single, begun=True, moved=True, color=hand.color)
        )
        made, works = items_made(after), work_done(after)
        return fabric.section(made, run.count), _times(works, run.count)


def _times(works: tuple[Work, ...], times: int) -> tuple[Work, ...]:
    """Return one work so many times over: a block grows, a group counts its places."""
    if times == 1:
        return works
    if len(works) == 1:
        only = works[0]
        if isinstance(only, Block):
            return (
                replace(
                    only,
                    count=only.count * times,
                    uses=only.uses * times,
                    uses_spaces=only.uses_spaces * times,
                    makes=only.makes * times,
                    makes_spaces=only.makes_spaces * times,
                    passing=only.passing * times,
                    where=replace(only.where, places=only.where.places * times),
                ),
            )
        if isinstance(only, Group):
            return (
                replace(
                    only,
                    times=only.times * times,
                    uses=only.uses * times,
                    uses_spaces=only.uses_spaces * times,
                ),
            )
    return passes([(works, times)])


def _tell(works: list[Work], more: tuple[Work, ...]) -> None:
    for work in more:
        if isinstance(work, Block) and works:
            both = merged_block(works[-1], work)
            if both is not None:
                works[-1] = both
                continue
        works.append(work)


# -- facts of wording --------------------------------------------------------------------------


def usual_count(count: int, first: str | None) -> str:
    """Return what the trade takes a beginning chain of *count* for, before stitch *first*."""
    tall = height(first) if first else None
    names = {2: "hdc", 3: "dc", 4: "tr", 5: "dtr", 6: "trtr"}
    if tall is None or tall == 0:
        return names.get(count, "dc" if count < 2 else f"dc+ch-{count - 3}")
    if tall >= 2 and count <= tall:
        return family(first or "dc")
    if tall >= 2:
        return f"{family(first or 'dc')}+ch-{count - tall}"
    return names.get(count, "") if count <= 3 else f"dc+ch-{count - 3}"


def usual_skipped(count: int, first: str | None) -> str:
    """Return what *count* chains skipped at the hook stand for, before stitch *first*.

    More chains than the stitch is tall make an open corner: half of what is over lies above
    the chain, half is passed over below it.
    """
    tall = height(first) if first else None
    if tall is None:
        tall = 3
    if tall <= 1:
        return f"+ch-{count - count // 2}" if count >= 5 else ""
    if count <= tall:
        return family(first or "dc") if count >= tall - 1 else ""
    over = count - tall
    return f"{family(first or 'dc')}+ch-{over // 2}" if over >= 2 else family(first or "dc")


def split_counts_as(counts_as: str) -> tuple[str, int]:
    """Return (stitch, chain length) of "dc+ch-1", "dc" or "+ch-4"."""
    stitch, _, chain = counts_as.partition("+ch-")
    return stitch, int(chain) if chain.isdigit() else 0


def is_open(item: Instruction) -> bool:
    """Tell whether how far *item* goes depends on what follows it."""
    if isinstance(item, Repeated):
        return item.times is None
    if isinstance(item, EachOf):
        return item.until is None
    if isinstance(item, Make | GroupIn):
        target = item.target
        if target is None:
            return False
        return any(
            each.which is Which.EACH and each.until is None and each.noun.of is not Of.ROW_END
            for each in (target, *target.also)
        )
    return False


def demand_of(items: Sequence[Instruction]) -> int:
    """Return how many stitches *items* need, as far as their own words tell."""
    total = 0
    for item in items:
        match item:
            case Make():
                total += _demand_of_make(item)
            case Skip():
                total += 0 if item.target.noun.of is Of.SPACE else item.target.count
            case GroupIn():
                target = item.target
                if target.which is not Which.SAME and target.noun.of is not Of.SPACE:
                    total += target.count
            case Repeated():
                times = (item.times or 0) + (1 if item.custom != "in all" else 0)
                total += demand_of(item.body) * times
            case Leave():
                total += item.count or 0
            case _:
                pass
    return total


def _demand_of_make(item: Make) -> int:
    target = item.target
    drawn = legs(item.stitch)
    if target is None:
        if item.increase:
            return item.times
        return item.each * drawn * item.times if drawn > 1 else item.each
    total = 0
    for each in (target, *target.also):
        if each.which in (Which.SAME, Which.EACH) or each.noun.of in (
            Of.SPACE,
            Of.RING,
            Of.SKIPPED,
            Of.ROW_END,
            Of.BETWEEN,
        ):
            continue
        if drawn > 1 and (each.together or each.count == drawn):
            total += each.count * item.each * item.times
        else:
            total += each.count
    return total


def _place_of(items: Sequence[Instruction]) -> Place:
    for item in items:
        return item.place
    return Place(1, 1)


def _target(part: Make | GroupIn) -> Target:
    return part.target or Target(Which.NEXT, Noun(Of.STITCH))


def _bounded(item: Make | EachOf) -> bool:
    if isinstance(item, EachOf):
        return item.until is not None
    return item.target is not None and item.target.until is not None


def _as_each(item: Instruction) -> tuple[EachOf | None, Bound | None]:
    if isinstance(item, EachOf):
        return item, item.until
    if isinstance(item, Make | GroupIn) and item.target is not None:
        return EachOf((item,), item.place, None), None
    return None, None


def _one_fewer(item: Instruction) -> Sequence[Instruction]:
    """Return *item* over fewer places: "omitting last sc" of "sc in next 2 sts"."""
    if not isinstance(item, Make):
        return []
    if item.target is None:
        return [replace(item, each=number) for number in range(item.each - 1, 0, -1)][:4]
    if item.target.which is Which.NEXT and item.target.count > 1:
        counts = range(item.target.count - 1, 0, -1)
        return [replace(item, target=replace(item.target, count=count)) for count in counts][:4]
    return []


def _goes_along(parts: Sequence[Instruction]) -> bool:
    """Tell whether a named piece works along the row by its own places, not in one place."""
    return any(
        isinstance(part, Make)
        and part.target is not None
        and part.target.which is Which.NEXT
        and len(parts) > 1
        for part in parts
    )


def _all_each(target: Target) -> bool:
    return all(each.which is Which.EACH for each in (target, *target.also))


def _mixed(part: Make | GroupIn, target: Target) -> EachOf:
    """ "in each tr and in each 1-ch sp to next 2-ch sp": the same over places of several kinds."""
    parts = tuple(
        replace(part, target=replace(each, also=(), until=None)) for each in (target, *target.also)
    )
    until = next((each.until for each in (target, *target.also) if each.until is not None), None)
    return EachOf(parts, part.place, until)


def _firsts(item: EachOf) -> tuple[list[Instruction], EachOf]:
    """Part "in next st and in each st across" into the named places and the open stretch."""
    part = item.parts[0]
    target = _target(part)
    if len(item.parts) > 1 or not target.also:
        return [], item
    places = (target, *target.also)
    closed = [each for each in places if each.which is not Which.EACH]
    rest = [each for each in places if each.which is Which.EACH]
    if places[0].which is Which.EACH:
        closed = []
    firsts: list[Instruction] = [replace(part, target=replace(each, also=())) for each in closed]
    parts = tuple(replace(part, target=replace(each, also=())) for each in rest)
    return firsts, EachOf(parts, item.place, None)


def _all_in_same(target: Target | None) -> Target:
    loop = target.loop if target else None
    return Target(Which.SAME, Noun(Of.STITCH), loop=loop)


def _named(target: Target) -> str | None:
    if target.within is not None and target.within.noun.name:
        return target.within.noun.name
    return target.noun.name if target.noun.of in (Of.NAMED, Of.UNIT) else None


def _position(target: Target) -> str | None:
    names = {
        Which.FIRST: "first",
        Which.LAST: "last",
        Which.CENTER: "center",
        Which.CORNER: "corner",
    }
    return names.get(target.which)


def _starts_with_stitch(items: tuple[Item, ...]) -> bool:
    for cell in fabric.cells(items):
        return cell.is_stitch
    return False


def _left_of(rest: Rest | None, wanted: Callable[[Cell], bool]) -> int:
    total = 0
    while rest is not None:
        total += fabric._wanted_in((rest.item,), wanted)
        rest = rest.next
    return total
