"""The words of a count check: right, kept, within a row, or off and why.

A count that is off is told as a fact about the row, with what can be done; never as the
maker's fault, and never with the advice to carry on.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from coach.craft.drift_causes import FOUNDATION, Cause, Diagnosis, Mend, Suspect
from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.width import WidthCheck
from coach.wording.numbers_told import counted, times_over
from coach.wording.plain_text import say
from coach.wording.row_facts import label, row_word
from coach.wording.short_sentences import in_short_sentences
from coach.wording.words import Words

TOLD_CAUSES = 3  # more can't be kept in mind, and the likeliest stand first


def right(stage: Stage, number: int) -> Words:
    """Return what is said of a count that is right."""
    return Words(f"{number}, right.", f"{number}: right")


def kept(stage: Stage, number: int) -> Words:
    """Return what is said of a count that differs just as the maker chose to keep it."""
    off = number - stage.stitches
    how = f"{abs(off)} {'more' if off > 0 else 'fewer'} than the pattern"
    return Words(f"{number}: {how}, as before.", f"{number}: as before")


def within(stage: Stage, step: Step, number: int) -> Words:
    """Return what is said of a count in the middle of a row."""
    if stage.kind is StageKind.FINISHING:
        return Words("There is nothing to count here.", "Nothing to count")
    if stage.kind is StageKind.FOUNDATION:
        told = f"{step.made_before} chains before this lot, {step.last} with it."
        return Words(told, f"{step.made_before}, then {step.last}")
    after = step.last or step.made_before
    verdict = ""
    if number in {step.made_before, after}:
        verdict = f"{number}, right. "
    told = (
        f"{verdict}{label(stage)} has {step.made_before} before this block, and {after} with it. "
        f"The whole {row_word(stage)} comes to {stage.stitches}."
    )
    return Words(told, f"{step.made_before} before this block, {after} with it")


def diagnosis(found: Diagnosis, terms: str = "US") -> Words:
    """Return the count against what it should be, the likely causes and what to do."""
    said = [
        _difference(found),
        _unchanged(found),
        _causes(found),
        _known_right(found),
        _what_to_do(found),
        _carried(found),
    ]
    brief = f"{found.count}, not {found.expected}: {_how_many(found)}"
    return Words(" ".join(in_short_sentences(part) for part in said if part), brief)


def _how_many(found: Diagnosis) -> str:
    return f"{abs(found.off)} too {'many' if found.off > 0 else 'few'}"


def _difference(found: Diagnosis) -> str:
    name = "The foundation" if found.row == FOUNDATION else say(found.label)
    head = f"{name} comes to {found.expected}. {found.count} is {_how_many(found)}"
    steady = found.steady
    if steady is None:
        return f"{head}."
    kind = "round" if found.round else "row"
    first = say(found.label_of(steady.after + 1))
    span = span_told(first, say(found.label)) if steady.rows > 1 else say(found.label)
    each = {1: "one", 2: "two"}[steady.a_row]
    more = "extra" if found.off > 0 else "fewer"
    came = "came in" if found.off > 0 else "went missing"
    over = f"They {came} over {counted(steady.rows, kind)}, {span}."
    return f"{head}. {over} That is {each} {more} a {kind}."


def span_told(first: str, last: str) -> str:
    """Return "Rows 2 to 9" for "Row 2" and "Row 9"; where the names differ, both in full."""
    name, _, number = first.rpartition(" ")
    other, _, until = last.rpartition(" ")
    if name and name == other and number.isdigit() and until.isdigit():
        return f"{name}s {number} to {until}"
    return f"{first} to {last}"


def _unchanged(found: Diagnosis) -> str:
    if found.unchanged_since is None or found.off == 0:
        return ""
    since = say(found.label_of(found.unchanged_since))
    return f"It was just as many off at {since}. Nothing was added since."


def _causes(found: Diagnosis) -> str:
    told = [_cause(found, suspect) for suspect in found.suspects[:TOLD_CAUSES]]
    told = [each for each in dict.fromkeys(told) if each]
    if not told:
        return ""
    head = "Most likely" if len(told) > 1 else "Likely"
    return f"{head}: {'. Or '.join(told)}."


def _cause(found: Diagnosis, suspect: Suspect) -> str:
    told = _TOLD[suspect.cause](found, suspect)
    if suspect.row in {found.row, FOUNDATION}:
        return told
    return f"in {say(found.label_of(suspect.row))}, {told}"


def _edge_extra(found: Diagnosis, suspect: Suspect) -> str:
    where = "at one edge" if suspect.times == 1 else "at each edge"
    foot = "at the foot of the turning chain" if found.chain_counts else "in the turning chain"
    return f"an extra stitch {where}. Feel {foot}, and in the end stitch"


def _edge_missed(found: Diagnosis, suspect: Suspect) -> str:
    where = "at one edge" if suspect.times == 1 else "at each edge"
    if found.chain_counts:
        return f"a stitch missed {where}. Most often it is the top of the turning chain"
    return f"a stitch missed {where}: the very first one, or the last"


def _spaces(found: Diagnosis, suspect: Suspect) -> str:
    made = found.count - found.spaces
    return (
        f"{found.count} is {made} and the {found.spaces} spaces between the groups: "
        "a stitch was worked into each space too"
    )


def _sides(found: Diagnosis, suspect: Suspect) -> str:
    each = counted(suspect.times, "stitch")
    if suspect.cause is Cause.SIDE_EXTRA:
        return f"{each} more on each of the {found.sides} sides: often one too many at each corner"
    told = f"{each} fewer on each of the {found.sides} sides"
    return f"{told}: the first stitch after each corner was missed; it hides beside the corner"


def _repeats(found: Diagnosis, suspect: Suspect) -> str:
    one = suspect.times == 1
    many = "one whole repeat" if one else f"{suspect.times} whole repeats"
    verb = "was" if one else "were"
    if suspect.cause is Cause.REPEAT_LONG:
        return f"{many} too many {verb} worked"
    return f"{many} {verb} left out"


def _times(told: str, again: str) -> Callable[[Diagnosis, Suspect], str]:
    def words(found: Diagnosis, suspect: Suspect) -> str:
        return f"{told}, {again.format(times_over(suspect.times))}" if suspect.times > 1 else told

    return words


def _alone(told: str) -> Callable[[Diagnosis, Suspect], str]:
    return lambda found, suspect: told


def _foundation_short(found: Diagnosis, suspect: Suspect) -> str:
    if found.row == FOUNDATION:
        return "some chains are still to make"
    return f"only {found.chained - suspect.times} were chained"


def _foundation_long(found: Diagnosis, suspect: Suspect) -> str:
    if found.row == FOUNDATION:
        return ""
    return f"{found.chained + suspect.times} were chained"


_TOLD: Mapping[Cause, Callable[[Diagnosis, Suspect], str]] = {
    Cause.EDGE_EXTRA: _edge_extra,
    Cause.EDGE_MISSED: _edge_missed,
    Cause.JOIN_WORKED: _alone("the joining slip stitch was worked into like a stitch"),
    Cause.JOIN_MISSED: _alone("the first or the last stitch of the round, beside the join, missed"),
    Cause.SPACES_WORKED: _spaces,
    Cause.SPACE_MISSED: _times("a space was passed over", "{}"),
    Cause.SIDE_MISSED: _sides,
    Cause.SIDE_EXTRA: _sides,
    Cause.REPEAT_SHORT: _repeats,
    Cause.REPEAT_LONG: _repeats,
    Cause.EACH_REPEAT_SHORT: _alone("one stitch was missed in each repeat"),
    Cause.EACH_REPEAT_LONG: _alone("one stitch too many was worked in each repeat"),
    Cause.INCREASE_MISSED: _times("an increase was missed", "{}"),
    Cause.INCREASE_EXTRA: _times("an increase was made once too often", "{}"),
    Cause.DECREASE_MISSED: _times("a decrease was missed", "{}"),
    Cause.DECREASE_EXTRA: _times("a decrease was made once too often", "{}"),
    Cause.CHAIN_MISSED: _times("a chain was missed", "{}"),
    Cause.CHAIN_TWICE: _times("two stitches went into one chain", "{}"),
    Cause.FOUNDATION_SHORT: _foundation_short,
    Cause.FOUNDATION_LONG: _foundation_long,
    Cause.RING_EXTRA: _alone("one more than planned went into the ring"),
    Cause.RING_SHORT: _alone("one fewer than planned went into the ring"),
    Cause.WITHIN_A_BLOCK: _alone("a miscount within a block: count again from marker to marker"),
}


def _known_right(found: Diagnosis) -> str:
    if found.known_right is None or found.off == 0:
        return ""
    kind = "round" if found.round else "row"
    return f"Last {kind} known right: {say(found.label_of(found.known_right))}."


def _what_to_do(found: Diagnosis) -> str:
    told = [_MENDS[mend](found) for mend in found.mends]
    return " Or ".join(
        each if not at else each[:1].lower() + each[1:] for at, each in enumerate(told)
    )


def _rip(found: Diagnosis) -> str:
    if found.known_right is None:
        return f"Count the rows before. Rip back to one that is right, or keep {found.count}."
    to = say(found.label_of(found.known_right))
    return f"Rip back to the end of {to}. Or keep {found.count} and the shape that comes of it."


def _redo(found: Diagnosis) -> str:
    kind = "round" if found.round else "row"
    if found.row == 0 and any(each.cause is Cause.CHAIN_MISSED for each in found.suspects):
        return (
            f"Do not start the next {kind} yet. The pattern is right here. "
            "Count the chain, and work this row again."
        )
    return f"Take back {say(found.label)} to where it went astray. Do so before the next {kind}."


def _take_out(found: Diagnosis) -> str:
    many = "one" if found.off == 1 else str(found.off)
    return f"Take {many} out now."


def _add(found: Diagnosis) -> str:
    if found.row == FOUNDATION:
        return f"Chain {-found.off} more."
    many = "one" if found.off == -1 else str(-found.off)
    return f"Add {many} now, before the join."


def _even_out(found: Diagnosis) -> str:
    how = "work two stitches together" if found.off > 0 else "work two stitches into one"
    return (
        f"In the next row you may {how}, {times_over(abs(found.off))}. This plain fabric allows it."
    )


_MENDS: Mapping[Mend, Callable[[Diagnosis], str]] = {
    Mend.RIP: _rip,
    Mend.REDO_ROW: _redo,
    Mend.TAKE_OUT: _take_out,
    Mend.ADD: _add,
    Mend.EVEN_OUT: _even_out,
    Mend.KNOT_END: lambda found: "Spare chains do no harm. They come out from the knot's end.",
}


def _carried(found: Diagnosis) -> str:
    """What the next round would hide: told where it is built on this one (user need R07)."""
    carried = found.carried
    if carried is None or (Mend.TAKE_OUT not in found.mends and Mend.ADD not in found.mends):
        return ""
    spaces = f" and {counted(carried.spaces, 'space')}" if carried.spaces else ""
    row = say(found.label_of(carried.row))
    return (
        f"If not, {row} would come to {counted(carried.stitches, 'stitch')}{spaces}. "
        "Nothing in its words would stop it."
    )


def width(check: WidthCheck | None) -> Words:
    """Return what a measured width comes to in stitches (user need R05)."""
    if check is None:
        return Words(
            "The pattern gives no gauge that tells stitches. I keep this width. "
            "The next one that you tell is compared with it. Count one row to be sure of this one.",
            "Width kept; count one row",
        )
    told = f"That is about {counted(check.stitches, 'stitch')}"
    source = "by the gauge" if check.by_gauge else "going by the first width you told"
    short = check.stitches - check.expected
    if abs(short) <= check.blur:
        return Words(f"{told}, {source}: as planned.", f"about {check.stitches}: as planned")
    how = f"{abs(short)} {'more' if short > 0 else 'fewer'} than the {check.expected} planned"
    return Words(
        f"{told}, {source}. That is about {how}. Count one row now. "
        "Blocking does not cure a difference of stitches.",
        f"about {check.stitches}, not {check.expected}: count now",
    )
