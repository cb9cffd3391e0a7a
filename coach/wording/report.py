"""The proof as a page: what a technical editor would send back to the designer.

Verdict first, then what must be mended with the line and a caret, then what was taken and
what is asked, and every row with its count. Plain text, at most 80 columns, no signs that a
screen reader would stumble on except the caret under a fault.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence

from coach.craft.counts_on_trust import taken_on_trust
from coach.craft.problem import NotInWords, Place, Problem, Verdict
from coach.craft.proof import Proof, ProvedRow
from coach.notation.writing_words import Terms

WIDTH = 80
AS_A_PART = 0  # rows worked as those of an earlier part, in place of how many times
ROWS_KEPT_WHOLE = 3  # a repeated section shorter than this is listed row by row

FAULT_NAMES: Mapping[Verdict, str] = {
    Verdict.OK: "right",
    Verdict.TOO_MANY_STITCHES: "asks for too many stitches",
    Verdict.STITCHES_LEFT_OVER: "leaves stitches over",
    Verdict.REPEAT_DOES_NOT_FIT: "the repeat does not fit",
    Verdict.COUNT_MISMATCH: "the count is not what the row makes",
    Verdict.NO_SUCH_PLACE: "there is no such place",
    Verdict.UNKNOWN_WORD: "unknown word",
    Verdict.TERM_CLASH: "a word of the other terms",
    Verdict.BROKEN_NOTATION: "brackets or stars do not close",
    Verdict.MULTIPLE_MISMATCH: "not of the stated multiple",
    Verdict.UNCLEAR: "can be read in more than one way",
    Verdict.NO_WORDS: "no words to follow",
}


def proof_page(proof: Proof, text: str, *, source: str = "") -> str:
    """Return the page for *proof* of the pattern *text*, without a last newline."""
    lines = text.splitlines()
    parts = [
        [proof.title or source or "Pattern", *_verdict(proof)],
        _faults(proof.problems, lines),
        _listed("Questions for the designer", _questions(proof)),
        _listed(
            "Readings taken",
            [f"{r.what}: {r.taken}. {_because(r.because)}" for r in proof.readings],
        ),
        _listed("Not in words", [_not_in_words(each) for each in proof.not_in_words]),
        _facts(proof),
        _rows(proof),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part)


def _verdict(proof: Proof) -> list[str]:
    rows = len(proof.rows)
    if not rows:
        return ["UNREADABLE. No row or round was found."]
    if proof.holds:
        return _wrapped(f"HOLDS. {_counted(rows, 'row')} proved, every count adds up.")
    faulty = len({problem.label or problem.row for problem in proof.problems})
    return _wrapped(
        f"{_counted(len(proof.problems), 'fault')} in {_counted(faulty, 'row')}, "
        f"of {_counted(rows, 'row')} proved."
    )


def _faults(problems: Sequence[Problem], lines: Sequence[str]) -> list[str]:
    out: list[str] = []
    for problem in problems:
        if out:
            out.append("")
        where = problem.label or "The pattern"
        out += _wrapped(
            f"{where}, line {problem.place.line}, column {problem.place.column}: "
            f"{FAULT_NAMES[problem.code]} [{problem.code}]"
        )
        out += _caret(problem.place, lines)
        out += _wrapped(problem.message, indent="  ")
        if problem.hint:
            out += _wrapped(f"Try: {problem.hint}", indent="  ")
    return out


def _caret(place: Place, lines: Sequence[str]) -> list[str]:
    """Return the faulty line, cut to a window round its place, and the caret below it."""
    if not 1 <= place.line <= len(lines):
        return []
    line = lines[place.line - 1].replace("\t", " ")
    column = min(max(place.column - 1, 0), max(len(line) - 1, 0))
    room = WIDTH - 4
    start = 0 if len(line) <= room else max(0, min(column - room // 3, len(line) - room))
    shown = line[start : start + room]
    length = max(1, min(place.length, len(shown) - (column - start)))
    return [f"    {shown}", f"    {' ' * (column - start)}{'^' * length}"]


def _not_in_words(told: NotInWords) -> str:
    remedy = (
        "say in words what it shows"
        if told.why == "picture"
        else "write these rows out one by one, each with its count"
    )
    return f"Line {told.line}: {told.sentence.rstrip('.')}. No one can be led through it: {remedy}."


def _questions(proof: Proof) -> list[str]:
    return [
        f"{question.what} {' / '.join(question.choices)}".strip() for question in proof.questions
    ]


def _because(because: str) -> str:
    reason = because.strip().rstrip(".")
    return f"Because {reason}." if reason else ""


def _facts(proof: Proof) -> list[str]:
    out = []
    if proof.terms:
        out.append(f"Terms: {proof.terms}.")
    if proof.sizes:
        out.append(f"Size shown: {proof.size or proof.sizes[0]}. Sizes: {', '.join(proof.sizes)}.")
    if proof.foundation and proof.foundation.chains:
        out.append(f"Foundation: {_counted(proof.foundation.chains, 'chain')}.")
    if proof.multiple:
        more = proof.multiple.base_chains
        extra = f", and {_counted(more, 'chain')} more for the foundation" if more else ""
        out.append(
            f"Multiple, from the repeats: {proof.multiple.of} plus {proof.multiple.plus} "
            f"{proof.multiple.unit}{extra}."
        )
    return [line for fact in out for line in _wrapped(fact)]


def _rows(proof: Proof) -> list[str]:
    if not proof.rows:
        return []
    out = ["Every row in working order: places used, stitches made"]
    terms = Terms(uk=proof.terms == "UK")
    for first, last, times in _sections(proof.rows):
        if times == AS_A_PART:
            section = proof.rows[first:last]
            out += _wrapped(
                f"{section[0].label} to {section[-1].label}: worked as {section[0].worked_as} "
                f"to {section[-1].worked_as}; counts as there",
                indent="  ",
            )
        elif times > 1:
            section = proof.rows[first:last]
            length = len(section) // times
            made = {row.made for row in section}
            count = f"{made.pop()} stitches each" if len(made) == 1 else "counts as there"
            over = f"worked as {section[0].worked_as}" if section[0].worked_as else "worked alike"
            if length > 1:
                over += f" to {section[length - 1].worked_as}, {times} times"
            out += _wrapped(
                f"{section[0].label} to {section[-1].label}: {over}; {count}", indent="  "
            )
        else:
            out += [line for row in proof.rows[first:last] for line in _row(row, terms)]
    return out


def _sections(rows: Sequence[ProvedRow]) -> Iterator[tuple[int, int, int]]:
    """Yield (first, last, times): stretches of repeated rows that can be told in one line."""
    at = 0
    while at < len(rows):
        end = at + 1
        repeat = rows[at].repeat
        if repeat and rows[at].verdict is Verdict.OK:
            while (
                end < len(rows)
                and rows[end].line == rows[at].line
                and rows[end].repeat
                and rows[end].verdict is Verdict.OK
            ):
                end += 1
            times = repeat[1]
            if end - at > ROWS_KEPT_WHOLE and times > 1 and (end - at) % times == 0:
                yield at, end, times
                at = end
                continue
        if (again := _part_again(rows, at)) > end:
            yield at, again, AS_A_PART
            at = again
            continue
        yield at, end, 1
        at = end


def _part_again(rows: Sequence[ProvedRow], at: int) -> int:
    """Return where the rows end that are worked as those of an earlier part, in their order."""
    end = at
    while (
        end < len(rows)
        and rows[end].worked_as
        and rows[end].repeat is None
        and rows[end].line == rows[at].line
        and rows[end].verdict is Verdict.OK
        and (end == at or rows[end].worked_as != rows[end - 1].worked_as)
    ):
        end += 1
    return end if end - at > ROWS_KEPT_WHOLE else at


def _row(row: ProvedRow, terms: Terms) -> list[str]:
    used = "from nothing" if row.worked is None else f"uses {row.worked}"
    if row.spaces_worked:
        used += f" and {_counted(row.spaces_worked, 'space')}"
    made = f"makes {row.made}"
    if row.spaces:
        made += f" and {_counted(row.spaces, 'space')}"
    kinds = ", ".join(f"{count} {terms.stitch(us)}" for us, count in row.by_stitch.items())
    source = "as stated" if row.stated is not None else "worked out by the coach"
    if taken_on_trust(row):
        source = "taken from the pattern"
    if row.verdict is not Verdict.OK:
        source = FAULT_NAMES[row.verdict]
    side = f" ({row.side})" if row.side else ""
    return _wrapped(
        f"{row.label}{side}: {used}, {made}{f' ({kinds})' if kinds else ''}; {source}", indent="  "
    )


def _listed(title: str, items: Sequence[str]) -> list[str]:
    if not items:
        return []
    return [title, *(line for item in items for line in _wrapped(item, indent="  "))]


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _wrapped(text: str, *, indent: str = "") -> list[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + "  ",
        break_long_words=False,
        break_on_hyphens=False,
    )
