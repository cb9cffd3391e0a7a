"""Whole phrases: what counts as a command, and what stays talk. Times in seconds of sound."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coach.adapters.ear_phrases import WholePhrases
from coach.adapters.ear_readings import Part, Reading, Word
from coach.adapters.ear_verdicts import Accepted, Unsure, Verdict

MEANINGS = {
    "next": "next",
    "next row": "next",
    "go back": "back",
    "how many": "how many",
    "how many left": "left",
    "repeat": "repeat",
    "repeat that": "repeat",
    "i have #": "count",
    "i have # stitches": "count",
}


@pytest.fixture
def rules() -> WholePhrases:
    made = WholePhrases()
    made.listen_for(MEANINGS)
    return made


def reading(text: str, score: float, began: float, ended: float) -> Reading:
    """Spread the words of *text* evenly from *began* to *ended*."""
    words = text.split()
    step = (ended - began) / len(words)
    placed = (
        Word(word, began + at * step, began + (at + 1) * step) for at, word in enumerate(words)
    )
    return Reading(tuple(placed), score)


def part(best: str, began: float, seconds: float = 0.7, **others: float) -> Part:
    """One utterance: its best reading, and *others* with how far each lies behind or ahead."""
    ended = began + seconds
    readings = [reading(best, 20.0, began, ended)]
    for other, lead in others.items():
        readings.append(reading(other.replace("_", " "), 20.0 + lead, began, ended))
    readings.sort(key=lambda each: -each.score)
    return Part(tuple(readings), began, ended)


def said(rules: WholePhrases, *parts: Part, until: float = 30.0) -> list[Verdict]:
    """Let the parts be said in turn, then wait until *until*; return all that came of it."""
    got: list[Verdict | None] = []
    for each in parts:
        got.append(rules.tick(each.began - 0.05))
        rules.voice_began(each.began)
        got.append(rules.offer(each))
        got.append(rules.tick(each.ended + 0.15))
    got.append(rules.tick(until))
    return [verdict for verdict in got if verdict is not None]


def texts(verdicts: list[Verdict]) -> list[str]:
    return [verdict.text for verdict in verdicts if isinstance(verdict, Accepted)]


def test_a_whole_phrase_is_taken_at_once(rules: WholePhrases) -> None:
    heard = rules.offer(part("next row", 1.0))

    assert isinstance(heard, Accepted)
    assert (heard.text, heard.at) == ("next row", 1.7)


def test_a_command_inside_a_sentence_is_no_command(rules: WholePhrases) -> None:
    assert said(rules, part("the next row over there", 1.0, 1.6)) == []


def test_a_command_after_half_a_sentence_is_no_command(rules: WholePhrases) -> None:
    """ "Well, we go to the coast" … "next row" … said in one train of talk."""
    assert said(rules, part("we go to the coast", 1.0, 1.4), part("next row", 2.8)) == []


def test_a_pause_inside_a_phrase_is_joined(rules: WholePhrases) -> None:
    assert texts(said(rules, part("go", 1.0, 0.3), part("back", 1.8, 0.4))) == ["go back"]


def test_a_false_start_does_not_spoil_the_command_after_it(rules: WholePhrases) -> None:
    assert texts(said(rules, part("go", 1.0, 0.3), part("next row", 1.8))) == ["next row"]
    assert texts(said(rules, part("how", 11.0, 0.4), part("go back", 11.9))) == ["go back"]


def test_a_word_of_talk_before_a_command_makes_it_talk(rules: WholePhrases) -> None:
    """ "Black coffee please" has a word that leads nowhere before it."""
    assert said(rules, part("black", 1.0, 0.3), part("next row", 1.8)) == []


def far(sound: Part) -> Part:
    """The same words from another mouth, farther away."""
    return replace(sound, level=-9.0)


def test_talk_farther_away_before_a_command_does_not_spoil_it(rules: WholePhrases) -> None:
    assert texts(said(rules, far(part("black", 1.0, 0.3)), part("next row", 1.8))) == ["next row"]


def test_talk_farther_away_does_not_spoil_a_phrase_that_waits(rules: WholePhrases) -> None:
    heard = said(rules, part("how many", 1.0), far(part("hands", 2.0, 0.3)))

    assert texts(heard) == ["how many"]


def test_a_softer_word_of_the_same_phrase_still_belongs_to_it(rules: WholePhrases) -> None:
    assert texts(said(rules, far(part("go", 1.0, 0.3)), part("back", 1.8, 0.4))) == ["go back"]


def test_a_false_start_makes_the_ear_wary(rules: WholePhrases) -> None:
    assert said(rules, part("go", 1.0, 0.3), part("next row", 1.8, 0.7, go_back=-0.8)) == []


def test_parts_too_far_apart_are_not_joined(rules: WholePhrases) -> None:
    assert said(rules, part("go", 1.0, 0.3), part("left", 2.2, 0.4)) == []


def test_a_phrase_that_could_become_another_waits_for_the_rest(rules: WholePhrases) -> None:
    assert rules.offer(part("how many", 1.0)) is None
    rules.voice_began(2.1)
    assert rules.tick(2.3) is None
    heard = rules.offer(part("left", 2.1, 0.4))

    assert isinstance(heard, Accepted)
    assert heard.text == "how many left"


def test_a_phrase_that_waits_is_noticed_once(rules: WholePhrases) -> None:
    rules.offer(part("how many", 1.0, 0.6))
    noticed = rules.take_notice()

    assert noticed is not None
    assert noticed.at == pytest.approx(1.6)
    assert rules.take_notice() is None
    assert isinstance(rules.tick(2.4), Accepted)
    rules.offer(part("next row", 4.0))
    assert rules.take_notice() is None, "taken at once: its own tone comes at once"


def test_a_phrase_noticed_that_turns_out_to_be_talk_is_told_as_not_understood(
    rules: WholePhrases,
) -> None:
    rules.offer(part("how many", 1.0, 0.6))
    assert rules.take_notice() is not None

    after = rules.offer(part("cups of tea with that", 1.9, 1.2))

    assert isinstance(after, Unsure)
    assert said(rules) == [], "and told once"


def test_in_talk_and_where_it_is_not_wanted_nothing_is_noticed(rules: WholePhrases) -> None:
    said(rules, part("so we had tea at home", 1.0, 1.5), until=3.5)
    rules.offer(part("how many", 4.0, 0.6))
    assert rules.take_notice() is None

    rules.reset()
    rules.notices = False
    rules.offer(part("how many", 20.0, 0.6))
    assert rules.take_notice() is None


def test_alone_it_is_taken_when_the_wait_is_over(rules: WholePhrases) -> None:
    rules.offer(part("how many", 1.0))

    assert rules.tick(2.0) is None
    heard = rules.tick(2.45)
    assert isinstance(heard, Accepted)
    assert heard.text == "how many"


def test_a_phrase_whose_longer_twin_means_the_same_does_not_wait(rules: WholePhrases) -> None:
    heard = rules.offer(part("repeat", 1.0, 0.5))

    assert isinstance(heard, Accepted)
    assert said(rules, part("that", 1.9, 0.3)) == []


def test_an_unsure_word_waits_for_the_rest_that_would_settle_it(rules: WholePhrases) -> None:
    heard = said(rules, part("next", 1.0, 0.3, neck=0.1), part("row", 1.45, 0.4))

    assert texts(heard) == ["next row"]


def test_next_next_in_one_breath_is_one(rules: WholePhrases) -> None:
    assert texts(said(rules, part("next next", 1.0, 0.9))) == ["next"]


def test_a_number_waits_for_its_last_word(rules: WholePhrases) -> None:
    heard = said(rules, part("i have thirty", 1.0, 0.9), part("two", 2.3, 0.3))

    assert texts(heard) == ["i have thirty two"]


@pytest.mark.parametrize("text", ["i have thirty two", "i have nineteen"])
def test_a_number_that_cannot_grow_waits_only_for_its_unit(rules: WholePhrases, text: str) -> None:
    assert rules.offer(part(text, 1.0, 1.0)) is None
    heard = rules.tick(2.36)

    assert isinstance(heard, Accepted)
    assert heard.text == text


@pytest.mark.parametrize("text", ["i have thirty", "i have one four"])
def test_a_number_that_can_grow_waits_longer(rules: WholePhrases, text: str) -> None:
    assert rules.offer(part(text, 1.0, 1.0)) is None
    assert rules.tick(2.5) is None


@pytest.mark.parametrize("text", ["i have one four two", "i have twelve stitches"])
def test_numbers_by_digits_and_with_their_unit_are_whole(rules: WholePhrases, text: str) -> None:
    assert texts(said(rules, part(text, 1.0, 1.5))) == [text]


def test_what_is_no_number_is_no_phrase(rules: WholePhrases) -> None:
    assert said(rules, part("i have eighty hundred", 1.0, 1.3)) == []


def test_a_decoy_as_likely_as_the_command_leaves_it_unsure(rules: WholePhrases) -> None:
    assert rules.offer(part("next", 1.0, 0.5, text=0.0)) is None  # "row" might come and settle it
    heard = rules.tick(2.3)

    assert isinstance(heard, Unsure)
    assert heard.confidence == pytest.approx(0.583, abs=0.001)


def test_half_a_point_of_lead_is_asked_over_a_rhyme(rules: WholePhrases) -> None:
    less = said(rules, part("next", 1.0, 0.5, text=-0.4))
    more = said(rules, part("next", 9.0, 0.5, text=-0.6))

    assert [type(each) for each in less] == [Unsure]
    assert texts(more) == ["next"]


def test_a_phrase_that_some_other_word_fits_nearly_as_well_is_that_word(
    rules: WholePhrases,
) -> None:
    """ "Stopping" is read as "stop talking" where it isn't in the list; the unknown word is close."""
    near = Part(
        (reading("repeat that", 20.0, 1.0, 1.7), reading("[unk]", 18.0, 1.0, 1.7)), 1.0, 1.7
    )
    far = Part((reading("repeat that", 20.0, 4.0, 4.7), reading("[unk]", 14.0, 4.0, 4.7)), 4.0, 4.7)

    assert said(rules, near, until=3.0) == []
    assert texts(said(rules, far)) == ["repeat that"]


