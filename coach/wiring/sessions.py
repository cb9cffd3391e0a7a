"""Following one pattern, and the shelf that it is chosen from."""

from __future__ import annotations

import re
import sys
from argparse import Namespace
from pathlib import Path

from coach.adapters.clock import SystemClock
from coach.adapters.pattern_files import PatternText, built_in_names, load
from coach.app.session import Session
from coach.app.settings import TABLES, to_values
from coach.app.settling import settler
from coach.app.shelf import OnTheShelf, shelf
from coach.craft.proof import Proof
from coach.ports import KeptPiece
from coach.wiring.proofs import pattern_named, prove, rows_missing
from coach.wiring.refusal import UnusableError
from coach.wiring.visit import Talk, Visit
from coach.wording.plain_text import sentence, size_told
from coach.wording.words import Words


def follow(given: Namespace) -> None:
    """Lead the maker through the pattern that was asked for, until they leave.

    Raises:
        UnusableError: there is no such pattern, or nothing in it can be followed.
    """
    row = _row_asked(given.start)

    def first(visit: Visit) -> Talk:
        return _first_talk(visit, pattern, proof, row)

    pattern = pattern_named(given.pattern)
    proof = proved(pattern, given.size)
    Visit(given, first).run()


def open_shelf(given: Namespace) -> None:
    """Open the shelf; on the very first start welcome the maker before anything is chosen."""
    Visit(given, _welcome_or_shelf).run()


def proved(pattern: PatternText, size: str | None) -> Proof:
    """Return the proof of *pattern* in *size*, which has at least one row to follow.

    Raises:
        UnusableError: it can't be read, has no rows, or not this size.
    """
    proof = prove(pattern, size)
    if proof.verdict == "unreadable":
        raise UnusableError(rows_missing(pattern, proof))
    return proof


def shelved(visit_pieces: list[KeptPiece]) -> tuple[OnTheShelf, ...]:
    """Return all that is on the shelf, titles of the built-in patterns included."""
    titles = {}
    for name in built_in_names():
        pattern = load(name, sys.stdin.buffer)
        if isinstance(pattern, PatternText):
            titles[name] = _title(pattern.text)
    return shelf(titles, visit_pieces)


def _title(text: str) -> str:
    """Return a built-in pattern's title: its first line, in ordinary capitals."""
    return text.strip().splitlines()[0].strip().capitalize()


def _row_asked(start: str | None) -> int | None:
    if start is None:
        return None
    number = re.search(r"\d+", start)
    if number is None:
        raise UnusableError(f'{start} names no row. Write it like this: --from "row 6"')
    return int(number.group())


def _first_talk(visit: Visit, pattern: PatternText, proof: Proof, row: int | None) -> Talk:
    """Return the session, or the question which size to make where that is open."""
    if proof.sizes and visit.given.size is None:
        if sys.stdin.isatty():
            return _size_menu(visit, pattern, proof, row)
        visit.notices.append(
            Words(
                f"This is {size_told(proof.size or proof.sizes[0])}. "
                f"The sizes are: {', '.join(proof.sizes)}. "
                "For another, start again with --size and its name.",
                size_told(proof.size or proof.sizes[0]).capitalize(),
            )
        )
    return _session(visit, pattern, proof, row)


def _size_menu(visit: Visit, pattern: PatternText, proof: Proof, row: int | None) -> Talk:
    from coach.tui.menus import Item, Menu, Sheet  # noqa: PLC0415 - the screen's room

    def taken(item: Item) -> None:
        visit.given.size = item.name
        sized = proved(pattern, item.name)
        visit.go_to(_session(visit, pattern, sized, row))

    items = tuple(Item(size, sentence(size_told(size)).rstrip(".")) for size in proof.sizes)
    sheet = Sheet("Size", f"{proof.title}. Which size do you make?", items)
    return Menu(sheet, visit.display, visit.speaker.say, taken=taken)


