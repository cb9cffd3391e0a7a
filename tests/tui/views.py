"""Views as the guide gives them, made by hand for the screen's tests."""

from coach.ports import View

RIB = View(
    sentence="Three front post double crochet around the next three stitches.",
    headline="Row 6",
    big=("3", "front post double"),
    group="group 2 of 6",
    count="60 stitches",
    side="wrong side",
    signs=("microphone off",),
    at={"row": 6, "block": 2, "repeat": 2, "stitch": 8},
    row_stitches=60,
)
CHAIN = View(
    sentence="Chain sixty two.", headline="Start", big=("62", "chain"), signs=("microphone on",)
)
PLAIN_ROW = View(
    sentence="Single crochet in each of the next sixteen stitches. That makes: 16 stitches.",
    headline="Row 2",
    big=("16", "single crochet"),
    count="16 stitches",
    side="right side",
)
ALTERNATION = View(
    sentence="Single crochet and double crochet in turn, over the next six stitches.",
    headline="Row 14 as row 4",
    big=("6", "single", "double", "in turn"),
    worked=3,
    group="group 7 of 7",
    count="60 stitches",
    side="right side",
    signs=("speech off", "paused"),
)
POST_STITCHES = View(
    sentence="Group 1 of 7. Front post double crochet around each of the next 2 stitches.",
    headline="Row 2",
    big=("2", "front post double"),
    group="group 1 of 7",
    count="60 stitches",
    side="right side",
    worked=2,
)
MESH = View(
    sentence="Group 9 of 10. Chain 1, skip 1, then double crochet in the next stitch.",
    headline="Round 4",
    big=("chain 1", "skip 1", "1 double"),
    group="group 9 of 10",
    count="12 stitches and 11 spaces",
    worked=3,
)
COUNTS = View(
    sentence="Row 4. It comes to 25 stitches. Chain 3. It counts as a double crochet.",
    headline="Row 4",
    big=("chain 3", "counts as double crochet"),
    count="25 stitches",
    side="right side",
    worked=1,
)
QUESTION = View(
    sentence="Does the turning chain count as a stitch? Say one or two.",
    headline="Question",
    big=("Turning chain",),
    choices=("It counts as a stitch", "It does not count"),
)
SHELF = View(
    sentence="Pebble cloth. Not begun. 1 of 4. Say yes to open it, or next.",
    headline="Shelf",
    big=("Pebble cloth",),
    group="1 of 4",
    choices=("Pebble cloth", "Orchard gate cushion front", "Settings", "Leave the coach"),
    notice="This is the shelf.",
)
WELCOME = View(
    sentence="Welcome. I am the coach. I tell you a crochet pattern, one block at a time. "
    "Press the space bar, or say next.",
    headline="Coach",
    big=("Welcome",),
)
FAULT = View(
    sentence="Row 7 needs 60 stitches, but the row below has 58. Count row 6 again.",
    headline="Row 7",
    big=("Count row 6 again",),
    notice="The numbers do not meet.",
)
DONE = View(
    sentence="The cushion front is done. Well made.", headline="Done", big=("Done",), done=True
)
COME_BACK = View(
    sentence="Row 9. Wrong side facing. It comes to 34 stitches. Chain 3: it counts as the first "
    "double crochet. Skip the stitch at the foot of the chain. Double crochet in the next stitch.",
    headline="Row 9",
    big=("chain 3", "skip 1", "1 double"),
    group="group 1 of 11",
    count="34 stitches",
    side="wrong side",
    signs=("microphone off",),
    notice="Harbour Wall Throw. You stopped in row 9. Eight rows are done, and fourteen are left. "
    "Say next row, or press space, to go on.",
    worked=3,
)
ALL = {
    "rib": RIB,
    "chain": CHAIN,
    "plain row": PLAIN_ROW,
    "alternation": ALTERNATION,
    "post stitches": POST_STITCHES,
    "mesh": MESH,
    "counts": COUNTS,
    "question": QUESTION,
    "shelf": SHELF,
    "fault": FAULT,
    "welcome": WELCOME,
    "done": DONE,
}
