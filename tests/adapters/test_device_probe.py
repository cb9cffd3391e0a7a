"""Devices are looked for in a process of its own: whatever happens there, nothing happens here."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from coach.adapters.device_names import Way
from coach.adapters.device_probe import names_now


def python_that(does: str, monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """Put a program that does something else in the place of Python."""
    script = folder / "python"
    script.write_text(f"#!/bin/sh\n{does}\n", encoding="utf-8")
    script.chmod(0o755)
    monkeypatch.setattr(sys, "executable", str(script))


@pytest.mark.parametrize(
    ("does", "names"),
    [
        ("echo 'Desk microphone'; echo Headset", ("Desk microphone", "Headset")),
        ("true", ()),
        ("echo Headset; kill -ABRT $$", ()),  # as PortAudio does at an assertion
        ("echo 'no PortAudio' >&2; exit 1", ()),
        ("exec sleep 30", ()),
    ],
)
def test_a_look(
    does: str,
    names: tuple[str, ...],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    python_that(does, monkeypatch, tmp_path)

    assert names_now(Way.IN, patience=1.0) == names


def test_a_python_that_is_not_there_sees_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "executable", "/nowhere/python")

    assert names_now(Way.OUT) == ()
