"""The network in torch: the same weights give the same best path there and in the recogniser."""

from __future__ import annotations

import json
import wave
from pathlib import Path

import numpy as np
import pytest

torch = pytest.importorskip(
    "torch", reason="torch is not installed: the network is not tested here"
)

from scripts.ear import corpus, export, features, mean_of  # noqa: E402
from scripts.ear.chains import (  # noqa: E402
    batch_chains,
    best_path,
    best_score,
    chain,
    general_chain,
    total_score,
)
from scripts.ear.network import Ear, load_own, write_ear  # noqa: E402
from scripts.ear.phones import PDF_COUNT, SILENCE_PDF, pdfs  # noqa: E402

MODEL = Path(__file__).parents[2] / "models" / "english-commands"
NEXT = Path(__file__).with_name("next.wav")
SAID: dict[str, list[tuple[str, ...]]] = {
    "next": [("N", "EH", "K", "S", "T")],
    "back": [("B", "AE", "K")],
    "six": [("S", "IH", "K", "S")],
    "yes": [("Y", "EH", "S")],
}


def test_a_network_written_and_read_back_gives_the_same_scores(tmp_path: Path) -> None:
    torch.manual_seed(1)
    ear = Ear().eval()
    write_ear(tmp_path / "final.mdl", ear, np.zeros(PDF_COUNT))

    again = load_own(tmp_path / "final.mdl").ear
    sound = torch.randn(1, 100, 40)
    assert torch.allclose(ear(ear.pad(sound)), again(again.pad(sound)), atol=1e-4)


@pytest.mark.parametrize("frames", [1, 2, 3, 4, 98, 99, 100])
def test_every_third_frame_gives_one_output(frames: int) -> None:
    ear = Ear().eval()

    assert ear(ear.pad(torch.zeros(1, frames, 40))).shape == (1, (frames + 2) // 3, PDF_COUNT)


def test_the_best_path_of_sure_scores_is_the_text() -> None:
    one = chain([("N", "OW")])
    wanted = [SILENCE_PDF, pdfs("N")[0], pdfs("N")[1], pdfs("OW")[0], pdfs("OW")[1], SILENCE_PDF]
    scores = torch.full((1, len(wanted), PDF_COUNT), -10.0)
    for frame, pdf in enumerate(wanted):
        scores[0, frame, pdf] = 0.0

    chains = batch_chains([one], "cpu")
    total, path = best_path(scores, torch.tensor([len(wanted)]), chains)
    assert chains.pdf.gather(1, path)[0].tolist() == wanted
    assert float(total) == 0.0
    assert float(best_score(scores, torch.tensor([len(wanted)]), chains)) == 0.0


def test_a_total_over_all_paths_is_what_counting_them_gives() -> None:
    # One phone over two equal frames: enter and stay, silence and enter, or enter and silence.
    chains = batch_chains([chain([("OW",)])], "cpu")

    total = total_score(torch.zeros(1, 2, PDF_COUNT), torch.tensor([2]), chains)
    assert float(total) == pytest.approx(np.log(3))


@pytest.mark.mic
@pytest.mark.skipif(not MODEL.exists(), reason="the shipped model is not in this checkout")
def test_torch_and_the_recogniser_choose_the_same_word() -> None:
    vosk = pytest.importorskip("vosk", reason="vosk is not installed")
    vosk.SetLogLevel(-1)
    with wave.open(str(NEXT)) as sound:
        data = sound.readframes(sound.getnframes())
    recogniser = vosk.KaldiRecognizer(vosk.Model(str(MODEL)), 16_000, json.dumps([*SAID, "[unk]"]))
    recogniser.SetWords(True)
    recogniser.AcceptWaveform(data)
    (word,) = json.loads(recogniser.FinalResult())["result"]

    loaded = load_own(MODEL / "am" / "final.mdl")
    cepstra = torch.as_tensor(features.cepstra(np.frombuffer(data, "<i2")))[None]
    with torch.no_grad():
        prior = torch.as_tensor(loaded.log_prior, dtype=torch.float32)
        scores = loaded.ear(loaded.ear.pad(cepstra)).log_softmax(-1) - prior
    chains = [chain(words) for words in SAID.values()] + [general_chain()]
    count = torch.full((len(chains),), scores.shape[1])
    best = best_score(scores.repeat(len(chains), 1, 1), count, batch_chains(chains, "cpu"))
    assert [*SAID, "[unk]"][int(best.argmax())] == word["word"] == "next"

    _, path = best_path(scores, count[:1], batch_chains(chains[:1], "cpu"))
    spoken = [frame for frame, state in enumerate(path[0].tolist()) if state not in (0, 11)]
    assert spoken[0] * 0.03 == pytest.approx(word["start"], abs=0.07)
    assert spoken[-1] * 0.03 == pytest.approx(word["end"], abs=0.1)


def test_loud_parts_alone_are_speech_for_the_labels() -> None:
    sound = torch.zeros(1, 10 * corpus.OUTPUT_STEP)
    sound[0, 3 * corpus.OUTPUT_STEP : 6 * corpus.OUTPUT_STEP] = 0.5

    outside = corpus._outside_speech(sound, 10)
    assert outside[0].tolist() == [True] * 3 + [False] * 3 + [True] * 4


def test_a_mean_of_weights_lies_half_way_and_keeps_whole_numbers() -> None:
    one = {"weight": torch.tensor([1.0, -2.0]), "steps": torch.tensor(7)}
    other = {"weight": torch.tensor([2.0, 4.0]), "steps": torch.tensor(9)}

    half = mean_of.mean([one, other])
    assert half["weight"].tolist() == [1.5, 1.0]
    assert int(half["steps"]) == 7


def test_a_new_model_takes_the_place_of_the_old_one_and_keeps_its_card(tmp_path: Path) -> None:
    old, new = tmp_path / "ear", tmp_path / "ear.new"
    for folder, weights in ((old, "old"), (new, "new")):
        (folder / "am").mkdir(parents=True)
        (folder / "am" / "final.mdl").write_text(weights, encoding="utf-8")
    (old / "LICENSE").write_text("the licence", encoding="utf-8")

    export.swap(new, old)

    assert (old / "am" / "final.mdl").read_text(encoding="utf-8") == "new"
    assert (old / "LICENSE").read_text(encoding="utf-8") == "the licence"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["ear", "ear.new"]
