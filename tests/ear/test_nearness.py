"""Which commands a text might be taken for: counted by hand over the dictionary's phonemes."""

from __future__ import annotations

import pytest

torch = pytest.importorskip("torch", reason="torch is not installed: nearness is not tested here")

from scripts.ear.nearness import edits, nearest, phonemes_of  # noqa: E402

SAID = {
    "help": (("HH", "EH", "L", "P"),),
    "held": (("HH", "EH", "L", "D"),),
    "no": (("N", "OW"),),
    "know": (("N", "OW"),),
    "next": (("N", "EH", "K", "S", "T"),),
    "neck": (("N", "EH", "K"),),
}
CPU = torch.device("cpu")


def test_edits_are_phonemes_changed_put_in_or_left_out() -> None:
    held, neck = SAID["held"][0], SAID["neck"][0]
    help_, next_, no = SAID["help"][0], SAID["next"][0], SAID["no"][0]

    # held → help: D to P. neck → next: S and T put in. held → no: HH to N, EH to OW, L and D out.
    assert edits([held, neck], [help_, next_, no], CPU).tolist() == [[1, 4, 4], [3, 2, 2]]


def test_the_nearest_command_is_first_and_one_that_sounds_the_same_is_left_out() -> None:
    near = nearest(["held", "know", "neck"], ["next", "no", "help"], SAID, 2, CPU)

    assert near["held"][0] == "help"
    assert near["neck"][0] == "next"
    assert "no" not in near["know"]


def test_a_text_sounds_like_its_words_one_after_another() -> None:
    assert phonemes_of("no next", SAID) == ("N", "OW", "N", "EH", "K", "S", "T")
