"""Settings survive, whole or not at all, and a damaged file is set aside and told."""

import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.adapters.settings_file import SettingsFile, Value

SOME: dict[str, Value] = {
    "size": 6,
    "colours": "yellow on black",
    "speech": True,
    "scan_seconds": 1.5,
    "keys.f13": "next",
    "keys.page down": "back",
}


def test_what_was_written_is_read_again(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path / "new folder")
    file.write(SOME)
    assert dict(file.read().values) == SOME
    assert file.read().notice is None


NAMES = st.text(st.characters(codec="utf-8", exclude_characters="."), min_size=1, max_size=8)


@given(
    st.dictionaries(
        NAMES, st.text(max_size=20) | st.integers(-(2**60), 2**60) | st.booleans(), max_size=5
    )
)
@settings(max_examples=50, deadline=None)
def test_any_names_and_values_come_back(
    tmp_path_factory: pytest.TempPathFactory, values: dict[str, str | int | bool]
) -> None:
    file = SettingsFile(tmp_path_factory.mktemp("home"))
    file.write(values)
    assert dict(file.read().values) == values


def test_no_file_means_no_settings_and_no_word_about_it(tmp_path: Path) -> None:
    stored = SettingsFile(tmp_path).read()
    assert (stored.values, stored.notice) == ({}, None)


@pytest.mark.parametrize("damage", [b"size = ", b"\xff\xfe\x00", b"[[[", b"size = 1\nsize = 2\n"])
def test_a_damaged_file_is_told_and_kept(tmp_path: Path, damage: bytes) -> None:
    file = SettingsFile(tmp_path)
    file.path.write_bytes(damage)
    stored = file.read()
    assert stored.values == {}
    assert stored.notice is not None
    aside = tmp_path / "settings-damaged-1.toml"
    assert str(aside) in stored.notice.full
    assert aside.read_bytes() == damage
    file.path.write_bytes(damage)
    file.read()
    assert (tmp_path / "settings-damaged-2.toml").read_bytes() == damage
    assert aside.read_bytes() == damage


def test_a_failed_write_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = SettingsFile(tmp_path)
    file.write({"size": 3})

    def full_disk(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full_disk)
    with pytest.raises(OSError, match="No space"):
        file.write({"size": 8})
    monkeypatch.undo()
    assert dict(file.read().values) == {"size": 3}
    assert [path.name for path in tmp_path.iterdir()] == ["settings.toml"]


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path)
    file.path.mkdir()
    stored = file.read()
    assert stored.values == {}
    assert stored.notice is not None
    assert str(file.path) in stored.notice.full
