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
    sentence="Single crochet in each of the next sixteen stitches. That makes 16.",
    headline="Row 2",
    big=("16", "single crochet"),
    count="16 stitches",
    side="right side",
)
ALTERNATION = View(
    sentence="Single crochet and double crochet in turn, over the next six stitches.",
    headline="Row 14 as row 4",
    big=("6", "single, double", "in turn"),
    group="group 7 of 7",
    count="60 stitches",
    side="right side",
    signs=("speech off", "paused"),
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
ALL = {
    "rib": RIB,
    "chain": CHAIN,
    "plain row": PLAIN_ROW,
    "alternation": ALTERNATION,
    "question": QUESTION,
    "shelf": SHELF,
    "fault": FAULT,
    "welcome": WELCOME,
    "done": DONE,
}
