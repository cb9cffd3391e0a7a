"""Speech models: found, listed, fetched with a checksum, resumed, unpacked safely, tried."""

from __future__ import annotations

import hashlib
import io
import threading
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from coach.adapters.model_store import (
    FetchError,
    ModelOffer,
    fetch_model,
    find_model,
    list_models,
    try_model,
)
from coach.ports import Missing

FILES = ("am/final.mdl", "conf/mfcc.conf", "conf/model.conf", "graph/HCLr.fst")


def archive_of(names: tuple[str, ...]) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        for name in names:
            archive.writestr(name, name * 5_000)
    return held.getvalue()


@dataclass
class Shelf:
    """A web server with one archive; it may break off, or know nothing of ranges."""

    content: bytes
    breaks_after: int = 0
    knows_ranges: bool = True
    status: int = 200
    asked: list[str] = field(default_factory=list)
    address: str = ""


class _Handler(BaseHTTPRequestHandler):
    shelf: Shelf

    def do_GET(self) -> None:
        shelf, wanted = self.shelf, self.headers.get("Range", "")
        shelf.asked.append(wanted)
        if shelf.status != 200:
            self.send_error(shelf.status)
            return
        start = int(wanted[6:-1]) if wanted and shelf.knows_ranges else 0
        body = shelf.content[start:]
        self.send_response(206 if start else 200)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if shelf.breaks_after:
            body, shelf.breaks_after = body[: shelf.breaks_after], 0
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        pass


@pytest.fixture
def shelf() -> Iterator[Shelf]:
    kept = Shelf(archive_of(tuple(f"fine-model/{name}" for name in FILES)))
    handler = type("Handler", (_Handler,), {"shelf": kept})
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    kept.address = f"http://127.0.0.1:{server.server_port}/fine-model.zip"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield kept
    server.shutdown()
    server.server_close()
    thread.join()


def offer_of(shelf: Shelf, **other: object) -> ModelOffer:
    told = {
        "name": "fine-model",
        "address": shelf.address,
        "size": len(shelf.content),
        "sha256": hashlib.sha256(shelf.content).hexdigest(),
        "about": "",
    }
    return ModelOffer(**{**told, **other})  # type: ignore[arg-type]  # the test's own changes


def works(_: Path) -> None:
    return None


def test_a_model_is_fetched_verified_tried_and_then_in_use(shelf: Shelf, tmp_path: Path) -> None:
    seen: list[tuple[int, int]] = []

    folder = fetch_model(offer_of(shelf), tmp_path, lambda *at: seen.append(at), tries=works)

    assert folder == tmp_path / "models" / "fine-model"
    assert find_model({}, tmp_path) == folder
    assert seen[-1] == (len(shelf.content), len(shelf.content))
    assert sorted(each.name for each in folder.parent.iterdir()) == ["fine-model"]


def test_a_broken_download_goes_on_where_it_ended(shelf: Shelf, tmp_path: Path) -> None:
    shelf.breaks_after = 300

    fetch_model(offer_of(shelf), tmp_path, tries=works)

    assert shelf.asked == ["", "bytes=300-"]


def test_a_part_from_an_earlier_day_is_gone_on_with(shelf: Shelf, tmp_path: Path) -> None:
    (tmp_path / "models").mkdir()
    (tmp_path / "models" / "fine-model.part").write_bytes(shelf.content[:500])

    fetch_model(offer_of(shelf), tmp_path, tries=works)

    assert shelf.asked == ["bytes=500-"]


def test_a_server_without_ranges_starts_over(shelf: Shelf, tmp_path: Path) -> None:
    shelf.knows_ranges = False
    (tmp_path / "models").mkdir()
    (tmp_path / "models" / "fine-model.part").write_bytes(b"x" * 500)

    assert fetch_model(offer_of(shelf), tmp_path, tries=works).is_dir()


def test_what_is_not_the_published_archive_is_thrown_away_unopened(
    shelf: Shelf, tmp_path: Path
) -> None:
    with pytest.raises(FetchError, match="SHA-256"):
        fetch_model(offer_of(shelf, sha256="0" * 64), tmp_path, tries=works)

    assert list((tmp_path / "models").iterdir()) == []


def test_an_answer_of_not_found_is_told_with_the_other_way(shelf: Shelf, tmp_path: Path) -> None:
    shelf.status = 404

    with pytest.raises(FetchError, match=r"answers 404.*COACH_MODEL"):
        fetch_model(offer_of(shelf), tmp_path, tries=works)

    assert len(shelf.asked) == 1


def test_no_network_is_told_and_nothing_is_left_half_done(tmp_path: Path) -> None:
    nowhere = Shelf(b"x" * 100, address="http://127.0.0.1:9/model.zip")

    with pytest.raises(FetchError, match="run the same command again"):
        fetch_model(offer_of(nowhere), tmp_path, tries=works)

    assert isinstance(find_model({}, tmp_path), Path)  # the coach's own is still there


@pytest.mark.parametrize("name", ["../outside", "/outside", "fine-model/../../outside", "a\\..\\b"])
def test_an_entry_that_points_outside_is_refused(shelf: Shelf, tmp_path: Path, name: str) -> None:
    shelf.content = archive_of((*(f"fine-model/{each}" for each in FILES), name))

    with pytest.raises(FetchError, match="points outside"):
        fetch_model(offer_of(shelf), tmp_path, tries=works)

    assert not (tmp_path / "outside").exists()
    assert not (tmp_path / "models" / "fine-model").exists()


def test_a_link_in_the_archive_is_refused(shelf: Shelf, tmp_path: Path) -> None:
    held = io.BytesIO(shelf.content)
    with zipfile.ZipFile(held, "a") as archive:
        link = zipfile.ZipInfo("fine-model/link")
        link.external_attr = 0o120777 << 16
        archive.writestr(link, "/etc")
    shelf.content = held.getvalue()

    with pytest.raises(FetchError, match="points outside"):
        fetch_model(offer_of(shelf), tmp_path, tries=works)


def test_an_archive_without_a_model_is_refused(shelf: Shelf, tmp_path: Path) -> None:
    shelf.content = archive_of(("read-me.txt",))

    with pytest.raises(FetchError, match="no speech model"):
        fetch_model(offer_of(shelf), tmp_path, tries=works)


def test_a_model_that_does_not_decode_is_never_called_ready(shelf: Shelf, tmp_path: Path) -> None:
    with pytest.raises(FetchError, match="doesn't work"):
        fetch_model(offer_of(shelf), tmp_path)  # the real self-test, on files of nonsense

    assert find_model({}, tmp_path).name == "english-commands"  # type: ignore[union-attr]


def test_the_coachs_own_model_lies_in_the_repository_and_works(tmp_path: Path) -> None:
    own = find_model({}, tmp_path)

    assert isinstance(own, Path)
    assert try_model(own) is None
    assert [(each.name, each.in_use) for each in list_models({}, tmp_path)] == [
        ("english-commands", True)
    ]


def test_a_named_folder_that_is_no_model_is_told_by_name(tmp_path: Path) -> None:
    told = find_model({"COACH_MODEL": str(tmp_path)}, tmp_path)

    assert isinstance(told, Missing)
    assert f"{tmp_path} is no speech model: it has no am/final.mdl" in told.reason
    assert "COACH_MODEL" in told.remedy


def test_a_named_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    told = find_model({"COACH_MODEL": str(tmp_path / "gone")}, tmp_path)

    assert isinstance(told, Missing)
    assert "there is no such folder" in told.reason