def test_a_decoy_that_is_likelier_wins(rules: WholePhrases) -> None:
    assert texts(said(rules, part("next", 1.0, 0.5, nest=1.5))) == []


def test_a_mixture_a_little_likelier_is_forgiven_for_two_words(rules: WholePhrases) -> None:
    assert texts(said(rules, part("go back", 1.0, 0.7, go_neck=1.0))) == ["go back"]
    assert texts(said(rules, part("go back", 9.0, 0.7, we_do_not=6.0))) == []


def test_a_number_is_forgiven_more_for_it_is_read_back(rules: WholePhrases) -> None:
    heard = said(rules, part("i have thirty two", 1.0, 1.2, have_thirty_two=3.5))

    assert texts(heard) == ["i have thirty two"]


def test_two_commands_equally_likely_are_neither(rules: WholePhrases) -> None:
    heard = rules.offer(part("go back", 1.0, 0.7, next_row=0.0))

    assert isinstance(heard, Unsure)


def test_twins_of_one_command_are_no_rivals(rules: WholePhrases) -> None:
    assert texts(said(rules, part("next row", 1.0, 0.7, next=0.0))) == ["next row"]


@pytest.mark.parametrize("seconds", [0.12, 2.8])
def test_what_is_too_short_or_too_long_for_its_words_is_left(
    rules: WholePhrases, seconds: float
) -> None:
    assert texts(said(rules, part("next row", 1.0, seconds))) == []


