"""A text too long for the window, parted into leaves: none of its words is ever left out.

The row and the block keep their places; under them stands one leaf of the text, and in the last
row which one it is and how the next one comes. What was said last comes first, then the rest, and
at the end the facts that have no place of their own in so small a window.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.ports import View
from coach.tui.band import flowed
from coach.tui.block import block_of, in_the_middle
from coach.tui.fitting import wrapped
from coach.tui.letters import SMALLEST_CAPITAL
from coach.tui.window import SHORT, Ink, Line, Look, Page, Told, Window

_MESSAGES = 3  # told at once; older ones have been overtaken by newer ones
_LEAST_TEXT = 4  # rows of a leaf, where the window has them
_GIANT = SMALLEST_CAPITAL + 2  # rows of the smallest giant letters, with what hangs below the line
MORE = "repeat = more"


def messages_of(view: View, told: Sequence[Told]) -> list[str]:
    """Return what is told besides the step, oldest first, nothing twice."""
    messages = [message.full for message in told if message.full]
    messages = list(dict.fromkeys(reversed(messages)))[:_MESSAGES][::-1]
    return [view.notice, *messages] if view.notice else messages


@dataclass(frozen=True, slots=True)
class _Paragraph:
    text: str
    ink: Ink = Ink.TEXT


def in_leaves(view: View, window: Window, look: Look, told: Sequence[Told], leaf: int) -> Page:
    """Return one leaf of what stands before the maker; *leaf* counts from 0, round and round."""
    head = flowed([view.headline, *_facts(view)], window.measure)
    room = max(1, window.height - 2)
    texts = _texts(view, told)
    answers = [_Paragraph(f"{at}. {choice}") for at, choice in enumerate(view.choices, 1)]
    above = view
    if answers and _rows(answers, window) > room - _LEAST_TEXT:
        texts, above = [*texts, *answers], replace(view, choices=())
    high = _rows_of_text(texts[0], above, window, look)
    block = block_of(above, window, room - high, look)
    shown, lost = _cut(block.rows, max(0, room - high), window)
    lost = [*head[1:], *lost]
    signs = "   ".join(sign.upper() for sign in view.signs)
    longest_sign = len(f"99 of 99   {MORE}")
    signs_fit = len(signs) + 3 + longest_sign <= window.measure
    if signs and not signs_fit:
        lost.insert(0, signs)
    leaves = _parted([*texts, *map(_Paragraph, lost)], window, high)
    leaf %= len(leaves)
    lines = [
        window.line(head[0], Ink.BAND),
        *in_the_middle(shown, window, room - high),
    ][: max(0, window.height - high - 1)]
    cursor = len(lines)
    lines += [*leaves[leaf], *[window.line("")] * high][:high]
    lines.append(_sign(leaf, len(leaves), signs if signs_fit else "", window))
    return Page(
        tuple(lines[: window.height]), (window.margin, cursor), block.capital, leaf, len(leaves)
    )


def _facts(view: View) -> list[str]:
    return [fact for fact in (view.side, view.group, view.count) if fact]


def _texts(view: View, told: Sequence[Told]) -> list[_Paragraph]:
    """What there is to read: what was said last, then the rest."""
    sentence = _Paragraph(view.sentence)
    notes = [_Paragraph(message, Ink.STRONG) for message in reversed(messages_of(view, told))]
    return [*notes, sentence] if told and notes else [sentence, *notes]


def _rows(paragraphs: Sequence[_Paragraph], window: Window) -> int:
    return sum(len(wrapped(each.text, window.measure)) for each in paragraphs)


def _rows_of_text(first: _Paragraph, above: View, window: Window, look: Look) -> int:
    """How high a leaf is: the first paragraph whole if that leaves the block what it needs."""
    room = window.height - 2
    wanted = max(_LEAST_TEXT, _rows([first], window))
    if above.choices:
        answers = [_Paragraph(f"{at}. {each}") for at, each in enumerate(above.choices, 1)]
        most = room - _rows(answers, window)
    elif window.height < SHORT:
        most = room - min(2, len(block_of(above, window, 2, look).rows))
    else:
        most = room - max(int(_GIANT), room // 2)
    return max(1, min(wanted, most))


def _cut(rows: Sequence[str], most: int, window: Window) -> tuple[list[str], list[str]]:
    """The rows of a block that are shown, dots at the end if there are more, and the others."""
    if len(rows) <= most or not most:
        return list(rows[:most]), list(rows[most:])
    last = rows[most - 1]
    if len(last) > window.measure - 3:
        last = last.rpartition(" ")[0]
    return [*rows[: most - 1], f"{last}..."], [" ".join(rows)]


def _parted(paragraphs: Sequence[_Paragraph], window: Window, high: int) -> list[list[Line]]:
    """Part the text into leaves of *high* rows; a paragraph that fits a leaf isn't broken."""
    leaves: list[list[Line]] = [[]]
    for each in paragraphs:
        rows = [window.line(row, each.ink) for row in wrapped(each.text, window.measure)]
        if len(leaves[-1]) + len(rows) > high and leaves[-1] and len(rows) <= high:
            leaves.append([])
        for row in rows:
            if len(leaves[-1]) == high:
                leaves.append([])
            leaves[-1].append(row)
    return leaves


def _sign(leaf: int, leaves: int, signs: str, window: Window) -> Line:
    """The last row: states in words, which leaf this is, and how the next one comes."""
    if leaves == 1:
        return window.line(signs, Ink.BAND)
    more = f"   {MORE}" if leaf + 1 < leaves else ""
    place = f"{leaf + 1} of {leaves}{more}"
    if len(place) > window.measure:
        place = f"{leaf + 1}/{leaves} {more.strip()}"
    free = window.measure - len(signs) - len(place)
    return window.line(f"{signs}{' ' * free}{place}" if signs else place, Ink.BAND)
