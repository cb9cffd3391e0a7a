"""The shelf shows what is at hand, what was touched last first, each with its place."""

from __future__ import annotations

import json

from coach.app.shelf import OnTheShelf, found, place_told, shelf, shelf_json
from coach.ports import KeptPiece
from tests.app.maker import Maker
from tests.guide.pieces import open_cloth, plain_cloth

BUILT_IN = {"pebble-cloth": "Pebble Cloth", "orchard-gate-cushion": "Orchard Gate Cushion Front"}


def kept(maker: Maker) -> str:
    return maker.progress.states("piece")[-1]


def test_what_was_begun_stands_first_with_its_place_and_the_rest_after_it() -> None:
    maker = Maker(open_cloth())
    maker.to_row(14, step=3)
    pieces = [
        KeptPiece("scarf.txt", kept(maker), "2026-01-02T10:00:00.000+00:00", "Open cloth"),
        KeptPiece("pebble-cloth", kept(Maker(plain_cloth())), "2026-01-01T10:00:00.000+00:00"),
    ]

    assert shelf(BUILT_IN, pieces) == (
        OnTheShelf("scarf.txt", "Open cloth", "Row 14, block 3", "2026-01-02T10:00:00.000+00:00"),
        OnTheShelf(
            "pebble-cloth", "Pebble Cloth", "Foundation, block 1", "2026-01-01T10:00:00.000+00:00"
        ),
        OnTheShelf("orchard-gate-cushion", "Orchard Gate Cushion Front"),
    )


def test_a_finished_piece_is_told_as_finished() -> None:
    maker = Maker(plain_cloth(5, 2))
    while not maker.display.view.done:
        maker.types("next")

    assert place_told(kept(maker)) == "finished"
    assert place_told("no state") == ""


def test_the_shelf_as_data_has_name_title_place_and_last() -> None:
    told = json.loads(shelf_json(shelf({"pebble-cloth": "Pebble Cloth"}, [])))

    assert told == [{"name": "pebble-cloth", "title": "Pebble Cloth", "place": None, "last": None}]


def test_a_begun_piece_is_found_by_its_name_or_its_title() -> None:
    piece = KeptPiece("/home/maker/scarf.txt", "", "", "Garden scarf", "scarf.txt", "Ch 20.")

    assert found("garden scarf", [piece]) is piece
    assert found("/home/maker/scarf.txt", [piece]) is piece
    assert found("hat", [piece]) is None