def test_voice_that_no_word_accounts_for_spoils_the_phrase(rules: WholePhrases) -> None:
    whole = Part((reading("next row", 20.0, 1.0, 1.7),), 1.0, 2.6)

    assert rules.offer(whole) is None


def test_a_phrase_cut_out_of_talk_is_taken_only_as_surely_as_after_talk(
    rules: WholePhrases,
) -> None:
    unsure = replace(part("next row", 1.0, go_back=-1.1), among_talk=True)
    sure = replace(part("next row", 1.0, go_back=-6.0), among_talk=True)

    assert said(rules, unsure) == []
    assert texts(said(rules, sure)) == ["next row"]


def test_one_word_cut_out_of_talk_is_part_of_that_talk(rules: WholePhrases) -> None:
    assert said(rules, replace(part("next", 1.0, 0.5), among_talk=True)) == []


def test_after_talk_more_silence_and_more_certainty_are_asked(rules: WholePhrases) -> None:
    said(rules, part("so we had tea at home", 1.0, 1.5), until=3.5)

    assert rules.offer(part("next row", 5.0)) is None  # not at once …
    assert isinstance(rules.tick(6.2), Accepted)  # … but after 0.45 s of silence
    assert said(rules, part("next row", 7.0, 0.7, go_back=-0.8), until=8.4) == []


def test_a_clink_between_two_words_is_no_word(rules: WholePhrases) -> None:
    heard = said(rules, part("go", 1.0, 0.3), part("[unk]", 1.5, 0.1), part("back", 1.8, 0.4))

    assert texts(heard) == ["go back"]


def test_a_new_list_forgets_the_old_one(rules: WholePhrases) -> None:
    rules.listen_for({"hello coach": "hello"})

    assert said(rules, part("next row", 1.0)) == []
    assert texts(said(rules, part("hello coach", 20.0))) == ["hello coach"]
