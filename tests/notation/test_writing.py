"""Writing back: what is written is read as the same pattern, in either terms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from coach.app.proving import prove_text
from coach.craft.instruction import (
    Act,
    Bound,
    Chain,
    GroupIn,
    Instruction,
    Join,
    Make,
    Noun,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)
from coach.craft.pattern import Draft, Line, Rerun, Start, Stated
from coach.craft.problem import Place, Verdict
from coach.craft.proof import ProvedRow
from coach.craft.working import Action, Block, Passes, Work
from coach.notation.reading import read
from coach.notation.writing import alike, write, write_and_tell

HERE = Path(__file__).parent
BUILT_IN = HERE.parent.parent / "coach" / "patterns"
PATTERNS = sorted([*BUILT_IN.glob("*.txt"), *(HERE / "independent" / "patterns").glob("*.txt")])
AT = Place(1, 1)

BAND = """\
Mill Lane Band
US terms
Special stitch: none.
Shell: 5 dc in same st.
Ch 22.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (21 sc)
Row 2: Ch 3 (counts as dc), sk next 2 sts, *shell in next st, sk next 2 sts, sc in next st, sk next 2 sts; \
rep from * to last 6 sts, shell in next st, sk next 2 sts, hdc in each of last 3 sts, turn.
Rows 3-6: Rep Row 2 twice more.
Rnd 7: Ch 1, sc2tog 3 times, 2 sc in next st, FPdc around next dc, sl st in next st.
"""


@cache
def draft_of(text: str) -> Draft:
    """Read *text* in the terms that its proof settled on."""
    return read(text, terms=prove_text(text).terms)


# -- the words --------------------------------------------------------------------------------


def test_a_us_pattern_is_written_in_uk_terms() -> None:
    """sc, hdc, dc are UK dc, htr, tr; sk is miss; sl st is ss (the trade's published table)."""
    text = write(read(BAND), terms="UK")

    assert "Row 1 (RS): Dc in 2nd ch from hook and in each ch across, turn. (21 dc)" in text
    assert "Ch 3 (counts as tr), miss next 2 sts, *shell in next st" in text
    assert "htr in each of last 3 sts, turn." in text
    assert "dc2tog 3 times, 2 dc in next st, FPtr around next tr, ss in next st." in text
    assert "shell: 5 tr in same st." in text


def test_a_uk_pattern_is_written_in_us_terms() -> None:
    text = write(
        read("Uk terms\n21ch.\n1st row: Miss 3ch (counts as tr), 1tr in each ch to end. (19 tr)\n"),
        terms="US",
    )

    assert "Ch 21." in text
    assert "Row 1: Dc in 4th ch from hook" not in text  # "miss 3ch" is kept as a skip of its own
    assert "Row 1: Sk 3 ch (count as dc), dc in each ch across. (19 dc)" in text


def test_only_the_size_asked_for_is_written() -> None:
    text = write(
        read(
            "Two sizes\nSizes: S (M)\nCh 21 (25).\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 (24) sc)\n",
            size="M",
        ),
        terms="US",
    )

    assert "Worked in size M." in text
    assert "Ch 25." in text
    assert "(24 sc)" in text
    assert "21" not in text


def test_a_row_that_was_not_understood_keeps_its_own_words() -> None:
    draft = read(
        "US terms\nCh 9.\nRow 1: Sc in 2nd ch from hook, crumb in each ch across. (8 sc)\n"
    )

    text, kept = write_and_tell(draft, terms="US")

    assert "crumb in each ch across" in text
    assert kept == ("Row 1",)


def test_rules_in_the_notes_are_written_as_notes() -> None:
    text = write(
        read(
            "Rule\nUS terms\nThe ch-3 at the start of a row counts as a dc; the ch-1 does not count as a st.\n"
            "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
        ),
        terms="UK",
    )

    assert "The ch-3 at the start of a row counts as a tr." in text
    assert "The ch-1 at the start of a row does not count as a st." in text


# -- whole patterns ---------------------------------------------------------------------------


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_every_pattern_reads_the_same_after_writing(path: Path, terms: str) -> None:
    draft = draft_of(path.read_text(encoding="utf-8"))
    text = write(draft, terms=terms)
    again = read(text)

    assert again.terms == terms
    if _clashes(draft):  # a word of the other terms is right once the terms change
        return
    assert alike(again) == alike(draft)
    if draft.size is None:  # the one size that was written is the only one there now
        assert write(again, terms=terms) == text


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_every_pattern_proves_the_same_after_writing(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    draft = draft_of(text)
    if _clashes(draft):
        return
    before = prove_text(text, terms=draft.terms, size=draft.size)
    for terms in ("US", "UK"):
        after = prove_text(write(draft, terms=terms))

        assert [_sums(row) for row in after.rows] == [_sums(row) for row in before.rows]


def test_nearly_every_row_of_the_patterns_has_settled_words() -> None:
    rows = kept = 0
    for path in PATTERNS:
        draft = draft_of(path.read_text(encoding="utf-8"))
        rows += len(draft.entries)
        kept += len(write_and_tell(draft, terms="US")[1])

    assert kept <= rows * 0.03


def _sums(row: ProvedRow) -> tuple[object, ...]:
    """Return what a row comes to and how it is worked; remarks apart, which name the terms."""
    return row.label, row.verdict, row.worked, row.made, row.spaces, row.stated, _worked(row.work)


def _worked(work: Sequence[Work]) -> tuple[object, ...]:
    out: list[object] = []
    for item in work:
        if isinstance(item, Action):
            out.append((item.kind, item.text if item.kind == "colour" else ""))
        elif isinstance(item, Passes):
            last = _worked(item.last) if item.last is not None else None
            out.append((item.times, _worked(item.parts), last))
        elif isinstance(item, Block):  # what a remark says of the place is in the words given
            out.append(replace(item, where=replace(item.where, remark=None)))
        else:
            out.append(item)
    return tuple(out)


def _clashes(draft: Draft) -> bool:
    return any(
        problem.code is Verdict.TERM_CLASH
        for entry in draft.entries
        if isinstance(entry, Line)
        for problem in entry.problems
    )


# -- any draft --------------------------------------------------------------------------------

ST = Noun(Of.STITCH)
stitches = some.sampled_from(["sc", "hdc", "dc", "tr", "dtr", "FPdc", "BPdc", "FPtr"])
plain = some.sampled_from(["sc", "hdc", "dc", "tr"])
nouns = some.one_of(some.just(ST), plain.map(lambda name: Noun(Of.NAMED, name)))
spaces = some.integers(1, 6).map(lambda length: Noun(Of.SPACE, None, length))
counts = some.integers(1, 9)
last = some.integers(1, 6).map(lambda count: Bound("last", ST, count))
single = some.one_of(
    nouns.map(lambda noun: Target(Which.NEXT, noun)),
    spaces.map(lambda noun: Target(Which.NEXT, noun)),
    nouns.map(lambda noun: Target(Which.LAST, noun)),
)
some_places = some.builds(
    Target, some.sampled_from([Which.NEXT, Which.FIRST, Which.LAST]), nouns, counts
)
every_place = some.one_of(
    some.builds(Target, some.just(Which.EACH), nouns, open=some.just(True)),
    some.builds(Target, some.just(Which.EACH), nouns, until=last),
)
turning = some.just(Target(Which.LAST, Noun(Of.TURNING_CHAIN)))
rows_below = some.builds(
    Target, some.just(Which.NEXT), nouns, rows_below=some.integers(1, 3), around=some.booleans()
)
loops = some.builds(
    Target, some.just(Which.NEXT), nouns, counts, loop=some.sampled_from(["back", "front", "third"])
)
anywhere = some.one_of(single, some_places, turning, rows_below, loops)


def made(
    stitch: some.SearchStrategy[str], where: some.SearchStrategy[Target]
) -> some.SearchStrategy[Make]:
    """Stitches in places: "2 dc in each of next 3 sts"."""
    return some.builds(Make, stitch, some.integers(1, 4), where, some.just(AT))


shaping = some.one_of(
    some.builds(
        lambda stitch, times: Make(stitch, 2, None, AT, times=times, increase=True),
        plain,
        counts,
    ),
    some.builds(
        lambda stitch, legs, times: Make(f"{stitch}{legs}tog", 1, None, AT, times=times),
        plain,
        some.integers(2, 5),
        counts,
    ),
)
chains = some.builds(Chain, some.integers(1, 8), some.just(AT))
skips = some.builds(Skip, some.builds(Target, some.just(Which.NEXT), nouns, counts), some.just(AT))
in_one = some.builds(
    lambda first, chain, second, where: GroupIn((first, chain, second), where, AT),
    some.builds(Make, stitches, some.integers(1, 4), some.none(), some.just(AT)),
    chains,
    some.builds(Make, stitches, some.integers(1, 4), some.none(), some.just(AT)),
    some.one_of(nouns, spaces).map(lambda noun: Target(Which.NEXT, noun)),
)
simple: some.SearchStrategy[Instruction] = some.one_of(
    made(stitches, anywhere), shaping, skips, in_one
)
bodies = some.lists(simple, min_size=1, max_size=3).map(tuple)
brackets = some.builds(
    Repeated, bodies, some.just(AT), times=some.integers(2, 30), star=some.just(False)
)
starred = some.lists(some.one_of(simple, brackets), min_size=1, max_size=3).map(tuple)
stars = some.one_of(
    some.builds(Repeated, starred, some.just(AT), until=last),
    some.builds(Repeated, starred, some.just(AT)),
    some.builds(
        Repeated,
        starred,
        some.just(AT),
        times=some.integers(1, 40),
        custom=some.sampled_from(["more", "in all", "either"]),
    ),
)
beginnings = some.one_of(
    some.none(),
    some.builds(
        Chain,
        some.integers(1, 6),
        some.just(AT),
        some.sampled_from([None, "", "dc", "tr", "dc+ch-2", "st"]),
    ),
)
endings = some.sampled_from([None, Act("turn", AT), Join(AT, "sl st", "first sc")])
figures = some.builds(Stated, some.integers(1, 999), some.one_of(some.none(), nouns), some.just(AT))


@some.composite
def rows(draw: some.DrawFn, number: int = 2) -> Line:
    """One row of the language's own constructs."""
    items: list[Instruction] = [item for item in [draw(beginnings)] if item]
    items += draw(some.lists(some.one_of(simple, brackets, stars), min_size=1, max_size=4))
    items += draw(some.lists(made(stitches, every_place), max_size=1))
    end = draw(endings)
    stated = draw(some.one_of(some.none(), figures))
    return Line(
        f"Row {number}",
        "row",
        number,
        (*items, end) if end else tuple(items),
        AT,
        stated=((stated,),) if stated else (),
        side=draw(some.sampled_from([None, "RS", "WS"])),
    )


@settings(max_examples=60, deadline=None)
@given(rows(), some.sampled_from(["US", "UK"]))
def test_any_row_reads_the_same_after_writing(row: Line, terms: str) -> None:
    draft = Draft("Any Row", "US", (Start(99, "chain", AT), row))

    text, kept = write_and_tell(draft, terms=terms)

    assert not kept, text
    assert alike(read(text)).entries == alike(draft).entries, text


reruns = some.builds(
    lambda rows, times, sc: Rerun(
        (11, 10 + times * len(rows)),
        tuple(str(row) for row in rows),
        AT,
        times=times,
        stated=((Stated(sc, None, AT),),) if sc else (),
    ),
    some.sampled_from([(2,), (2, 3), (2, 3, 4), (3, 5), (2, 4, 7)]),
    some.integers(2, 40),
    some.integers(0, 200),
)


@settings(max_examples=25, deadline=None)
@given(reruns, some.sampled_from(["US", "UK"]))
def test_any_repeat_of_rows_reads_the_same_after_writing(again: Rerun, terms: str) -> None:
    draft = Draft("Any Repeat", "US", (Start(30, "chain", AT), again))

    text, kept = write_and_tell(draft, terms=terms)

    assert not kept, text
    assert alike(read(text)).entries == alike(draft).entries, text
