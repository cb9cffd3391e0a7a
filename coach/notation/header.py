"""A header: where its words begin and its instructions start, and what it says."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Header:
    """One header: where its words begin and its instructions start, and what it says."""

    start: int
    end: int
    kind: str  # "row" or "round"
    numbers: tuple[int, ...]
    label: str | None = None  # for named rows: "Dec Rnd 3"
    side: str | None = None
    every: str | None = None  # "even", "odd", "alternate"
    bare: bool = False
    spoken: bool = False
    short: bool = False  # "R3"
    counted: tuple[int, int] | None = (
        None  # where the header itself states the count: "Rnd 8 (28 sts):"
    )
    listed: bool = False  # "Rows 2, 4 and 6": each by its number, and not what lies between
    unnamed: bool = False  # the first row, by its words alone
    color: str | None = None  # "Row 3 (MC):"
    rows: int | None = None  # how many rows it says that it covers: "Rnds 11-17 (6 rnds):"
