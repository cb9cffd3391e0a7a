"""The graph: its machine says the right phones, and the recogniser hears with what is built."""

from __future__ import annotations

import json
import shutil
import wave
from pathlib import Path

import pytest

from scripts.ear import graph
from scripts.ear.phones import GENERAL_PDF, NUMBER, PHONES, forward_id, loop_id, pdfs

MODEL = Path(__file__).parents[2] / "models" / "english-commands"
NEXT = Path(__file__).with_name("next.wav")
LEXICON = {
    "next": (("N", "EH", "K", "S", "T"),),
    "a": (("AH",), ("EY",)),
    "back": (("B", "AE", "K"),),
    "necks": (("N", "EH", "K", "S"),),
}


def tools_missing() -> bool:
    try:
        graph.check_tools()
    except graph.MissingToolsError:
        return True
    return False


def test_a_phone_is_entered_once_and_then_stays() -> None:
    assert (loop_id("SIL"), forward_id("SIL")) == (1, 2)
    assert forward_id("AA_B") == 2 * NUMBER["AA_B"]
    assert len(PHONES) == 1 + 40 * 4


def test_places_in_a_word_share_their_outputs_and_silence_has_one() -> None:
    assert pdfs("N_B") == pdfs("N_I") == pdfs("N_E") == pdfs("N_S")
    assert pdfs("SIL") == (0, 0)
    assert pdfs("GAR_I") == (GENERAL_PDF, GENERAL_PDF)


def test_words_that_begin_alike_share_a_path_and_end_apart() -> None:
    ids = {"[unk]": 1, "a": 2, "back": 3, "necks": 4, "next": 5}

    machine = graph.lexicon_machine(LEXICON, ids, unknown_cost=1.0)
    read = [arc[2] for arc in machine.arcs]
    assert read.count(forward_id("N_B")) == 1, "next and necks share their N"
    assert read.count(forward_id("S_I")) == 1
    assert read.count(forward_id("S_E")) == 1, "necks ends in S, next goes on"
    assert read.count(forward_id("AH_S")) == 1, "a word of one phone stands alone"
    assert sorted(arc[3] for arc in machine.arcs if arc[3]) == [1, 2, 2, 3, 4, 5]


def heard(model: Path, phrases: list[str]) -> str:
    vosk = pytest.importorskip("vosk", reason="vosk is not installed")
    vosk.SetLogLevel(-1)
    recogniser = vosk.KaldiRecognizer(vosk.Model(str(model)), 16_000, json.dumps(phrases))
    with wave.open(str(NEXT)) as sound:
        recogniser.AcceptWaveform(sound.readframes(sound.getnframes()))
    return str(json.loads(recogniser.FinalResult())["text"])


@pytest.mark.mic
@pytest.mark.skipif(not MODEL.exists(), reason="the shipped model is not in this checkout")
def test_the_shipped_model_hears_a_synthetic_next_among_its_rivals() -> None:
    assert heard(MODEL, ["next", "back", "repeat", "yes", "no", "[unk]"]) == "next"


@pytest.mark.mic
@pytest.mark.skipif(not MODEL.exists(), reason="the shipped model is not in this checkout")
@pytest.mark.skipif(
    tools_missing(), reason="the graph tools are missing: apt-get install libfst-tools"
)
def test_a_graph_built_anew_is_heard_with(tmp_path: Path) -> None:
    for part in ("am", "conf"):
        shutil.copytree(MODEL / part, tmp_path / part)

    graph.build_graph(tmp_path, LEXICON, unknown_cost=1.0)
    assert heard(tmp_path, ["next", "back", "[unk]"]) == "next"
    words = (tmp_path / "graph" / "words.txt").read_text(encoding="utf-8").split()
    assert set(words[::2]) == {"<eps>", "[unk]", "a", "back", "necks", "next"}
    numbers = [int(number) for number in words[1::2]]
    assert len(set(numbers)) == len(numbers), "each word has an id of its own"
