"""Stated counts at a row's end, in every dress: "(24 sc)", "[36]", "— 24 dc", "= 42", "31 sc."."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Noun, Of
from coach.craft.pattern import Stated
from coach.notation.cursor import Cursor
from coach.notation.nouns import PREPOSITIONS, noun
from coach.notation.tokens import Token

OPENERS = {"(": ")", "[": "]", "{": "}"}
_SAYS = (
    "have", "total", "that's", "makes", "gives", "leaving", "left", "counts", "made", "has", "having",
    "giving", "making", "leaves", "with", "finish", "you", "get", "is", "down", "up", "be", "got", "you've", "should", "you'll",
)  # fmt: skip
_TAIL = (
    "each", "on", "in", "all", "total", "made", "per", "row", "rnd", "around", "rem", "left", "now",
    "at", "end", "of", "every", "for", "the", "size", "so", "far", "tot", "altogether", "both", "and",
    "counting", "including", "incl", "tch", "not", "used", "across", "here", "remain", "to", "st", "your", "this", "that", "altogether", "join", "again",
)  # fmt: skip


def parted(tokens: Sequence[Token]) -> tuple[list[Token], tuple[tuple[Stated, ...], ...]]:
    """Part a row's tokens into the instructions and the stated counts (one for each row listed)."""
    tokens = undressed(tokens)
    for finder in (_bracketed, _after_dash, _after_sign, _in_words, _in_total, _sentence):
        found = finder(tokens)
        if found is not None:
            return found
    return list(tokens), ()