def _session(visit: Visit, pattern: PatternText, proof: Proof, row: int | None) -> Session:
    piece = _piece_name(pattern)
    if proof.size is not None:
        piece = f"{piece} {size_told(proof.size)}"
    try:
        visit.progress.keep_pattern(piece, proof.title, pattern.source, pattern.text)
    except OSError as fault:
        visit.notices.append(Words(f"The pattern could not be kept: {fault}.", "Not kept"))
    session = _Started(
        proof,
        piece,
        display=visit.display,
        speaker=visit.speaker,
        ear=visit.ear,
        progress=visit.progress,
        clock=SystemClock(),
        settings=visit.settings,
        settle=settler(pattern.text, size=proof.size),
        heard=visit.tell_heard,
        changed=visit.keep_all,
        in_turn=visit.in_turn,
    )
    session.at_row = row
    return session


class _Started(Session):
    """A session that begins at the row that was asked for on the command line."""

    at_row: int | None = None

    def begin(self, at_row: int | None = None) -> None:
        super().begin(at_row if at_row is not None else self.at_row)


def _piece_name(pattern: PatternText) -> str:
    """Return the name that a piece is kept under: a file's whole path, else its short name."""
    if pattern.source.startswith("built-in ") or pattern.name == "-":
        return pattern.name
    path = Path(pattern.source)
    return str(path.resolve()) if path.exists() else pattern.name


# The shelf


def _welcome_or_shelf(visit: Visit) -> Talk:
    if not visit.first_time:
        return _shelf_menu(visit)
    from coach.tui.first_start import FirstStart  # noqa: PLC0415 - the screen's room

    def done() -> None:
        visit.keep_all(visit.settings)
        visit.go_to_choices(_shelf_menu(visit))

    present = _present(visit)
    if visit.plain is visit.display:  # lines of text have neither size nor colours
        present = {"rate": present["rate"]} if visit.settings.speech else {}
    return FirstStart(
        visit.display,
        visit.speaker.say,
        present,
        tries=visit.try_on,
        keeps=visit.keep,
        done=done,
    )


def _shelf_menu(visit: Visit) -> Talk:
    from coach.tui.shelf import Book  # noqa: PLC0415 - the screen's room
    from coach.tui.shelf import shelf as shelf_of  # noqa: PLC0415

    try:
        pieces = list(visit.progress.pieces())
    except OSError:
        pieces = []
    books = [Book(each.name, each.title, each.place) for each in shelved(pieces)]

    def opened(name: str) -> None:
        try:
            pattern = pattern_named(name)
            proof = proved(pattern, visit.given.size)
        except UnusableError as fault:
            visit.display.tell(Words(str(fault), "It can't be opened"))
            visit.speaker.say(Words(str(fault), "It can't be opened"))
            return
        visit.go_to(_first_talk(visit, pattern, proof, None))

    return shelf_of(
        books,
        visit.display,
        visit.speaker.say,
        opened=opened,
        settings=lambda: visit.go_to_choices(_settings_menu(visit)),
    )


def _settings_menu(visit: Visit) -> Talk:
    from coach.tui.setting_menus import SettingMenus  # noqa: PLC0415 - the screen's room

    return _ThenShelf(
        SettingMenus(
            visit.display,
            visit.speaker.say,
            _present(visit),
            tries=visit.try_on,
            keeps=visit.keep,
        ),
        visit,
    )


class _ThenShelf:
    """A conversation that goes back to the shelf when it is over."""

    def __init__(self, talk: Talk, visit: Visit) -> None:
        self._inner, self._visit = talk, visit

    @property
    def over(self) -> bool:
        return False

    def begin(self) -> None:
        self._inner.begin()

    def receive(self, order: object) -> None:
        self._inner.receive(order)  # type: ignore[arg-type]
        self._back()

    def typed(self, line: str) -> None:
        self._inner.typed(line)
        self._back()

    def choose(self, number: int) -> None:
        self._inner.choose(number)
        self._back()

    def _back(self) -> None:
        if self._inner.over:
            self._visit.go_to_choices(_shelf_menu(self._visit))


def _present(visit: Visit) -> dict[str, str | int | float | bool]:
    """Return every setting with its present value, the usual ones included."""
    from dataclasses import fields  # noqa: PLC0415 - one use

    present = {
        each.name: getattr(visit.settings, each.name)
        for each in fields(visit.settings)
        if each.name not in TABLES
    }
    present.update(to_values(visit.settings))
    return present
