"""What a maker should find by touch: what lies below the hook, and whether to follow it."""

from __future__ import annotations

from coach.craft.ends import ends_of
from coach.craft.finishing import Task
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.working import Block, Into, Where
from coach.wording.explaining import explain, explain_step, other_terms
from coach.wording.finishing_words import CARE_SYMBOLS, ends_told
from coach.wording.looking import edges_told, seen_words, side_test
from coach.wording.telling import words_for_step
from tests.craft.rows_by_hand import (
    TURN,
    colored,
    each,
    increase,
    join,
    piece,
    repeat,
    row,
    skip,
    skipped_chains,
    top_of_chain,
    turning,
)

RIBS = row(
    3,
    turning(3, "dc"),
    TURN,
    repeat(9, each("BPdc", 3), each("dc", 5)),
    each("BPdc", 3),
    top_of_chain(),
    side="WS",
    turned=True,
)
ABOVE = row(
    4,
    turning(3, "dc"),
    TURN,
    repeat(9, each("FPdc", 3), each("BPdc", 1), each("dc", 3), each("BPdc", 1)),
    each("FPdc", 3),
    top_of_chain(),
    side="RS",
    turned=True,
)


def test_ridges_below_are_followed_and_hollows_begin() -> None:
    stage = stages(piece(RIBS, ABOVE))[1]
    told = steps(stage)

    assert seen_words(stage, told[1]).full == (
        "In the row below: 3 ridges that stand out towards you. "
        "This makes 3 ridges that stand out towards you. "
        "You may follow what shows: ridges stay ridges, hollows stay hollows. "
        "A marker after each group saves counting."
    )
    assert seen_words(stage, told[2]).full.startswith(
        "In the row below: 1 flat stitch. "
        "This makes 1 hollow that sinks away from you. "
        "A new hollow begins here, on flat stitches."
    )


def test_where_a_ridge_must_be_reversed_it_is_said() -> None:
    over = row(4, turning(3, "dc"), TURN, each("BPdc", 3), each("dc", 73), side="RS", turned=True)
    stage = stages(piece(RIBS, over))[1]

    assert "Do not follow what shows. Reverse it here: ridges become hollows." in (
        seen_words(stage, steps(stage)[1]).full
    )


def test_fans_are_counted_whole() -> None:
    fans = row(2, repeat(3, skip(2), increase("dc", 5), skip(2), each("sc", 1)), TURN, side="RS")
    now = row(3, each("sc", 6), each("hdc", 12), side="WS")
    stage = stages(piece(fans, now))[1]

    assert seen_words(stage, steps(stage)[0]).full == (
        "In the row below: 1 flat stitch. Then 1 fan of 5. "
        "The first stitch goes in the very first stitch. "
        "The last stitch goes in the last stitch. Leave the turning chain unworked."
    )


def test_the_first_and_last_stitch_of_a_row_with_a_counted_chain() -> None:
    # "Tips about turning chains"; "How to count and where to start": skip the first stitch,
    # and the last stitch goes into the top of the chain.
    stage = stages(piece(RIBS, ABOVE))[1]

    assert edges_told(stage) == (
        "The chain counts as the first double crochet: skip the first stitch. "
        "The last stitch goes in the top of the turning chain."
    )


def test_the_first_and_last_stitch_of_a_row_whose_chain_does_not_count() -> None:
    # "Crochet: turning chain": work into the first stitch, and not into the chain.
    rows = (
        row(1, turning(1), each("sc", 20), TURN),
        row(2, turning(1), each("sc", 20), turned=True),
    )
    stage = stages(piece(*rows))[1]

    assert edges_told(stage) == (
        "The first stitch goes in the very first stitch. "
        "The last stitch goes in the last stitch. Leave the turning chain unworked."
    )


def test_in_a_joined_round_the_join_is_named() -> None:
    ring = row(5, turning(1), each("sc", 30), join(), kind="round", label="Rnd 5")
    (stage, *_) = stages(piece(ring))

    assert edges_told(stage) == (
        "The first stitch goes in the very first stitch. The join at the end is not a stitch."
    )


def test_the_side_test_by_touch() -> None:
    (stage, *_) = stages(piece(row(18, each("sc", 20))))

    assert side_test(stage).endswith("After Row 18 it hangs at the right.")
    assert side_test(stage, "left").endswith("After Row 18 it hangs at the left.")


def test_a_double_crochet_by_touch_counts_its_loops() -> None:
    # US names count the loops on the hook ("Spot the difference: US vs UK crochet terms"):
    # double crochet has 3 after the loop is drawn up, of which 2 and 2 are drawn off.
    told = explain("dc")

    assert told[0] == "Double crochet."
    assert told[-3].endswith("draw up a loop. There are 3 loops on the hook.")
    assert len([sentence for sentence in told if "draw through" in sentence]) == 2
    assert explain("dc", "UK")[0] == "Treble crochet."


