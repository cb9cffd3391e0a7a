"""The vocabulary: every phrase of the coach's list can be said, and every word has a sound."""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import random
from pathlib import Path

import pytest

from coach.guide.bindings import BINDINGS
from scripts.ear import competitors, engines, make_speech, phrases, pronunciations, utterances
from scripts.ear.make_tests import other_speech
from scripts.ear.numbers import digit_by_digit, in_words

WORDS = Path(__file__).parents[2] / "models" / "english-commands" / "graph" / "words.txt"


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (13, "thirteen"),
        (30, "thirty"),
        (42, "forty two"),
        (100, "one hundred"),
        (142, "one hundred forty two"),
        (999, "nine hundred ninety nine"),
    ],
)
def test_numbers_as_words(number: int, words: str) -> None:
    assert in_words(number) == words


def test_numbers_with_and_by_digits() -> None:
    assert in_words(142, joined_by_and=True) == "one hundred and forty two"
    assert in_words(300, joined_by_and=True) == "three hundred"
    assert digit_by_digit(104) == "one zero four"


@pytest.mark.parametrize("number", [-1, 1000])
def test_a_number_out_of_reach_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="0 to 999"):
        in_words(number)
    with pytest.raises(ValueError, match="0 to 999"):
        digit_by_digit(number)


def test_every_spoken_phrase_of_the_coach_is_a_command_phrase() -> None:
    spoken = {phrase for binding in BINDINGS for phrase in binding.spoken}

    assert spoken <= set(phrases.command_phrases())


@pytest.mark.skipif(not WORDS.exists(), reason="the shipped model is not in this checkout")
def test_the_shipped_vocabulary_holds_every_word_that_the_coach_may_hear() -> None:
    listed = {line.split()[0] for line in WORDS.read_text(encoding="utf-8").splitlines()}

    missing = phrases.words_of(phrases.coach_phrases()) - listed
    assert not missing, "run: python -m scripts.ear.rebuild_graph models/english-commands"
    assert {"[unk]", "zero", "hundred", "crochet", "necks", "seat"} <= listed


def test_trade_words_sound_as_makers_say_them() -> None:
    # Common practice, no source: croh-SHAY and PEE-koh.
    said = pronunciations.pronounce(["crochet", "picot"], {})

    assert said == {"crochet": (("K", "R", "OW", "SH", "EY"),), "picot": (("P", "IY", "K", "OW"),)}


def test_words_without_a_sound_are_all_named() -> None:
    with pytest.raises(KeyError, match="blorp, zzyx"):
        pronunciations.pronounce(["zzyx", "crochet", "blorp"], {})


def test_the_dictionary_is_read_with_its_variants(tmp_path: Path) -> None:
    file = tmp_path / "dictionary.txt"
    file.write_text("the DH AH\nthe(2) DH IY\n<s> SIL\n", encoding="latin-1")

    assert pronunciations.read_dictionary(file) == {"the": (("DH", "AH"), ("DH", "IY"))}


def test_the_same_seed_draws_the_same_utterances() -> None:
    first, second = random.Random(5), random.Random(5)

    assert [utterances.utterance(first) for _ in range(50)] == [
        utterances.utterance(second) for _ in range(50)
    ]


def test_held_out_voices_may_not_speak_training_data() -> None:
    for voice in ("flite awb", "kokoro jf_nezumi", "piper joe", "rhvoice alan"):
        with pytest.raises(ValueError, match="held out"):
            make_speech.speaker(voice)


def test_voices_whose_licence_is_not_settled_may_not_speak() -> None:
    for voice in engines.RHVOICE_UNSETTLED_VOICES:
        assert f"rhvoice {voice}" not in make_speech.VOICE_SHARES
        with pytest.raises(ValueError, match="licence is not settled"):
            make_speech.speaker(f"rhvoice {voice}")


def test_the_shares_of_the_voices_are_the_whole() -> None:
    assert sum(make_speech.VOICE_SHARES.values()) == pytest.approx(1.0)


def test_other_speech_for_tests_is_no_phrase_of_the_coach() -> None:
    assert not set(other_speech(90)) & set(phrases.coach_phrases())


def test_rivals_of_a_number_are_other_numbers_and_never_itself() -> None:
    rng = random.Random(1)
    commands = phrases.command_phrases()

    rivals = competitors.rivals("row sixteen", commands, 24, rng)
    assert len(rivals) == 24
    assert "row sixteen" not in rivals
    assert "row sixty" in rivals


def test_a_strong_ty_is_spoken_by_two_words_and_kept_as_one() -> None:
    rng = random.Random(1)

    said = make_speech.careful("row thirty, sixty six.", rng, share=1.0)
    assert said == "row thurr tea, six tea six."
    assert make_speech.uncareful(make_speech.plain(said)) == "row thirty sixty six"
    assert make_speech.careful("row thirty", rng, share=0.0) == "row thirty"


def test_a_reading_aloud_changes_no_word() -> None:
    rng = random.Random(2)

    for _ in range(200):
        assert (
            make_speech.plain(make_speech.hesitating("go to row forty", rng)) == "go to row forty"
        )


def test_only_the_kinds_asked_for_are_drawn() -> None:
    rng = random.Random(3)

    assert {utterances.utterance(rng, ["rhyme"])[0] for _ in range(20)} == {"rhyme"}


def test_a_wave_of_unknown_length_is_read_to_its_end() -> None:
    # espeak-ng writes to a pipe: the length in its header is no length.
    header = b"RIFF\xff\xff\xff\x7fWAVEfmt " + (16).to_bytes(4, "little") + b"\x01\x00\x01\x00"
    header += (16_000).to_bytes(4, "little") + (32_000).to_bytes(4, "little") + b"\x02\x00\x10\x00"
    sound = engines.read_wave(header + b"data\xff\xff\xff\x7f" + b"\x00\x00\x00\x40" * 3)

    assert sound.tolist() == [0.0, 0.5] * 3
    with pytest.raises(ValueError, match="no RIFF"):
        engines.read_wave(b"not a sound")
