"""One row written back: instructions to the words that are read as the same instructions.

Refuses (WordlessError) what the written language has no settled words for; the caller then keeps
the designer's own words.
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.instruction import (
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
    Picot,
    Repeated,
    Sides,
    Skip,
    Target,
    Which,
)
from coach.craft.pattern import Stated
from coach.craft.stitch import LEG, legs
from coach.notation.words import Vocabulary
from coach.notation.writing_words import (
    LOOPS,
    Terms,
    WordlessError,
    bound_words,
    noun_words,
    ordinal,
    respelled,
    target_words,
)

_STARS = (("*", "**"), ("†", "††"))
_SIDES = {
    Of.RING: "make a magic ring",
    Of.FREE_LOOP: "on other side of ch",
    Of.ROW_END: "along row ends",
}
_LOOP_ACTS = {
    "back": "in back loop only",
    "front": "in front loop only",
    "third": "in 3rd loop only",
    "back bump": "in back bump",
}


class RowWriter:
    """Writes the instructions of one row in *terms*; remarks are respelled from *source*."""

    def __init__(self, terms: Terms, source: Vocabulary, *, around: str = "across") -> None:
        self.terms = terms
        self.source = source
        self.around = around

    def row(self, items: Sequence[Instruction], stated: Sequence[Sequence[Stated]]) -> str:
        """Return the whole row: its instructions, a full stop, its stated counts."""
        words = self.sequence(items)
        said = f"{words[:1].upper()}{words[1:]}." if words else ""
        counts = self.counts(stated)
        return " ".join(part for part in (said, counts) if part)

    def sequence(
        self, items: Sequence[Instruction], depth: int = 0, stop: int | None = None
    ) -> str:
        """Return *items* one after another; the stop mark of a repeat stands after item *stop*."""
        out = ""
        index = 0
        loose = ""
        while index < len(items):
            taken, words = self.drawn_together(items, index, depth)
            item = items[index]
            index += taken
            out += f"{loose or (', ' if out else '')}{words}"
            loose = ""
            if isinstance(item, Repeated) and item.star and item.ending and index < len(items):
                loose = " "
            if stop is not None and index == stop:
                out += _STARS[depth - 1][1]
        if stop == 0:
            raise WordlessError("a repeat that stops before it begins")
        return out

    def drawn_together(
        self, items: Sequence[Instruction], index: int, depth: int
    ) -> tuple[int, str]:
        """Return how many of the items at *index* are said in one breath, and the words."""
        item = items[index]
        after = items[index + 1] if index + 1 < len(items) else None
        if isinstance(item, Skip) and isinstance(after, Make) and _from_hook(item, after):
            return 2, self.from_hook(item, after)
        if isinstance(item, Chain) and isinstance(after, Join) and after.stitch != "sl st":
            closing = self.terms.stitch(after.stitch)
            return 2, f"join with ch {item.count}, {closing} in first st"
        return 1, self.item(item, depth)

    def item(self, item: Instruction, depth: int) -> str:  # noqa: PLR0911 - one for each kind
        """Return one instruction's words."""
        match item:
            case Make():
                return self.make(item)
            case Chain():
                return self.chain(item)
            case Picot():
                where = f" {self.where(item.target)}" if item.target else ""
                return f"ch-{item.chains} picot{where}"
            case Skip():
                return self.skip(item)
            case GroupIn():
                return f"({self.sequence(item.parts)}) {self.where(item.target)}"
            case EachOf():
                return self.each_of(item)
            case Repeated():
                return self.repeated(item, depth)
            case Join():
                return self.join(item)
            case Leave(count=None):
                return "leave rem sts unworked"
            case Leave():
                return f"leave last {item.count} sts unworked"
            case Sides() if item.of in _SIDES:
                return _SIDES[item.of]
            case Act():
                return self.act(item)
        raise WordlessError(f"no words for {item}")

    def where(self, target: Target) -> str:
        """Return a target's words."""
        return target_words(target, self.terms, around=self.around)

    # -- stitches ----------------------------------------------------------------------------

    def make(self, item: Make) -> str:
        """Return "2 sc in next st", "sc2tog 3 times", "sc inc", "5 sc"."""
        name = self.name(item)
        drawn = legs(item.stitch) > 1
        loop = self.loop(item)
        if item.target is None:
            if item.increase and item.each == 2:
                return f"{_counted(item.times)}{name}{loop}"
            if item.increase:
                raise WordlessError("an increase of so many needs its place")
            if drawn and item.each == 1:
                return f"{name}{loop}{_times(item.times)}"
            return f"{_counted(item.each)}{name}{loop}{_times(item.times)}"
        each = 1 if item.increase and item.each == 2 else item.each
        where = self.where(item.target)
        if loop:
            where = f"{loop.removesuffix(' only')} of {where.removeprefix('in ')}"
        return f"{_counted(each)}{name} {where.strip()}{_times(item.times)}"

    def loop(self, item: Make) -> str:
        """Return " in back loop only", or nothing where both loops are meant."""
        if item.loop is None:
            return ""
        if item.loop not in LOOPS or (item.target is not None and item.target.around):
            raise WordlessError(f"no words for a stitch worked in the {item.loop}")
        return f" in {LOOPS[item.loop]} only"

    def name(self, item: Make) -> str:
        """Return what the stitch is called; one closed to a single top keeps its own name."""
        if item.increase:
            return f"{self.terms.stitch(item.stitch)} inc"
        beginning = "beg " if item.beginning else ""
        if item.named is not None:
            return f"{beginning}{item.named}"
        return f"{beginning}{self.terms.stitch(item.stitch)}"

    def from_hook(self, skip: Skip, make: Make) -> str:
        """Return "dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across"."""
        count = skip.target.count
        target = make.target
        loop = f"{LOOPS.get(target.loop, target.loop)} of " if target and target.loop else ""
        words = f"{self.name(make)} in {loop}{ordinal(count + 1)} ch from hook"
        if skip.counts_as is not None:
            words += f" ({self.skipped_chains(count, skip.counts_as)})"
        for each in target.also if target else ():
            words += f" and {self.where(each)}"
        return words

    def skipped_chains(self, count: int, counts_as: str) -> str:
        """Return "3 skipped ch count as dc"."""
        if not counts_as:
            return "skipped ch do not count as st"
        return f"{count} skipped ch count as {self.terms.counted(counts_as)}"

    def each_of(self, item: EachOf) -> str:
        """Return "2 sc in each ch-1 sp and sc in each dc across"."""
        words = " and ".join(self.item(part, 0) for part in item.parts)
        return f"{words} {bound_words(item.until, self.terms)}" if item.until else words

    # -- chains, skips, joins, actions -------------------------------------------------------

    def chain(self, item: Chain) -> str:
        """Return "ch 3 (counts as dc here and throughout)"."""
        if item.counts_as == LEG:
            raise WordlessError("a chain that is one leg of a decrease")
        if item.counts_as is None:
            return f"ch {item.count}"
        everywhere = " here and throughout" if item.throughout else ""
        if not item.counts_as:
            return f"ch {item.count} (does not count as a st{everywhere})"
        return f"ch {item.count} (counts as {self.terms.counted(item.counts_as)}{everywhere})"

    def skip(self, item: Skip) -> str:
        """Return "sk next 2 sts", "miss 3 ch (count as tr)"."""
        word, target = self.terms.skip, item.target
        if target.noun.of is Of.FROM_HOOK:
            words = f"{word} {target.count} ch"
            if item.counts_as is None:
                return words
            if not item.counts_as:
                return f"{words} (does not count as a st)"
            return f"{words} (count as {self.terms.counted(item.counts_as)})"
        if target.which is Which.NEXT and target.count > 1 and not target.also:
            return f"{word} next {target.count} {noun_words(target.noun, self.terms, many=True)}"
        return f"{word} {self.where(target).split(' ', 1)[1]}"

    def join(self, item: Join) -> str:
        """Return "join with sl st in first sc"."""
        if item.stitch != "sl st":
            return f"join with {self.terms.stitch(item.stitch)} in first st"
        if item.ring:
            return f"{self.terms.slip} in first ch to form ring"
        place = joined_place(item.into)
        if not place:
            return "join"
        return f"join with {self.terms.slip} in {respelled(place, self.source, self.terms)}"

    def act(self, item: Act) -> str:
        """Return what uses no place: a turn, a colour, a marker, a remark."""
        match item.kind:
            case "turn" | "do not turn":
                return item.kind
            case "fasten off":
                return "fasten off"
            case "loop" if item.text in _LOOP_ACTS:
                return _LOOP_ACTS[item.text]
            case "colour":
                if item.text == "next colour":
                    return "change colour"
                letter = len(item.text) == 1 or item.text in ("MC", "CC", "CA", "CB")
                return f"with {item.text}" if letter else f"change to {item.text}"
            case "marker" | "remark":
                return respelled(item.text, self.source, self.terms)
        raise WordlessError(f"no words for {item}")

    # -- repeats -----------------------------------------------------------------------------

    def repeated(self, item: Repeated, depth: int) -> str:
        """Return a repeat: a star's with its "rep from *", a bracket's with its times."""
        if item.loose or item.extra_stop is not None or item.custom == "others" or not item.body:
            raise WordlessError("a repeat that the words leave open")
        if not item.star:
            return f"[{self.sequence(item.body)}] {self.bracket_tail(item)}"
        if depth >= len(_STARS):
            raise WordlessError("stars nested too deep")
        mark, end = _STARS[depth]
        body = self.sequence(item.body, depth + 1, item.stop_at)
        return f"{mark}{body}; rep from {mark} {self.star_tail(item, end)}"

    def bracket_tail(self, item: Repeated) -> str:
        """Return "3 times", "across", "to last 2 sts"."""
        if item.stop_at is not None or item.ending or item.custom != "in all":
            raise WordlessError("a bracket with a star's ending")
        if item.times is not None:
            return f"{item.times} times"
        if item.until is None:
            return self.around
        if item.until.kind == "last":
            return bound_words(item.until, self.terms)
        return f"{self.around} {bound_words(item.until, self.terms)}"

    def star_tail(self, item: Repeated, end: str) -> str:
        """Return "4 more times", "to last 3 sts", "across, ending last rep at **"."""
        words: list[str] = []
        if item.times is not None:
            custom = {"more": "more times", "in all": "times in all"}.get(item.custom, "times")
            words.append(f"{item.times} {custom}")
        if item.until is not None:
            words.append(bound_words(item.until, self.terms))
        if not words:
            words.append(self.around)
        tail = " ".join(words)
        if item.stop_at is not None:
            tail += f", ending last rep at {end}"
        if item.ending:
            tail += ", ending with"
        return tail

    # -- counts ------------------------------------------------------------------------------

    def counts(self, stated: Sequence[Sequence[Stated]]) -> str:
        """Return "(24 sc, 4 ch-2 sps)", or "(18, 24, 30 sc)" for the rows of a range."""
        if not stated:
            return ""
        if len(stated) == 1:
            return f"({', '.join(self.figure(each) for each in stated[0])})"
        numbers = [str(each[0].number) for each in stated[:-1]]
        shared = [self.figure(each) for each in stated[-1]]
        return f"({', '.join([*numbers, *shared])})"

    def figure(self, stated: Stated) -> str:
        """Return one figure: "24 sc", "36"."""
        if stated.noun is None:
            return str(stated.number)
        return f"{stated.number} {noun_words(stated.noun, self.terms, many=stated.number != 1)}"


def joined_place(into: str) -> str:
    """Return only the place of what a join said: "with sl st in first sc" is "first sc"."""
    words = into.split()
    for index, word in enumerate(words):
        if word.lower() in ("in", "to", "into", "on", "through") and index + 1 < len(words):
            return " ".join(words[index + 1 :])
    return " ".join(word for word in words if word.lower() not in ("with", "by", "sl", "st", "ss"))


def _from_hook(skip: Skip, make: Make) -> bool:
    target = make.target
    return (
        skip.target.noun.of is Of.FROM_HOOK
        and skip.target.which is Which.NEXT
        and target is not None
        and target.which is Which.NEXT
        and target.noun == Noun(Of.CHAIN)
        and target.count == 1
        and make.each == 1
        and make.times == 1
        and not make.increase
        and make.loop is None
    )


def _counted(number: int) -> str:
    return f"{number} " if number != 1 else ""


def _times(number: int) -> str:
    return f" {number} times" if number != 1 else ""
