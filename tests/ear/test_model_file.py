"""The model file: what is written can be read back, and damage is told, never guessed over."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from scripts.ear import phones
from scripts.ear.model_file import ModelFileError, NetworkWriter, read_model, write_model

SHIPPED = Path(__file__).parents[2] / "models" / "english-commands" / "am" / "final.mdl"


def written(folder: Path) -> Path:
    writer = NetworkWriter(40)
    at = writer.affine("first", "input", np.ones((3, 40)), np.asarray([1.0, 2.0, 3.0]))
    at = writer.relu("bend", at, 3)
    at = writer.batch_norm("even", at, np.asarray([0.5, 1.0, 2.0]), np.asarray([1.0, 0.0, -1.0]))
    at = writer.time_delay("wide", at, (-3, 0, 3), np.full((4, 9), 0.25), np.zeros(4))
    at = writer.log_softmax("shares", at, 4)
    path = folder / "final.mdl"
    write_model(path, [(0, 0), (1, 2)], writer.data(at), 7, 5)
    return path


def test_a_written_model_reads_back_as_it_was(tmp_path: Path) -> None:
    model = read_model(written(tmp_path))

    assert model.phones.tolist() == [1, 2]
    assert model.tuples.tolist() == [[1, 0, 0, 0], [2, 0, 1, 2]]
    assert (model.left_context, model.right_context) == (7, 5)
    assert list(model.components) == ["first", "bend", "even", "wide", "shares"]
    assert model.components["wide"]["<TimeOffsets>"].tolist() == [-3, 0, 3]
    assert model.components["first"]["<BiasParams>"].tolist() == [1.0, 2.0, 3.0]
    assert np.allclose(model.log_probs, [0.0, *[np.log(0.5)] * 4])


def test_scale_and_offset_survive_as_mean_and_variance(tmp_path: Path) -> None:
    part = read_model(written(tmp_path)).components["even"]

    scale = 1 / np.sqrt(part["<StatsVar>"] + part["<Epsilon>"])
    assert np.allclose(scale, [0.5, 1.0, 2.0])
    assert np.allclose(-part["<StatsMean>"] * scale, [1.0, 0.0, -1.0])


def test_a_scale_of_zero_or_less_is_refused() -> None:
    with pytest.raises(ValueError, match="above 0"):
        NetworkWriter(40).batch_norm("n", "input", np.asarray([1.0, 0.0]), np.zeros(2))


@pytest.mark.parametrize("kept", [1, 2, 60, 400, 0.5, 0.99])
def test_a_cut_file_is_told_as_such(tmp_path: Path, kept: float) -> None:
    path = written(tmp_path)
    data = path.read_bytes()
    path.write_bytes(data[: int(kept if kept >= 1 else kept * len(data))])

    with pytest.raises((ModelFileError, IndexError)):
        read_model(path)


def test_a_file_of_another_kind_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "final.mdl"
    path.write_text("not a model", encoding="ascii")

    with pytest.raises(ModelFileError, match="not a binary model file"):
        read_model(path)


@pytest.mark.skipif(not SHIPPED.exists(), reason="the shipped model is not in this checkout")
def test_the_shipped_model_has_our_phones_and_reads_forty_cepstra() -> None:
    model = read_model(SHIPPED)

    assert len(model.phones) == len(phones.PHONES)
    assert model.config[0] == "input-node name=input dim=40"
    first = model.components["a1"]["<LinearParams>"]
    assert first.shape == (768, 120), "three frames of 40 cepstra"
