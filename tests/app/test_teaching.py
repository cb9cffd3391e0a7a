"""A lesson: the coach learns how one maker says its commands, by voice alone."""

from __future__ import annotations

from coach.adapters.speech_pace import spoken_words
from coach.app.settings import Settings, from_values, to_values
from coach.guide.commands import Command
from coach.guide.lessons import TAUGHT
from tests.app.maker import Maker
from tests.guide.pieces import plain_cloth

HEARD = {
    "next row": "text row",
    "go back": "cow pack",
    "repeat that": "ripped hat",
    "where am i": "were a my",
    "stop talking": "top walking",
}


def lesson() -> Maker:
    maker = Maker(plain_cloth())
    maker.says("learn my words")
    return maker


def say(maker: Maker, *readings: str) -> str:
    before = len(maker.display.lines)
    maker.ear.make_out(*readings)
    return " ".join(maker.display.lines[before:])


def test_a_whole_lesson_by_voice_alone() -> None:
    maker = Maker(plain_cloth())
    place = maker.display.view.at

    told = [maker.says("learn my words")]
    for phrase in TAUGHT:
        told += [say(maker, HEARD[phrase], phrase), say(maker, HEARD[phrase])]

    assert told[0].endswith("Say: next row.")
    assert told[1] == "Once more: next row."
    assert told[2] == "I have learned that. Say: go back."
    assert told[-1].startswith("I have learned that. That is all. I know your words now.")
    wanted = {heard: phrase for phrase, heard in HEARD.items()}
    assert maker.ear.own_words == wanted
    assert maker.kept[-1].own_words == wanted
    assert not maker.ear.learns, "from now on commands are taken again"
    assert maker.display.view.at == place, "a lesson moves nothing"


def test_a_lesson_takes_less_than_two_minutes_at_the_usual_pace() -> None:
    """Each of ten sayings: 1.5 s, then 0.7 s until it is over, and 0.5 s of the room's tail."""
    maker = lesson()
    for phrase in TAUGHT:
        say(maker, HEARD[phrase])
        say(maker, HEARD[phrase])
    said = maker.speaker.said[1:]  # the first was said before the lesson

    assert len(said) == 11
    speaking = sum(spoken_words(each) for each in said) * 60 / 150
    assert speaking + 10 * (1.5 + 0.7 + 0.5) < 90


def test_what_is_heard_well_is_left_and_nothing_is_stored() -> None:
    maker = lesson()
    told = ""
    for phrase in TAUGHT:
        say(maker, phrase)
        told = say(maker, phrase)

    assert told == "I hear that well. That is all. Nothing is changed."
    assert maker.ear.own_words == {}
    assert maker.kept == []


def test_a_clash_is_told_with_the_key_that_does_it() -> None:
    maker = lesson()
    say(maker, "go back")

    told = say(maker, "go back")

    assert "sounds like go back" in told
    assert "Its key is space." in told
    assert told.endswith("Say: go back.")


def test_undo_takes_back_the_last_phrase_and_asks_for_it_again() -> None:
    maker = lesson()
    say(maker, "text row")
    say(maker, "text row")

    told = say(maker, "undo that")

    assert told == "That one is forgotten. Say: next row."
    for phrase in TAUGHT:
        say(maker, phrase)
        say(maker, phrase)
    assert maker.ear.own_words == {}


def test_the_first_undo_after_a_lesson_forgets_it_and_the_next_is_a_commands() -> None:
    maker = Maker(plain_cloth())
    maker.says("next row")
    place = maker.display.view.at
    maker.says("learn my words")
    say(maker, "text row")
    say(maker, "text row")
    maker.gives(Command.NO)
    assert maker.ear.own_words == {"text row": "next row"}

    assert maker.says("undo that") == "I have forgotten those words."

    assert maker.ear.own_words == {}
    assert maker.kept[-1].own_words == {}
    assert maker.display.view.at == place
    maker.clock.wait(3)
    maker.gives(Command.UNDO)
    assert maker.display.view.at != place


def test_a_key_leaves_a_phrase_out_or_asks_again_or_ends_the_lesson() -> None:
    maker = lesson()
    say(maker, "text row")

    assert maker.gives(Command.REPEAT) == "Once more: next row."
    assert maker.gives(Command.NEXT) == "Say: go back."
    assert say(maker, "cancel that") == "That is all. Nothing is changed."
    assert not maker.ear.learns


def test_any_other_order_ends_the_lesson_and_is_done() -> None:
    maker = lesson()

    told = maker.gives(Command.HOW_MANY)

    assert told == "27 chains in all. 0 made so far."
    assert not maker.ear.learns


def test_without_a_microphone_there_is_no_lesson() -> None:
    maker = Maker(plain_cloth(), settings=Settings(microphone=False))

    told = maker.types("learn my words")

    assert told == "I learn words by listening, and the microphone is off. Switch it on first."


def test_what_was_learned_before_gives_way_to_what_is_learned_now() -> None:
    maker = Maker(plain_cloth(), settings=Settings(own_words={"neck roll": "next row"}))
    maker.says("learn my words")
    say(maker, "text row")
    say(maker, "text row")
    maker.gives(Command.NO)

    assert maker.ear.own_words == {"text row": "next row"}


def test_own_words_are_stored_line_by_line_and_read_back() -> None:
    settings = Settings(own_words={"text row": "next row", "cow pack": "go back"})

    values = to_values(settings)

    assert values == {"own_words.text row": "next row", "own_words.cow pack": "go back"}
    assert from_values(values) == (settings, ())
