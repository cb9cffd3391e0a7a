"""Trade terms as a voice pronounces them: golden phonemes of eSpeak NG, voice en-gb.

The reference is the speech engine itself, run with -x. Abbreviations are what it mangles ("sl
st" becomes the letters and "saint"), so no name may come out spelled, or with a saint in it.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from functools import cache

import pytest

from coach.craft.stitch import HEIGHTS
from coach.wording.by_touch import YARN_OVERS
from coach.wording.plain_text import say
from coach.wording.stitch_names import BASES, NAMES, stitch_name

ESPEAK = shutil.which("espeak-ng")
pytestmark = pytest.mark.skipif(
    ESPEAK is None, reason="LEFT OUT: espeak-ng is not installed, so pronunciation is unchecked"
)

# Two or more letters of the alphabet said as letters, and what the engine makes of "st" and "*".
_LETTER = (
    r"(?:eI|bi:|si:|di:|i:|Ef|dZi:|eItS|aI|dZeI|keI|El|Em|En|oU|pi:|kju:|A@?|Es|ti:|ju:|"
    r"vi:|dVb@Lju:|Eks|waI|zEd)"
)
SPELLED = re.compile(rf"(?<!\S){_LETTER}{{2,}}(?!\S)")
MANGLED = re.compile(r"s@nt|s'eInt|ast@r,?Isk")


def is_spelled(said: str) -> bool:
    return SPELLED.search(re.sub("[,';]", "", said)) is not None


@cache
def phonemes(text: str) -> str:
    assert ESPEAK is not None
    said = subprocess.run(
        [ESPEAK, "-q", "-x", "-v", "en-gb", text],
        capture_output=True,
        text=True,
        check=True,
        timeout=20,
    )
    return " ".join(said.stdout.split())


def test_the_check_itself_hears_what_the_engine_mangles() -> None:
    assert MANGLED.search(phonemes("sl st"))
    for abbreviation in ("dc", "tr", "FPdc", "hdc"):
        assert is_spelled(phonemes(abbreviation))
    assert MANGLED.search(phonemes("*"))


GOLDEN = {
    "single crochet": "s'INg@L kroUS'eI",
    "double crochet": "d'Vb@L kroUS'eI",
    "half double crochet": "h'A:f d'Vb@L kroUS'eI",
    "treble crochet": "tr'Eb@L kroUS'eI",
    "slip stitch": "sl'Ip st'ItS",
    "chain": "tS'eIn",
    "picot": "p'i:koUt",
    "popcorn": "p'0pkO@n",
    "puff stitch": "p'Vf st'ItS",
    "bobble": "b'0b@L",
    "cluster": "kl'Vst3",
    "V stitch": "v'i: st'ItS",
    "front post double crochet": "fr'Vnt p'oUst d'Vb@L kroUS'eI",
    "in A": "In 'eI",
    "row": "r'oU",
}


@pytest.mark.parametrize("term", GOLDEN)
def test_a_term_sounds_as_the_trade_says_it(term: str) -> None:
    assert phonemes(term) == GOLDEN[term]


TERMS = sorted(
    {stitch_name(stitch, terms) for stitch in (*HEIGHTS, *NAMES) for terms in BASES}
    | {stitch_name(f"{post}{base}") for post in ("FP", "BP") for base in YARN_OVERS}
    | {stitch_name(f"{base}2tog", terms) for base in YARN_OVERS for terms in BASES}
    | {stitch_name(name) for name in ("fsc", "esc", "rev sc", "3-dc cl", "beg cl", "inv dec")}
)


def test_no_stitch_is_spelled_or_mangled() -> None:
    for term in TERMS:
        said = phonemes(term)
        assert not MANGLED.search(said), (term, said)
        assert not is_spelled(said), (term, said)


@pytest.mark.parametrize(
    "text",
    [
        "sl st in next 2 sts, dec over next 2 sts",
        "*(3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 3 times more",
        "Work 3-5 rnds in BLO, then F.O.",
        "BLO: sc across the sts",
        "with WS facing, FPdc around each st, inc in last st",
    ],
)
def test_a_designers_own_sentence_is_neither_spelled_nor_mangled(text: str) -> None:
    said = phonemes(say(text))

    assert not MANGLED.search(said), said
    assert not is_spelled(said), said
