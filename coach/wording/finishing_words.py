"""What is told of finishing: the designer's own sentence, or the trade's usual, said to be so.

Cautions are short, and leave the decision to the care plan, the local policy and those who
are trained: the coach rules on nothing that touches health or safety.
"""

from __future__ import annotations

from collections.abc import Mapping

from coach.craft.ends import TAIL_CM, Ends
from coach.craft.finishing import Caution, Fibre, Task
from coach.craft.stage import Stage
from coach.craft.stage_steps import END, ENDS_TOLD_FROM
from coach.craft.steps import Step
from coach.wording.plain_text import say, sentence

# Said before the first step of a task that the pattern leaves out.
USUAL = "The pattern does not say; this is the usual way."

# Sources: tail lengths and weaving both ways, common practice, no source (a maker's report
# had squares with tails under 6 inches come apart in the first wash).
_USUAL: Mapping[Task, tuple[str, ...]] = {
    Task.FASTEN_OFF: (
        f"Cut the yarn. Leave a tail of {TAIL_CM} centimetres, which is 6 inches.",
        "Draw the tail all the way through the last loop. Pull it snug.",
    ),
    Task.MEASURE: (
        "Lay the piece flat and measure it. Do so before the ends are woven in. "
        "Is it far from the size in the pattern? Then count one row first.",
    ),
    Task.WEAVE_IN: (
        "Thread each tail on a blunt needle. Run it along the wrong side for about 5 centimetres. "
        "Stay under the loops of the same row.",
        "Turn and run it back the other way. Pass one loop, so that it can't slide out. "
        "Then a little way across.",
        "Stretch the fabric a little, then cut the tail close. "
        "Put the scissors back in their place at once.",
    ),
    Task.JOIN: (
        "Lay the edges side by side with the right sides up. Pin them every few stitches.",
        "Sew or crochet them together, one stitch to one stitch. Don't pull tight.",
    ),
    Task.CARE: (
        "Keep a ball band with the piece. Its care symbols stand in order. "
        "That is washing, bleaching, drying, ironing, then professional care.",
        "Is it for a care home? Ask first about the hot laundry there. Local policy comes first.",
    ),
    Task.COUNT_IN: (
        "Count the hook, the needle, the pins and the scissors back in. Put them away. "
        "Local policy says where.",
    ),
}

# Sources: "Washing and blocking crochet (old booklet)" and "How to figure the gauge for
# crochet" for wet blocking natural fibres; "Should you block acrylic yarn" for steam.
_BLOCKING: Mapping[Fibre, tuple[str, str]] = {
    Fibre.WOOL: (
        "Block it. For wool: soak it in cool water. Press the water out in a towel, don't wring.",
        "Pin it to size with pins that don't rust. Leave it until it is dry. "
        "Count the pins out, and back in.",
    ),
    Fibre.COTTON: (
        "Block it. For cotton: wet it through, or damp it well. Smooth it flat.",
        "Pin it to size with pins that don't rust. Leave it until it is dry. "
        "Count the pins out, and back in.",
    ),
    Fibre.ACRYLIC: (
        "Block it only if it needs it. For acrylic: try it on a small swatch first.",
        "Hold light steam near it without touching. Never a hot iron: too much heat can't be undone.",
    ),
    Fibre.MIXED: (
        "Block it gently. It is a mixed yarn. Read the ball band, and try a small swatch first.",
        "Damp it. Pin it to size with pins that don't rust. Let it dry. No hot iron. "
        "Count the pins out, and back in.",
    ),
    Fibre.UNKNOWN: (
        "Block it as the ball band says. The pattern does not name the fibre.",
        "In doubt? Damp it. Pin it to size. Let it dry. No hot iron. "
        "Count the pins out, and back in.",
    ),
}

# Sources: "The safe handling of a manual wheelchair (leaflet 2014)"; "Safe sleep (city health
# page)"; "Toy safety guidelines"; "Medical oxygen and fire". Fringe near wheels: common
# practice, no source.
CAUTIONS: Mapping[Caution, str] = {
    Caution.WHEELS: (
        "If it is for a wheelchair, take care. It must not reach the wheels. Leave off fringe "
        "and loose loops. Ask the care team about the size."
    ),
    Caution.INFANT: (
        "If it is for a baby, take care. No loose thing goes in a sleeping baby's cot or crib. "
        "Use it only when the baby is awake and watched. Ask the health visitor or the ward."
    ),
    Caution.TOY: (
        "If it is for a child under 3, take care. Use no small parts that could come off. "
        "No beads, no buttons. "
        "Sew every part on firmly."
    ),
    Caution.OXYGEN: (
        "If the wearer uses oxygen, take care. No flame and no smoking near it. "
        "Ask the nurse or the oxygen supplier about the fibre."
    ),
    Caution.ALLERGY: (
        "Ask about allergies to wool or to scents before it is given. The care plan comes first."
    ),
}


