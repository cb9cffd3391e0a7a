"""Approved pictures of the screen in its states, from the smallest window to a large one.

Behaviour is asserted elsewhere; these catch a layout that has come apart. After a wanted change:
COACH_PICTURES=new pytest tests/tui/test_pictures.py, and look at each picture.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from textual.geometry import Region

from coach.guide.commands import Command
from coach.ports import View
from coach.tui.app import CoachApp
from coach.tui.inks import theme_named
from coach.tui.keys import PEDALS, Guard
from coach.tui.letters import Grain
from coach.tui.sheet import Sheet
from coach.tui.window import Look
from tests.tui.picture import svg
from tests.tui.talks import Talk
from tests.tui.views import (
    ALTERNATION,
    CHAIN,
    COME_BACK,
    COUNTS,
    DONE,
    FAULT,
    MESH,
    PLAIN_ROW,
    POST_STITCHES,
    QUESTION,
    RIB,
    SHELF,
    WELCOME,
)

PICTURES = Path(__file__).parent / "pictures"

STATES: dict[str, tuple[View, tuple[int, int], str, Look, list[str]]] = {
    "rib": (RIB, (80, 24), "black on white", Look(), []),
    "rib-small": (RIB, (40, 12), "white on black", Look(), []),
    "rib-smallest": (RIB, (20, 8), "yellow on black", Look(), []),
    "rib-large": (RIB, (120, 40), "yellow on black", Look(), []),
    "rib-upright": (RIB, (60, 50), "black on yellow", Look(), []),
    "rib-finest-letters": (RIB, (80, 24), "white on black", Look(8, Grain.QUADRANT), []),
    "rib-size-3": (RIB, (80, 24), "black on white", Look(3), []),
    "chain": (CHAIN, (80, 24), "white on black", Look(), []),
    "plain-row": (PLAIN_ROW, (80, 24), "black on white", Look(), []),
    "alternation": (ALTERNATION, (80, 24), "white on black", Look(), []),
    "post-stitches": (POST_STITCHES, (80, 24), "black on white", Look(), []),
    "mesh": (MESH, (80, 24), "yellow on black", Look(), []),
    "mesh-small": (MESH, (40, 12), "yellow on black", Look(), []),
    "counts": (COUNTS, (80, 24), "white on black", Look(), []),
    "counts-small": (COUNTS, (40, 12), "black on white", Look(), []),
    "where-am-i": (RIB, (80, 24), "black on white", Look(), ["w"]),
    "count-typed": (RIB, (80, 24), "black on white", Look(), ["7", "4"]),
    "question": (QUESTION, (80, 24), "black on white", Look(), []),
    "question-small": (QUESTION, (40, 12), "black on white", Look(), []),
    "shelf": (SHELF, (80, 24), "black on white", Look(), []),
    "fault": (FAULT, (80, 24), "black on white", Look(), []),
    "welcome": (WELCOME, (80, 24), "black on white", Look(), []),
    "leaf-smallest": (COME_BACK, (20, 8), "yellow on black", Look(), ["end"]),
    "leaf-small": (COME_BACK, (40, 12), "white on black", Look(), []),
    "done": (DONE, (80, 24), "yellow on black", Look(), []),
}


@pytest.mark.snapshot
@pytest.mark.parametrize("state", STATES)
async def test_it_looks_as_it_was_approved(state: str) -> None:
    view, size, colours, look, keys = STATES[state]
    app = CoachApp(
        keys={**PEDALS, "w": Command.WHERE},
        guard=Guard(lock_out=0, held=0),
        theme=theme_named(colours),
        look=look,
    )
    app.conversation = Talk(app, (view,))
    async with app.run_test(size=size) as pilot:
        await pilot.press(*keys)
        await pilot.pause()
        strips = app.query_one(Sheet).render_lines(Region(0, 0, *size))
        drawn = svg(strips, app.page.cursor)
    approved = PICTURES / f"{state}.svg"
    if os.environ.get("COACH_PICTURES") == "new":
        approved.write_text(drawn, encoding="utf-8")
    assert drawn == approved.read_text(encoding="utf-8")
