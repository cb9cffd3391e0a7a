"""What a maker should find with eyes or fingers: how the next stitches stand, and whether to follow.

Told by touch first: ridges, gaps, fans and bumps. It rests nothing on colour or on a picture.
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.appearance import Appearance, Following, Look, Seen, appearance
from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.working import Block, Into
from coach.wording.blocks_told import skip_word
from coach.wording.hands import mirror, tail_test
from coach.wording.numbers_told import counted
from coach.wording.places import place
from coach.wording.plain_text import sentence
from coach.wording.row_facts import row_word
from coach.wording.stitch_names import is_post, stitch_name
from coach.wording.words import Words

MARKERS_FROM = 3  # with three groups or more, a marker at each saves a recount


def seen_words(stage: Stage, step: Step, terms: str = "US", hand: str = "right") -> Words:
    """Return what the maker meets now, what it makes, and whether to follow what shows."""
    if stage.kind is StageKind.FOUNDATION:
        return Words(FOUNDATION, "A chain: a smooth braid")
    if stage.kind is StageKind.FINISHING or not step.parts:
        return Words("There is nothing to feel for here.", "Nothing to feel for")
    seen = appearance(stage, step)
    said = [_meets(stage, seen), _makes(seen), follow_told(seen.following, step)]
    if step.number == 1:
        said.append(edges_told(stage, terms))
    if step.passes and step.passes[0].of >= MARKERS_FROM and step.passes[0].number == 1:
        said.append("A marker after each group saves counting.")
    full = " ".join(part for part in said if part) or "The next stitches lie flat."
    return Words(mirror(full, hand), _brief(seen))


# Common practice, no source: what a chain feels like.
FOUNDATION = (
    "A chain has a front and a back. The front feels like a smooth flat braid. "
    "The back has a row of small bumps, one for each chain."
)


def _meets(stage: Stage, seen: Appearance) -> str:
    if not seen.meets:
        return ""
    if seen.meets[0].look is Look.CHAIN:
        return "You work into the foundation chain. It feels like a flat braid."
    return _in_order(f"In the {row_word(stage)} below:", seen.meets)


def _makes(seen: Appearance) -> str:
    if not seen.makes or all(each.look is Look.FLAT for each in seen.makes):
        return ""
    return _in_order("This makes", seen.makes)


def _in_order(lead: str, looks: Sequence[Seen]) -> str:
    """Tell each look in a sentence of its own; what comes again and again is told once."""
    told = [_look_told(each) for each in looks]
    cycle = _cycle(told)
    first, *others = told[:cycle]
    said = [f"{lead} {first}.", *(f"Then {each}." for each in others)]
    if cycle < len(told):
        said.append("And so on in turn.")
    return " ".join(said)


def _cycle(told: Sequence[str]) -> int:
    """Return after how many the same ones come again, at least once whole; all of them if never."""
    for many in range(2, len(told) // 2 + 1):
        if all(told[at] == told[at - many] for at in range(many, len(told))):
            return many
    return len(told)


def _look_told(seen: Seen) -> str:
    count = seen.count
    if seen.look is Look.FAN and seen.of:
        whole, part = divmod(count, seen.of)
        if whole and not part:
            return counted(whole, f"fan of {seen.of}", f"fans of {seen.of}")
        return f"{counted(count, 'stitch')} of a fan of {seen.of}"
    one, many = _TOLD[seen.look]
    return counted(count, one, many)


_TOLD = {
    Look.FLAT: ("flat stitch", "flat stitches"),
    Look.TOWARDS: (
        "ridge that stands out towards you",
        "ridges that stand out towards you",
    ),
    Look.AWAY: (
        "hollow that sinks away from you",
        "hollows that sink away from you",
    ),
    Look.BUMP_TOWARDS: ("bump towards you", "bumps towards you"),
    Look.BUMP_AWAY: ("bump on the far side", "bumps on the far side"),
    Look.SOFT: ("soft round bump", "soft round bumps"),
    Look.FAN: ("fan", "fans"),
    Look.GAP: ("gap", "gaps"),
    Look.CHAIN: ("chain", "chains"),
}

_FOLLOWING = {
    Following.NOTHING: "",
    Following.FOLLOW: "You may follow what shows: ridges stay ridges, hollows stay hollows.",
    Following.REVERSE: "Do not follow what shows. Reverse it here: {posts}.",
    Following.BEGIN: "A new {shape} begins here, on flat stitches.",
    Following.MIXED: "Some follow what shows and some do not: go by the words here.",
}
_REVERSED = {
    "FP": "hollows become ridges towards you",
    "BP": "ridges become hollows",
}


def follow_told(following: Following, step: Step) -> str:
    """Return whether the maker may follow what shows below, or must reverse it here."""
    told = _FOLLOWING[following]
    sides = [
        part.stitch[:2].upper()
        for part in step.parts
        if isinstance(part, Block) and is_post(part.stitch)
    ]
    posts = ", and ".join(dict.fromkeys(_REVERSED[side] for side in sides if side in _REVERSED))
    shape = "ridge" if "FP" in sides else "hollow"
    return told.format(posts=posts, shape=shape)


def _brief(seen: Appearance) -> str:
    told = ", ".join(_look_told(each) for each in seen.meets or seen.makes)
    return told or "flat stitches"


def edges_told(stage: Stage, terms: str = "US") -> str:
    """Return where the first and the last stitch of a row go."""
    return " ".join(part for part in (first_told(stage, terms), last_told(stage, terms)) if part)


def first_told(stage: Stage, terms: str = "US") -> str:
    """Return where the first stitch goes: on the turning chain's count it depends."""
    chain, first = stage.turning_chain, stage.first
    if first is None:
        return ""
    where = place(first.where, terms, places=1).replace("next", "first", 1)
    if chain is not None and chain.counts_as and chain.role != "skipped chains":
        counts = (
            f"The chain counts as the first {stitch_name(chain.counts_as.partition('+')[0], terms)}"
        )
        if stage.kind is StageKind.ROW and chain.uses and first.where.into is Into.NEXT:
            return f"{counts}: {skip_word(terms)} the first stitch."
        return f"{counts}."
    if first.where.into in {Into.NEXT, Into.CHAIN}:
        if chain is not None and chain.role == "skipped chains":
            return ""
        return "The first stitch goes in the very first stitch."
    return sentence(f"The first goes {where}")


def last_told(stage: Stage, terms: str = "US") -> str:
    """Return where the last stitch goes: the top of the turning chain, the last stitch, a space."""
    last = stage.last
    if last is None:
        return ""
    if last.where.into is Into.TURNING_CHAIN or (
        stage.counted_below is not None and last.where.into is Into.NEXT
    ):
        return "The last stitch goes in the top of the turning chain."
    if stage.joined:
        return "The join at the end is not a stitch."
    chain_below = stage.below is not None and stage.kind is StageKind.ROW
    if last.where.into is Into.NEXT:
        told = "The last stitch goes in the last stitch"
        return f"{told}. Leave the turning chain unworked." if chain_below else f"{told}."
    return sentence(
        f"The last goes {place(last.where, terms, places=1).replace('next', 'last', 1)}"
    )


def side_test(stage: Stage, hand: str = "right") -> str:
    """Return the test by touch for the side that faces, after the row and before turning."""
    if stage.row is None or stage.row.number is None or stage.kind is not StageKind.ROW:
        return ""
    return tail_test(stage.row.number, hand)
