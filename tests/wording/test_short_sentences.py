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
        # "All into" belongs to the words before it, in the same sentence.
        (
            "Half double crochet 3 together, all into the next chain-1 space, chain 2, skip 2.",
            "Half double crochet 3 together, all into the next chain-1 space. Chain 2, skip 2.",
        ),
        (
            "3 shells, one in each of the next 3 chain-2 spaces, then skip the last stitch.",
            "3 shells, one in each of the next 3 chain-2 spaces. Then skip the last stitch.",
        ),
        (
            "Front post treble crochet around each of the next 7 front post treble crochet.",
            "Go to the next 7 front post treble crochet. Around each one: front post treble crochet.",
        ),
        (
            "Increase: 2 half treble crochet in each of the next 2 half treble crochet.",
            "Increase. Go to the next 2 half treble crochet. In each one: 2 half treble crochet.",
        ),
        (
            "Then front post double crochet around each of the next 2 double crochet.",
            "Then go to the next 2 double crochet. Around each one: front post double crochet.",
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