def test_each_taller_stitch_takes_one_pull_more() -> None:
    pulls = [
        len([sentence for sentence in explain(stitch) if "draw through" in sentence])
        for stitch in ("sc", "dc", "tr", "dtr", "trtr")
    ]

    assert pulls == [1, 2, 3, 4, 5]


def test_a_decrease_keeps_a_loop_of_each_stitch() -> None:
    assert explain("dc3tog")[-1].startswith(
        "Wrap the yarn over the hook, and draw through all 4 loops."
    )
    assert explain("hdc2tog")[-1].startswith(
        "Wrap the yarn over the hook, and draw through all 5 loops."
    )


def test_the_designers_own_definition_comes_first() -> None:
    told = explain("bobble", special={"Bobble": "[yo, insert hook] 5 times; counts as 1 st"})

    assert told[1] == ("The pattern says: yarn over, insert hook, 5 times; counts as 1 stitch.")


def test_a_step_is_explained_once_for_each_stitch_in_it() -> None:
    work = repeat(4, each("FPdc", 1), each("BPdc", 1))
    (stage, *_) = stages(piece(row(2, work)))
    told = [words.full for words in explain_step(stage, steps(stage)[0])]

    assert told.count("Front post double crochet.") == 1
    assert told.count("Back post double crochet.") == 1


def test_a_loop_left_free_is_felt_for() -> None:
    block = Block("sc", 5, Where(Into.NEXT, 5, loop="back"), uses=5, makes=5)
    (stage, *_) = stages(piece(row(2, block)))
    told = [words.full for words in explain_step(stage, steps(stage)[0])]

    assert "Push the hook under the loop farther from you. Leave the nearer one." in told


def test_the_other_terms_are_told_on_request() -> None:
    assert other_terms("dc", "US").full == "Double crochet is treble crochet in UK terms."
    assert other_terms("sc", "UK").full == "Double crochet is single crochet in US terms."
    assert other_terms("ch", "US").full == "Chain has the same name in UK terms."


def test_the_ends_are_told_with_the_yarn_they_take() -> None:
    # R64: 24 ends; at 15 cm each 3.6 m more yarn.
    rows = [row(number, colored("sc", 40, "ABC"[number % 3])) for number in range(1, 13)]

    assert ends_told(ends_of(piece(*rows))) == (
        "24 ends to weave in. At 15 centimetres each, they take 3.6 metres more yarn."
    )


def finishing_said(task: Task, *materials: str) -> list[str]:
    proof = piece(row(1, skipped_chains(1), each("sc", 9)), chains=10, materials=materials)
    stage = next(
        stage for stage in stages(proof) if stage.finish is not None and stage.finish.task is task
    )
    return [words_for_step(stage, step).full for step in steps(stage)]


def test_what_the_pattern_leaves_out_is_said_to_be_the_usual() -> None:
    first, *_ = finishing_said(Task.WEAVE_IN)

    assert first.startswith("The pattern does not say; this is the usual way. Thread each tail")


def test_acrylic_is_never_ironed_and_wool_is_soaked() -> None:
    # "Should you block acrylic yarn"; "Washing and blocking crochet (old booklet)"
    acrylic = " ".join(finishing_said(Task.BLOCK, "100 g acrylic"))
    wool = " ".join(finishing_said(Task.BLOCK, "merino wool"))

    assert "Never a hot iron" in acrylic
    assert "soak it in cool water" in wool


def test_the_care_words_stand_in_the_order_of_the_care_symbols() -> None:
    # "What do the care symbols mean": wash, bleach, dry, iron, professional (ISO 3758)
    told = " ".join(finishing_said(Task.CARE)).lower()
    words = ["washing", "bleaching", "drying", "ironing", "professional"]

    assert sorted(words, key=told.index) == words


def test_the_tools_are_counted_back_in_at_the_end() -> None:
    assert (
        "Count the hook, the needle, the pins and the scissors back in"
        in (finishing_said(Task.COUNT_IN)[0])
    )


def test_the_care_symbols_are_told_in_words() -> None:
    # "Laundry symbols (dots and bars)", 2012 edition: iron 110, 150, 200; bars milder, very mild.
    # "Products care": two oblique lines, only oxygen bleach.
    told = " ".join(CARE_SYMBOLS)

    assert "one dot is up to 110 degrees. Two dots are 150, three dots 200" in told
    assert "One bar under a sign: mild. Two bars: very mild." in told
    assert "With two slanting lines: oxygen bleach only." in told
    signs = ["tub", "triangle", "square", "iron", "circle"]
    assert sorted(signs, key=told.index) == signs
