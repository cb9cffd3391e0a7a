"""Plain lines say all that the screen shows, in letters, digits and ASCII punctuation."""

import io
import json
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.adapters.plain import PlainDisplay, plain_text, step_line, why_plain
from coach.ports import View
from coach.wording.words import Words

RIB = View(
    sentence="Three front post double crochet around the next three stitches.",
    headline="Row 6",
    big=("3", "front post double"),
    group="group 2 of 6",
    count="60 stitches",
    side="wrong side",
    at={"row": 6, "block": 2, "repeat": 2, "stitch": 8},
    row_stitches=60,
)


class Flushed(io.StringIO):
    """Counts how often what was written was handed on."""

    flushes = 0

    def flush(self) -> None:
        self.flushes += 1
        super().flush()


@pytest.mark.parametrize(
    ("written", "plain"),
    [
        ("2½ cm", "2 1/2 cm"),
        ("½ ball", "1/2 ball"),
        ("9–12 rows", "9-12 rows"),
        ("the maker’s “own” way", 'the maker\'s "own" way'),
        ("20 × 30", "20 times 30"),
        ("4″ wide", '4" wide'),
        ("a\tb\nc\x1b[31m", "a b c[31m"),
        ("│ box ─ drawing █▀", "box drawing"),
        ("Zoë's cloth", "Zoë's cloth"),
    ],
)
def test_signs_are_folded_into_plain_ones(written: str, plain: str) -> None:
    assert plain_text(written) == plain


@given(st.text())
@settings(max_examples=200, deadline=None)
def test_no_text_can_smuggle_in_a_control_or_a_drawing(text: str) -> None:
    plain = plain_text(text)
    assert not re.search("[\x00-\x1f\x7f\x80-\x9f\u2500-\u259f\u2800-\u28ff]", plain)
    assert plain == " ".join(plain.split())


def test_a_message_is_one_line_and_flushed_at_once() -> None:
    stream = Flushed()
    display = PlainDisplay(stream)
    display.mode("you asked for it with --plain")
    display.tell(Words("You are in row 6.", "Row 6"))
    assert stream.getvalue() == (
        "Plain mode, because you asked for it with --plain.\nYou are in row 6.\n"
    )
    assert stream.flushes == 2


@pytest.mark.parametrize("width", [80, 40])
def test_a_width_breaks_lines_between_words_only(width: int) -> None:
    stream = io.StringIO()
    PlainDisplay(stream, width=width).show(RIB)
    lines = stream.getvalue().splitlines()
    assert max(map(len, lines)) <= width
    assert RIB.sentence in " ".join(lines)


def test_the_line_tells_what_to_do_first_and_then_where() -> None:
    stream = io.StringIO()
    PlainDisplay(stream).show(RIB)
    assert stream.getvalue() == (
        "Three front post double crochet around the next three stitches. "
        "Row 6, group 2 of 6, wrong side, 60 stitches.\n"
    )


def test_a_fact_that_the_sentence_tells_is_not_told_twice() -> None:
    opening = View(
        sentence="Row 16, right side. Chain 3. This row must come to 60 stitches.",
        headline="Row 1",
        big=("3", "chain"),
        side="right side",
        count="60 stitches",
    )
    assert step_line(opening) == f"{opening.sentence} Row 1."


def test_signs_are_told_when_they_come() -> None:
    stream = io.StringIO()
    display = PlainDisplay(stream)
    step = View(sentence="Chain 3.", headline="", big=("3", "chain"), signs=("microphone off",))
    for view in (step, step, replace(step, signs=("microphone off", "paused"))):
        display.show(view)
    assert stream.getvalue().splitlines() == [
        "Chain 3.", "Microphone off.", "Chain 3.", "Chain 3.", "Paused.",
    ]  # fmt: skip


def test_the_same_answers_are_not_listed_again() -> None:
    stream = io.StringIO()
    display = PlainDisplay(stream)
    view = View(sentence="Which one?", headline="", big=(), choices=("Counts", "Does not"))
    display.show(view)
    display.show(replace(view, sentence="Say one or two."))
    assert stream.getvalue().splitlines() == [
        "Which one?", "1: Counts", "2: Does not", "Say one or two.",
    ]  # fmt: skip


def test_choices_are_numbered_answers_each_on_its_own_line() -> None:
    stream = io.StringIO()
    question = View(sentence="Which one?", headline="", big=(), choices=("Counts", "Does not"))
    PlainDisplay(stream).show(question)
    assert stream.getvalue().splitlines() == ["Which one?", "1: Counts", "2: Does not"]


def test_json_lines_follow_the_contract() -> None:
    stream = io.StringIO()
    display = PlainDisplay(stream, as_json=True)
    display.show(RIB)
    display.heard("next", 0.9712, 140)
    step, heard = (json.loads(line) for line in stream.getvalue().splitlines())
    assert step["type"] == "say"
    assert step["full"] == RIB.sentence
    assert step["brief"] == "3 front post double"
    assert step["at"] == {"row": 6, "block": 2, "repeat": 2, "stitch": 8}
    assert step["row_stitches"] == 60
    assert step["done"] is False
    assert heard == {"type": "heard", "text": "next", "confidence": 0.971, "ms": 140}


def test_what_was_heard_comes_before_its_answer() -> None:
    stream = io.StringIO()
    PlainDisplay(stream).heard("next", 0.9, 100)
    assert stream.getvalue() == "heard: next\n"


@pytest.mark.parametrize(
    ("asked", "environment", "on_terminal", "why"),
    [
        (True, {}, True, "you asked for it with --plain"),
        (False, {"COACH_PLAIN": "1"}, True, "COACH_PLAIN is set"),
        (False, {"ACCESSIBLE": "1"}, True, "ACCESSIBLE is set"),
        (False, {"ACCESSIBLE": "0", "TERM": "xterm"}, True, None),
        (False, {"TERM": "dumb"}, True, "the terminal calls itself dumb"),
        (False, {"TERM": "xterm"}, False, "there is no terminal to draw on"),
        (False, {"TERM": "xterm", "NO_COLOR": "1"}, True, None),
    ],
)
def test_the_reason_for_plain_mode_is_named(
    asked: bool, environment: dict[str, str], on_terminal: bool, why: str | None
) -> None:
    assert why_plain(asked=asked, environment=environment, on_terminal=on_terminal) == why
