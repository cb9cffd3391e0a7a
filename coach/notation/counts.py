"""Stated counts at a row's end, in every dress: "(24 sc)", "[36]", "— 24 dc", "= 42", "31 sc."."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.pattern import Stated
from coach.notation.after_count import to_sentence_end, work_follows
from coach.notation.counts_listed import counts_in
from coach.notation.dressed_counts import undressed
from coach.notation.nouns import PREPOSITIONS
from coach.notation.tokens import Token

OPENERS = {"(": ")", "[": "]", "{": "}"}
_SAYS = (
    "have", "total", "that's", "makes", "gives", "leaving", "left", "counts", "made", "has", "having",
    "giving", "making", "leaves", "with", "finish", "you", "get", "is", "down", "up", "be", "got", "you've", "should", "you'll",
)  # fmt: skip


def parted(tokens: Sequence[Token]) -> tuple[list[Token], tuple[tuple[Stated, ...], ...]]:
    """Part a row's tokens into the instructions and the stated counts (one for each row listed)."""
    tokens = undressed(tokens)
    for finder in (_bracketed, _after_dash, _after_sign, _in_words, _in_total, _sentence):
        found = finder(tokens)
        if found is not None:
            return found
    return list(tokens), ()


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
        if work_follows(after) or start == 0:
            continue
        if after and (after[0].is_("x", "*", "times", "twice") or after[0].kind == "num"):
            continue
        if after and after[0].is_(*PREPOSITIONS):
            continue
        inside = tokens[start + 1 : end]
        stated = None if _tells_how(inside) else counts_in(inside, loose=True)
        if stated is None:
            continue
        return [*tokens[:start], *_apart(tokens[start], after)], stated
    return None


def _apart(bracket: Token, after: Sequence[Token]) -> list[Token]:
    """Return what follows a count, with a stop before it: "inc x 12 (24) sl st" is no "12 sl st"."""
    if not after or after[0].kind not in ("stitch", "unit", "word", "num"):
        return list(after)
    return [replace(bracket, text=".", raw="."), *after]


def _tells_how(inside: Sequence[Token]) -> bool:
    """Tell whether a bracket says how stitches are spread ("1 in each row end"): that is no count."""
    for index, token in enumerate(inside[:-1]):
        if token.is_("each") and index and inside[index - 1].is_("in", "into", "per"):
            following = inside[index + 1 :]
            return following[0].kind in ("stitch", "unit") or any(
                each.is_("end", "edge", "st", "sp", "ch") for each in following[:2]
            )
    return False


def _after_dash(tokens: Sequence[Token]) -> Found | None:
    for index in range(len(tokens) - 1, 0, -1):
        token = tokens[index]
        if token.is_("–", "...", "…") or (token.is_("-") and not token.glued):
            tail, rest = to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None:
                return [*tokens[:index], *rest], stated
    return None


def _after_sign(tokens: Sequence[Token]) -> Found | None:
    for index in range(len(tokens) - 1, 0, -1):
        if tokens[index].is_("="):
            tail, rest = to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None and not (rest and rest[0].is_(")", "]", "}")):
                begin = index
                while begin > 0 and not tokens[begin - 1].is_(".", ";", ")", "]", "}", "–"):
                    begin -= 1
                if begin == 0 or not counts_in(tokens[begin:index]):
                    begin = index
                return [*tokens[:begin], *rest], stated
        if tokens[index].is_(":") and index > 1 and index + 1 < len(tokens):
            tail, rest = to_sentence_end(tokens, index + 1)
            stated = counts_in(tail)
            if stated is not None and not work_follows(rest):
                return [*tokens[:index], *rest], stated
        if tokens[index].is_(":") and index > 1 and tokens[index - 1].is_("counts", "total"):
            begin = index - 1
            while begin > 0 and tokens[begin - 1].is_("st", "total", "counts"):
                begin -= 1
            tail, rest = to_sentence_end(tokens, index + 1)
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
        tail, rest = to_sentence_end(tokens, begin)
        if not tail or work_follows(rest):
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
        tail, rest = to_sentence_end(tokens, at)
        stated = counts_in(tail)
        if stated is None or work_follows(rest):
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
        tail, rest = to_sentence_end(tokens, index + 1)
        if not tail or not tail[-1].is_("total", "altogether", "all") or work_follows(rest):
            continue
        if any(token.is_("each", "next") for token in tail):
            continue
        stated = counts_in(tail)
        if stated is not None:
            return [*tokens[:index], *rest], stated
    return None