def undressed(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with rare dresses of a count as the usual ones: "<28>", "→ 28", "~28~", "(5 rnds)"."""
    out: list[Token] = []
    index = 0
    while tokens and tokens[-1].is_("|"):
        tokens = tokens[:-1]  # the edge of a table
    while index < len(tokens):
        token = tokens[index]
        closing = {"<": ">", "~": "~"}.get(token.text)
        end = _closed_by(tokens, index, closing) if closing else None
        if end is not None:
            inside = list(tokens[index + 1 : end])
            out += [replace(token, text="("), *inside, replace(tokens[end], text=")")]
            index = end + 1
            continue
        if token.text == "(" and _rows_only(tokens[index + 1 : index + 4]):
            index += 4
            continue
        length = _points_to_a_count(tokens, index)
        if length:
            out.append(replace(token, text="–", glued=False))
            index += length
            continue
        out.append(token)
        index += 1
    return out


def _closed_by(tokens: Sequence[Token], start: int, closing: str) -> int | None:
    """Return where a dress such as "<28 sc>" ends, if counts and nothing else are in it."""
    for index in range(start + 1, len(tokens)):
        if tokens[index].text == closing:
            return index if counts_in(tokens[start + 1 : index], loose=True) is not None else None
    return None


def _rows_only(tokens: Sequence[Token]) -> bool:
    """Tell whether a bracket says only how many rows there are: "5 rnds)"."""
    return (
        len(tokens) == 3
        and tokens[0].kind == "num"
        and tokens[1].is_("row", "rows", "rnd", "rnds", "round", "rounds")
        and tokens[2].text == ")"
    )


def _points_to_a_count(tokens: Sequence[Token], index: int) -> int:
    """Return how many signs at *index* only point to a count at the end: "→", "->", "//", "|"."""
    if index == 0 or (tokens[index - 1].kind == "num" and not tokens[index].is_("|")):
        return 0
    texts = [token.text for token in tokens[index : index + 2]]
    if texts in (["-", ">"], ["/", "/"], ["=", ">"]):
        length = 2
    elif texts and texts[0] in ("→", "|", "/", "➔", "⇒"):
        length = 1
    else:
        return 0
    tail, rest = _to_sentence_end(tokens, index + length)
    if counts_in(tail) is None or _work_in(rest):
        return 0
    return length


Found = tuple[list[Token], tuple[tuple[Stated, ...], ...]]


def _bracketed(tokens: Sequence[Token]) -> Found | None:
    """A bracket with only counts in it, after the work of the row has ended."""
    depth = 0
    starts: list[int] = []
    spans: list[tuple[int, int]] = []
    for index, token in enumerate(tokens):
        if token.is_(*OPENERS):
            if depth == 0:
                starts.append(index)
            depth += 1
        elif token.is_(*OPENERS.values()):
            depth -= 1
            if depth == 0 and starts:
                spans.append((starts[-1], index))
            depth = max(depth, 0)
    for start, end in reversed(spans):
        after = tokens[end + 1 :]
        if _work_in(after) or start == 0:
            continue
        if after and (after[0].is_("x", "*", "times", "twice") or after[0].kind == "num"):
            continue
        if after and after[0].is_(*PREPOSITIONS):
            continue
        inside = tokens[start + 1 : end]
        stated = None if _tells_how(inside) else counts_in(inside, loose=True)
        if stated is None:
            continue
        return [*tokens[:start], *after], stated
    return None


def _tells_how(inside: Sequence[Token]) -> bool:
    """Tell whether a bracket says how stitches are spread ("1 in each row end"): that is no count."""
    for index, token in enumerate(inside[:-1]):
        if token.is_("each") and index and inside[index - 1].is_("in", "into", "per"):
            following = inside[index + 1 :]
            return following[0].kind in ("stitch", "unit") or any(
                each.is_("end", "edge", "st", "sp", "ch") for each in following[:2]
            )
    return False


def _work_in(tokens: Sequence[Token]) -> bool:
    """Tell whether anything is still worked in *tokens*: then a bracket before it is no count."""
    for index, token in enumerate(tokens):
        if token.kind in ("stitch", "unit", "clash") and token.text != "sl st":
            before = tokens[index - 1] if index else None
            if before is not None and (
                before.is_("first", "in", "to", "last") or before.kind == "num"
            ):
                continue
            return True
        if token.is_("rep", "x"):
            return True
    return False


def _after_dash(tokens: Sequence[Token]) -> Found | None:
    for index in range(len(tokens) - 1, 0, -1):
        token = tokens[index]
        if token.is_("–", "...", "…") or (token.is_("-") and not token.glued):
            tail, rest = _to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None:
                return [*tokens[:index], *rest], stated
    return None


def _after_sign(tokens: Sequence[Token]) -> Found | None:
    for index in range(len(tokens) - 1, 0, -1):
        if tokens[index].is_("="):
            tail, rest = _to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None and not (rest and rest[0].is_(")", "]", "}")):
                begin = index
                while begin > 0 and not tokens[begin - 1].is_(".", ";", ")", "]", "}", "–"):
                    begin -= 1
                if begin == 0 or not counts_in(tokens[begin:index]):
                    begin = index
                return [*tokens[:begin], *rest], stated
        if tokens[index].is_(":") and index > 1 and index + 1 < len(tokens):
            tail, rest = _to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None and not _work_in(rest):
                return [*tokens[:index], *rest], stated
        if tokens[index].is_(":") and index > 1 and tokens[index - 1].is_("counts", "total"):
            begin = index - 1
            while begin > 0 and tokens[begin - 1].is_("st", "total", "counts"):
                begin -= 1
            tail, rest = _to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None:
                return [*tokens[:begin], *rest], stated
    return None


def _sentence(tokens: Sequence[Token]) -> Found | None:
    """A sentence of its own: "Turn. 31 sc." """
    ends = [index for index, token in enumerate(tokens) if token.is_(".", ";")]
    for index in reversed([-1, *ends]):
        if index < 0:
            continue
        begin = index + 1
        while begin + 1 < len(tokens) and tokens[begin].is_(*_STILL):
            begin += 1
        tail, rest = _to_sentence_end(tokens, begin)
        if not tail or _work_in(rest):
            continue
        if tail[0].kind != "num" or (len(tail) == 1 and not tail[0].raw.isdigit() and rest[1:]):
            continue
        if any(token.is_(*PREPOSITIONS) for token in tail):
            continue
        stated = counts_in(tail)
        if stated is not None:
            return [*tokens[: index + 1], *rest], stated
    return None


_STILL = ("still", "again", "always", "so", "only", "now")


def _in_words(tokens: Sequence[Token]) -> Found | None:
    """ "You should have 24 dc and 8 spaces", "so by the end you'll have eighteen"."""
    for index in range(len(tokens) - 1, -1, -1):
        if not tokens[index].is_(*_SAYS):
            continue
        at = index + 1
        while at < len(tokens) and tokens[at].is_(
            "a",
            "to",
            "of",
            "with",
            "up",
            "down",
            "now",
            "total",
            ":",
            "at",
            "is",
            "you",
            "have",
            "be",
            "end",
            "should",
            "left",
            "counts",
            "us",
        ):
            at += 1
        if at >= len(tokens) or tokens[at].kind != "num":
            continue
        tail, rest = _to_sentence_end(tokens, at)
        stated = counts_in(tail)
        if stated is None or _work_in(rest):
            continue
        begin = index
        while begin > 0 and not tokens[begin - 1].is_(*_BEFORE_TALK):
            if tokens[begin - 1].kind in ("stitch", "num", "unit"):
                break
            begin -= 1
        if begin == 0:
            return None
        return [*tokens[:begin], *rest], stated
    return None


_BEFORE_TALK = (
    ".", ";", ",", "(", ")", "]", "}", "and", "–", "around", "across", "st", "sp", "each", "join", "turn",
)  # fmt: skip


def _in_total(tokens: Sequence[Token]) -> Found | None:
    """A clause that says that it is the sum: ", 28 stitches in total"."""
    for index in range(len(tokens) - 1, 0, -1):
        if not (tokens[index].is_(",") and index + 1 < len(tokens)):
            continue
        tail, rest = _to_sentence_end(tokens, index + 1)
        if not tail or not tail[-1].is_("total", "altogether", "all") or _work_in(rest):
            continue
        if any(token.is_("each", "next") for token in tail):
            continue
        stated = counts_in(tail)
        if stated is not None:
            return [*tokens[:index], *rest], stated
    return None


_ACTS = ("turn", "join", "fasten", "break", "cut", "drop", "do")


def _acts_next(tokens: Sequence[Token], at: int) -> bool:
    """Tell whether "turn", "and you can fasten off" follows: what is done after the count."""
    while at < len(tokens) and tokens[at].is_("and", "then", "you", "can", "now", "we"):
        at += 1
    return at < len(tokens) and tokens[at].is_(*_ACTS)


def _to_sentence_end(tokens: Sequence[Token], start: int) -> tuple[Sequence[Token], list[Token]]:
    end = start
    while end < len(tokens) and not tokens[end].is_(".", ";", ")", "]", "}"):
        if tokens[end].is_(",") and _acts_next(tokens, end + 1):
            break
        end += 1
    return tokens[start:end], list(tokens[end:])


def counts_in(
    tokens: Sequence[Token], *, loose: bool = False
) -> tuple[tuple[Stated, ...], ...] | None:
    """Return the counts that *tokens* list and nothing else, one tuple for each row; else None.

    loose: figures of things that are no stitches ("5 petals", "2 handles") may be among them;
    they are let go, for nothing says what makes one.
    """
    cursor = Cursor(tokens)
    entries: list[Stated] = []
    let_go = False
    cursor.takes("now")
    cursor.takes("total", "=", "–", "-", ":", "#")
    cursor.takes(":")
    if not cursor.sees_kind("num"):
        return None
    while cursor.now is not None:
        if cursor.takes(",", "and", "&", "+", ";", "/", "plus", "with", ":", "–", "="):
            continue
        if not cursor.sees_kind("num") or cursor.now.raw.lower().endswith("st"):
            if _only_tail(cursor):
                break
            return None
        start = cursor.at
        value = cursor.next().value
        if loose and _is_figure(cursor):
            let_go = True
            continue
        entries.append(Stated(value, _counted(cursor), cursor.place(start)))
    if not entries:
        return () if let_go else None
    return _by_rows(entries)


def _is_figure(cursor: Cursor) -> bool:
    """Take the name of a thing that is no stitch, where it is all that follows a number."""
    at = cursor.at
    words = 0
    while words < 2 and cursor.sees_kind("word") and not cursor.sees(*_NOT_FIGURES):
        cursor.next()
        words += 1
    name = cursor.tokens[cursor.at - 1].text
    ended = cursor.now is None or cursor.sees(",", "and", "&", ";", "/", "+")
    if words and ended and len(name) > 3 and (name.endswith("s") or words == 1):
        return True
    cursor.at = at
    return False


_NOT_FIGURES = (
    *_TAIL,
    *PREPOSITIONS,
    "st",
    "sp",
    "ch",
    "lp",
    "times",
    "x",
    "more",
    "rows",
    "rnds",
    "and",
    "group",
)


def _counted(cursor: Cursor) -> Noun | None:
    if cursor.now is None or cursor.sees(",", "and", "&", ";", "/", "+"):
        return None
    if cursor.sees_kind("num") and not cursor.ahead_is(1, "-", "ch"):
        return None
    cursor.takes("total", "more", "new", "little", "small", "complete", "full", "tiny", "whole")
    found = noun(cursor)
    if found is not None and found.of is Of.CHAIN and found.length is not None:
        cursor.takes("sp", "lp")
        return Noun(Of.SPACE, None, found.length)
    cursor.takes("st", "total", "made")
    return found


def _only_tail(cursor: Cursor) -> bool:
    for token in cursor.tokens[cursor.at :]:
        if token.is_("counting", "including", "incl", "counts", "not"):
            return True
        if token.kind == "num" and token.value and cursor.tokens[-1] is token:
            continue
        if not token.is_(*_TAIL) and not token.is_(",", "."):
            return False
    return True


def _by_rows(entries: list[Stated]) -> tuple[tuple[Stated, ...], ...]:
    """Part "18, 24, 30 dc, and 1 ch-2 sp" into one count for each row."""
    bare = 0
    while bare < len(entries) and entries[bare].noun is None:
        bare += 1
    if bare and len(entries) > 1:
        listed = entries[: bare + 1]
        shared = entries[bare + 1 :]
        kind = listed[-1].noun
        if kind is not None and kind.of is Of.SPACE and bare == 1:
            return (tuple(entries),)
        return tuple((Stated(each.number, kind, each.place), *shared) for each in listed)
    return (tuple(entries),)
