"""A natural voice is a folder that is told of in words when something lacks."""

from __future__ import annotations

import os
from importlib.util import find_spec
from pathlib import Path

import pytest

from coach.adapters.speech_samples import is_silent
from coach.adapters.voice_piper import piper_voice
from coach.ports import Missing


def test_a_folder_without_a_voice_is_told(tmp_path: Path) -> None:
    for folder in (tmp_path, tmp_path / "nowhere"):
        missing = piper_voice(folder)
        assert isinstance(missing, Missing)
        assert "no natural voice" in missing.reason


def test_a_voice_without_its_description_is_told(tmp_path: Path) -> None:
    (tmp_path / "own.onnx").touch()

    missing = piper_voice(tmp_path)

    assert isinstance(missing, Missing)
    assert "own.onnx.json" in missing.remedy


@pytest.mark.skipif(find_spec("piper") is not None, reason="piper-tts is installed")
def test_the_missing_package_is_told_with_the_line_that_installs_it(tmp_path: Path) -> None:
    (tmp_path / "own.onnx").touch()
    (tmp_path / "own.onnx.json").touch()

    missing = piper_voice(tmp_path)

    assert isinstance(missing, Missing)
    assert 'pip install "coach[natural-voice]"' in missing.remedy


@pytest.mark.speech
def test_a_real_natural_voice_speaks() -> None:
    folder = os.environ.get("COACH_NATURAL_VOICE")
    if find_spec("piper") is None or not folder:
        pytest.skip(
            "no natural voice tried: install piper-tts, name a folder in COACH_NATURAL_VOICE"
        )
    voice = piper_voice(Path(folder))
    assert not isinstance(voice, Missing)

    speech = voice.make("That makes 77.", 150)
    voice.close()

    assert not is_silent(speech)
    assert speech.seconds > 0.6
