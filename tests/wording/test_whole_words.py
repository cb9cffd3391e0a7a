"""No sentence ever holds an abbreviation or a sign: neither voice nor braille could say it."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.craft.finishing import Caution, Fibre, Task
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace, Step
from coach.craft.stitch import FULL_NAMES, HEIGHTS, ONE_TOP
from coach.craft.working import Action, Block, Group, Into, Where, Work
from coach.wording import replies
from coach.wording.answers import how_many_words, left_words, resume_words
from coach.wording.explaining import explain, explain_step, other_terms
from coach.wording.finishing_words import CAUTIONS, usual_told
from coach.wording.looking import seen_words
from coach.wording.plain_text import SPOKEN, say
from coach.wording.stitch_names import BASES, NAMES, short_name, stitch_name
from coach.wording.telling import view_parts, words_for_step
from coach.wording.whereabouts import more_where_words, where_words
from coach.wording.words import Words
from tests.craft.rows_by_hand import join, piece, repeat, row, turning

ABBREVIATIONS = frozenset(
    [
        *(
            "sc",
            "hdc",
            "dc",
            "tr",
            "dtr",
            "trtr",
            "htr",
            "ss",
            "sl",
            "st",
            "sts",
            "ch",
            "chs",
            "sp",
        ),
        *("sps", "sk", "yo", "yoh", "yrh", "rnd", "rnds", "rep", "dec", "inc", "beg", "tog", "blo"),
        *(
            "flo",
            "bl",
            "fl",
            "fp",
            "bp",
            "cl",
            "pc",
            "sh",
            "tch",
            "rs",
            "ws",
            "mc",
            "cc",
            "pm",
            "sm",
        ),
        *("lp", "lps", "ea", "foll", "fsc", "fdc", "fpdc", "bpdc", "rem", "approx", "cont", "alt"),
        *("patt", "yd", "yds", "mm", "cm"),
    ]
)


def assert_speakable(sentence: str) -> None:
    assert SPOKEN.fullmatch(sentence), f"a sign in: {sentence!r}"
    words = {word.strip(".").lower() for word in re.findall(r"[A-Za-z]+", sentence)}
    assert not words & ABBREVIATIONS, f"{words & ABBREVIATIONS} in: {sentence!r}"
    assert not re.search(r"\d[a-z]|[a-z]\d", sentence), f"run together: {sentence!r}"
    assert "  " not in sentence


def assert_whole(words: Words) -> None:
    assert_speakable(words.full)
    assert_speakable(words.brief)
    assert words.full[-1] in ".?", words.full  # or the voice swallows the last word (L09)
    assert words.full[0].isupper() or words.full[0].isdigit(), words.full


STITCHES = sorted(
    {*HEIGHTS, *FULL_NAMES, *ONE_TOP, *NAMES} - {"st", "sp"}
    | {f"{post}{base}" for post in ("FP", "BP") for base in HEIGHTS if base != "sl st"}
    | {f"{base}{legs}tog" for base in HEIGHTS if base != "sl st" for legs in (2, 3, 5)}
    | {f"{letter}{base}" for letter in "fe" for base in ("sc", "hdc", "dc", "tr")}
    | {"FPdc2tog", "BPtr3tog", "rev sc", "rsc", "crossed dc", "standing dc", "beg cl", "half shell"}
    | {"3-dc cl", "5-dc bobble", "4-tr cluster", "5-dc popcorn", "2-tr cl", "inv dec", "dec", "inc"}
    | {"spike sc", "linked dc", "ldc", "esc", "magic ring", "join", "V-st", "xdc", "puff st"}
)


@pytest.mark.parametrize("stitch", STITCHES)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_stitch_has_a_whole_name_and_is_explained_by_touch(stitch: str, terms: str) -> None:
    assert_speakable(stitch_name(stitch, terms))
    assert_speakable(short_name(stitch, terms))
    assert_whole(other_terms(stitch, terms))
    told = explain(stitch, terms)
    assert len(told) >= 2, stitch
    assert "designer's own" not in " ".join(told), stitch
    for sentence in told:
        assert_whole(Words(sentence, sentence))
        assert not re.search(r"\b(see|look|watch|colou?r|photo|picture|shown)\b", sentence, re.I)


def test_both_terms_name_the_same_stitches() -> None:
    assert BASES["US"].keys() == BASES["UK"].keys() == HEIGHTS.keys()


PLACES = st.one_of(
    st.builds(
        Where,
        st.sampled_from([Into.NEXT, Into.CHAIN, Into.FREE_LOOP, Into.ROW_END, Into.BELOW]),
        st.integers(1, 9),
        named=st.sampled_from([None, "sc", "FPdc", "shell"]),
        position=st.sampled_from([None, "first", "last", "center", "corner"]),
        loop=st.sampled_from([None, "back", "front", "third"]),
        rows_below=st.integers(0, 3),
    ),
    st.builds(Where, st.just(Into.SPACE), st.integers(1, 4), chain_length=st.integers(1, 9)),
    st.builds(
        Where,
        st.sampled_from(
            [
                Into.SAME,
                Into.RING,
                Into.BETWEEN,
                Into.SKIPPED,
                Into.STITCH_OR_SPACE,
                Into.TURNING_CHAIN,
            ]
        ),
        st.integers(1, 3),
    ),
)


def made(stitch: str, where: Where, each: int, color: str | None, passing: int) -> Block:
    count = where.places * each
    return Block(
        stitch, count, where, each, where.places, makes=count, color=color, passing=passing
    )


BLOCKS = st.builds(
    made,
    st.sampled_from(["sc", "dc", "FPdc", "bobble", "sk", "3-dc cl", "V-st", "hdc2tog", "rev sc"]),
    PLACES,
    st.integers(1, 3),
    st.sampled_from([None, "A", "MC", "Sea Green"]),
    st.sampled_from([0, 0, 2]),
)
CHAINS = st.builds(
    lambda count: Block("ch", count, Where(Into.NOTHING), makes_spaces=1), st.integers(1, 5)
)
GROUPS = st.builds(
    Group,
    st.lists(st.one_of(BLOCKS, CHAINS), min_size=1, max_size=3).map(tuple),
    PLACES,
    st.integers(1, 3),
    uses=st.just(1),
    name=st.sampled_from([None, "shell", "half shell", "Cockle group!"]),
)
ACTIONS = st.builds(
    Action,
    st.sampled_from(["turn", "do not turn", "marker", "colour", "fasten off", "rotate", "remark"]),
    st.sampled_from(["", "move marker up", "change to B in last yo", 'RS of 6 sts (2 cm) & 3½"']),
)
ITEMS = st.one_of(BLOCKS, CHAINS, GROUPS, ACTIONS)
WORK = st.lists(
    st.one_of(ITEMS, st.builds(repeat, st.integers(1, 4), ITEMS, ITEMS)), min_size=1, max_size=5
)


def everything_said(stage: Stage, step: Step, terms: str, hand: str) -> list[Words]:
    return [
        words_for_step(stage, step, terms, hand),
        seen_words(stage, step, terms, hand),
        where_words(stage, step),
        more_where_words(stage, step) or where_words(stage, step),
        how_many_words(stage, step, terms),
        left_words(stage, step),
        resume_words("TIDE CLOTH (No. 2)", stage, step, terms),
        *explain_step(stage, step, terms),
    ]


EDGED_WORK = st.builds(
    lambda begins, work, ends: (*begins, *work, *ends),
    st.sampled_from([(), (turning(3, "dc"),), (turning(1),)]),
    WORK,
    st.sampled_from([(), (join(),)]),
)


@given(
    EDGED_WORK,
    st.sampled_from(["US", "UK"]),
    st.sampled_from(["left", "right"]),
    st.sampled_from(Pace),
)
@settings(max_examples=60, deadline=None)
def test_whatever_the_row_every_message_is_whole_words(
    work: tuple[Work, ...], terms: str, hand: str, pace: Pace
) -> None:
    proof = piece(
        row(1, *work, side="RS"),
        row(2, *work, side="WS", worked_as="Row 1", repeat=(1, 2), stated=None),
        chains=45,
        gauge='14 sts = 4"',
        finishing=((9, 'Fasten off, leaving a 6" tail; weave in ends w/ a needle.'),),
    )
    for stage in stages(proof):
        for step in steps(stage, pace)[:6]:
            for words in everything_said(stage, step, terms, hand):
                assert_whole(words)
            for line in view_parts(stage, step, terms, hand).big:
                assert_speakable(line)


@given(st.text(max_size=60))
@settings(max_examples=200, deadline=None)
def test_no_text_of_a_designer_brings_a_sign_to_the_voice(text: str) -> None:
    assert SPOKEN.fullmatch(say(text))


def test_every_reply_is_whole_words() -> None:
    for name, reply in vars(replies).items():
        if isinstance(reply, Words) and name.isupper():
            assert_whole(reply)
    for words in replies.NOT_HEARD:
        assert_whole(words)
    assert_whole(replies.rest_reminder(20, "Row 6, block 2 of 5"))
    assert_whole(replies.confirm_rip_back("Rnd 7", "42 stitches"))


@pytest.mark.parametrize("fibre", Fibre)
@pytest.mark.parametrize("task", Task)
def test_every_usual_task_is_whole_words(task: Task, fibre: Fibre) -> None:
    for sentence in usual_told(task, fibre):
        assert_whole(Words(sentence, sentence))


@pytest.mark.parametrize("caution", Caution)
def test_every_caution_leaves_the_decision_to_those_who_know(caution: Caution) -> None:
    told = CAUTIONS[caution]
    assert_whole(Words(told, told))
    assert re.search(r"Ask|Sew every part|care plan", told)
