"""A designer's own sentences as said aloud: every abbreviation, sign, range and fraction."""

from __future__ import annotations

import pytest

from coach.wording.plain_text import say, sentence, title


@pytest.mark.parametrize(
    ("written", "said"),
    [
        # R48
        (
            "*(3 dc, ch 2, 3 dc) in next ch-2 sp, sl st in next st; rep from * 3 times more, "
            "dec over next 2 sts.",
            "3 double crochet, chain 2, 3 double crochet, in next chain 2 space, slip stitch in "
            "next stitch; repeat from 3 times more, decrease over next 2 stitches.",
        ),
        (
            'Fasten off, leaving a 6" (15 cm) tail.',
            "Fasten off, leaving a tail of 6 inches, 15 centimetres.",
        ),
        ("Weave in ends w/ a needle & block.", "Weave in ends with a needle and block."),
        ("F.O. and weave in.", "fasten off and weave in."),
        ("Rnds 3–5: rep Rnd 2.", "Rounds 3 to 5: repeat Round 2."),
        ("Rows 6-45", "Rows 6 to 45"),
        ('about 7¼" tall', "about 7 and a quarter inches tall"),
        ('about 7 1/4" tall', "about 7 and a quarter inches tall"),
        ('5 1/2" x 4"', "5 and a half inches by 4 inches"),
        ("60 × 90 cm", "60 by 90 centimetres"),
        ("inc x6", "increase times 6"),
        ("Hook: 5.5 mm (US I/9)", "Hook: 5.5 millimetres, US I 9"),
        ("worsted (#4) yarn", "worsted, number 4, yarn"),
        ("approx. 200 yds", "about 200 yards"),
        ("in BLO, RS facing", "in back loop only, right side facing"),
        ("BPdc around each st", "back post double crochet around each stitch"),
        ("dc3tog", "double crochet 3 together"),
        ("2dc in ch-3 lp", "2 double crochet in chain 3 loop"),
        ("Wash at 30°C; don’t iron!", "Wash at 30 degrees Celsius; don't iron."),
        ("Yarn: 50% wool, 50% acrylic", "Yarn: 50 percent wool, 50 percent acrylic"),
        ("No. 2 hook", "number 2 hook"),
        ("e.g. a shawl, i.e. a wrap", "for example a shawl, that is a wrap"),
        ("col. A + col. B", "colour. A plus colour. B"),
        ("join B in any corner sp", "join B in any corner space"),
        ("café — été", "cafe, ete"),
        ("(RS)", "right side"),
    ],
)
def test_a_sentence_is_said_in_whole_words(written: str, said: str) -> None:
    assert say(written) == said


def test_a_sentence_begins_with_a_capital_and_ends_with_a_full_stop() -> None:
    assert sentence("weave in ends") == "Weave in ends."
    assert sentence("Done?") == "Done?"
    assert sentence("then;") == "Then."
    assert sentence("  ") == ""


def test_a_title_in_capitals_is_not_spelled() -> None:
    assert title("HARBOUR STEPS (No. 2)") == "Harbour Steps, number 2"
    assert title("Pebble Cloth") == "Pebble Cloth"
