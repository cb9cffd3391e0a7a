"""The closed list: whole phrases, numbers, decoys, and no word that the model lacks."""

from __future__ import annotations

import json

from coach.adapters.ear_grammar import grammar
from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import Dialogue
from coach.guide.sound_alikes import NEIGHBOURS

LACKING = {"coach"}


def knows(word: str) -> bool:
    return word not in LACKING


def listed(*phrases: str, decoys: bool = True) -> list[str]:
    words: list[str] = json.loads(grammar(phrases, knows, decoys=decoys)[0])
    return words


def test_phrases_come_whole_and_the_unknown_word_closes_the_list() -> None:
    assert listed("next row", "go back", decoys=False) == ["next row", "go back", "[unk]"]


def test_a_phrase_with_a_word_that_the_model_lacks_is_left_out_and_named() -> None:
    made, lacking = grammar(("hello coach", "next row"), knows, decoys=False)

    assert json.loads(made) == ["next row", "[unk]"]
    assert lacking == ("hello coach",)


def test_a_short_command_stands_beside_its_rhymes() -> None:
    words = listed("next", "back")

    assert {"text", "nest", "neck", "black", "pack"} <= set(words)  # user need L01


def test_no_decoy_is_a_command_itself() -> None:
    words = listed("next", "back", "no", "i have #")

    assert len(words) == len(set(words))


def test_a_number_may_come_in_words_or_in_digits() -> None:
    words = listed("i have #", decoys=False)

    assert {"i have thirty", "thirty two", "one hundred forty two", "four two"} <= set(words)


def test_a_unit_follows_any_last_word_of_a_number() -> None:
    assert "two rows" in listed("rip back # rows", decoys=False)


def test_the_list_is_never_escaped_for_the_recogniser_reads_no_escapes() -> None:
    assert "größer" in grammar(("größer",), knows, decoys=False)[0]


def test_an_empty_list_has_nothing_but_the_unknown_word() -> None:
    assert listed() == ["[unk]"]


def test_every_short_command_of_the_coach_has_its_rhymes() -> None:
    short = {phrase for phrase in Dialogue(BINDINGS).phrases("working") if " " not in phrase}

    assert short <= NEIGHBOURS.keys()
