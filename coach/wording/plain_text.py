"""A designer's own sentence as it is said aloud: whole words for every abbreviation and sign.

Used only where the coach has no object to build a sentence from (finishing, remarks, a stitch
of the designer's own). Rows are never told this way: their words come from the proof.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

SPOKEN = re.compile(r"[A-Za-z0-9.,;:?' -]*")  # what may reach the voice and the braille line

_COMMON: Mapping[str, str] = {
    "alt": "alternate",
    "approx": "about",
    "beg": "beginning",
    "bet": "between",
    "blo": "back loop only",
    "bl": "back loop",
    "flo": "front loop only",
    "fl": "front loop",
    "bo": "bobble",
    "bp": "back post",
    "fp": "front post",
    "cc": "contrast colour",
    "mc": "main colour",
    "ch": "chain",
    "chs": "chains",
    "ch-sp": "chain space",
    "ch-sps": "chain spaces",
    "cl": "cluster",
    "cm": "centimetres",
    "mm": "millimetres",
    "col": "colour",
    "cont": "continue",
    "dec": "decrease",
    "ea": "each",
    "fo": "fasten off",
    "foll": "following",
    "g": "grams",
    "hk": "hook",
    "in": "in",
    "inc": "increase",
    "incl": "including",
    "lp": "loop",
    "lps": "loops",
    "m": "metres",
    "oz": "ounces",
    "patt": "pattern",
    "pc": "popcorn",
    "pm": "place marker",
    "prev": "previous",
    "rem": "remaining",
    "rep": "repeat",
    "rnd": "round",
    "rnds": "rounds",
    "rs": "right side",
    "ws": "wrong side",
    "sh": "shell",
    "sk": "skip",
    "sm": "slip marker",
    "sp": "space",
    "sps": "spaces",
    "ss": "slip stitch",
    "st": "stitch",
    "sts": "stitches",
    "tbl": "through the back loop",
    "tch": "turning chain",
    "t-ch": "turning chain",
    "tog": "together",
    "yd": "yards",
    "yds": "yards",
    "yo": "yarn over",
    "yoh": "yarn over hook",
    "yrh": "yarn round hook",
    "x": "times",
    "w": "with",
    "dk": "double knitting",
    "no": "no",
    "pct": "percent",
    "ft": "feet",
    "lb": "pounds",
    "lbs": "pounds",
    "kg": "kilograms",
    "vs": "against",
    "etc": "and so on",
    "rev": "reverse",
    "mr": "adjustable ring",
    "wpi": "wraps per inch",
    "opp": "opposite",
    "cnt": "count",
}

# Only in US or UK terms; in a UK pattern "dc" is what the UK calls double crochet, and the
# text is said as written: the designer's own word, whatever it is called across the sea.
_STITCHES: Mapping[str, str] = {
    "sc": "single crochet",
    "hdc": "half double crochet",
    "dc": "double crochet",
    "tr": "treble crochet",
    "dtr": "double treble crochet",
    "trtr": "triple treble crochet",
    "ttr": "triple treble crochet",
    "qtr": "quadruple treble crochet",
    "htr": "half treble crochet",
    "esc": "extended single crochet",
    "edc": "extended double crochet",
    "fsc": "foundation single crochet",
    "fdc": "foundation double crochet",
    "rsc": "reverse single crochet",
}

_SIGNS: tuple[tuple[str, str], ...] = (
    (r"\u00a0|\u2007|\u202f", " "),
    (r"\b(?:[Nn]o|[Nn]r)\.\s*(?=\d)", "number "),
    (
        r"\b(approx|beg|rep|cont|foll|rem|alt|dec|inc|rnds?|sts?|sps?|tog|oz|yds?|in|cm|mm|prev|patt)"
        r"\.(?=\s+[a-z0-9(])",
        r"\1",
    ),
    (r"(?<=[\d\"\u201d\u2033])\s*[x×✕]\s*(?=\d)", " by "),
    (r"\b[x×✕]\s*(?=\d)", "times "),
    (r"\b(\d+)\s+(\d)/(\d{1,2})\b", r"\1 and \2/\3"),
    (r"\b1/2\b", "a half"),
    (r"\b1/4\b", "a quarter"),
    (r"\b3/4\b", "three quarters"),
    (r"\b1/3\b", "one third"),
    (r"\b2/3\b", "two thirds"),
    (r"\b(\d+)/(\d+)\b", r"\1 over \2"),
    (r"\b([A-Z])/(?=\d)", r"\1 "),
    (r"\b[Ii]\.\s?e\.", "that is"),
    (r"\b[Ee]\.\s?g\.", "for example"),
    (r"\b([A-Za-z])\.\s?([A-Za-z])\.(?=\W|$)", r"\1\2"),  # F.O., R.S., W. S.
    ("[\u2018\u2019\u2032`´]", "'"),
    (
        r"\ba\s+([\d½¼¾.]+)\s*(\"|\u201d|\u2033|in\.?|cm)\s*(\([^)]*\))?\s*tails?\b",
        r"a tail of \1 \2 \3",
    ),
    (r"(\d)\s*''", r"\1 inches"),
    (r"(\d)\s*([½¼¾⅓⅔⅛⅜⅝⅞])", r"\1 and \2"),
    (r"(?<=[\d½¼¾⅓⅔⅛⅜⅝⅞])\s*[\"\u201d\u2033]", " inches"),
    (r"(?<=half|ters|rter|hird|irds)\s*[\"\u201d\u2033]", " inches"),
    (r"(?<=[\d½¼¾⅓⅔⅛⅜⅝⅞])\s*'(?!\w)", " feet"),
    ("½", "a half"),
    ("¼", "a quarter"),
    ("¾", "three quarters"),
    ("⅓", "one third"),
    ("⅔", "two thirds"),
    ("⅛", "one eighth"),
    ("⅜", "three eighths"),
    ("⅝", "five eighths"),
    ("⅞", "seven eighths"),
    (r"(?<=\d)\s*in\.?(?=\s*(?:[,;.)/]|wide|long|tall|tail|square|\(|$))", " inches"),
    (r"\b1 inches\b", "1 inch"),
    (r"(?<=\d)\s*°\s*C\b", " degrees Celsius"),
    (r"(?<=\d)\s*°\s*F\b", " degrees Fahrenheit"),
    (r"°", " degrees"),
    (r"%", " percent"),
    (r"&", " and "),
    (r"\+", " plus "),
    (r"=", " is "),
    (r"#\s*(?=\d)", "number "),
    (r"(?<=\d)\s*[x×✕]\s*(?=\d)", " by "),
    (r"[×✕]", " times "),
    (r"\bw/o\b", "without"),
    (r"\bw/", "with "),
    (r"(?<=\d)\s*[-\u2013\u2014]\s*(?=\d)", " to "),
    (r"\s*[\u2013\u2014]\s*|\s+-\s+", ", "),
    (r"[\u2010\u2011]", "-"),
    (r"\u2026|\.{2,}", "."),
    (r"[*•∗＊†]", " "),
    (r"\s*[(\[{]\s*", ", "),
    (r"\s*[)\]}]\s*(?=[.,;:?!])", ""),
    (r"\s*[)\]}]\s*", ", "),
    (r"!", "."),
    (r"(?<=\w)/(?=\w)", " or "),
    ('["\u201c\u201d\u201e«»]', ""),
)

_TOKEN = re.compile(r"[A-Za-z]+(?:-[A-Za-z]+)*")


def say(text: str, terms: str = "US") -> str:
    """Return *text* as spoken words: abbreviations whole, signs as words or pauses."""
    spoken = text
    for sign, words in _SIGNS:
        spoken = re.sub(sign, words, spoken)
    spoken = re.sub(r"\b([A-Za-z]{2,3})(\d)tog\b", _together, spoken, flags=re.I)
    spoken = re.sub(r"(?<=\d)(?=[A-Za-z])(?!(?:st|nd|rd|th)\b)", " ", spoken)
    spoken = re.sub(r"\b([A-Za-z]+)-(\d+)\s*(sps?)\b", _chain_space, spoken)
    spoken = re.sub(r"\b(ch|chain)-(\d+)\b", r"chain \2", spoken, flags=re.I)
    spoken = re.sub(r"\bsl\.?\s*st\b\.?", "slip stitch", spoken, flags=re.I)
    spoken = re.sub(r"\bst\(s\)|\bst, s,", "stitches", spoken)
    spoken = re.sub(r"\b([FB])P(sc|hdc|dc|tr)\b", _post, spoken, flags=re.I)
    spoken = _TOKEN.sub(_word, spoken)
    return _tidied(spoken)


def size_told(size: str) -> str:
    """Return "size M"; a size without a name of its own is called "size 2" already."""
    return size if size.lower().startswith("size") else f"size {size}"


def title(text: str, terms: str = "US") -> str:
    """Return a pattern's title as it is said: capitals alone would be spelled out."""
    plain = re.sub(r"\b(?!US\b|UK\b)[A-Z]{2,}\b", lambda match: match[0].title(), text)
    return say(plain, terms)


