"""The evaluation: what counts as right, wrong, rejected and falsely accepted."""

from __future__ import annotations

import json

import numpy as np

from scripts.ear.evaluate import CLEAN, Clip, Report, in_room, same_command

TONE = (8000 * np.sin(np.arange(16_000) / 10)).astype(np.int16)


def clip(kind: str, text: str) -> Clip:
    return Clip("someone", kind, text, TONE)


def test_right_wrong_and_rejected_are_told_apart() -> None:
    report = Report()
    for heard in ("go to row", "repeat", ""):
        report.add("ear", clip("command", "go to row"), CLEAN, heard)

    tally = report.tallies["ear|someone|command|99"]
    assert (tally.clips, tally.right, tally.wrong, tally.rejected) == (3, 1, 1, 1)
    assert report.confusions["ear"] == {"go to row -> repeat": 1}
    assert report.phrases["ear"]["go to row"] == [1, 1, 1]


def test_another_phrase_of_the_same_command_is_no_mistake() -> None:
    assert same_command("go back", "back") == "back"
    assert same_command("next", "back") == "next"


def test_anything_accepted_from_other_speech_is_wrong() -> None:
    report = Report()
    report.add("ear", clip("other", "necks"), CLEAN, "next")
    report.add("ear", clip("other", "necks"), CLEAN, "")

    tally = report.tallies["ear|someone|other|99"]
    assert (tally.right, tally.wrong, tally.rejected) == (0, 1, 1)


def test_a_report_with_confusions_can_be_written() -> None:
    report = Report()
    report.add("ear", clip("number", "thirty"), 10, "thirteen")

    assert json.loads(report.as_json())["confusions"] == {"ear": {"thirty -> thirteen": 1}}


def test_noise_lies_the_stated_decibels_below_the_speech() -> None:
    quiet, noisy = in_room(clip("other", "tone"), CLEAN, 1), in_room(clip("other", "tone"), 10, 1)

    noise = (noisy.astype(float) - quiet).std()
    # a sine of 8000 has a level of 8000 / sqrt(2); its parts under 2 % of the peak don't count
    assert 20 * np.log10(8000 / np.sqrt(2) / noise) - 10 < 0.5
