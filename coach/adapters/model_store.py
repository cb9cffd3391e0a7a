"""Where speech models lie, which one is used, and how a larger one is fetched safely.

A model is a folder. The coach's own lies in the repository's `models/`; `COACH_MODEL` or one
fetched by `coach ear get` takes its place. A download is resumed, checked against its published
sum before it is opened, unpacked only into its own folder, and tried before it is called ready.
Nothing is ever fetched without being asked for.
"""

from __future__ import annotations

import hashlib
import http.client
import shutil
import subprocess
import urllib.error
import urllib.request
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from coach.adapters.worker_pipe import module_command
from coach.ports import Missing

OWN_MODEL = "english-commands"
NEEDED = ("am/final.mdl", "conf/mfcc.conf", "conf/model.conf")
CHUNK = 1 << 16
TRIES = 5  # connections before a download that keeps breaking is given up
WAIT = 30.0  # seconds for an answer
UNPACKED_AT_MOST = 2 << 30  # bytes; a small archive must not fill the disk
TEST_WITHIN = 120.0  # seconds for the self-test of a large model


@dataclass(frozen=True, slots=True)
class ModelOffer:
    """A model that can be fetched: its name, address, size in bytes and SHA-256 sum."""

    name: str
    address: str
    size: int
    sha256: str
    about: str


# Size and sum agree in ten independent public build files; the maker publishes the archive.
SMALL_US_ENGLISH = ModelOffer(
    name="vosk-model-small-en-us-0.15",
    address="https://alphacephei.com/vosk/models/vosk-model-small-en-us-0.15.zip",
    size=41_205_931,
    sha256="30f26242c4eb449f948e42cb302dd7a686cb29a3423a8367f99ff41780942498",
    about="small US English, all words of the language; Apache-2.0",
)


@dataclass(frozen=True, slots=True)
class ModelFolder:
    """A model on this machine, and whether it is the one in use."""

    name: str
    folder: Path
    in_use: bool


class FetchError(Exception):
    """The model could not be fetched; the message says what happened and what to do."""


def find_model(environment: Mapping[str, str], home: Path) -> Path | Missing:
    """Return the folder of the model to use.

    In this order: what `COACH_MODEL` names, a model fetched into *home*/models, the coach's own.
    home: the coach's own data folder (`COACH_HOME`).
    """
    named = environment.get("COACH_MODEL", "").strip()
    if named:
        folder = Path(named).expanduser()
        return folder if _is_model(folder) else _not_a_model(folder)
    for folder in (*_models_in(home / "models"), *_own_models()):
        return folder
    return Missing(
        "No speech model was found, so the coach can't hear.",
        "Keys go on working. Fetch one: coach ear get",
    )


def list_models(environment: Mapping[str, str], home: Path) -> tuple[ModelFolder, ...]:
    """Return every model on this machine that the coach knows of."""
    used = find_model(environment, home)
    found = [*_models_in(home / "models"), *_own_models()]
    if isinstance(used, Path) and used not in found:
        found.insert(0, used)
    return tuple(ModelFolder(folder.name, folder, folder == used) for folder in found)


def fetch_model(
    offer: ModelOffer,
    home: Path,
    tells: Callable[[int, int], None] = lambda done, whole: None,
    *,
    tries: Callable[[Path], Missing | None] | None = None,
) -> Path:
    """Fetch *offer* into *home*/models and return its folder.

    tells: called with the bytes that are here and the whole number. tries: the self-test.

    Raises:
        FetchError: it could not be fetched, is not what it should be, or doesn't work.
        OSError: the disk could not take it.
    """
    models = home / "models"
    models.mkdir(parents=True, exist_ok=True)
    target = models / offer.name
    if _is_model(target):
        return target
    if shutil.disk_usage(models).free < 4 * offer.size:
        raise FetchError(
            f"The disk has too little room for this model: {4 * offer.size // 1_000_000} MB "
            f"are needed in {models}. Make room and run the same command again."
        )
    archive = models / f"{offer.name}.part"
    _download(offer, archive, tells)
    _verify(offer, archive)
    unpacked = models / f".{offer.name}.unpacking"
    shutil.rmtree(unpacked, ignore_errors=True)
    try:
        _unpack(archive, unpacked)
        folder = _top_folder(unpacked)
        missing = (tries or try_model)(folder)
        if missing is not None:
            raise FetchError(f"The model was fetched but doesn't work: {missing.reason}")
        folder.rename(target)
    finally:
        shutil.rmtree(unpacked, ignore_errors=True)
    archive.unlink()
    return target


