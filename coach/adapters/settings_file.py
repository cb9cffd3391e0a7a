"""All settings in one file that can be read, mended and carried to another machine by hand.

The file is written whole or not at all. A damaged one is set aside under another name, never
overwritten, and the maker is told where it is; the coach then goes on with its usual settings.
"""

from __future__ import annotations

import json
import os
import re
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from coach.wording.words import Words

Value = str | int | float | bool

FILE_NAME = "settings.toml"
_LARGEST = 1_000_000  # bytes; no settings file comes near it
_BARE = re.compile(r"[A-Za-z0-9_-]+")


@dataclass(frozen=True, slots=True)
class Stored:
    """What the file held. notice: what to tell the maker about it, if anything went wrong."""

    values: Mapping[str, Value] = field(default_factory=dict)
    notice: Words | None = None


class SettingsFile:
    """The settings of one maker, kept in *folder*.

    A name with a dot in it ("keys.f13") is a line of a table of the file ("[keys]").
    """

    def __init__(self, folder: Path) -> None:
        self.path = folder / FILE_NAME

    def read(self) -> Stored:
        """Return the settings as stored; none if there is no file. Never raises for a bad file."""
        try:
            if self.path.stat().st_size > _LARGEST:
                return self._set_aside("it is too large to be one")
            text = self.path.read_text(encoding="utf-8")
            return Stored(_flat(tomllib.loads(text)))
        except FileNotFoundError:
            return Stored()
        except UnicodeDecodeError:
            return self._set_aside("it is not text")
        except tomllib.TOMLDecodeError as error:
            return self._set_aside(_first_sentence(str(error)))
        except OSError as error:
            reason = error.strerror or "no reason given"
            return Stored(
                notice=Words(
                    f"Your settings can't be read: {reason}. The usual settings are in use. "
                    f"Look at {self.path}.",
                    "Settings not read",
                )
            )

    def write(self, values: Mapping[str, Value]) -> None:
        """Store *values* in place of all that was there.

        Raises:
            OSError: the disk could not take it; the old file is as it was.
        """
        self.path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=self.path.parent, prefix=".settings-")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(_written(values))
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, self.path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
        _sync_folder(self.path.parent)

    def _set_aside(self, reason: str) -> Stored:
        number = 1
        while (aside := self.path.with_name(f"settings-damaged-{number}.toml")).exists():
            number += 1
        try:
            os.replace(self.path, aside)
        except OSError:
            where = f"It is still at {self.path}."
        else:
            where = f"It is kept as {aside}."
        return Stored(
            notice=Words(
                f"Your settings file is damaged: {reason}. {where} The usual settings are in use.",
                "Settings damaged",
            )
        )


def _flat(tables: Mapping[str, object]) -> dict[str, Value]:
    """Lines of tables become dotted names; what is no setting (a list, a date) is left out."""
    values: dict[str, Value] = {}
    for name, value in tables.items():
        if isinstance(value, Mapping):
            values.update((f"{name}.{inner}", held) for inner, held in _flat(value).items())
        elif isinstance(value, str | int | float | bool):
            values[name] = value
    return values


def _written(values: Mapping[str, Value]) -> str:
    tables: dict[str, dict[str, Value]] = {}
    for name, value in sorted(values.items()):
        table, _, key = name.partition(".") if "." in name else ("", "", name)
        tables.setdefault(table, {})[key] = value
    parts = ["# The coach's settings. Change them here or in the coach.\n"]
    for table in sorted(tables):
        if table:
            parts.append(f"\n[{_key(table)}]\n")
        parts += [f"{_key(key)} = {_toml(value)}\n" for key, value in tables[table].items()]
    return "".join(parts)


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _toml(name)


def _toml(value: Value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        kept = value.encode("utf-8", "replace").decode("utf-8")
        return json.dumps(kept, ensure_ascii=False).replace("\x7f", "\\u007f")
    return repr(value)


def _first_sentence(message: str) -> str:
    return message[:1].lower() + message[1:].rstrip(".")


def _sync_folder(folder: Path) -> None:
    """Make the new name itself safe against a power cut, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
