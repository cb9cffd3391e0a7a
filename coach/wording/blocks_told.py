"""What one block, group or alternation says: the stitch, how many, and where the hook goes.

Each phrase is built from the block, never from the pattern's text. No phrase here begins
with a capital or ends with a full stop: `telling` makes the sentences.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.working import Block, Group, Into
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
    """Return "into the next chain-2 space, all of these: 3 double crochet, chain 2, ..."."""
    parts = parts_told(group.parts, terms)
    where = place(group.where, terms, places=group.times)
    name = group_name(group, terms)
    if name is None:
        return f"{where}, all of these: {parts}"
    if len(group.parts) == 1:
        named = f"{group.times} {plural(name, group.times)}" if group.times > 1 else name
        return f"{named} {where}: {parts}, all in the one place"
    return f"{name} {where}, all of these: {parts}"


def group_name(group: Group | Block, terms: str) -> str | None:
    """Return what the pattern calls this group or block ("shell"), or None."""
    name = group.name if isinstance(group, Group) else group.pattern_stitch
    return stitch_name(name, terms) if name else None


def parts_told(parts: Sequence[Block], terms: str) -> str:
    """Return a group's contents, counted: "3 double crochet, chain 2, 3 double crochet"."""
    return ", ".join(part_told(part, terms) for part in parts)


def part_told(part: Block, terms: str) -> str:
    """Return one thing within a group, with its number and no place of its own."""
    if part.stitch == "ch":
        return f"chain {part.count}" + (
            f" that counts as {counted_as(part.counts_as, terms)}" if part.counts_as else ""
        )
    if part.stitch == "sk":
        return block_told(part, terms)
    if part.role == "picot":
        return "a picot"
    if part.count == 1:
        return stitch_name(part.stitch, terms)
    return stitches_named(part.stitch, part.count, terms)


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
    """Return "in turn, over the next 6 stitches: front post double, back post double. Start with".

    "In turn" comes first, or two names alone would sound like two stitches and no more. yarn:
    the yarn's name where another than before is worked with.
    """
    names = [short_name(block.stitch, terms) for block in blocks]
    over = f"in turn, over the next {turns} stitches" + (f", in {yarn}" if yarn else "")
    told = ", ".join(names)
    if all(block.where.named for block in blocks):
        told = "; ".join(
            f"{name} {place(block.where, terms, around=is_post(block.stitch))}"
            for name, block in zip(names, blocks, strict=True)
        )
    return f"{over}: {told}. Start with {names[0]}"


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
        where = place(block.where, terms, around=around, places=places)
        return f"{named} {where}: {stitches}, all in the one place"
    if block.where.into is Into.ROW_END and places == 1:
        return f"{stitches}, evenly along the row ends"
    if block.where.into in _ONE_PLACE:
        return f"{stitches} {single_place(block.where, terms, around=around)}"
    where = place(block.where, terms, around=around, places=places)
    if block.where.into in {Into.NEXT, Into.CHAIN} and block.each == 2:
        return f"increase: {stitches} {where}"
    together = ", all in the one place" if block.each > 2 and places == 1 else ""
    return f"{stitches} {where}{together}"


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
    return f"{name} {where}, all in the one place"


def _noun(block: Block, terms: str) -> str:
    return stitch_name(block.where.named, terms) if block.where.named else "stitch"


def _skipped_chains(block: Block, terms: str) -> str:
    start = ordinal(block.count + 1)
    chains = "chain" if block.count == 1 else f"{block.count} chains"
    if block.counts_as:
        verb = "counts" if block.count == 1 else "count"
        what = (
            counted_as(block.counts_as, terms)
            if "+" in block.counts_as
            else f"the first {stitch_name(block.counts_as, terms)}"
        )
        counts = f"{verb} as {what}"
    else:
        counts = "does not count" if block.count == 1 else "do not count"
    skip = skip_word(terms)
    told = f"start in the {start} chain from the hook: {skip} the first {chains}"
    if "+" in (block.counts_as or ""):
        return f"{told}. They {counts}"
    return f"{told}, which {counts}"


def _join(block: Block, terms: str) -> str:
    return f"{join_word(block, terms)} in the first stitch"


def join_word(block: Block, terms: str) -> str:
    """Return "join with a slip stitch", or with the stitch that makes the last space."""
    return f"join with a {stitch_name(block.stitch, terms)}"


def _travel(block: Block, terms: str) -> str:
    where = place(block.where, terms)
    return f"slip stitch {where}, to move along: this does not count"


def _picot(block: Block, terms: str) -> str:
    return "a picot"


_BY_ROLE = {
    "skipped chains": _skipped_chains,
    "join": _join,
    "travel": _travel,
    "picot": _picot,
}
