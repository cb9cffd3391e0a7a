"""Where a voice begins and ends, with a detector whose answers are written down."""

from __future__ import annotations

import numpy as np
import pytest

from coach.adapters.voice_activity import (
    BLOCK,
    RATE,
    Began,
    Ended,
    More,
    VoiceActivity,
    VoiceEvent,
    silero,
)
from tests.adapters.sounds import noise, silence, spoken


class Script:
    """A detector that takes any sound above a level for a voice."""

    def __call__(self, audio: bytes) -> float:
        return 1.0 if np.abs(np.frombuffer(audio, np.int16)).max() > 300 else 0.0

    def reset(self) -> None:
        pass


def tone(seconds: float, level: int) -> np.ndarray:
    at = np.arange(round(seconds * RATE)) / RATE
    return (level * np.sin(2 * np.pi * 300 * at)).astype(np.int16)


def heard(activity: VoiceActivity, *sounds: np.ndarray) -> list[VoiceEvent]:
    whole = np.concatenate(sounds)
    events: list[VoiceEvent] = []
    for at in range(0, len(whole), 320):
        events += activity.feed(whole[at : at + 320])
    return events


def edges(events: list[VoiceEvent]) -> list[float]:
    return [event.at for event in events if isinstance(event, Began | Ended)]


def test_a_word_begins_and_ends_within_a_block_of_its_edges() -> None:
    events = heard(VoiceActivity(Script()), silence(1.0), tone(0.5, 3_000), silence(0.5))

    began, ended = edges(events)
    assert began == pytest.approx(1.0, abs=2 * BLOCK / RATE)
    assert ended == pytest.approx(1.5, abs=2 * BLOCK / RATE)


def test_its_end_is_known_sixteen_hundredths_of_a_second_later() -> None:
    events = heard(VoiceActivity(Script()), silence(1.0), tone(0.5, 3_000), silence(0.5))

    (late,) = [event.late for event in events if isinstance(event, Ended)]
    assert late == pytest.approx(0.16)


def test_the_sound_just_before_a_word_comes_with_it_once() -> None:
    events = heard(
        VoiceActivity(Script()), silence(1.0), tone(0.4, 3_000), silence(0.2), tone(0.4, 3_000)
    )

    began = [event for event in events if isinstance(event, Began)]
    assert len(began[0].samples) / RATE == pytest.approx(0.35, abs=0.04)
    assert np.abs(began[1].samples[: -2 * BLOCK]).max() == 0  # nothing of the word before


def test_talk_in_the_background_does_not_hide_the_end_of_a_near_word() -> None:
    babble = tone(4.0, 500)  # a voice to the detector, all the time
    near = np.concatenate((tone(0.5, 500), tone(0.5, 5_000), tone(1.0, 500)))

    events = heard(VoiceActivity(Script()), babble, near)

    began, ended = edges(events)[-2:]
    assert began == pytest.approx(4.5, abs=0.07)
    assert ended == pytest.approx(5.0, abs=0.07)


def test_digital_silence_costs_no_look_and_brings_nothing() -> None:
    assert heard(VoiceActivity(Script()), silence(5.0)) == []


def test_after_a_reset_the_word_under_way_is_forgotten_and_the_clock_goes_on() -> None:
    activity = VoiceActivity(Script())
    heard(activity, silence(1.0), tone(0.3, 3_000))
    activity.reset()
    activity.skip(RATE)

    assert edges(heard(activity, silence(0.5))) == []
    assert activity.now == pytest.approx(2.8, abs=0.07)


def test_the_real_detector_finds_a_spoken_phrase_and_no_voice_in_noise() -> None:
    speech = spoken()
    events = heard(VoiceActivity(silero()), noise(2.0, 60), silence(0.5), speech, noise(1.0, 10))

    began, ended = edges(events)
    assert began == pytest.approx(2.5, abs=0.15)
    assert ended == pytest.approx(2.5 + len(speech) / RATE, abs=0.2)
    assert any(isinstance(event, More) for event in events)


def test_a_near_word_ends_although_a_television_goes_on_that_was_just_switched_on() -> None:
    """The room's level is known only seconds later; the talk before the word tells enough."""
    television, word = tone(1.0, 1_000), tone(0.6, 6_000)  # 15.6 decibels apart

    events = heard(VoiceActivity(Script()), silence(2.0), television, word, tone(0.6, 1_000))

    began, ended, *_ = edges(events)
    assert began == pytest.approx(2.0, abs=2 * BLOCK / RATE)
    assert ended == pytest.approx(3.6, abs=2 * BLOCK / RATE)


def test_a_sentence_that_begins_loudest_is_not_cut_after_its_first_word() -> None:
    events = heard(VoiceActivity(Script()), silence(2.0), tone(0.5, 6_000), tone(1.0, 1_000))

    assert len(edges(events)) == 1, "it began, and goes on"
