"""The real engine, and every call that would end its process: broken models, lists, changes."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from coach.adapters.ear_recogniser import BadModelError, Recogniser
from coach.adapters.model_store import find_model, try_model
from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import ASKING, RESTING, Dialogue
from tests.adapters.sounds import noise, silence, spoken

pytestmark = pytest.mark.mic


def own_model() -> Path:
    found = find_model({}, Path("/nowhere"))
    assert isinstance(found, Path)
    return found


@pytest.fixture(scope="module")
def recogniser() -> Recogniser:
    return Recogniser(own_model())


def said(recogniser: Recogniser) -> str:
    recogniser.begin(0.0, np.concatenate((silence(0.3), spoken(), silence(0.2))))
    readings = recogniser.end()
    return readings[0].text if readings else ""


def test_words_come_with_their_times(recogniser: Recogniser) -> None:
    recogniser.listen_for(["where am i", "go back"])
    recogniser.begin(10.0, np.concatenate((silence(0.3), spoken(), silence(0.2))))
    first = recogniser.end()[0]

    assert first.text == "where am i"
    assert first.words[0].start == pytest.approx(10.3, abs=0.1)
    assert first.words[-1].end == pytest.approx(10.3 + len(spoken()) / 16_000, abs=0.12)


def test_times_stay_right_after_many_utterances_and_changes_of_the_list(
    recogniser: Recogniser,
) -> None:
    for turn in range(30):
        recogniser.listen_for(["where am i", "go back"] if turn % 2 else ["where am i"])
        recogniser.begin(100.0 * turn, np.concatenate((silence(0.3), spoken(), silence(0.2))))
        first = recogniser.end()[0]
        assert first.words[0].start == pytest.approx(100.0 * turn + 0.3, abs=0.1)


def test_the_list_may_be_changed_in_the_middle_of_a_word(recogniser: Recogniser) -> None:
    """vosk itself aborts the process when the list changes while it decodes."""
    recogniser.listen_for(["where am i"])
    recogniser.begin(0.0, spoken()[:6_000])
    recogniser.listen_for(["where am i", "go back"])

    assert said(recogniser) == "where am i"


@pytest.mark.parametrize(
    "phrases",
    [
        [],
        [""],
        ["größer"],
        ["5"],
        ["{}"],
        ['"', "[]", "\\"],
        ["where am i\0"],
        ["[unk]"],
        ["x" * 10_000],
    ],
)
def test_a_list_without_one_word_of_the_model_is_refused_in_words(
    recogniser: Recogniser, phrases: list[str]
) -> None:
    """vosk itself ends the process on an empty list."""
    with pytest.raises(BadModelError) as refused:
        recogniser.listen_for(phrases)

    assert "none of the coach's words" in refused.value.missing.reason


@pytest.mark.parametrize(
    "sound", [silence(0.0), silence(0.02), silence(5), noise(3, 3_000), spoken()[:1]]
)
def test_any_sound_at_all_is_survived(recogniser: Recogniser, sound: np.ndarray) -> None:
    recogniser.listen_for(["where am i", "go back"])
    recogniser.begin(0.0, sound)
    recogniser.end()

    assert said(recogniser) == "where am i"


def _cut(file: Path, share: float) -> None:
    content = file.read_bytes()
    file.write_bytes(content[: round(len(content) * share)])


# What is lost, and how much of it is left: 0 is an empty file, None no file at all.
DAMAGE: dict[str, tuple[str, float | None]] = {
    "no network": ("am/final.mdl", None),
    "an empty network": ("am/final.mdl", 0.0),
    "half a network": ("am/final.mdl", 0.5),
    "no feature settings": ("conf/mfcc.conf", None),
    "no settings": ("conf/model.conf", None),
    "no word list": ("graph/words.txt", None),
    "no graph": ("graph/HCLr.fst", None),
    "half a graph": ("graph/HCLr.fst", 0.5),
    "no unused number": ("graph/disambig_tid.int", None),
    "no grammar": ("graph/Gr.fst", None),
}


def wrong_with(folder: Path) -> str:
    wrong = try_model(folder)
    assert wrong is not None
    assert str(folder) in wrong.reason
    return wrong.reason


@pytest.mark.parametrize(("name", "left"), DAMAGE.values(), ids=DAMAGE.keys())
def test_a_damaged_model_is_told_in_words(tmp_path: Path, name: str, left: float | None) -> None:
    folder = tmp_path / "model"
    shutil.copytree(own_model(), folder)
    if left is None:
        (folder / name).unlink()
    else:
        _cut(folder / name, left)

    assert "Traceback" not in wrong_with(folder)


@pytest.mark.parametrize(
    ("name", "content"), [("am/final.mdl", "nonsense" * 999), ("conf/model.conf", "--what=1\n")]
)
def test_a_model_with_nonsense_in_it_is_told_in_words(
    tmp_path: Path, name: str, content: str
) -> None:
    folder = tmp_path / "model"
    shutil.copytree(own_model(), folder)
    (folder / name).write_text(content)

    assert "Traceback" not in wrong_with(folder)


def test_a_model_with_a_fixed_list_is_refused_in_words(tmp_path: Path) -> None:
    """vosk takes it, drops the coach's list with a line in its log, and hears any word at all."""
    folder = tmp_path / "model"
    shutil.copytree(own_model(), folder)
    (folder / "graph/HCLr.fst").rename(folder / "graph/HCLG.fst")

    assert "can't take the coach's own" in wrong_with(folder)


@pytest.mark.parametrize("mode", ["working", ASKING, RESTING])
def test_the_coachs_own_model_has_every_phrase_of_the_coach(
    recogniser: Recogniser, mode: str
) -> None:
    """So that nobody is told at the start which commands this model doesn't know."""
    assert recogniser.listen_for(Dialogue(BINDINGS).phrases(mode)) == ()
