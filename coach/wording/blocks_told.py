"""What one block, group or alternation says: the stitch, how many, and where the hook goes.

Each phrase is built from the block, never from the pattern's text. No phrase here begins
with a capital or ends with a full stop: `telling` makes the sentences.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.working import Block, Group, Into
from coach.wording.groups_told import Thing, named_together, together
from coach.wording.numbers_told import ordinal, times_over
from coach.wording.places import next_places, place, single_place
from coach.wording.stitch_names import is_post, plural, short_name, stitch_name, stitches_named


def block_told(block: Block | Group, terms: str) -> str:
    """Return the phrase for *block*: "single crochet in each of the next 8 stitches"."""
    if isinstance(block, Group):
        return group_told(block, terms)
    told = _BY_ROLE.get(block.role or "")
    if told is not None:
        return told(block, terms)
    if block.stitch == "sk":
        return f"{skip_word(terms)} {next_places(block.where, terms, block.count)}"
    if block.stitch == "ch":
        return _chain(block)
    return f"{_worked(block, terms)}{_passing(block)}"


def _chain(block: Block) -> str:
    if block.already_made:
        return f"the {block.count} chains at the turn are made already"
    return f"chain {block.count}"


def _passing(block: Block) -> str:
    """Say what lies between the places and is passed without a word in the pattern."""
    if not block.passing or block.where.into is not Into.NEXT:
        return ""
    if block.uses_spaces:
        return ", past the space" if block.uses_spaces == 1 else ", past the spaces between"
    return ", past the stitches between"


def group_told(group: Group, terms: str) -> str:
    """Return "work into the next chain-2 space. Make all of these: 3 double crochet, ..."."""
    things = [thing_told(part, terms) for part in group.parts]
    name = group_name(group, terms)
    if name is None:
        return together(group.where, terms, group.times, things)
    return named_together(name, group.where, terms, group.times, things)


def group_name(group: Group | Block, terms: str) -> str | None:
    """Return what the pattern calls this group or block ("shell"), or None."""
    name = group.name if isinstance(group, Group) else group.pattern_stitch
    return stitch_name(name, terms) if name else None


def thing_told(part: Block, terms: str) -> Thing:
    """Return one thing within a group, with its number, and what its chain counts as."""
    if part.stitch == "ch":
        counts = f"It counts as {counted_as(part.counts_as, terms)}" if part.counts_as else ""
        return f"chain {part.count}", counts
    if part.stitch == "sk":
        return block_told(part, terms), ""
    if part.role == "picot":
        return "a picot", ""
    if part.count == 1:
        return stitch_name(part.stitch, terms), ""
    return stitches_named(part.stitch, part.count, terms), ""


def counted_as(counts_as: str, terms: str) -> str:
    """Return what a chain stands for: "a double crochet and chain 1"."""
    stitch, _, more = counts_as.partition("+")
    told = f"a {stitch_name(stitch, terms)}"
    return f"{told} and chain {more.removeprefix('ch-')}" if more else told


def skip_word(terms: str) -> str:
    """Return "skip", or "miss" where UK terms are spoken ("Common crochet symbols chart")."""
    return "miss" if terms.upper() == "UK" else "skip"


def drawn_together(block: Block) -> int:
    """Return how many places one decrease or cluster draws together."""
    digits = "".join(letter for letter in block.stitch if letter.isdigit())
    if block.stitch.endswith("tog") and digits:
        return int(digits)
    if block.where.places > 1 and block.count == 1:
        return block.where.places
    return max(1, block.uses // max(1, block.count)) if block.uses else block.where.places


def alternation_told(blocks: Sequence[Block], turns: int, terms: str, yarn: str = "") -> str:
    """Return "the next 6 stitches go in turn. First front post double, then back post double ...".

    "In turn" comes first, or two names alone would sound like two stitches and no more. yarn:
    the yarn's name where another than before is worked with.
    """
    head = f"the next {turns} stitches go in turn" + (f", in {yarn}" if yarn else "")
    names = [short_name(block.stitch, terms) for block in blocks]
    if not all(block.where.named for block in blocks):
        return f"{head}. First {', then '.join(names)}, and so on"
    first, *others = (
        f"{name} {place(block.where, terms, around=is_post(block.stitch))}"
        for name, block in zip(names, blocks, strict=True)
    )
    then = "".join(f". Then {each}" for each in others)
    return f"{head}. First {first}{then}. Then {names[0]} again, and so on"


def _worked(block: Block, terms: str) -> str:
    if block.where.into is Into.TOGETHER or block.stitch in {"dec", "inv dec"}:
        return _together(block, terms)
    if block.stitch.endswith("tog"):
        return _closed_in_one_place(block, terms)
    around = is_post(block.stitch)
    named = group_name(block, terms)
    if block.each > 1:
        return _several_each(block, terms, named, around=around)
    name = named or stitch_name(block.stitch, terms)
    if block.count > 1 and (block.where.places <= 1 or block.where.into in _ONE_PLACE):
        name = f"{block.count} {plural(name, block.count)}"
        if block.where.into in {Into.NEXT, Into.CHAIN, Into.FREE_LOOP, Into.ROW_END}:
            return f"{name} {place(block.where, terms, around=around, places=block.count)}"
    return f"{name} {place(block.where, terms, around=around)}".rstrip()


_ONE_PLACE = {Into.RING, Into.SAME, Into.TURNING_CHAIN, Into.NOTHING}


def _several_each(block: Block, terms: str, named: str | None, *, around: bool) -> str:
    """An increase, or several in one place, again in each of so many places."""
    places = max(1, block.count // block.each)
    stitches = stitches_named(block.stitch, block.each, terms)
    if named:
        return named_together(named, block.where, terms, places, [(stitches, "")])
    if block.where.into is Into.ROW_END and places == 1:
        return f"{stitches}, evenly along the row ends"
    if block.where.into in _ONE_PLACE:
        return f"{stitches} {single_place(block.where, terms, around=around)}"
    where = place(block.where, terms, around=around, places=places)
    if block.where.into in {Into.NEXT, Into.CHAIN} and block.each == 2:
        return f"increase: {stitches} {where}"
    one_place = ", all" if block.each > 2 and places == 1 else ""
    return f"{stitches}{one_place} {where}"


def _together(block: Block, terms: str) -> str:
    over = drawn_together(block)
    base = re.sub(r"\d+tog$", "", block.stitch)
    places = f"the next {over} {plural(_noun(block, terms), over)}"
    if "tog" not in block.stitch and block.stitch not in {"dec", "inv dec"}:
        name = group_name(block, terms) or stitch_name(block.stitch, terms)
        again = f"{block.count} {plural(name, block.count)}, each" if block.count > 1 else name
        return f"{again} over {places}"
    invisible = _INVISIBLE if "inv" in (block.pattern_stitch or block.stitch) else ""
    how = "work" if base in {"dec", "inv dec", ""} else stitch_name(base, terms)
    around = "around " if is_post(base) else ""
    told = f"{how} {around}{places} together{invisible}"
    if block.count > 1:
        return f"decrease {times_over(block.count)}: each time, {told}"
    return f"decrease: {told}"


_INVISIBLE = ", in their front loops only"


def _closed_in_one_place(block: Block, terms: str) -> str:
    """Several begun in one place and closed together: the legs of a cluster."""
    name = group_name(block, terms) or stitch_name(block.stitch, terms)
    where = place(block.where, terms, around=is_post(block.stitch))
    return f"{name}, all {where}"


def _noun(block: Block, terms: str) -> str:
    return stitch_name(block.where.named, terms) if block.where.named else "stitch"


def _skipped_chains(block: Block, terms: str) -> str:
    start = f"start in the {ordinal(block.count + 1)} chain from the hook"
    skipped = "missed" if skip_word(terms) == "miss" else "skipped"
    chains = f"the {skipped} chain" if block.count == 1 else f"the {block.count} {skipped} chains"
    if not block.counts_as:
        does = "does" if block.count == 1 else "do"
        return f"{start}. {chains.capitalize()} {does} not count"
    what = (
        counted_as(block.counts_as, terms)
        if "+" in block.counts_as
        else f"the first {stitch_name(block.counts_as, terms)}"
    )
    count = "counts" if block.count == 1 else "count"
    return f"{start}. {chains.capitalize()} {count} as {what}"


def _join(block: Block, terms: str) -> str:
    return f"{join_word(block, terms)} in the first stitch"


def join_word(block: Block, terms: str) -> str:
    """Return "join with a slip stitch", or with the stitch that makes the last space."""
    return f"join with a {stitch_name(block.stitch, terms)}"


def _travel(block: Block, terms: str) -> str:
    where = place(block.where, terms)
    counts = "They do not count" if block.count > 1 else "It does not count"
    return f"slip stitch {where}, to move along. {counts}"


def _picot(block: Block, terms: str) -> str:
    return "a picot"


_BY_ROLE = {
    "skipped chains": _skipped_chains,
    "join": _join,
    "travel": _travel,
    "picot": _picot,
}
