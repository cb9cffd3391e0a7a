"""No sentence is lost, doubled or overlapped, and no silence goes unnoticed."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.adapters.sound_out import SoundNews
from coach.adapters.voice_pyttsx3 import SpeechLostError, VoiceMissingError
from coach.adapters.voice_settings import VoiceSettings
from tests.adapters.fake_sound import BLOCK, RATE, Room

ROW = "Row six. Chain three. That makes 77."
PIECES = ["Row six.", "Chain three.", "That makes 77."]


def test_an_utterance_sounds_whole_and_in_order() -> None:
    room = Room()

    room.say(ROW)
    room.work()

    assert room.listen() == PIECES
    assert room.heard == [ROW, ""]


def test_the_first_piece_sounds_before_the_last_is_made() -> None:
    room = Room()
    room.say(ROW)

    room.work(pieces=1)

    assert room.listen(0.2) == ["Row six."]
    room.work()
    assert room.listen() == ["Chain three.", "That makes 77."]


def test_the_newest_utterance_cuts_the_one_before_within_a_block() -> None:
    room = Room()
    room.say("One two three four five six seven eight nine ten.")
    room.work()
    room.pass_time(0.1)

    room.say("Stop here.")
    room.work()
    room.pass_time(2 * BLOCK / RATE)

    assert room.sounded(room.sound.blocks[-1:]) == ["Stop here."]
    assert room.listen() == ["Stop here."]


def test_stop_is_silence_from_the_next_block_on() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.05)

    room.mouth.stop()

    room.pass_time(BLOCK / RATE)  # the fade of 5 ms lies within it
    assert room.listen() == []
    assert room.heard == [ROW, ""]


def test_a_repeat_is_not_made_again() -> None:
    room = Room()
    for _ in range(3):
        room.say(ROW)
        room.work()
        assert room.listen() == PIECES

    assert room.voice.made == PIECES


def test_what_is_likely_is_made_in_order_and_never_before_what_is_said() -> None:
    room = Room()
    room.prepare("Next one.", "Back one.")
    room.say("This one.")

    room.work()

    assert room.voice.made == ["This one.", "Next one.", "Back one."]
    room.say("Next one.")
    assert room.listen() == ["Next one."]  # at once: nothing had to be made


def test_the_newest_list_of_what_is_likely_takes_the_place_of_the_older() -> None:
    room = Room()
    room.prepare("Old one.")
    room.prepare("New one.")

    room.work()

    assert room.voice.made == ["New one."]


def test_an_utterance_of_signs_alone_says_nothing_and_cuts_what_sounds() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.05)

    room.say("— … *")
    room.work()

    assert room.listen() == []
    assert room.heard == [ROW, ""]  # the ear is not left deaf


def test_the_count_at_the_end_is_closed_by_a_full_stop() -> None:
    """User need L09: without the mark the last word, often the count, goes missing."""
    room = Room()

    room.say("Single crochet in the last stitch, 42")
    room.work()

    assert room.voice.made == ["Single crochet in the last stitch, 42."]


def test_speech_that_was_held_goes_on_from_the_broken_clause_when_nothing_comes_of_it() -> None:
    room = Room()
    room.say(ROW)  # the pieces sound 0.12, 0.12 and 0.18 s, with 0.8 s between them
    room.work()
    room.pass_time(0.95)  # "Chain three." has begun

    room.mouth.hold()

    assert room.listen(1.9) == []
    assert room.heard == [ROW, ""], "the ear listens while the voice is held"
    room.pass_time(0.2)
    room.work()
    assert room.listen() == ["Chain three.", "That makes 77."]
    assert room.heard == [ROW, "", ROW, ""]
    assert room.told == []


def test_held_between_two_clauses_it_goes_on_with_the_one_to_come() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.3)  # the first has ended at 0.12 s

    room.mouth.hold()
    room.pass_time(2.1)
    room.work()

    assert room.listen() == ["Chain three.", "That makes 77."]


def test_what_is_said_after_a_hold_is_said_at_once_and_the_held_is_forgotten() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.05)
    room.mouth.hold()
    room.pass_time(0.5)

    room.say("Go back.")
    room.work()

    assert room.listen() == ["Go back."]


def test_a_stop_after_a_hold_is_for_good() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.05)
    room.mouth.hold()

    room.mouth.stop()
    room.pass_time(3.0)
    room.work()

    assert room.listen() == []
    room.say("Go back.")
    room.work()
    assert room.listen() == ["Go back."]


def test_a_hold_while_nothing_sounds_does_nothing() -> None:
    room = Room()
    room.mouth.hold()
    room.say("Go back.")
    room.mouth.hold()
    room.work()

    assert room.listen() == ["Go back."]


def test_the_ear_is_told_when_each_word_sounds() -> None:
    room = Room()
    room.say("Chain three. Turn.")
    room.work()
    room.time = 10.0

    room.pass_time(BLOCK / RATE)

    # Chain: 5 letters and 1 for its end, three the same: half of 120 ms each. Then 0.8 s of pause.
    began = 10.0 + BLOCK / RATE
    assert [word.text for word in room.saying] == ["Chain", "three.", "Turn."]
    times = [(word.began - began, word.ended - began) for word in room.saying]
    assert times[0] == pytest.approx((0.0, 0.06))
    assert times[1] == pytest.approx((0.06, 0.12))
    assert times[2] == pytest.approx((0.92, 0.98))


# Orders at random


ORDERS = st.lists(
    st.tuples(
        st.sampled_from(["say", "say", "say", "stop", "prepare", "time", "work", "tone", "rate"]),
        st.integers(0, 19),
    ),
    max_size=40,
)


@given(ORDERS)
@settings(max_examples=60, deadline=None)
def test_no_order_of_commands_loses_doubles_or_overlaps(orders: list[tuple[str, int]]) -> None:
    obey_all(orders)


def test_a_thousand_orders_lose_nothing_double_nothing_and_overlap_nothing() -> None:
    chance = random.Random(20)  # noqa: S311 - the same orders every time
    kinds = ["say", "say", "say", "stop", "prepare", "time", "time", "work", "tone", "rate"]

    obey_all([(chance.choice(kinds), chance.randrange(20)) for _ in range(1000)])


def obey_all(orders: list[tuple[str, int]]) -> None:
    """Give *orders*, then check: each utterance sounds once at most, and the last one whole."""
    room = Room()
    last: str | None = None
    expected: list[str] = []  # what may sound, one entry a say, in order
    for number, (kind, value) in enumerate(orders):
        if kind == "say":
            last = f"Words {'and more ' * (value % 7)}number {number}x."
            expected.append(last)
            room.say(last)
        elif kind == "stop":
            last = None
            room.mouth.stop()
        elif kind == "prepare":
            room.prepare(*(f"Likely {value + more}." for more in range(3)))
        elif kind == "time":
            room.pass_time(value * 0.03)
        elif kind == "work":
            room.work(pieces=value % 4)
        elif kind == "tone":
            room.sound.stream.tone("done")
        else:
            room.mouth.set_rate(80 + value * 11)
    room.work()
    room.pass_time(4.0)

    assert not room.heard or room.heard[-1] == "", "the ear was left deaf"
    sounded = room.sounded(room.sound.blocks)
    places = [expected.index(text) for text in sounded]
    assert places == sorted(set(places)), "a sentence sounded twice or out of order"
    if last is not None:
        assert room.sounded(room.sound.blocks)[-1] == last, "the last sentence was lost"
    assert room.told == []


# Faults


def test_a_fault_of_the_voice_is_told_once_and_the_utterance_is_still_spoken() -> None:
    room = Room()
    room.voice.faults.append(SpeechLostError("the voice hung"))

    room.say(ROW)
    room.work()

    assert room.listen() == PIECES
    assert room.told == [
        "Speech is off for a moment. The words stay on the screen.",
        "Speech is back.",
    ]


def test_a_voice_that_keeps_failing_is_told_once_and_sounds_a_cue() -> None:
    room = Room()
    room.voice.faults.extend([SpeechLostError("the voice hung")] * 4)

    for text in ("Row six.", "Row seven."):
        room.say(text)
        room.work()

    assert room.told == ["Speech is off for a moment. The words stay on the screen."]
    assert room.sound.tones == ["not understood", "not understood"]
    room.say("Row eight.")
    room.work()
    assert room.listen() == ["Row eight."]
    assert room.told[-1] == "Speech is back."


def test_a_fault_while_making_ahead_troubles_nobody() -> None:
    room = Room()
    room.voice.faults.append(SpeechLostError("the voice hung"))
    room.prepare("Next one.")
    room.work()

    room.say("Next one.")
    room.work()

    assert room.listen() == ["Next one."]
    assert room.told == []


def test_a_machine_without_a_voice_is_told_so_in_words() -> None:
    room = Room()
    room.voice.faults.append(VoiceMissingError("The bundled voice isn't installed."))

    room.say(ROW)
    room.work()

    assert room.told == [
        "Speech is off. The bundled voice isn't installed. The words stay on the screen."
    ]


def test_a_loudspeaker_that_goes_is_told_and_the_utterance_is_said_again_when_it_is_back() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.pass_time(0.1)

    room.sound.lose()
    room.pass_time(1.0)
    room.sound.come_back()
    room.work()

    assert room.listen() == PIECES
    assert [told.split(".")[0] for told in room.told] == [
        "The loudspeaker is gone",
        "The loudspeaker is back",
    ]
    assert room.heard == [ROW, "", "", ROW, ""]


def test_what_is_said_while_the_loudspeaker_is_away_is_spoken_when_it_is_back() -> None:
    room = Room()
    room.sound.lose()
    room.say("Row six.")
    room.say("Row seven.")
    room.work()

    room.sound.come_back()
    room.work()

    assert room.listen()[-1] == "Row seven."


def test_speech_that_was_stopped_stays_stopped_when_the_loudspeaker_is_back() -> None:
    room = Room()
    room.say(ROW)
    room.work()
    room.mouth.stop()
    room.sound.lose()

    room.sound.come_back()
    room.work()

    assert room.listen() == []


def looked_at(room: Room, seconds: float) -> None:
    """Let *seconds* pass, with a look at the clock every quarter of one."""
    for _ in range(round(seconds / 0.25)):
        room.pass_time(0.25)
        room.work(pieces=1)


def test_a_loudspeaker_that_takes_speech_and_plays_none_is_noticed_and_restarted() -> None:
    room = Room()
    looked_at(room, 10.0)
    room.sound.deaf = True
    room.say(ROW)
    room.work()

    looked_at(room, 1.75)
    assert room.told == []
    looked_at(room, 1.0)

    assert room.told[0].startswith("No sound comes out.")
    assert room.sound.restarts == 1


def test_a_loudspeaker_that_never_comes_to_the_end_is_noticed() -> None:
    room = Room()
    looked_at(room, 10.0)
    room.say(ROW)  # seven words and a number: under a second with this voice
    room.work()
    room.pass_time(0.1)
    room.sound.deaf = True

    looked_at(room, 8.0)

    assert [told.split(".")[0] for told in room.told] == ["No sound comes out"]


def test_a_loudspeaker_that_has_just_opened_is_given_time_to_take_its_first_sound() -> None:
    room = Room()  # opened at 0
    room.sound.deaf = True
    room.say(ROW)
    room.work()

    looked_at(room, 3.25)
    assert room.told == [], "a sound server was seen to take its first block after 1.9 seconds"
    looked_at(room, 1.0)
    assert room.told[0].startswith("No sound comes out.")


def test_before_a_loudspeaker_is_open_nothing_is_said_against_it() -> None:
    """Under load its process alone may take longer to start than an utterance to be late."""
    room = Room(opened=False)
    room.sound.deaf = True
    room.say(ROW)
    room.work()

    looked_at(room, 7.0)
    assert room.told == []
    room.sound.deaf = False
    room.sound.come_back()
    room.work()
    assert room.listen() == PIECES
    assert room.told == []


def test_a_voice_that_is_slow_to_make_the_next_piece_is_no_fault_of_the_loudspeaker() -> None:
    """Twelve seconds for a piece: the loudspeaker plays nothing meanwhile, for there is nothing."""
    room = Room()
    looked_at(room, 10.0)
    room.say(ROW)
    room.work(pieces=1)

    for _ in range(2):
        room.pass_time(12.0)
        room.work(pieces=1)
    looked_at(room, 12.0)

    assert room.sounded(room.sound.blocks) == PIECES
    assert room.told == []


def test_a_look_that_comes_late_proves_nothing_for_the_news_may_be_as_late() -> None:
    room = Room()
    looked_at(room, 10.0)
    room.sound.deaf = True
    room.say(ROW)
    room.work()

    room.time += 5.0  # the whole machine stood still
    room.work()
    assert room.told == []
    room.sound.deaf = False
    room.pass_time(0.02)  # and now the news comes that it sounds
    looked_at(room, 5.0)
    assert room.told == []


def test_a_loudspeaker_that_swallows_speech_is_told_once() -> None:
    room = Room()
    for _ in range(3):
        room.say(ROW)
        room.work()
        room.mouth.take(SoundNews("swallowed", line=1))
    room.pass_time(1.0)

    assert len(room.told) == 1
    assert room.told[0].startswith("No sound comes out.")


# Settings


@pytest.mark.parametrize(
    ("percent", "gain"),
    [(100, 1.0), (90, 0.708), (80, 0.501), (0, 0.0), (150, 1.0), (-3, 0.0)],
)
def test_loudness_goes_by_3_decibels_a_step(percent: int, gain: float) -> None:
    room = Room()

    room.mouth.set_loudness(percent)

    assert room.sound.gain == pytest.approx(gain, abs=0.001)


def test_a_new_rate_is_kept_apart_from_the_old() -> None:
    room = Room()
    room.say("Row six.")
    room.work()

    room.mouth.set_rate(200)
    room.say("Row six.")
    room.work()

    rates = [rate for _, rate, _ in room.voice.asked]
    assert len(rates) == 2
    assert rates[1] > rates[0]


def test_the_chosen_voice_makes_the_speech_and_its_pace_is_measured() -> None:
    room = Room(VoiceSettings(voice="gmw/en-us"))
    room.say("Row six.")
    room.work()
    room.mouth.set_voice("gmw/en-gb-scotland")
    room.say("Row six.")
    room.work()

    voices = [voice for text, _, voice in room.voice.asked if text == "Row six."]
    assert voices[:2] == ["gmw/en-us", "gmw/en-gb-scotland"]
    assert len(room.voice.asked) > 30  # the passage by which a voice's pace is measured


def test_closing_ends_the_voice_and_a_late_word_does_no_harm() -> None:
    room = Room()
    room.say(ROW)

    room.mouth.close()
    room.work()

    assert room.voice.closed
    assert room.voice.made == []
