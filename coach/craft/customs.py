"""The customs of wording that the trade takes in two ways: each one's key, order, switch and words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from coach.craft.row_bench import Switches

Key = tuple[str, int]


def likely(key: Key) -> tuple[int, int]:
    """Order customs: what a pattern leaves unsaid most often is tried first."""
    order = {
        "chain": 0,
        "skipped": 1,
        "mesh": 2,
        "star": 3,
        "bare": 4,
        "slip": 5,
        "figure": 6,
        "hook": 7,
    }
    return order.get(key[0], 9), key[1]


def flipped(keys: Iterable[Key]) -> Switches:
    """Return the switches with these turned from their usual custom."""
    switches = Switches()
    for kind, number in keys:
        match kind:
            case "bare":
                switches = replace(switches, bare_in_one=True)
            case "mesh":
                switches = replace(switches, mesh=True)
            case "star":
                switches = replace(switches, star_in_all=True)
            case "figure":
                switches = replace(switches, figure=True)
            case "slip":
                switches = replace(switches, slips=True)
            case "ring":
                switches = replace(switches, no_ring=True)
            case "end":
                switches = replace(switches, ends_worked=True)
            case "hook":
                switches = replace(switches, whole_chain=True)
            case "chain":
                switches = replace(switches, chains=(*switches.chains, (number, number == 2)))
            case "skipped":
                switches = replace(switches, skipped=(*switches.skipped, (number, number == 2)))
    return switches


_WHAT = {
    "mesh": "chains between stitches of a mesh",
    "star": "repeat from * so many times",
    "bare": "a number before or after a stitch, such as 2 sc",
    "figure": "work in the space of a group",
    "slip": "slip stitches in the middle of a row",
    "ring": "a first round that does not say what it is worked into",
    "end": "the stitches that a row stops before, with nothing after them",
    "hook": "a first row that does not say in which chain it begins",
}
# (the usual custom, the other one)
_CHOICES = {
    "mesh": ("nothing is passed over unsaid", "each passes over as many stitches"),
    "star": ("so many more, after the first", "so many in all"),
    "bare": ("one in each of so many places", "so many in one place"),
    "figure": ("uses its space", "uses the whole group up"),
    "slip": ("travel along and are not counted", "are stitches of the row"),
    "ring": ("is worked into a ring", "is worked into stitches below"),
    "end": ("are left unworked", "must be worked"),
    "hook": ("leaves the stitch's height of chains at the hook", "goes into every chain"),
}


def what(key: Key) -> str:
    """Return what the custom is about, in words."""
    kind, number = key
    if kind == "chain":
        return f"a beginning chain of {number}"
    if kind == "skipped":
        return f"the {number} chains skipped at the hook"
    return _WHAT.get(kind, kind)


def choice(key: Key, *, usual: bool) -> str:
    """Return what is taken under the usual custom or the other one, in words."""
    kind, number = key
    if kind in ("chain", "skipped"):
        counts = (number != 2) == usual
        return "counts as a stitch" if counts else "does not count as a stitch"
    taken, other = _CHOICES[kind]
    return taken if usual else other
