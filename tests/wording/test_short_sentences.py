"""Long sentences are told as several short ones, and nothing of them is lost."""

from __future__ import annotations

import pytest

from coach.wording.short_sentences import in_short_sentences, is_short


@pytest.mark.parametrize(
    ("told", "short"),
    [
        (
            "Chain 2, skip the next 2 double crochet, then double crochet in the next stitch.",
            "Chain 2, skip the next 2 double crochet. Then double crochet in the next stitch.",
        ),
        (
            "Then skip the next 2 chains, and double crochet in each of the next 4 chains.",
            "Then skip the next 2 chains. Double crochet in each of the next 4 chains.",
        ),
        (
            "Double crochet in each of the next 14 stitches, one row below, front loop only. Turn.",
            "Double crochet in each of the next 14 stitches, one row below. Front loop only. Turn.",
        ),
        # All in one place: a chain after it is no part of it.
        (
            "Double crochet 3 together into the next chain-1 space, all in the one place, chain 2.",
            "Double crochet 3 together into the next chain-1 space. All in the one place. Chain 2.",
        ),
        # A list after a colon is one list: it is never told as two places.
        (
            "Skip the next stitch, then V stitch in the next 2 stitches, all of these: "
            "double crochet, chain 1, double crochet.",
            "Skip the next stitch. Then V stitch in the next 2 stitches, all of these: "
            "double crochet, chain 1, double crochet.",
        ),
        (
            "In the same space, all of these: single crochet, half double crochet, "
            "3 double crochet, half double crochet, single crochet.",
            "In the same space, all of these: single crochet, half double crochet, "
            "3 double crochet, half double crochet; then single crochet.",
        ),
        (
            "Front post treble crochet around each of the next 7 front post treble crochet.",
            "Around each of the next 7 front post treble crochet: front post treble crochet.",
        ),
        (
            "Increase: 2 half treble crochet in each of the next 2 half treble crochet.",
            "Increase. In each of the next 2 half treble crochet: 2 half treble crochet.",
        ),
        # What tells more of the words before it does not stand alone.
        (
            "Front post double crochet in the same stitch, where the chain stands, chain 1.",
            "Front post double crochet in the same stitch, where the chain stands. Chain 1.",
        ),
    ],
)
def test_a_long_sentence_is_broken_between_its_clauses(told: str, short: str) -> None:
    assert not is_short(told)
    assert in_short_sentences(told) == short
    assert is_short(short)


def test_a_short_sentence_stays_as_it_is() -> None:
    told = "Skip the next stitch, then double crochet in the next. It comes to 16."

    assert in_short_sentences(told) == told
