"""What cannot be read: a remark is kept, a stitch nobody defined is a problem with its place."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.instruction import Act, Instruction
from coach.craft.problem import Verdict
from coach.notation.clauses import clause_end
from coach.notation.nouns import PREPOSITIONS
from coach.notation.remarks import is_remark, looks_abbreviated
from coach.notation.row_state import RowState
from coach.notation.tokens import Token


def unknown(reader: RowState, items: list[Instruction]) -> None:
    """A clause that is no instruction: a remark, or a word nobody knows."""
    cursor = reader.cursor
    start = cursor.at
    end = clause_end(cursor.tokens, start, stop_at_comma=True)
    end = _before_the_work(cursor.tokens, start, end)
    words = cursor.tokens[start:end]
    place = cursor.place(start)
    first = next((token for token in words if token.kind in ("word", "clash", "tog")), None)
    clash = next((token for token in words if token.kind == "clash"), None)
    if clash is not None:
        term_clash(reader, clash)
    elif end < len(cursor.tokens) and cursor.tokens[end].is_(":") and not items:
        items.append(Act("remark", place, " ".join(token.raw for token in words)))
    elif (corner := _corner_untold(reader, words, items)) is not None:
        reader.problem(
            Verdict.UNKNOWN_WORD,
            corner.place,
            f'"{corner.raw}" tells no stitches, and the pattern does not say what a corner is.',
            "Write what goes into it, or define it among the special stitches.",
        )
    elif first is not None and unknown_stitch(reader, words, first):
        hint = reader.suggest(first.text)
        reader.problem(
            Verdict.UNKNOWN_WORD,
            first.place,
            f'"{first.raw}" is no stitch known here, and the pattern does not define it.',
            f'Is "{hint}" meant?'
            if hint
            else "Define it among the special stitches, or correct it.",
        )
    elif is_remark(words):
        items.append(Act("remark", place, " ".join(token.raw for token in words)))
    else:
        strange = next(
            (token for token in words if token.kind == "word" and looks_abbreviated(token)),
            first or (words[0] if words else None),
        )
        if strange is not None:
            hint = reader.suggest(strange.text)
            reader.problem(
                Verdict.UNKNOWN_WORD,
                strange.place,
                f'"{strange.raw}" is not a word that the coach can follow here.',
                f'Is "{hint}" meant?'
                if hint
                else "Say it with a stitch and a place, or define it.",
            )
    cursor.at = max(end, start + 1)


def _before_the_work(tokens: Sequence[Token], start: int, end: int) -> int:
    """Return where "fold flat" ends in "fold flat and work 4 sc": before the work that follows."""
    for index in range(start + 1, end - 1):
        if tokens[index].kind in ("stitch", "unit", "num", "tog"):
            break
        if tokens[index].is_("and") and tokens[index + 1].is_("work"):
            return index
    return end


def unknown_stitch(reader: RowState, words: Sequence[Token], first: Token) -> bool:
    """A strange word with a place after it ("crumb in next st") is a stitch nobody defined."""
    from coach.notation.remark_words import KNOWN  # noqa: PLC0415

    if first.text in KNOWN and first.text not in ("de", "do", "so"):
        return False
    index = list(words).index(first)
    if index > 1:
        return False
    rest = words[index + 1 :]
    if rest and (rest[0].is_("st") or rest[0].kind == "stitch"):
        rest = rest[1:]  # "linked dc in each st": a way of working that nobody defined
    return (
        bool(rest)
        and rest[0].is_(*PREPOSITIONS)
        and any(
            token.is_("next", "each", "st", "sp", "first", "last", "same")
            or token.kind in ("stitch", "unit", "num")
            for token in rest
        )
    )


def _corner_untold(
    reader: RowState, words: Sequence[Token], items: Sequence[Instruction]
) -> Token | None:
    """Return "corner" where it stands among the work of a row, and nothing tells what is worked there."""
    work = [token for token in words if not token.is_("work", "make", "a", "the", "next", "each")]
    if not work or not work[0].is_("corner"):
        return None
    in_a_place = len(work) > 2 and work[1].is_("in", "into")
    ahead = reader.cursor.tokens[reader.cursor.at + len(words) :]
    headed = bool(ahead) and ahead[0].is_(":")
    listed = bool(items) or any(token.kind in ("stitch", "unit") for token in ahead)
    alone = len(work) == 1 and listed and not headed
    return work[0] if alone or in_a_place else None


def misread_stitch(reader: RowState) -> bool:
    """ "do in next st": a scanner's slip for a stitch, not the word of the language."""
    return reader.cursor.sees("do", "de", "se") and reader.cursor.ahead_is(1, *PREPOSITIONS)


def term_clash(reader: RowState, token: Token) -> None:
    """Note a stitch name that only the other terms know."""
    reader.problem(
        Verdict.TERM_CLASH,
        token.place,
        f'"{token.raw}" is a word of the other terms.',
        "Use the name in this pattern's terms, or state the other terms at its beginning.",
    )


def raw(reader: RowState, start: int) -> str:
    """Return what is written from *start* to the cursor."""
    return " ".join(token.raw for token in reader.cursor.tokens[start : reader.cursor.at])
