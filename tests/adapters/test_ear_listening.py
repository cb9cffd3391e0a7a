"""From sound to phrases: a voice whose beginning was not heard is no word."""

from __future__ import annotations

import numpy as np

from coach.adapters.ear_listening import Listening, Stretch, near
from coach.adapters.ear_readings import Reading, Word
from coach.adapters.ear_sayings import Saying
from coach.adapters.ear_verdicts import Accepted, Unsure
from tests.adapters.sounds import RATE, Samples, silence
from tests.adapters.test_ear_voice_activity import Script, tone


class Writing:
    """A decoder that reads "go back" out of any sound."""

    def __init__(self) -> None:
        self.decoded: list[tuple[float, int]] = []

    def begin(self, at: float, samples: Samples) -> None:
        self.decoded.append((at, len(samples)))

    def end(self) -> tuple[Reading, ...]:
        at, length = self.decoded[-1]
        ended = at + length / RATE - 0.2
        return (
            Reading((Word("go", ended - 0.5, ended - 0.3), Word("back", ended - 0.3, ended)), 9),
        )


def listening(decoder: Writing) -> Listening:
    made = Listening(decoder, Script())
    made.listen_for({"go back": "back"})
    return made


def heard(ear: Listening, *sounds: Samples) -> list[str]:
    whole = np.concatenate(sounds)
    told = [each for at in range(0, len(whole), 320) for each in ear.feed(whole[at : at + 320])]
    return [each.text for each in told if isinstance(each, Accepted)]


def test_a_voice_under_way_when_listening_begins_is_no_word_and_the_next_one_is() -> None:
    decoder = Writing()
    ear = listening(decoder)
    ear.overhear(np.concatenate((silence(0.3), tone(0.2, 3_000))))

    assert heard(ear, tone(0.6, 3_000), silence(0.4)) == []
    assert decoder.decoded == [], "half a word isn't even decoded"
    assert heard(ear, tone(0.6, 3_000), silence(0.4)) == ["go back"]


def test_a_voice_that_ended_while_only_overheard_spoils_nothing() -> None:
    ear = listening(Writing())
    ear.overhear(np.concatenate((tone(0.6, 3_000), silence(0.4))))

    assert heard(ear, tone(0.6, 3_000), silence(0.4)) == ["go back"]


def test_a_new_list_begins_afresh() -> None:
    ear = listening(Writing())
    ear.overhear(tone(0.5, 3_000))
    ear.listen_for({"go back": "back"})

    assert heard(ear, silence(0.3), tone(0.6, 3_000), silence(0.4)) == ["go back"]


def test_the_clock_goes_on_truly_over_what_was_not_listened_to() -> None:
    ear = listening(Writing())
    for _ in range(500):
        ear.skip(320)  # as a microphone's blocks come: 20 ms

    assert abs(ear.now - 10.0) < 0.04


def test_half_a_stop_heard_across_the_coach_is_something_unsure_and_otherwise_nothing() -> None:
    """The decoder hears "go back"; "stop talking" is listed, and "back" stands for its half."""
    ear = Listening(Writing(), Script())
    ear.listen_for({"stop talking": "stop talking"})
    word = np.concatenate((silence(0.3), tone(0.6, 3_000), silence(1.5)))

    assert list(ear.feed(word)) == []
    ear.take_hints(frozenset({"back"}))
    assert [type(each) for each in ear.feed(word)] == [Unsure]
    ear.take_hints(frozenset())
    assert list(ear.feed(word)) == []


def test_in_a_lesson_whole_sayings_are_handed_over_a_little_after_they_end() -> None:
    ear = listening(Writing())
    ear.learn(True)
    two_parts = (silence(0.3), tone(0.6, 3_000), silence(0.4), tone(0.6, 3_000), silence(1.2))

    sayings = list(ear.feed(np.concatenate(two_parts)))

    assert [type(each) for each in sayings] == [Saying]
    assert isinstance(sayings[0], Saying)
    assert sayings[0].readings == ("go back go back",), "a pause inside it is joined"
    ear.learn(False)
    assert heard(ear, tone(0.6, 3_000), silence(0.4)) == ["go back"]


def test_a_soft_last_sound_among_talkers_is_decoded_with_its_word_and_room_around_both() -> None:
    """Blocks of 512 samples: 12 of talk farther off, a word of 20, its soft end of 3, talk again.

    The end is 13 decibels softer than the word, the talk 20. Three tenths of a second, 4,800
    samples, are kept on both sides.
    """
    levels = np.array([40.0] * 12 + [60.0] * 20 + [47.0] * 3 + [40.0] * 12)

    assert near(levels, background=45.0) == Stretch(12 * 512 - 4_800, 35 * 512 + 4_800)


def test_in_a_quiet_room_nothing_is_taken_from_an_utterance() -> None:
    levels = np.array([20.0] * 4 + [60.0] * 20 + [30.0] * 4)

    kept = near(levels, background=10.0)

    assert kept.first == 0
    assert kept.last >= len(levels) * 512


def test_talk_that_began_just_before_a_phrase_in_a_quiet_room_is_cut_from_around_it() -> None:
    """A television, 10 decibels softer, is switched on; the room was still judged to be quiet.

    40 blocks of it, a word of 20, 10 of it again: three tenths of a second, 4,800 samples, are
    kept around the word, and that it was said among talk.
    """
    levels = np.array([20.0] * 10 + [50.0] * 40 + [60.0] * 20 + [50.0] * 10)

    found = near(levels, background=20.0)

    assert found == Stretch(50 * 512 - 4_800, 70 * 512 + 4_800, among_talk=True)


def test_a_sentence_whose_first_word_is_the_loudest_is_not_cut_to_that_word() -> None:
    levels = np.array([20.0] * 10 + [60.0] * 12 + [50.0] * 60)

    assert not near(levels, background=20.0).among_talk


def test_two_loud_stretches_far_apart_are_not_one_phrase() -> None:
    """A bang of 6 blocks on the television, then 1.3 seconds of its talk: the word of 20 counts."""
    loud, soft = [60.0] * 20, [50.0] * 40
    levels = np.array([20.0] * 10 + soft + [60.0] * 6 + soft + loud)

    assert near(levels, background=20.0).first == 96 * 512 - 4_800
