"""A row of one plain stitch, and the same row shaped at its beginning, its end or both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.craft.instruction import Act, Chain, Instruction, Join, Leave, Make, Of, Repeated, Skip
from coach.craft.pattern import Entry, Line
from coach.craft.stitch import family, height
from coach.notation.cleaning import clean_line
from coach.notation.facts import Facts
from coach.notation.row_grammar import RowReader
from coach.notation.tokens import tokens_of
from coach.notation.words import Vocabulary, understood


@dataclass(frozen=True, slots=True)
class PlainRow:
    """A row of one stitch: its beginning chain, whether that counts, and the chain at its end."""

    stitch: str
    chain: int
    counts: bool
    closing: int

    def row(self, edge: str, *, increase: bool) -> Line:
        """Return the row shaped at *edge* ("both", "beg", "end", "none"), at no place yet."""
        words = ", ".join([*self._beginning(edge, increase), *self._ending(edge, increase)])
        if self.closing:
            words += f", ch {self.closing}, turn"
        reader = RowReader(
            understood(tokens_of([(clean_line(1, words), 0, len(words))]), Vocabulary("US")),
            base=self.stitch,
            specials={},
            suggest=lambda _: "",
        )
        items = tuple(reader.read())
        place = items[0].place
        return Line("", "row", None, items, replace(place, column=1), base_stitch=self.stitch)

    def _beginning(self, edge: str, increase: bool) -> list[str]:
        stitch, at_beginning = self.stitch, edge in ("both", "beg")
        if self.counts and at_beginning and not increase:
            return [f"ch {self.chain - 1}", f"{stitch} in next st (counts as {stitch}2tog)"]
        chain = [f"ch {self.chain}"] if self.chain else []
        if self.counts:
            chain = [f"ch {self.chain} (counts as {stitch})"]
            return [*chain, f"{stitch} in same st"] if at_beginning else chain
        if not at_beginning:
            return chain
        return [*chain, f"2 {stitch} in first st" if increase else f"{stitch}2tog"]

    def _ending(self, edge: str, increase: bool) -> list[str]:
        stitch = self.stitch
        if edge not in ("both", "end"):
            return [f"{stitch} in each st across"]
        if increase:
            return [f"{stitch} in each st to last st", f"2 {stitch} in last st"]
        return [f"{stitch} in each st to last 2 sts", f"{stitch}2tog"]


def plain_row(entries: Sequence[Entry], facts: Facts) -> PlainRow | None:
    """Return the stitch of the last row that is written out, if it has no other."""
    lines = [each for each in entries if isinstance(each, Line)]
    while lines and _leaves_an_edge(lines[-1]) and is_plain(lines[-1]):
        lines.pop()  # an armhole or a neck was begun in it; how a row begins is as before
    last = lines[-1] if lines else None
    if last is None or last.kind != "row" or last.problems or not is_plain(last):
        return None
    makes = [item for item in last.items if isinstance(item, Make)]
    stitch = family(makes[0].stitch)
    chains = [item for item in last.items if isinstance(item, Chain)]
    begins = chains[0] if chains and isinstance(_first(last.items), Chain) else None
    closes = chains[-1] if chains and last.items.index(chains[-1]) > 0 and begins is None else None
    chain = begins or closes
    said = facts.rules.get(chain.count, facts.rules.get(0)) if chain is not None else None
    if chain is not None and chain.counts_as is not None:
        said = chain.counts_as
    tall = height(stitch) or 0
    counts = bool(said) if said is not None else chain is not None and chain.count >= tall > 2
    if closes is not None and counts:
        return None
    if begins is not None and last.number == 1:
        return None
    return PlainRow(stitch, begins.count if begins else 0, counts, closes.count if closes else 0)


def _leaves_an_edge(line: Line) -> bool:
    """Tell whether a row slips over stitches at its beginning, or leaves some at its end."""
    return any(
        isinstance(item, Leave) or (isinstance(item, Make) and item.stitch == "sl st")
        for item in line.items
    )


def _first(items: Sequence[Instruction]) -> Instruction | None:
    return next((item for item in items if not isinstance(item, Act)), None)


def is_plain(line: Line) -> bool:
    """Tell whether a row has one kind of stitch only, each in a stitch of its own or shaped by it."""
    makes = [item for item in line.items if isinstance(item, Make)]
    others = [
        item
        for item in line.items
        if not isinstance(item, Make | Act | Chain | Join | Skip | Leave)
    ]
    spaces = any(make.target is not None and make.target.noun.of is Of.SPACE for make in makes)
    if others or spaces or not makes or any(isinstance(item, Repeated) for item in line.items):
        return False
    return len({family(make.stitch) for make in makes if make.stitch != "sl st"}) == 1
