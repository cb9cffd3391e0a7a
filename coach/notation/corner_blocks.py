"""Corner to corner: what the chain of a block is.

A block is begun with a chain and three stitches; the next row's blocks hang in that chain as in a
space, so it stands for no stitch (common practice; a square of n blocks a side holds n x n).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from coach.craft.instruction import Chain, GroupIn, Instruction, Make, Noun, Of, Repeated
from coach.craft.pattern import Entry, Line, Rerun, SpecialStitch, Stated

BLOCK_WORDS = ("block",)
_HUNG = re.compile(
    r"\b(?:sl\s?st|slip\s+stitch|ss)\b[^.;]*?,\s*(?:ch\s*\d|\d\s*ch)\b[^.;]*?\b(?P<number>\d)\s*(?P<stitch>dc|hdc|tr|htr)\b[^.;]*\bsame\b",
    re.IGNORECASE,
)
_BEGUN = re.compile(
    r"\b(?:ch|chain)\s*(?P<all>[456])\b[^.;]{0,20}?\b(?P<stitch>dc|hdc|tr|htr|double crochet|half double crochet|treble)\s+in(?:to)?\s+(?:the\s+)?(?P<nth>3rd|4th|5th|third|fourth|fifth)\s+(?:ch|chain)\b"
    r"|\b(?P<all_uk>[456])\s*ch\b[^.;]{0,20}?\b1?\s*(?P<stitch_uk>tr|htr|treble)\s+in(?:to)?\s+(?:the\s+)?(?P<nth_uk>3rd|4th|5th)\s+ch\b",
    re.IGNORECASE,
)
_NTH = {"3": 3, "t": 3, "4": 4, "f": 4, "5": 5}


def block_chain(text: str) -> int | None:
    """Return how long the chain of a block is where *text* is worked corner to corner, else None.

    Blocks are begun by a chain three longer than the one that stays, and hung with a slip stitch
    in the space that it leaves.
    """
    for found in _BEGUN.finditer(text):
        chains = int(found["all"] or found["all_uk"])
        nth = (found["nth"] or found["nth_uk"]).lower()
        stays = 5 if nth == "fifth" else _NTH[nth[0]]
        stays -= 1
        hung = rf"\b(?:sl\s?st|slip\s+stitch|ss)\s+(?:in(?:to)?|to)\s+(?:the\s+|next\s+|first\s+)*(?:ch[-\s]?{stays}|{stays}[-\s]?ch)[-\s]?(?:sp|space)"
        if chains == stays + 3 and re.search(hung, text, re.IGNORECASE):
            return stays
    return None


def with_blocks(
    specials: Mapping[str, SpecialStitch],
    chain: int,
    read: Callable[[str], tuple[Instruction, ...]],
) -> dict[str, SpecialStitch]:
    """Return *specials* with the pattern's own names of a block, begun or hung, as pieces of a row."""
    out = dict(specials)
    for name, special in specials.items():
        begun = _BEGUN.match(special.definition.strip())
        if begun is not None:
            stitch = begun["stitch"] or begun["stitch_uk"]
            parts = read(f"ch {chain + 3}, {stitch} in {chain + 1}th ch from hook and in next 2 ch")
            first = parts[0]
            if isinstance(first, Chain):
                parts = (replace(first, worked=True), *parts[1:])
            out[name] = replace(special, parts=parts)
        elif (hung := _HUNG.match(special.definition.strip())) is not None:
            words = f"sl st in next ch-{chain} sp, ch {chain}, {hung['number']} {hung['stitch']} in same sp"
            out[name] = replace(special, parts=read(words))
    return out


def counted_in_blocks(entries: Iterable[Entry], names: Iterable[str], chain: int) -> list[Entry]:
    """Return *entries* with blocks as the spaces that they hang in, in counts and in places.

    A plain number at a row's end counts blocks too.
    """
    blocks = _Blocks(frozenset(name.lower() for name in (*names, *BLOCK_WORDS)), chain)
    return [blocks.in_entry(entry) for entry in entries]


@dataclass(frozen=True, slots=True)
class _Blocks:
    names: frozenset[str]
    chain: int

    def in_entry(self, entry: Entry) -> Entry:
        if not isinstance(entry, Line | Rerun):
            return entry
        stated = tuple(tuple(self._figure(each) for each in row) for row in entry.stated)
        if isinstance(entry, Rerun):
            return replace(entry, stated=stated)
        return replace(entry, stated=stated, items=tuple(map(self._instruction, entry.items)))

    def _figure(self, figure: Stated) -> Stated:
        noun = figure.noun
        if noun is None:
            return replace(figure, noun=Noun(Of.UNIT, "block", self.chain))
        return replace(figure, noun=replace(noun, length=self.chain)) if self._is(noun) else figure

    def _instruction(self, item: Instruction) -> Instruction:
        if isinstance(item, Repeated):
            until = item.until and replace(item.until, noun=self._hung_in(item.until.noun))
            return replace(item, body=tuple(map(self._instruction, item.body)), until=until)
        if isinstance(item, Make | GroupIn) and item.target is not None:
            return replace(item, target=replace(item.target, noun=self._hung_in(item.target.noun)))
        return item

    def _is(self, noun: Noun) -> bool:
        return noun.of is Of.UNIT and (noun.name or "").lower() in self.names

    def _hung_in(self, noun: Noun) -> Noun:
        return Noun(Of.SPACE, None, self.chain) if self._is(noun) else noun
