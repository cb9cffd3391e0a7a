"""The commands that are no session: the shelf as a list, the sound check, the models."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable

from coach.adapters.progress_sqlite import SqliteProgress
from coach.adapters.settings_file import SettingsFile
from coach.app.settings import from_values
from coach.app.shelf import shelf_json
from coach.wiring.refusal import UnusableError
from coach.wiring.sessions import shelved
from coach.wiring.visit import home_folder
from coach.wiring.voice_choice import voice_settings_of

Write = Callable[[str], None]


def shelf(write: Write, *, as_json: bool) -> None:
    """Write what is on the shelf, the piece touched last first."""
    progress = SqliteProgress(home_folder(os.environ))
    try:
        on_it = shelved(list(progress.pieces()))
    finally:
        progress.close()
    if as_json:
        write(shelf_json(on_it))
        return
    for each in on_it:
        place = f"{each.place}, last touched {each.last[:10]}" if each.place else "not begun"
        write(f"{each.name}: {each.title}, {place}")


def ear_list(write: Write) -> None:
    """Write every speech model on this machine, and which one is in use."""
    from coach.adapters.model_store import list_models  # noqa: PLC0415 - only here

    found = list_models(os.environ, home_folder(os.environ))
    for each in found:
        write(f"{each.name}: {'in use' if each.in_use else 'not in use'}, in {each.folder}")
    if not found:
        write("There is no speech model. Fetch one: coach ear get")


def ear_get(write: Write) -> None:
    """Fetch the small US English model, telling how far it is.

    Raises:
        UnusableError: it could not be fetched; the message says what to do.
    """
    from coach.adapters.model_store import SMALL_US_ENGLISH, FetchError, fetch_model  # noqa: PLC0415

    last = -1

    def tells(done: int, whole: int) -> None:
        nonlocal last
        tenth = 10 * done // whole
        if tenth != last:
            last = tenth
            write(f"{10 * tenth} percent of {whole // 1_000_000} megabytes")

    try:
        folder = fetch_model(SMALL_US_ENGLISH, home_folder(os.environ), tells)
    except FetchError as fault:
        raise UnusableError(str(fault)) from fault
    write(f"The model is ready: {folder}")


def soundcheck(write: Write) -> bool:
    """Try speaker, microphone, echo and recogniser, each told in one line, spoken too."""
    from coach.adapters.soundcheck import soundcheck as check  # noqa: PLC0415 - loads sound

    home = home_folder(os.environ)
    settings, _ = from_values(SettingsFile(home).read().values)
    results = check(
        os.environ,
        home,
        tells=lambda words: write(words.full),
        speaks=voice_settings_of(settings),
        microphone=settings.microphone_name or None,
    )
    sys.stdout.flush()
    return results
