"""How a piece is begun: a long chain in lots with its running total, or a ring."""

from __future__ import annotations

from coach.craft.stage import Stage
from coach.craft.steps import Step


def foundation_told(stage: Stage, step: Step) -> str:
    """Return a lot of a long chain with its running total, or how a ring is begun."""
    if step.task == "chain":
        made = step.last - step.first + 1
        if step.last == made == stage.stitches:
            return f"Chain {made}."
        marker = "" if step.last == stage.stitches else " Put a marker in the last one."
        spare = (
            " A few spare chains do no harm. They come out later from the knot's end."
            if step.last == stage.stitches
            else ""
        )
        return f"Chain {made}. That makes {step.last} of {stage.stitches}.{marker}{spare}"
    return _RINGS.get(step.task, "Begin as the pattern says.")


_RINGS = {
    "ring": "Join into a ring: slip stitch in the first chain.",
    "joined chain": "Join with a slip stitch in the first chain. Take care not to twist the chain.",
    "magic ring": "Make an adjustable ring.",
    "foundation stitches": "Make the foundation stitches.",
}
