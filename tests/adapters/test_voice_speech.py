"""Real speech by the bundled voice: not silent, whole to its last word, and as fast as asked.

No clock is read here: a pace is the length of the sound, which is the same on every machine.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from coach.adapters.speech_pace import Measuring, Pacer, plan, spoken_words
from coach.adapters.speech_samples import Speech, is_silent
from coach.adapters.voice_pyttsx3 import SpeechLostError, WorkerVoice
from coach.adapters.voice_settings import BUNDLED_VOICE, ESPEAK_CURVE

pytestmark = [
    pytest.mark.speech,
    pytest.mark.skipif(sys.platform != "linux", reason="the bundled voice speaks on Linux alone"),
]

# Not the sentences by which the pace was set (those stand in scripts/bench_mouth.py).
PASSAGE = (
    "Row 11, worked as Row 3: second row of the fourth repeat of 9. Wrong side facing.",
    "It comes to 64 stitches.",
    "Chain 2. It does not count as a stitch. The first stitch goes in the very first stitch.",
    "Back post double crochet around each of the next 4 stitches, then front post double crochet "
    "around each of the next 4 stitches.",
    "Skip the next 2 stitches, 5 double crochet in the next stitch, skip the next 2 stitches.",
    "Half double crochet in each of the next 9 stitches, back loop only.",
    "Slip stitch in the next chain-3 space, to move along: this does not count.",
    "The last stitch goes in the top of the turning chain. That makes 64.",
    "You are in round 5, group 3 of 8. 21 stitches are left in this round.",
)


@pytest.fixture(scope="module")
def voice() -> Iterator[WorkerVoice]:
    opened = WorkerVoice()
    yield opened
    opened.close()


def seconds(voice: WorkerVoice, text: str, words_per_minute: int) -> float:
    pacer, total = Pacer(), 0.0
    for piece in plan(text, words_per_minute, ESPEAK_CURVE):
        sound = voice.make(piece.text, piece.engine_rate, BUNDLED_VOICE).seconds
        total += sound + pacer.pause_after(piece, sound)
    return total


@pytest.mark.parametrize("asked", [80, 100, 120, 130, 150, 180, 200, 250, 300])
def test_the_true_pace_is_within_5_percent_of_what_is_asked(voice: WorkerVoice, asked: int) -> None:
    words = sum(spoken_words(text) for text in PASSAGE)
    took = sum(seconds(voice, text, asked) for text in PASSAGE)

    assert words * 60 / took == pytest.approx(asked, rel=0.05)


def test_the_rate_asked_for_is_the_rate_that_comes_in_any_order(voice: WorkerVoice) -> None:
    """pyttsx3 loses a rate that is set while espeak-ng is still at work."""
    text = "Single crochet in the last stitch, 42."
    lengths: dict[int, set[float]] = {}
    for rate in [80, 300, 150, 80, 200, 300, 300, 80, 150, 200, 80, 150] * 4:
        lengths.setdefault(rate, set()).add(round(voice.make(text, rate).seconds, 1))

    assert all(max(own) - min(own) <= 0.15 for own in lengths.values()), lengths
    assert min(lengths[80]) > min(lengths[150]) > min(lengths[200]) > min(lengths[300])


def test_the_first_text_of_a_process_comes_at_its_rate_too(voice: WorkerVoice) -> None:
    text = "Single crochet in the last stitch, 42."
    settled = voice.make(text, 120, "gmw/en").seconds
    for _ in range(4):
        fresh = WorkerVoice()
        assert fresh.make(text, 120, "gmw/en").seconds == pytest.approx(settled, abs=0.15)
        fresh.close()


def test_fifty_short_utterances_in_a_row_all_sound(voice: WorkerVoice) -> None:
    """User need L07: on several systems only the first is heard."""
    for number in range(1, 51):
        speech = voice.make(f"That makes {number}.", 150, BUNDLED_VOICE)
        assert not is_silent(speech)
        assert speech.seconds > 0.5


def test_the_last_word_is_there_with_and_without_a_full_stop(voice: WorkerVoice) -> None:
    """User need L09: "42" must add its own sound to the end, whatever the marks."""
    without_count = seconds(voice, "Single crochet in the last stitch.", 150)
    told = [
        seconds(voice, f"Single crochet in the last stitch, 42{mark}", 150) for mark in ("", ".")
    ]

    assert told[0] == pytest.approx(told[1], abs=0.02)
    assert told[0] > without_count + 0.35  # "forty two" takes about 0.6 s


def test_a_long_text_is_whole(voice: WorkerVoice) -> None:
    one = seconds(voice, PASSAGE[3], 150)
    twenty = seconds(voice, " ".join([PASSAGE[3]] * 20), 150)

    assert twenty == pytest.approx(20 * one, rel=0.1)


def test_signs_that_a_shell_or_a_mark_up_would_take_do_no_harm(voice: WorkerVoice) -> None:
    for text in (
        "Row; rm 'x' $(y) `z` \"w\"",
        "<speak>Row six</speak>",
        "[[r'oU]] six",
        "Reihe fünf",
    ):
        assert not is_silent(voice.make(text, 150))


def test_the_speech_neither_clips_nor_begins_or_ends_with_a_hole(voice: WorkerVoice) -> None:
    speech = voice.make(
        "Front post double crochet around each of the next 5 stitches.", 150, BUNDLED_VOICE
    )
    level = np.abs(speech.samples.astype(np.int32))

    assert level.max() < 32_700
    assert level[: speech.rate // 20].max() > 100  # the first 50 ms
    assert level[-speech.rate // 20 :].max() > 100


def test_the_voices_are_listed_and_another_one_sounds_otherwise(voice: WorkerVoice) -> None:
    voices = {each.id: each for each in voice.voices()}

    assert voices["gmw/en-us"].name == "English (America)"
    first = voice.make("Treble crochet.", 150, "gmw/en").samples
    for name in ("gmw/en-us", BUNDLED_VOICE):
        other = voice.make("Treble crochet.", 150, name).samples
        assert len(first) != len(other) or not np.array_equal(first, other)


def test_a_voice_that_is_not_known_is_measured_near_the_truth(voice: WorkerVoice) -> None:
    measuring = Measuring()
    while (piece := measuring.next()) is not None:
        measuring.made(voice.make(piece.text, piece.engine_rate, BUNDLED_VOICE).seconds)

    for asked in (130, 150, 200, 280):
        assert measuring.curve().engine_rate(asked) == pytest.approx(
            ESPEAK_CURVE.engine_rate(asked), rel=0.08
        )


def test_no_file_is_left(
    voice: WorkerVoice, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    own = WorkerVoice()
    own.make("Row six.", 150)
    folders = list(tmp_path.rglob("*"))
    assert [each for each in folders if each.is_file()] == []

    own.close()

    assert list(tmp_path.iterdir()) == []


def test_a_voice_without_its_data_is_told_and_ends_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """espeak-ng ends its whole process with status 1 when its data folder is gone."""
    package = tmp_path / "espeakng_loader"
    package.mkdir()
    (package / "__init__.py").write_text(
        "import espeakng_loader_true as true\n"
        "def get_library_path(): return true.__file__\n"
        f"def get_data_path(): return {str(tmp_path)!r}\n"
    )
    (tmp_path / "espeakng_loader_true.py").write_text("")
    monkeypatch.setenv("PYTHONPATH", f"{tmp_path}{os.pathsep}{os.environ.get('PYTHONPATH', '')}")
    lost = WorkerVoice()

    with pytest.raises(SpeechLostError, match="lost its data folder"):
        lost.make("Row six.", 150)
    lost.close()


def test_samples_are_mono_at_the_engines_rate(voice: WorkerVoice) -> None:
    speech = voice.make("Row six.", 150)

    assert isinstance(speech, Speech)
    assert (speech.rate, speech.samples.dtype.name) == (22_050, "int16")
    assert speech.samples.ndim == 1
