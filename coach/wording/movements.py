"""Movements that are the same for every maker and every yarn: told by touch, one a sentence.

Common practice, no source. None of them asks a maker to see anything.
"""

from __future__ import annotations

from collections.abc import Mapping

WRAP = "Wrap the yarn over the hook"
TOP = "Feel for the top of the next stitch. Its two loops lie like a braid."
UNDER_BOTH = "Push the hook under both loops, from front to back."

BEGINNINGS: Mapping[str, tuple[str, ...]] = {
    "standing": ("Make a slip knot on the hook. It is the loop that you begin with.",),
    "beg": ("This is the first of the round. Its chain stands for the first stitch.",),
    "crossed": (
        "Leave the next stitch alone, and work into the one after it.",
        "Then go back to the stitch that you left. Work into it, across the one just made.",
    ),
    "cross": (
        "Leave the next stitch alone, and work into the one after it.",
        "Then go back to the stitch that you left. Work into it, across the one just made.",
    ),
    "long": ("Go down to the row that the words name. Draw the loop up to full height.",),
    "spike": (
        "Push the hook in some rows below, straight under the next stitch.",
        "Draw the loop up to the height of this row. Then nothing puckers.",
    ),
    "half": ("It has fewer stitches than the whole one. The words say how many.",),
}

_CROSSED_STITCH = (
    *BEGINNINGS["crossed"],
    "The two lie across each other like the arms of an X.",
)
_CLUSTER = (
    "Begin a stitch in the place, and stop before its last pull. Keep the loop on the hook.",
    "Begin the next one in the same way. Keep its loop too. Do as many as the words say.",
    f"{WRAP}, and draw through all the loops. It counts as one stitch.",
)
_PUFF = (
    f"{WRAP}. Push the hook into the place, and draw up a long loop.",
    "Do that again in the same place. The words say how often. 3 times is usual.",
    f"{WRAP}, and draw through all the loops. It is soft and thick, and counts as one stitch.",
)
_RING = (
    "Wrap the yarn round two fingers, so that it crosses itself.",
    "Push the hook under the first strand. Draw up a loop of the other.",
    "Chain 1 to hold it. It does not count.",
    "Work the stitches over both the ring and the tail.",
    "Pull the tail, and the ring closes.",
)
_CHAIN = (f"{WRAP}. Draw it through the loop on the hook.",)
_SLIP = (
    TOP,
    UNDER_BOTH,
    f"{WRAP}. In one pull, draw it through the stitch and through the loop.",
)
_JOIN = (
    "Feel for the first stitch of the round. A marker in it helps.",
    "Push the hook under both its top loops.",
    f"{WRAP}. In one pull, draw it through the stitch and through the loop.",
    "This join is not a stitch. Do not work into it later.",
)
_PICOT = (
    "Chain 3.",
    "Feel for the first of the 3 chains. Push the hook into it.",
    f"{WRAP}. Draw it through everything on the hook. A small knob stands on the edge.",
)
_V = (
    "Work 1 stitch in the place. Chain 1. Work 1 more in the same place.",
    "The two lean apart, with a gap between them.",
)
_SHELL = (
    "Work all the stitches in the same place. The words say how many.",
    "They spread like a fan.",
)
_DECREASE = (
    TOP,
    f"{UNDER_BOTH} {WRAP}, and draw up a loop. There are 2 loops on the hook.",
    "Do the same in the stitch after it. There are 3 loops on the hook.",
    f"{WRAP}, and draw through all 3 loops. The two stitches are one now.",
)
_INVISIBLE = (
    "Push the hook under the nearer top loop of the next stitch.",
    "Push it under the nearer top loop of the stitch after too.",
    f"{WRAP}. Draw it through both of these loops. There are 2 loops on the hook.",
    f"{WRAP}, and draw through both loops. The two stitches are one now.",
)
_LOOP_STITCH = (
    TOP,
    f"{UNDER_BOTH} Hold the yarn down with a finger to make a long loop.",
    "Catch both strands behind the finger, and draw them up. There are 3 loops on the hook.",
    f"{WRAP}, and draw through all 3 loops. Slip the finger out: the long loop stays at the back.",
)

_STAR = (
    "Draw up a loop through the eye of the last star. Draw up one through its side.",
    "Draw up one in each of the next places. The words say how many.",
    f"{WRAP}, and draw through all the loops.",
    "Chain 1 to close it. That chain is the eye of this star.",
)
_BULLION = (
    "Wrap the yarn over the hook as often as the words say. 7 times is usual.",
    "Push the hook into the place, and draw up a loop.",
    f"{WRAP}. Hold the loops with a finger. Draw the yarn through them one by one.",
    "Chain 1 to close it. It is a firm little roll.",
)
_BLOCK = (
    "A block is solid. Work a stitch into each place of one mesh square.",
    "It shares its last upright stitch with the next square.",
)
_LACET = (
    "Chain 3. Leave 2 places alone. Work a short stitch into the next.",
    "Chain 3. Leave 2 places alone. Work a tall stitch into the next.",
    "The chains meet below like a V.",
)
_LOVE_KNOT = (
    "Draw the loop on the hook up long. The words say how long.",
    f"{WRAP}. Draw it through the long loop.",
    "Feel for the single strand behind the long loop. Push the hook under it.",
    f"{WRAP}, and draw up a loop. Then wrap, and draw through both loops. The knot is made.",
)

MOVEMENTS: Mapping[str, tuple[str, ...]] = {
    "star st": _STAR,
    "y-st": (
        "Work a tall stitch in the place, and chain 1.",
        "Feel for the middle of its stem. Work a shorter stitch into that.",
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
    "inc": ("Work a stitch in the place. Work one more in the same place.",),
    "dec": _DECREASE,
    "inv dec": _INVISIBLE,
    "invisible decrease": _INVISIBLE,
    "cl": _CLUSTER,
    "cluster": _CLUSTER,
    "bead st": _CLUSTER,
    "puff": _PUFF,
    "puff st": _PUFF,
    "bean st": _PUFF,
    "shell": _SHELL,
    "fan": _SHELL,
    "v-st": _V,
    "v st": _V,
    "picot": _PICOT,
    "p": _PICOT,
    "x-st": _CROSSED_STITCH,
    "cross st": _CROSSED_STITCH,
    "loop st": _LOOP_STITCH,
    "mr": _RING,
    "magic ring": _RING,
    "ring": (*_JOIN[1:3], "The chain is a ring now. Work into its middle."),
    "joined chain": (
        "Lay the chain out. Run it through your fingers: it must not twist.",
        *_JOIN[1:3],
    ),
    "foundation stitches": ("Each one is made with its own chain below it.",),
}