def usual_told(task: Task, fibre: Fibre = Fibre.UNKNOWN) -> tuple[str, ...]:
    """Return the trade's usual steps for *task*, each a step of its own."""
    if task is Task.BLOCK:
        return _BLOCKING[fibre]
    return _USUAL.get(task, ())


def finishing_told(stage: Stage, step: Step, terms: str = "US") -> str:
    """Return the words of one finishing step."""
    finish = stage.finish
    if finish is None:
        return ""
    if step.task == END:
        return f"End {_end(stage, step)} of {finish.ends}."
    if not finish.usual:
        return sentence(say(finish.sentence, terms))
    told = (*usual_told(finish.task, finish.fibre), *(CAUTIONS[each] for each in finish.cautions))
    words = told[step.number - 1]
    return f"{USUAL} {words}" if step.number == 1 and finish.task not in _NEVER_SAID else words


def _end(stage: Stage, step: Step) -> int:
    """Which end a step is about: the ends stand after the steps that tell how."""
    finish = stage.finish
    return step.number - (step.of - finish.ends) if finish is not None else 0


def ends_told(ends: Ends) -> str:
    """Return how many ends there will be, and the yarn that their tails take (user need R64)."""
    if ends.count <= ENDS_TOLD_FROM:
        return "2 ends to weave in, and 2 more for each new ball."
    metres = f"{float(ends.metres):g}"
    return (
        f"{ends.count} ends to weave in. At {TAIL_CM} centimetres each, "
        f"they take {metres} metres more yarn."
    )


# Said at each cut, so that no tail is too short to hold.
LEAVE_TAIL = f"If you cut the yarn, leave {TAIL_CM} centimetres. You may weave that end in now."

# No pattern tells these, so nobody needs to hear that this one does not.
_NEVER_SAID = frozenset({Task.CARE, Task.COUNT_IN, Task.MEASURE})


# The care symbols of ISO 3758 in words, for whoever reads the ball band aloud. Sources:
# "Laundry symbols (dots and bars)", 2012 edition; "Products care"; "What do the care symbols
# mean". Hand wash is 40 degrees in one list and 30 in another: the lower one is told.
CARE_SYMBOLS = (
    "Five signs stand in a row. They are a tub, a triangle, a square, an iron, a circle.",
    "Tub: washing. The number in it is the highest heat, in degrees Celsius.",
    "A hand in the tub: hand wash, at 30 degrees or cooler.",
    "Triangle: bleach. With two slanting lines: oxygen bleach only.",
    "Square: drying. With a circle in it: tumble drying. One dot is cooler, two dots are normal.",
    "Iron: one dot is up to 110 degrees. Two dots are 150, three dots 200. Newer labels may differ.",
    "Circle: professional cleaning.",
    "One bar under a sign: mild. Two bars: very mild. A cross over a sign: do not.",
)


def finishing_explained(task: Task, fibre: Fibre = Fibre.UNKNOWN) -> tuple[str, ...]:
    """Return how a finishing task is done, for a maker who asks."""
    if task is Task.CARE:
        return CARE_SYMBOLS
    return usual_told(task, fibre) or ("Do as the pattern says. I have no more words for this.",)


def finishing_brief(stage: Stage, step: Step) -> tuple[str, ...]:
    """Return a finishing step in a few words, for a screen of giant letters."""
    finish = stage.finish
    if finish is None:
        return ()
    if step.task == END:
        return (f"end {_end(stage, step)} of {finish.ends}",)
    if not finish.usual:
        return (finish.task.value,)
    told = (*_BRIEF[finish.task], *(CAUTIONS_BRIEF[each] for each in finish.cautions))
    return (told[step.number - 1],)


_BRIEF: Mapping[Task, tuple[str, ...]] = {
    Task.FASTEN_OFF: ("cut, leave 15 centimetres", "draw the tail through"),
    Task.MEASURE: ("lay flat, measure",),
    Task.WEAVE_IN: ("run the tail in", "back the other way", "cut the tail close"),
    Task.JOIN: ("pin the edges", "sew together"),
    Task.BLOCK: ("wet or damp it", "pin to size, dry"),
    Task.CARE: ("keep the ball band", "ask about the laundry"),
    Task.COUNT_IN: ("count the tools in",),
}
CAUTIONS_BRIEF: Mapping[Caution, str] = {
    Caution.WHEELS: "keep clear of wheels",
    Caution.INFANT: "nothing loose in a cot",
    Caution.TOY: "no small parts",
    Caution.OXYGEN: "oxygen: no flame",
    Caution.ALLERGY: "ask about allergies",
}
