"""Said while the coach speaks: the maker's words are taken, the coach's own never."""

from __future__ import annotations

import pytest

from coach.adapters.attention import Heed
from coach.adapters.ear_verdicts import Accepted, Unsure
from coach.adapters.interruptions import Interruptions
from coach.adapters.own_words import OwnWords
from coach.adapters.utterance import word_times
from coach.guide.interrupting import WhileSpeaking
from coach.ports import SaidWord

# "Single crochet in the next stitch, back loop only, repeat." said from second 100 on, 4 s long:
# 10 words of 46 letters, each with 1 for its end, 56 in all: 0.0714 s a letter.
LINE = "Single crochet in the next stitch, back loop only, repeat."


class Clock:
    def __init__(self) -> None:
        self.time = 100.0

    def __call__(self) -> float:
        return self.time


def own_words() -> OwnWords:
    made = OwnWords()
    made.say(word_times(LINE, 100.0, 4.0))
    return made


def speaking(taken: WhileSpeaking, *, hears_clean: bool = False) -> Interruptions:
    made = Interruptions(taken, hears_clean=hears_clean, clock=Clock())
    made.attention.coach_speaks(4.0)
    made.coach_says(word_times(LINE, 100.0, 4.0))
    return made


def heard(text: str, began: float, ended: float, confidence: float = 0.95) -> Accepted:
    return Accepted(text, confidence, ended, began)


def test_words_share_the_time_of_a_line_by_their_letters() -> None:
    words = {word.text: word for word in word_times(LINE, 100.0, 4.0)}

    assert words["Single"].began == 100.0
    assert words["repeat."].ended == pytest.approx(104.0)
    # Single 7, crochet 8, in 3, the 4: "next" begins after 22 of 56 and takes 5.
    assert words["next"].began == pytest.approx(100 + 4 * 22 / 56)
    assert words["next"].ended == pytest.approx(100 + 4 * 27 / 56)


@pytest.mark.parametrize(
    ("phrase", "began", "ended"),
    [
        ("next row", 101.5, 102.0),  # "next" sounds from 101.6 to 101.9
        ("next row", 102.4, 102.6),  # the room still rings of it
        ("go back", 102.3, 102.9),  # "back" from 102.4 to 102.8
        ("repeat that", 103.4, 104.4),
        ("repeat that", 104.5, 105.0),
    ],
)
def test_a_phrase_is_the_coachs_own_while_one_of_its_words_sounds(
    phrase: str, began: float, ended: float
) -> None:
    assert own_words().holds(phrase, began, ended)


@pytest.mark.parametrize(
    ("phrase", "began", "ended"),
    [
        ("stop talking", 101.5, 102.0),  # the coach doesn't say it
        ("next row", 103.4, 103.9),  # "next" ended 1.5 s before
        ("repeat that", 100.5, 101.0),  # "repeat" comes 2.5 s later
        ("where am i", 101.0, 101.6),  # "in" and "the" are no sign of anything
    ],
)
def test_any_other_phrase_is_the_makers(phrase: str, began: float, ended: float) -> None:
    assert not own_words().holds(phrase, began, ended)


def test_a_word_that_rhymes_with_what_the_coach_says_is_its_own() -> None:
    made = OwnWords()
    made.say([SaidWord("text", 100.0, 100.4), SaidWord("black", 105.0, 105.4)])

    assert made.holds("next row", 100.1, 100.7)
    assert made.holds("go back", 105.0, 105.6)


def test_a_figure_is_known_by_the_words_it_is_said_with() -> None:
    made = OwnWords()
    made.say([SaidWord("77.", 100.0, 101.0)])

    assert made.holds("i have seventy seven", 100.0, 101.0)
    assert not made.holds("i have thirty", 100.0, 101.0)


def test_what_was_cut_off_was_never_said() -> None:
    made = own_words()
    made.cut(101.0)

    assert not made.holds("repeat that", 103.4, 104.0)


