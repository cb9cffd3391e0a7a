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
from coach.wording.stitch_names import is_post, stitch_name

YARN_OVERS: Mapping[str, int] = {"sc": 0, "hdc": 1, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}

_WRAP = "Wrap the yarn over the hook"
_TOP = "Feel for the top of the next stitch: two loops that lie like a braid."
_UNDER_BOTH = "Push the hook under both loops, from front to back."
_LOOPS = {
    "back": "Push the hook under the loop farther from you, and leave the nearer one.",
    "front": "Push the hook under the loop nearer to you, and leave the farther one.",
    "third": "Feel below the two top loops for a third one, and push the hook under that.",
}
_POST = {
    "FP": (
        "Feel for the post of the next stitch: the upright stem below its top.",
        "Push the hook in from the front, just before the post. "
        "Pass it behind the post, and out to the front just after it.",
        "The post lies across the hook, on the near side.",
    ),
    "BP": (
        "Feel for the post of the next stitch: the upright stem below its top.",
        "Push the hook in from the back, just before the post. "
        "Pass it in front of the post, and out to the back just after it.",
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
        after = tuple(each for each in after if each not in {_TOP, _UNDER_BOTH})
    return (*_BEGINNINGS.get(first.lower(), ()), *after)


# These go in far below: the top of the next stitch is not what to feel for.
_REACHES_DOWN = frozenset({"spike", "long"})

_UNKNOWN = ("This is the designer's own stitch. Work it as the pattern's words say.",)

_BEGINNINGS: Mapping[str, tuple[str, ...]] = {
    "standing": ("Make a slip knot on the hook. It is the loop that you begin with.",),
    "beg": ("This is the first of the round: its chain stands for the first stitch of it.",),
    "crossed": (
        "Leave the next stitch alone, and work into the one after it.",
        "Then go back and work into the stitch that you left, across the one just made.",
    ),
    "cross": (
        "Leave the next stitch alone, and work into the one after it.",
        "Then go back and work into the stitch that you left, across the one just made.",
    ),
    "long": ("Go down to the row that the words name, and draw the loop up to full height.",),
    "spike": (
        "Push the hook in some rows below, straight under the next stitch.",
        "Draw the loop up to the height of this row, so that nothing puckers.",
    ),
    "half": ("It has fewer stitches than the whole one: as many as the words say.",),
}


def _into(stitch: str, loop: str | None) -> tuple[str, ...]:
    """Where the hook goes in, by touch."""
    if is_post(stitch):
        return _POST["BP" if "bp" in stitch.lower() else "FP"]
    if loop in _LOOPS:
        return (_TOP, _LOOPS[loop])
    return (_TOP, _UNDER_BOTH)


def _overs(count: int) -> tuple[str, ...]:
    times = {1: "once", 2: "twice"}.get(count, f"{count} times")
    return (f"{_WRAP} {times}.",) if count else ()


def _loops(count: int) -> str:
    return "There is 1 loop on the hook." if count == 1 else f"There are {count} loops on the hook."


def _plain(stitch: str, base: str, loop: str | None) -> tuple[str, ...]:
    overs = YARN_OVERS[base]
    drawn = f"{_WRAP}, and draw up a loop. {_loops(overs + 2)}"
    return (*_overs(overs), *_into(stitch, loop), drawn, *_finish(base, overs + 2))


def _finish(base: str, loops: int) -> tuple[str, ...]:
    """From a drawn-up loop to a made stitch."""
    if base == "hdc":
        return (f"{_WRAP}, and draw through all 3 loops. The stitch is made.",)
    said: list[str] = []
    while loops > 2:
        loops -= 1
        said.append(f"{_WRAP}, and draw through 2 loops. {_loops(loops)}")
    said.append(f"{_WRAP}, and draw through both loops. The stitch is made.")
    return tuple(said)


def _begun(base: str, held: int) -> tuple[str, ...]:
    """A stitch begun and left before its last pull; *held* loops were on the hook already."""
    overs = YARN_OVERS[base]
    loops = held + overs + 1
    said = [f"{_WRAP}, and draw up a loop. {_loops(loops)}"]
    if base == "hdc":
        return tuple(said)
    for _ in range(overs):
        loops -= 1
        said.append(f"{_WRAP}, and draw through 2 loops. {_loops(loops)}")
    return tuple(said)


def _each_adds(base: str) -> int:
    return 2 if base == "hdc" else 1


def _drawn_together(stitch: str, loop: str | None) -> tuple[str, ...]:
    base = family(stitch).lower()
    count = legs(stitch)
    if base not in YARN_OVERS:
        return (
            f"Begin the stitch in each of the next {count} stitches, and keep the loops.",
            f"{_WRAP}, and draw through all the loops. The {count} are one now.",
        )
    said: list[str] = []
    held = 1
    for number in range(1, count + 1):
        said.extend(_overs(YARN_OVERS[base]))
        said.extend(_into(stitch, loop) if number == 1 else (_AGAIN,))
        said.extend(_begun(base, held))
        held += _each_adds(base)
    said.append(f"{_WRAP}, and draw through all {held} loops. The {count} stitches are one now.")
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
        f"Do this {count} times in all in the same place, and keep the loops. {_loops(held)}",
        f"{_WRAP}, and draw through all {held} loops. It counts as one stitch.",
    )


def _popcorn(count: int, name: str) -> tuple[str, ...]:
    return (
        f"Work {count} {name}, all in the same place.",
        "Take the hook out of the loop, and keep the loop open with a finger.",
        f"Push the hook into the top of the first of the {count}, from front to back.",
        "Catch the open loop and draw it through. The popcorn closes and stands out towards you.",
    )


def _foundation(base: str) -> tuple[str, ...]:
    chains = {"sc": 2, "hdc": 2, "dc": 3, "tr": 4}.get(base, 3)
    overs = _overs(YARN_OVERS[base])
    return (
        f"For the first one, chain {chains}. After that, use the chain at the foot of the last one.",
        *overs,
        "Push the hook under two loops of that chain, and draw up a loop.",
        f"{_WRAP}, and draw through 1 loop. That is the chain of this stitch: hold it.",
        *_finish(base, YARN_OVERS[base] + 2),
    )


def _extended(base: str) -> tuple[str, ...]:
    overs = YARN_OVERS[base]
    return (
        *_overs(overs),
        _TOP,
        _UNDER_BOTH,
        f"{_WRAP}, and draw up a loop. {_loops(overs + 2)}",
        f"{_WRAP}, and draw through 1 loop only. That makes it taller.",
        *_finish(base, overs + 2),
    )


def _reverse(base: str) -> tuple[str, ...]:
    return (
        "Work backwards, towards the stitches that you made last. Do not turn.",
        "Feel for the stitch just behind the hook, and push the hook under both its loops.",
        f"{_WRAP}, and draw up a loop. {_loops(2)}",
        f"{_WRAP}, and draw through both loops. A cord forms along the edge.",
    )


def _linked(base: str) -> tuple[str, ...]:
    return (
        "Do not wrap the yarn. Feel for the bar across the stem of the last stitch.",
        "Push the hook under the bar, and draw up a loop. There are 2 loops on the hook.",
        _TOP,
        _UNDER_BOTH,
        f"{_WRAP}, and draw up a loop. {_loops(3)}",
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

_CROSSED_STITCH = (
    *_BEGINNINGS["crossed"],
    "The two lie across each other like the arms of an X.",
)
_CLUSTER = (
    "Begin a stitch in the place, and stop before its last pull. Keep the loop on the hook.",
    "Begin the next one in the same way, and keep its loop too. Do as many as the words say.",
    f"{_WRAP}, and draw through all the loops. It counts as one stitch.",
)
_PUFF = (
    f"{_WRAP}, push it into the place, and draw up a long loop.",
    "Do that again in the same place, as often as the words say: 3 times is usual.",
    f"{_WRAP}, and draw through all the loops. It is soft and thick, and counts as one stitch.",
)
_BOBBLE = (
    *_closed(5, "dc"),
    "Push it out to the far side with a finger.",
)
_RING = (
    "Wrap the yarn round two fingers, so that it crosses itself.",
    "Push the hook under the first strand, and draw up a loop of the other.",
    "Chain 1 to hold it. It does not count.",
    "Work the stitches over both the ring and the tail.",
    "Pull the tail, and the ring closes.",
)
_CHAIN = (f"{_WRAP}, and draw it through the loop on the hook.",)
_SLIP = (
    _TOP,
    _UNDER_BOTH,
    f"{_WRAP}, and draw it through the stitch and through the loop on the hook, in one pull.",
)
_JOIN = (
    "Feel for the first stitch of the round. A marker in it helps.",
    "Push the hook under both its top loops.",
    f"{_WRAP}, and draw it through the stitch and through the loop on the hook, in one pull.",
    "This join is not a stitch. Do not work into it later.",
)
_PICOT = (
    "Chain 3.",
    "Feel for the first of the 3 chains, and push the hook into it.",
    f"{_WRAP}, and draw it through everything on the hook. A small knob stands on the edge.",
)
_V = (
    "Work 1 stitch in the place, chain 1, and work 1 more in the same place.",
    "The two lean apart, with a gap between them.",
)
_SHELL = (
    "Work all the stitches in the same place, as many as the words say.",
    "They spread like a fan.",
)
_DECREASE = (
    _TOP,
    f"{_UNDER_BOTH} {_WRAP}, and draw up a loop. There are 2 loops on the hook.",
    "Do the same in the stitch after it. There are 3 loops on the hook.",
    f"{_WRAP}, and draw through all 3 loops. The two stitches are one now.",
)
_INVISIBLE = (
    "Push the hook under the nearer top loop of the next stitch.",
    "Push it under the nearer top loop of the stitch after that too.",
    f"{_WRAP}, and draw it through both of these loops. There are 2 loops on the hook.",
    f"{_WRAP}, and draw through both loops. The two stitches are one now.",
)
_LOOP_STITCH = (
    _TOP,
    f"{_UNDER_BOTH} Hold the yarn down with a finger to make a long loop.",
    "Catch both strands behind the finger, and draw them up. There are 3 loops on the hook.",
    f"{_WRAP}, and draw through all 3 loops. Slip the finger out: the long loop stays at the back.",
)

_STAR = (
    "Draw up a loop through the eye of the last star, through its side, and in the next places, "
    "as many as the words say.",
    f"{_WRAP}, and draw through all the loops.",
    "Chain 1 to close it. That chain is the eye of this star.",
)
_BULLION = (
    "Wrap the yarn over the hook as often as the words say: 7 times is usual.",
    "Push the hook into the place, and draw up a loop.",
    f"{_WRAP}, and draw it through all the loops, one by one, holding them with a finger.",
    "Chain 1 to close it. It is a firm little roll.",
)
_BLOCK = (
    "A block is solid: work a stitch into each place of one square of the mesh.",
    "It shares its last upright stitch with the next square.",
)
_LACET = (
    "Chain 3, leave 2 places alone, and work a short stitch into the next.",
    "Chain 3, leave 2 places alone, and work a tall stitch into the next.",
    "The chains meet below like a V.",
)
_LOVE_KNOT = (
    "Draw the loop on the hook up long, as long as the words say.",
    f"{_WRAP}, and draw it through the long loop.",
    "Feel for the single strand behind the long loop. Push the hook under it.",
    f"{_WRAP}, and draw up a loop. Then wrap, and draw through both loops. The knot is made.",
)

_FIXED: Mapping[str, tuple[str, ...]] = {
    "star st": _STAR,
    "y-st": (
        "Work a tall stitch in the place, and chain 1.",
        "Feel for the middle of its stem, and work a shorter stitch into that.",
    ),
    "bullion": _BULLION,
    "block": _BLOCK,
    "bl": _BLOCK,
    "lacet": _LACET,
    "love knot": _LOVE_KNOT,
    "ch": _CHAIN,
    "chain": _CHAIN,
    "sl st": _SLIP,
    "join": _JOIN,
    "sk": ("Leave these alone, and go on to the stitch after them. Feel that you passed them.",),
    "skipped chains": ("Leave these chains alone, and begin in the one after them.",),
    "inc": ("Work a stitch in the place, and one more in the same place.",),
    "dec": _DECREASE,
    "inv dec": _INVISIBLE,
    "invisible decrease": _INVISIBLE,
    "cl": _CLUSTER,
    "cluster": _CLUSTER,
    "bead st": _CLUSTER,
    "puff": _PUFF,
    "puff st": _PUFF,
    "bean st": _PUFF,
    "bobble": _BOBBLE,
    "mb": _BOBBLE,
    "bo": _BOBBLE,
    "tuft": _BOBBLE,
    "shell": _SHELL,
    "fan": _SHELL,
    "v-st": _V,
    "v st": _V,
    "picot": _PICOT,
    "p": _PICOT,
    "x-st": _CROSSED_STITCH,
    "cross st": _CROSSED_STITCH,
    "loop st": _LOOP_STITCH,
    "crab st": _reverse("sc"),
    "mr": _RING,
    "magic ring": _RING,
    "ring": (*_JOIN[1:3], "The chain is a ring now. Work into its middle."),
    "joined chain": (
        "Lay the chain out, and run it through your fingers: it must not twist.",
        *_JOIN[1:3],
    ),
    "foundation stitches": ("Each one is made with its own chain below it.",),
}
