"""Whole patterns worked through from the first step to the last, as both front ends get them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from coach.adapters.deaf import Deaf
from coach.adapters.display_recorder import DisplayRecorder
from coach.adapters.silent import Silence
from coach.app.proving import prove_text
from coach.app.session import Session
from coach.guide.commands import Command, Order
from coach.ports import Event, View
from coach.wording.words import Words

ROOT = Path(__file__).resolve().parent.parent.parent
PATTERNS = sorted(
    [*(ROOT / "coach" / "patterns").glob("*.txt"), *(ROOT / "tests" / "patterns").rglob("*.txt")]
)


class Memory:
    """Keeps progress for as long as a test lasts."""

    def __init__(self) -> None:
        self.kept: list[str] = []

    def save(self, piece: str, event: Event, state: str) -> None:
        self.kept.append(state)

    def state(self, piece: str) -> str | None:
        return None

    def events(self, piece: str) -> Sequence[Event]:
        return ()

    def states(self, piece: str) -> Sequence[str]:
        return ()


class StandingClock:
    """A clock that stands."""

    def now(self) -> float:
        return 1_700_000_000.0


@lru_cache(64)
def worked(path: Path, most: int = 400) -> tuple[View | Words, ...]:
    """Return all that is shown and told while a pattern is worked with "next", up to *most* steps.

    A question on the way is answered with its first answer.
    """
    display = DisplayRecorder()
    session = Session(
        prove_text(path.read_text(encoding="utf-8")),
        path.stem,
        display=display,
        speaker=Silence(),
        ear=Deaf(),
        progress=Memory(),
        clock=StandingClock(),
    )
    session.begin()
    for _ in range(most):
        view = display.views[-1]
        if view.done or session.over:
            break
        if view.choices:
            session.choose(1)
        else:
            session.receive(Order(Command.NEXT))
    return tuple(display.shown)


def views_of(path: Path) -> list[View]:
    """Return the steps of a pattern, each different one once."""
    seen: dict[tuple[object, ...], View] = {}
    for one in worked(path):
        if isinstance(one, View):
            key = (one.sentence, one.headline, one.big, one.group, one.count, one.side, one.notice)
            seen.setdefault(key, one)
    return list(seen.values())