@pytest.mark.parametrize(
    ("phrase", "meaning", "taken"),
    [
        ("stop talking", "stop talking", set(WhileSpeaking) - {WhileSpeaking.NOTHING}),
        ("hold on there", "pause", set(WhileSpeaking) - {WhileSpeaking.NOTHING}),
        ("where am i", "where", {WhileSpeaking.ALL_WORDS}),
        ("carry on", "carry on", {WhileSpeaking.ALL_WORDS}),
        ("next", "next", set()),  # one short word: a room's echo makes it most easily
        ("pause", "pause", set()),
    ],
)
def test_what_may_interrupt(phrase: str, meaning: str, taken: set[WhileSpeaking]) -> None:
    for mode in WhileSpeaking:
        takes = speaking(mode).takes(heard(phrase, 100.2, 100.8), meaning, 0.0)
        assert takes is (mode in taken), mode


def test_more_is_asked_of_a_phrase_than_when_it_is_quiet() -> None:
    unsure = heard("stop talking", 100.2, 100.8, confidence=0.7)

    assert not speaking(WhileSpeaking.ALL_WORDS).takes(unsure, "stop talking", 0.0)


def test_something_unsure_counts_only_when_the_coachs_own_sound_is_taken_out() -> None:
    unsure = Unsure(0.4, 100.8, 100.2)

    assert not speaking(WhileSpeaking.ALL_WORDS).takes(unsure, "", 0.0)
    assert speaking(WhileSpeaking.ALL_WORDS, hears_clean=True).takes(unsure, "", 0.0)


def test_half_duplex_is_deaf_while_the_coach_speaks_and_only_notices_voices_just_after() -> None:
    clock = Clock()
    attention = Interruptions(clock=clock).attention
    attention.coach_speaks(4.0)
    assert attention.heed(101.0) is Heed.NOTHING

    clock.time = 104.0
    attention.coach_silent()

    assert attention.heed(104.4) is Heed.VOICES
    assert attention.heed(104.6) is Heed.WORDS


def test_with_interruptions_words_are_heard_throughout_but_not_by_a_muted_ear() -> None:
    clock = Clock()
    attention = Interruptions(WhileSpeaking.ALL_WORDS, clock=clock).attention
    attention.coach_speaks(4.0)
    assert attention.heed(101.0) is Heed.WORDS

    attention.mute(True)

    assert attention.heed(101.0) is Heed.NOTHING


def test_a_phrase_begun_while_the_coach_spoke_is_judged_as_such_when_it_ends_later() -> None:
    clock = Clock()
    made = Interruptions(WhileSpeaking.STOP_WORDS, clock=clock)
    made.attention.coach_speaks(4.0)
    clock.time = 104.0
    made.coach_silent()

    assert made.interrupts(heard("next row", 103.9, 105.0), 0.0)
    assert made.interrupts(heard("next row", 104.4, 105.0), 0.0), "the room still rings"
    assert not made.interrupts(heard("next row", 104.6, 105.2), 0.0)
    assert not made.interrupts(heard("next row", 99.0, 99.5), 0.0), "before it spoke"


def test_a_phrase_is_placed_by_the_shift_from_the_ears_time_to_the_clocks() -> None:
    made = speaking(WhileSpeaking.ALL_WORDS)

    assert made.interrupts(heard("next row", 1.5, 2.0), 100.0)
    assert not made.takes(heard("next row", 1.5, 2.0), "next", 100.0)
    assert made.takes(heard("next row", 3.4, 3.9), "next", 100.0)


def test_the_words_that_hint_at_a_stop_count_only_across_the_coach_and_without_its_echo() -> None:
    clean = speaking(WhileSpeaking.STOP_WORDS, hears_clean=True)

    assert clean.hints_at(101.0) == {
        "stop",
        "talking",
        "hold",
        "there",
        "quiet",
        "time",
        "listening",
    }
    assert clean.hints_at(99.0) == frozenset()
    assert speaking(WhileSpeaking.STOP_WORDS).hints_at(101.0) == frozenset()