def _word(match: re.Match[str]) -> str:
    token = match[0]
    key = token.lower()
    if len(token) == 1 and token.isupper():
        return token  # a yarn is called A, a size M
    whole = _COMMON.get(key) or _STITCHES.get(key)
    if whole is None:
        return token
    if token[0].isupper() and not (len(token) > 1 and token.isupper()):
        return whole[0].upper() + whole[1:]
    return whole


def _chain_space(match: re.Match[str]) -> str:
    spaces = "spaces" if match[3].lower().endswith("s") else "space"
    return f"{say(match[1])}-{match[2]} {spaces}"


def _together(match: re.Match[str]) -> str:
    return f"{_STITCHES.get(match[1].lower(), match[1])} {match[2]} together"


def _post(match: re.Match[str]) -> str:
    side = "front" if match[1].lower() == "f" else "back"
    return f"{side} post {_STITCHES[match[2].lower()]}"


def _tidied(spoken: str) -> str:
    """Close up what the signs left behind, and drop what has no words."""
    plain = "".join(
        letter if SPOKEN.fullmatch(letter) else _unaccented(letter) for letter in spoken
    )
    plain = re.sub(r"\s+", " ", plain)
    plain = re.sub(r"\s+([.,;:?])", r"\1", plain)
    plain = re.sub(r"[,;:]+(?=[.,;:?])", "", plain)
    plain = re.sub(r"\.(?:\s*[.,;:])+", ".", plain)
    return plain.strip(" ,;:")


_UNACCENTED = str.maketrans(
    "àáâãäåæçèéêëìíîïñòóôõöøùúûüýÿßœÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝ",
    "aaaaaaaceeeeiiiinoooooouuuuyysoAAAAAACEEEEIIIINOOOOOOUUUUY",
)


def _unaccented(letter: str) -> str:
    plain = letter.translate(_UNACCENTED)
    return plain if SPOKEN.fullmatch(plain) else " "


def sentence(text: str) -> str:
    """Return *text* with a capital at its beginning and a full stop at its end."""
    plain = text.strip()
    if not plain:
        return ""
    plain = plain[0].upper() + plain[1:]
    return plain if plain[-1] in ".?" else f"{plain.rstrip(',;:')}."
