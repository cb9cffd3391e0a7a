"""The core imports neither screen nor sound nor disk, not even by the way.

A static graph can't see a deferred import; a fresh interpreter can.
"""

from __future__ import annotations

import pkgutil
import subprocess
import sys

import pytest

import coach

CORE = ("coach.craft", "coach.notation", "coach.guide", "coach.wording", "coach.ports")
EDGE = {"textual", "rich", "pyttsx3", "vosk", "sounddevice", "numpy", "PIL", "sqlite3", "socket"}
HEAVY = {"textual", "pyttsx3", "vosk", "sounddevice", "numpy", "PIL"}


def core_modules() -> list[str]:
    names = [each.name for each in pkgutil.walk_packages(coach.__path__, "coach.")]
    return [name for name in names if name.startswith(CORE)]


def loaded_after(*statements: str) -> set[str]:
    code = "; ".join((*statements, "import sys; print(*sys.modules)"))
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return {name.split(".")[0] for name in done.stdout.split()}


def test_the_core_loads_nothing_of_the_edge() -> None:
    modules = core_modules()
    assert len(modules) > 10

    assert not loaded_after(*(f"import {name}" for name in modules)) & EDGE


@pytest.mark.parametrize("module", ["coach.cli", "coach.wiring"])
def test_the_command_starts_without_screen_or_sound(module: str) -> None:
    """So that `coach prove` answers at once, and works where there is no sound at all."""
    assert not loaded_after(f"import {module}") & HEAVY