def try_model(folder: Path) -> Missing | None:
    """Decode a recording with the model in *folder*, in a process of its own.

    Returns None when it heard what it should, else what is wrong. A model that brings the
    recogniser down is told as well.
    """
    if not _is_model(folder):
        return _not_a_model(folder)
    try:
        done = subprocess.run(  # noqa: S603 - our own module, no shell
            module_command("coach.adapters.model_test", str(folder)),
            capture_output=True,
            timeout=TEST_WITHIN,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return Missing(f"The model in {folder} takes too long.", "Choose a smaller model.")
    if done.returncode == 0:
        return None
    said = done.stdout.decode("utf-8", "replace").strip()
    reason = said or f"The model in {folder} brings the recogniser down."
    return Missing(reason, "Fetch it anew: coach ear get, or unset COACH_MODEL.")


def _is_model(folder: Path) -> bool:
    try:
        return all((folder / name).is_file() for name in NEEDED)
    except OSError:
        return False


def _not_a_model(folder: Path) -> Missing:
    lacking = [name for name in NEEDED if not (folder / name).is_file()]
    what = f"it has no {lacking[0]}" if folder.is_dir() and lacking else "there is no such folder"
    return Missing(
        f"{folder} is no speech model: {what}. The coach can't hear.",
        "Keys go on working. Point COACH_MODEL at a model folder, or unset it to use our own.",
    )


def _models_in(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(each for each in folder.iterdir() if each.name[:1] != "." and _is_model(each))


def _own_models() -> list[Path]:
    """Return the coach's own models: beside the package in the repository, or inside it."""
    package = Path(__file__).resolve().parent.parent
    places = (package.parent / "models" / OWN_MODEL, package / "models" / OWN_MODEL)
    return [each for each in places if _is_model(each)]


def _download(offer: ModelOffer, archive: Path, tells: Callable[[int, int], None]) -> None:
    """Bring *archive* to its whole size, going on where an earlier try ended."""
    trouble = "the connection broke"
    for _ in range(TRIES):
        here = archive.stat().st_size if archive.exists() else 0
        if here > offer.size:
            archive.unlink()
            here = 0
        if here == offer.size:
            return
        try:
            _go_on(offer, archive, here, tells)
        except (
            urllib.error.URLError,
            http.client.HTTPException,
            ConnectionError,
            TimeoutError,
        ) as fault:
            trouble = str(getattr(fault, "reason", fault)) or type(fault).__name__
            if isinstance(fault, urllib.error.HTTPError) and fault.code in {401, 403, 404, 410}:
                trouble = f"the server answers {fault.code}"
                break
    else:
        if archive.exists() and archive.stat().st_size == offer.size:
            return
    here = archive.stat().st_size if archive.exists() else 0
    raise FetchError(
        f"The model could not be fetched ({trouble}). {here:,} of {offer.size:,} bytes are here; "
        "run the same command again to go on from there. Or fetch "
        f"{offer.address} by another way, unpack it, and set COACH_MODEL to its folder."
    )


def _go_on(offer: ModelOffer, archive: Path, here: int, tells: Callable[[int, int], None]) -> None:
    request = urllib.request.Request(offer.address)  # noqa: S310 - our own list's addresses
    if here:
        request.add_header("Range", f"bytes={here}-")
    with urllib.request.urlopen(request, timeout=WAIT) as answer:  # noqa: S310
        resumed = here and answer.status == 206
        with archive.open("ab" if resumed else "wb") as file:
            done = here if resumed else 0
            while chunk := answer.read(CHUNK):
                file.write(chunk)
                done += len(chunk)
                tells(done, offer.size)
                if done > offer.size:
                    break


def _verify(offer: ModelOffer, archive: Path) -> None:
    with archive.open("rb") as file:
        found = hashlib.file_digest(file, "sha256").hexdigest()
    if found != offer.sha256:
        archive.unlink()
        raise FetchError(
            "What was fetched isn't the model that was published (its SHA-256 sum differs), "
            "so it was thrown away unopened. Try again; if it happens twice, the address "
            "serves something else."
        )


def _unpack(archive: Path, into: Path) -> None:
    """Unpack *archive*; refuse any entry that would lie outside *into*, links included."""
    into.mkdir()
    root = into.resolve()
    try:
        with zipfile.ZipFile(archive) as opened:
            entries = opened.infolist()
            if sum(entry.file_size for entry in entries) > UNPACKED_AT_MOST:
                raise FetchError("The archive would unpack to more than 2 GB; it was not opened.")
            for entry in entries:
                target = (root / entry.filename).resolve()
                is_link = (entry.external_attr >> 16) & 0o170000 == 0o120000
                if is_link or "\\" in entry.filename or not target.is_relative_to(root):
                    raise FetchError(
                        f"The archive holds an entry that points outside ({entry.filename!r}); "
                        "it was not unpacked."
                    )
            opened.extractall(root)  # every entry was checked above
    except zipfile.BadZipFile as fault:
        raise FetchError("What was fetched is no archive that can be opened.") from fault


def _top_folder(unpacked: Path) -> Path:
    for folder in (unpacked, *sorted(unpacked.iterdir())):
        if _is_model(folder):
            return folder
    raise FetchError("The archive holds no speech model.")
