"""An optional natural voice: a folder with a Piper voice, behind the same worker as pyttsx3.

The folder holds one NAME.onnx and its NAME.onnx.json. The package is the optional extra
"natural-voice". Downloads nothing and carries no voice.
"""

from __future__ import annotations

import io
import wave
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from coach.adapters.voice_pyttsx3 import WorkerVoice
from coach.adapters.voice_worker import CannotSpeakError
from coach.adapters.worker_pipe import module_command
from coach.ports import Missing

USUAL_RATE = 175  # words a minute at a Piper voice's own pace, about; the curve sets it right
LONG_PATIENCE = 10.0  # seconds: a neural voice takes its time on a small machine


def piper_voice(folder: Path, *, log: Path | None = None) -> WorkerVoice | Missing:
    """Return the Piper voice in *folder*, or what is missing and what would bring it."""
    models = sorted(folder.glob("*.onnx")) if folder.is_dir() else []
    if not models:
        return Missing(
            f"There is no natural voice in {folder}.",
            "Put a Piper voice there: one .onnx file and its .onnx.json.",
        )
    if not Path(f"{models[0]}.json").is_file():
        return Missing(
            f"The natural voice {models[0].name} has no description beside it.",
            f"Put {models[0].name}.json into the same folder.",
        )
    if find_spec("piper") is None:
        return Missing(
            "The package for natural voices isn't installed.",
            'Install it: pip install "coach[natural-voice]".',
        )
    command = module_command("coach.adapters.voice_worker", "--piper", str(folder))
    return WorkerVoice(command, patience=LONG_PATIENCE, log=log)


class PiperMaker:
    """Makes the sound of a text with a Piper voice, inside the worker process."""

    def __init__(self, folder: Path) -> None:
        model = min(folder.glob("*.onnx"), default=None)
        if model is None:
            raise CannotSpeakError("The natural voice is gone.")
        try:
            from piper import PiperVoice

            self._voice: Any = PiperVoice.load(str(model))
        except Exception as fault:
            raise CannotSpeakError(f"The natural voice doesn't load: {fault}") from fault
        self._name = model.stem

    def make(self, text: str, rate: int, voice: str) -> bytes:
        from piper import SynthesisConfig

        pace = SynthesisConfig(length_scale=USUAL_RATE / rate)
        out = io.BytesIO()
        with wave.open(out, "wb") as file:
            self._voice.synthesize_wav(text, file, syn_config=pace)
        return out.getvalue()

    def voices(self) -> list[dict[str, str]]:
        return [{"id": self._name, "name": self._name, "languages": ""}]
