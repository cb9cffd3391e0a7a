"""How sure a lead is: from log likelihood to how often such a phrase was the one that was said.

Pure.
"""

from __future__ import annotations

from bisect import bisect_right

# Measured with the model that lies in models/, voices kept for tuning (alan, which taught it
# nothing; two of espeak-ng, two of flite): 764 clips of commands and 1,096 of rhymes and talk;
# clean, in pink noise at 10 dB, in talk at 10 and 5 dB. Weighed as if four in five of them were
# meant for the coach (judgement, no source), and pooled so that it never falls. A lead of 5 is
# that of a phrase without any rival.
KNOTS = (
    (-4.0, 0.03),
    (-3.0, 0.26),
    (-2.0, 0.50),
    (-1.0, 0.55),
    (0.5, 0.60),
    (1.5, 0.85),
    (4.5, 0.88),
    (5.0, 0.97),
)


def certainty(lead: float) -> float:
    """Return how likely a whole phrase with this *lead* is right, 0 to 1; never falls as it grows."""
    place = bisect_right([each for each, _ in KNOTS], lead)
    if place == 0:
        return KNOTS[0][1]
    if place == len(KNOTS):
        return KNOTS[-1][1]
    (low, before), (high, after) = KNOTS[place - 1], KNOTS[place]
    return before + (after - before) * (lead - low) / (high - low)
