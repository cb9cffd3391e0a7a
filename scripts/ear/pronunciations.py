"""How words sound: the CMU dictionary's phonemes, and our own for trade words that it lacks."""

# ruff: noqa: SIM905 - word lists read better as lines of words

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from importlib.util import find_spec
from pathlib import Path

Phonemes = tuple[str, ...]

PHONEMES = tuple(
    "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH "
    "UH UW V W Y Z ZH".split()
)

# Trade words that the dictionary lacks, or says otherwise than makers do. Common practice.
OWN: Mapping[str, tuple[str, ...]] = {
    "crochet": ("K R OW SH EY",),
    "crocheting": ("K R OW SH EY IH NG",),
    "picot": ("P IY K OW",),
    "forty": ("F AO R T IY", "F AO R D IY"),
    "seventy": ("S EH V AH N T IY", "S EH V AH N D IY", "S EH V AH N IY"),
    "eighty": ("EY T IY", "EY D IY"),
    "ninety": ("N AY N T IY", "N AY N D IY", "N AY N IY"),
    "worsted": ("W UH S T IH D", "W ER S T IH D"),
    "filet": ("F IH L EY", "F IH L IH T"),
    "niner": ("N AY N ER",),
    "pom": ("P AA M",),
    "skein": ("S K EY N",),
    "what's": ("W AH T S", "W AA T S"),
    "bobble": ("B AA B AH L",),
    "ribbing": ("R IH B IH NG",),
    "edging": ("EH JH IH NG",),
    "motif": ("M OW T IY F",),
    "tassel": ("T AE S AH L",),
    "colour": ("K AH L ER",),
    "centre": ("S EH N T ER",),
    "grey": ("G R EY",),
    "draught": ("D R AE F T", "D R AA F T"),
}


def dictionary_file() -> Path:
    """Return the CMU dictionary that the pocketsphinx package carries.

    Raises FileNotFoundError with what to install when the package is absent.
    """
    spec = find_spec("pocketsphinx")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("the pronouncing dictionary is missing: pip install pocketsphinx")
    return Path(spec.origin).parent / "model" / "en-us" / "cmudict-en-us.dict"


def read_dictionary(path: Path) -> dict[str, tuple[Phonemes, ...]]:
    """Return word to pronunciations from a file of lines such as "next N EH K S T"."""
    found: dict[str, list[Phonemes]] = {}
    for line in path.read_text(encoding="latin-1").splitlines():
        word, *phonemes = line.split()
        plain = re.sub(r"\(\d+\)$", "", word)
        if phonemes and all(phoneme in PHONEMES for phoneme in phonemes):
            found.setdefault(plain, []).append(tuple(phonemes))
    return {word: tuple(dict.fromkeys(said)) for word, said in found.items()}


def pronounce(
    words: Iterable[str], dictionary: Mapping[str, tuple[Phonemes, ...]]
) -> dict[str, tuple[Phonemes, ...]]:
    """Return the pronunciations of *words*, ours first.

    Raises KeyError naming every word that has none, since a word without one is never heard.
    """
    said: dict[str, tuple[Phonemes, ...]] = {}
    missing: list[str] = []
    for word in words:
        own = tuple(tuple(text.split()) for text in OWN.get(word, ()))
        known = own or dictionary.get(word, ())
        if known:
            said[word] = known
        else:
            missing.append(word)
    if missing:
        raise KeyError(f"no pronunciation for: {', '.join(sorted(missing))}")
    return said
