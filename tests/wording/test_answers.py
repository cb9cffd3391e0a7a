"""Where am I, how many, what is left, and the words on coming back, after makers' own reports."""

from __future__ import annotations

from collections.abc import Sequence

from coach.app.proving import prove_text
from coach.craft.proof import ProvedRow
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Step
from coach.craft.working import Work
from coach.wording.answers import (
    check_words,
    how_many_words,
    left_words,
    resume_words,
    ripped_words,
)
from coach.wording.row_facts import named_within
from coach.wording.whereabouts import more_where_words, where_words
from tests.craft.rows_by_hand import (
    TURN,
    chain,
    each,
    increase,
    piece,
    repeat,
    row,
    skip,
    turning,
)


def plain_rows(first: int, last: int) -> list[ProvedRow]:
    return [row(number, each("sc", 18)) for number in range(first, last + 1)]


def at(rows: Sequence[ProvedRow], number: int, step: int) -> tuple[Stage, Step]:
    stage = next(
        stage for stage in stages(piece(*rows)) if stage.row and stage.row.number == number
    )
    return stage, steps(stage)[step - 1]


def test_what_row_tells_the_rows_to_go_and_the_block() -> None:
    # R50: "Row 17 of 40, 23 to go after this one. Block 2 of 3."
    rows = plain_rows(1, 40)
    rows[16] = row(17, each("sc", 5), each("dc", 3), each("sc", 10))

    told = where_words(*at(rows, 17, 2)).full

    assert told.startswith("Row 17 of 40, 23 to go after this one. Block 2 of 3.")


def test_where_claims_only_what_was_confirmed() -> None:
    # R27: 48 sts, *sc in next 4 sts, dc in next 2 sts*; "next" was said after repeat 5.
    rows = [row(1, repeat(8, each("sc", 4), each("dc", 2)))]
    place = at(rows, 1, 11)  # two blocks in each of five repeats are done

    assert where_words(*place).full == (
        "Row 1 of 1, block 11 of 16. 5 of 8 repeats confirmed, 30 stitches. "
        "Count back only to the start of repeat 6."
    )
    assert left_words(*place).full.startswith("18 stitches remain after the confirmed ones")


def rows_in_repeats() -> list[ProvedRow]:
    """Rows 6 to 37 are 8 repeats of Rows 2 to 5, the third row of each has a repeat of its own."""
    rows = plain_rows(1, 5)
    for number in range(6, 38):
        worked_as = f"Row {(number - 6) % 4 + 2}"
        times = ((number - 6) // 4 + 1, 8)
        work: tuple[Work, ...] = (each("sc", 18),)
        if worked_as == "Row 5":
            work = (repeat(6, each("sc", 1), each("dc", 2)),)
        side = "RS" if number % 2 else "WS"
        rows.append(row(number, *work, worked_as=worked_as, repeat=times, side=side))
    return rows


def test_where_tells_which_row_it_is_worked_as() -> None:
    # R24
    assert where_words(*at(rows_in_repeats(), 24, 1)).full == (
        "Row 24 of 37, 13 to go after this one. "
        "Worked as Row 4: third row of the fifth repeat of 8. Wrong side facing."
    )


def test_where_has_room_for_row_block_group_repeat_and_side_and_the_rest_comes_at_more() -> None:
    place = at(rows_in_repeats(), 25, 5)  # the third of six groups begins: 6 stitches are made

    told, more = where_words(*place).full, more_where_words(*place)

    assert told == (
        "Row 25 of 37, block 5 of 12. Worked as Row 5: fourth row of repeat 5 of 8. "
        "Right side. Group 3 of 6."
    )
    assert len(told.split()) == 25
    assert more is not None
    assert more.full == (
        "12 to go after this one. 2 of 6 repeats confirmed, 6 stitches. "
        "Count back only to the start of repeat 3."
    )


def test_where_nothing_was_left_out_there_is_no_more() -> None:
    assert more_where_words(*at(plain_rows(1, 9), 4, 1)) is None


def row_14() -> list[ProvedRow]:
    # R26: Row 14 (WS, worked on 18 sts): Ch 1, turn, sc in next 5 sts,
    # [dc in next st, ch 1, sk next st] 4 times, sc in last 5 sts.
    rows = plain_rows(1, 13)
    work: tuple[Work, ...] = (
        turning(1),
        TURN,
        each("sc", 5),
        repeat(4, each("dc", 1), chain(1), skip(1)),
        each("sc", 5, position="last"),
    )
    return [*rows, row(14, *work, side="WS")]


def test_on_return_the_place_is_told_in_the_order_that_hands_need() -> None:
    told = resume_words("Quay Cloth", *at(row_14(), 14, 5)).full  # after the second group

    assert told == (
        "Quay Cloth. Row 14, wrong side facing. "
        "2 of 4 groups done. 9 stitches of the row below used, 9 left. "
        "Next: group 3 of 4. Double crochet in the next stitch, chain 1, skip 1."
    )


def test_on_return_to_an_untouched_row_nothing_is_claimed() -> None:
    told = resume_words("Quay Cloth", *at(row_14(), 14, 1)).full

    assert "Nothing of this row is done yet. Next: chain 1." in told


def test_how_many_tells_the_count_by_stitch_and_what_is_made() -> None:
    rows = [row(3, repeat(8, each("sc", 1), each("dc", 1)), each("sc", 2))]
    rows[0] = row(3, *rows[0].work, by_stitch={"sc": 10, "dc": 8}, stated=None)

    assert how_many_words(*at(rows, 3, 2)).full == (
        "Row 3 comes to 18 stitches. 10 are single crochet. 8 are double crochet. "
        "The pattern does not say; the coach worked it out. 16 made so far."
    )


def test_how_many_of_a_long_chain() -> None:
    (foundation, *_) = stages(piece(row(1, each("sc", 3)), chains=198))

    assert how_many_words(foundation, steps(foundation)[6]).full == (
        "198 chains in all. 120 made so far."
    )


def test_after_ripping_back_the_count_to_check_is_told() -> None:
    # R28: ripped back to the end of round seven: check 42 now.
    rounds = [
        row(number, increase("sc", 2, 3), each("sc", 36), kind="round", label=f"Rnd {number}")
        for number in range(1, 8)
    ]
    stage = stages(piece(*rounds))[6]

    assert ripped_words(stage).full == "Ripped back to the end of Round 7. Check 42 now."


def test_a_row_begun_by_someone_else_is_checked_first() -> None:
    assert check_words(25).full == "Check 25 first."  # R51


def test_the_foundation_is_no_name_within_a_sentence() -> None:
    (stage, *_) = stages(
        prove_text("MAT\n\nCh 13.\nRow 1: Sc in 2nd ch from hook, sc across. (12)")
    )

    assert ripped_words(stage).full == "Ripped back to the end of the foundation. Check 13 now."
    assert named_within(stage) == "the foundation"
