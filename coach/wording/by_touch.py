"""How each stitch is made, told by touch: the movements, one a sentence.

How a stitch is made follows from its yarn overs and from where the hook goes in, so the
sentences are put together from those. None of them asks a maker to see anything.
Source of the numbers of loops: the rule of the trade that US names count the loops on the
hook ("Spot the difference: US vs UK crochet terms"). The rest is common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from coach.craft.stitch import family, legs
from coach.wording.movements import BEGINNINGS, MOVEMENTS, TOP, UNDER_BOTH, WRAP
from coach.wording.stitch_names import is_post, stitch_name

YARN_OVERS: Mapping[str, int] = {"sc": 0, "hdc": 1, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}

_LOOPS = {
    "back": "Push the hook under the loop farther from you. Leave the nearer one.",
    "front": "Push the hook under the loop nearer to you. Leave the farther one.",
    "third": "Feel below the two top loops for a third one. Push the hook under that.",
}
_POST = {
    "FP": (
        "Feel for the post of the next stitch. It is the upright stem below its top.",
        "Push the hook in from the front, just before the post. "
        "Pass it behind the post. Bring it out to the front just after it.",
        "The post lies across the hook, on the near side.",
    ),
    "BP": (
        "Feel for the post of the next stitch. It is the upright stem below its top.",
        "Push the hook in from the back, just before the post. "
        "Pass it in front of the post. Bring it out at the back just after it.",
        "The post lies across the hook, on the far side.",
    ),
}


def made(stitch: str, terms: str, loop: str | None = None) -> tuple[str, ...]:
    """Return the movements that make *stitch*, one a sentence."""
    key = stitch.lower()
    if key in _FIXED:
        return _FIXED[key]
    if key in {"pc", "popcorn"}:
        return _popcorn(5, stitch_name("dc", terms))
    if legs(stitch) > 1:
        return _drawn_together(stitch, loop)
    return _of_a_kind(stitch, terms) or _plain_or_named(stitch, terms, loop)


def _of_a_kind(stitch: str, terms: str) -> tuple[str, ...] | None:
    """Clusters of so many, foundation, extended, reverse and linked stitches; else None."""
    if match := _OF_SO_MANY.fullmatch(stitch):
        return _of_so_many(int(match["count"]), match["base"].lower(), match["kind"].lower(), terms)
    for told, make in _KINDS:
        if match := told.fullmatch(stitch):
            return make(match["base"].lower())
    return None


def _plain_or_named(stitch: str, terms: str, loop: str | None) -> tuple[str, ...]:
    base = family(stitch).lower()
    if base in YARN_OVERS:
        return _plain(stitch, base, loop)
    first, _, rest = stitch.partition(" ")
    if not rest:
        return _UNKNOWN
    after = made(rest, terms, loop)
    if first.lower() in _REACHES_DOWN:
        after = tuple(each for each in after if each not in {TOP, UNDER_BOTH})
    return (*BEGINNINGS.get(first.lower(), ()), *after)


# These go in far below: the top of the next stitch is not what to feel for.
_REACHES_DOWN = frozenset({"spike", "long"})

_UNKNOWN = ("This is the designer's own stitch. Work it as the pattern's words say.",)


def _into(stitch: str, loop: str | None) -> tuple[str, ...]:
    """Where the hook goes in, by touch."""
    if is_post(stitch):
        return _POST["BP" if "bp" in stitch.lower() else "FP"]
    if loop in _LOOPS:
        return (TOP, _LOOPS[loop])
    return (TOP, UNDER_BOTH)


def _overs(count: int) -> tuple[str, ...]:
    times = {1: "once", 2: "twice"}.get(count, f"{count} times")
    return (f"{WRAP} {times}.",) if count else ()


def _loops(count: int) -> str:
    return "There is 1 loop on the hook." if count == 1 else f"There are {count} loops on the hook."


def _plain(stitch: str, base: str, loop: str | None) -> tuple[str, ...]:
    overs = YARN_OVERS[base]
    drawn = f"{WRAP}, and draw up a loop. {_loops(overs + 2)}"
    return (*_overs(overs), *_into(stitch, loop), drawn, *_finish(base, overs + 2))


def _finish(base: str, loops: int) -> tuple[str, ...]:
    """From a drawn-up loop to a made stitch."""
    if base == "hdc":
        return (f"{WRAP}, and draw through all 3 loops. The stitch is made.",)
    said: list[str] = []
    while loops > 2:
        loops -= 1
        said.append(f"{WRAP}, and draw through 2 loops. {_loops(loops)}")
    said.append(f"{WRAP}, and draw through both loops. The stitch is made.")
    return tuple(said)


def _begun(base: str, held: int) -> tuple[str, ...]:
    """A stitch begun and left before its last pull; *held* loops were on the hook already."""
    overs = YARN_OVERS[base]
    loops = held + overs + 1
    said = [f"{WRAP}, and draw up a loop. {_loops(loops)}"]
    if base == "hdc":
        return tuple(said)
    for _ in range(overs):
        loops -= 1
        said.append(f"{WRAP}, and draw through 2 loops. {_loops(loops)}")
    return tuple(said)


def _each_adds(base: str) -> int:
    return 2 if base == "hdc" else 1


def _drawn_together(stitch: str, loop: str | None) -> tuple[str, ...]:
    base = family(stitch).lower()
    count = legs(stitch)
    if base not in YARN_OVERS:
        return (
            f"Begin the stitch in each of the next {count} stitches. Keep the loops.",
            f"{WRAP}, and draw through all the loops. The {count} are one now.",
        )
    said: list[str] = []
    held = 1
    for number in range(1, count + 1):
        said.extend(_overs(YARN_OVERS[base]))
        said.extend(_into(stitch, loop) if number == 1 else (_AGAIN,))
        said.extend(_begun(base, held))
        held += _each_adds(base)
    said.append(f"{WRAP}, and draw through all {held} loops. The {count} stitches are one now.")
    return tuple(said)


_AGAIN = "Push the hook into the next stitch in the same way."


def _of_so_many(count: int, base: str, kind: str, terms: str) -> tuple[str, ...]:
    name = stitch_name(base, terms)
    if kind.startswith(("cl", "bobble", "puff")):
        return _closed(count, base)
    if kind in {"pc", "popcorn"}:
        return _popcorn(count, name)
    return (f"Work {count} {name}, all in the same place.", "They spread like a fan.")


def _closed(count: int, base: str) -> tuple[str, ...]:
    """Several begun in one place and closed together: cluster, bobble."""
    held = 1 + count * _each_adds(base)
    return (
        *_overs(YARN_OVERS[base]),
        "Push the hook into the place.",
        *_begun(base, 1),
        f"Do this {count} times in all in the same place. Keep the loops. {_loops(held)}",
        f"{WRAP}, and draw through all {held} loops. It counts as one stitch.",
    )


def _popcorn(count: int, name: str) -> tuple[str, ...]:
    return (
        f"Work {count} {name}, all in the same place.",
        "Take the hook out of the loop. Keep the loop open with a finger.",
        f"Go to the first of the {count}. Push the hook into its top, from front to back.",
        "Catch the open loop and draw it through. The popcorn closes and stands out towards you.",
    )


def _foundation(base: str) -> tuple[str, ...]:
    chains = {"sc": 2, "hdc": 2, "dc": 3, "tr": 4}.get(base, 3)
    overs = _overs(YARN_OVERS[base])
    return (
        f"For the first one, chain {chains}. After that, use the chain at the foot of the last one.",
        *overs,
        "Push the hook under two loops of that chain. Draw up a loop.",
        f"{WRAP}, and draw through 1 loop. That is the chain of this stitch: hold it.",
        *_finish(base, YARN_OVERS[base] + 2),
    )


def _extended(base: str) -> tuple[str, ...]:
    overs = YARN_OVERS[base]
    return (
        *_overs(overs),
        TOP,
        UNDER_BOTH,
        f"{WRAP}, and draw up a loop. {_loops(overs + 2)}",
        f"{WRAP}, and draw through 1 loop only. That makes it taller.",
        *_finish(base, overs + 2),
    )


def _reverse(base: str) -> tuple[str, ...]:
    return (
        "Work backwards, towards the stitches that you made last. Do not turn.",
        "Feel for the stitch just behind the hook. Push the hook under both its loops.",
        f"{WRAP}, and draw up a loop. {_loops(2)}",
        f"{WRAP}, and draw through both loops. A cord forms along the edge.",
    )


def _linked(base: str) -> tuple[str, ...]:
    return (
        "Do not wrap the yarn. Feel for the bar across the stem of the last stitch.",
        "Push the hook under the bar, and draw up a loop. There are 2 loops on the hook.",
        TOP,
        UNDER_BOTH,
        f"{WRAP}, and draw up a loop. {_loops(3)}",
        *_finish(base, 3),
    )


_BASES = r"(?P<base>sc|hdc|dc|tr|dtr|trtr)"
_OF_SO_MANY = re.compile(
    rf"(?P<count>\d+)-?\s?{_BASES}[\s-]+(?P<kind>cl\w*|bobble|puff|pc|popcorn|shell|fan|group)",
    re.I,
)
_KINDS = (
    (re.compile(rf"(?:f|foundation |fnd ){_BASES}", re.I), _foundation),
    (re.compile(rf"(?:e|extended |ext ){_BASES}", re.I), _extended),
    (re.compile(rf"(?:r|rev |reverse ){_BASES}", re.I), _reverse),
    (re.compile(rf"(?:l|linked ){_BASES}", re.I), _linked),
)

_BOBBLE = (*_closed(5, "dc"), "Push it out to the far side with a finger.")
_FIXED: Mapping[str, tuple[str, ...]] = {
    **MOVEMENTS,
    "bobble": _BOBBLE,
    "mb": _BOBBLE,
    "bo": _BOBBLE,
    "tuft": _BOBBLE,
    "crab st": _reverse("sc"),
}
