"""The stitches that a pattern defines, wherever and however it does: lists, sentences, headings.

"Shell: 5 dc in same st", "V (dc, ch 3, dc) in same st" in a run-on list, "a shell is 5 dc in one
st". What names a stitch of the trade with its usual meaning is no definition.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from coach.craft.instruction import Act, GroupIn, Instruction, Make
from coach.craft.pattern import SpecialStitch
from coach.craft.stitch import ONE_TOP
from coach.notation.cleaning import clean_line
from coach.notation.filet_squares import defines_square, filet_square, name_of_square
from coach.notation.piece import Piece
from coach.notation.row_grammar import RowReader
from coach.notation.tokens import tokens_of
from coach.notation.words import Vocabulary, understood

_DEFINITION = re.compile(
    r"^\W*(?P<name>[A-Za-z][\w' /-]{0,38}?)\s*(?:\((?P<short>[\w -]{1,24})\))?\s*(?P<sep>:|=|–|\s-\s)\s*(?P<text>\S.*)$"
)
_ONE_TOP = re.compile(
    r"\bcounts? as (?:1|one)\b(?! (?:dc|shell))|\btog(?:ether)?\b|\byo\b|\byrh\b|\byarn over\b|\bpull|\bdrop|\bdraw|\bclosed\b|\binvisible\b|\bpopcorn\b|\bcompact\b",
    re.IGNORECASE,
)
_STITCHES = r"(?:sc|hdc|dc|htr|tr|dtr|trtr|ch)"
_LABEL = re.compile(
    r"\W*(?:(?:special\s+)?stitch(?:es)?(?:\s+(?:used|key|guide))?|filet\s+(?:mesh|crochet|squares?|key)|mesh|squares|blocks|special|abbreviations?(?:\s+used)?|abbrev\.?|notes?|key|terms"
    r"|(?:US|UK|American|British)\s+(?:terms|abbreviations|terminology))\s*(?:\([^)]*\))?\s*[:.–-]\s*",
    re.IGNORECASE,
)
_ARTICLE = re.compile(
    r"[\s'\"•*]*(?:(?:to\s+)?(?:make|work)\s+)?(?:(?:a|an|the|1|one|each)\s+)?", re.IGNORECASE
)
_TOLD = re.compile(
    rf"(?P<name>[A-Za-z][\w-]*(?: [\w-]+)?)\s*(?:is|means|consists\s+of|is\s+made\s+(?:of|by)(?:\s+working)?|by\s+working|,\s*work|:\s*work)\s+"
    rf"(?P<text>\(?\s*(?:\d+\s*)?{_STITCHES}\b.*\b(?:same|one|in|into)\b.*)",
    re.IGNORECASE,
)
_IN_BRACKETS = re.compile(
    rf"(?:^|[,;|:.]\s*)(?P<name>[A-Za-z][\w-]{{0,12}}(?: st| stitch)?)\s*\((?P<text>[^()]*?\d\s*{_STITCHES}\b[^()]*\bin(?:to)?\b[^()]*)\)"
)
_BRACKET_THEN_PLACE = re.compile(
    rf"(?:^|[,;|:.]\s*)(?P<name>[A-Za-z][\w-]{{0,12}}(?: st| stitch)?)\s+(?P<text>\([^()]*(?:\d\s*{_STITCHES}|\b{_STITCHES}\s*,)[^()]*\)\s+(?:all\s+)?in(?:to)?\s+(?:the\s+)?(?:same|next|one|each|indicated)\b[^,;|]*)"
)
_NEXT_NAME = re.compile(r"(?<=[.;])\s+(?=[A-Z][\w -]{0,24}(?: ?\([\w .-]{1,12}\))? ?[:=] )")
_NO_NAMES = re.compile(
    r"(?:abbreviations?|special stitch(?:es)?|(?:us|uk) terms|rows?|rnds?|rounds?|gauge|tension|sizes?|notes?|hook|yarn|materials|finished|terms|r|ch\s?\d*|join|turn|skip|beg(?:inning)?(?!\s+[A-Za-z])|chain|counts?)\b",
    re.IGNORECASE,
)


def special_stitches(pieces: Sequence[Piece], vocabulary: Vocabulary) -> dict[str, SpecialStitch]:
    """Return the stitches that the text between and before the rows defines, by their names."""
    out: dict[str, SpecialStitch] = {}
    for text in _texts(pieces):
        for name, words in _told_in(text, vocabulary):
            out.setdefault(name, special_stitch(name, words, vocabulary))
    return {special.name: special for special in out.values()}


def also_called(specials: Mapping[str, SpecialStitch]) -> dict[str, str]:
    """Return the short names of stitches that are defined with both: "Bobble (bob): ..."."""
    first: dict[str, str] = {}
    out: dict[str, str] = {}
    for name, special in specials.items():
        known = first.setdefault(special.definition, name)
        begins = name.lower().startswith("beg")  # the proof goes by "beg cl"
        if known != name and len(name) < len(known) and not begins:
            out[name] = known
    return out


def _texts(pieces: Sequence[Piece]) -> Iterator[str]:
    """Yield each text, and a name that stands on a line above its definition with it."""
    for index, piece in enumerate(pieces):
        following = pieces[index + 1] if index + 1 < len(pieces) else None
        names = piece.kind in ("text", "part") and piece.text.rstrip().endswith(":")
        if names and following is not None and following.kind == "text":
            yield f"{piece.text} {following.text}"
        if piece.kind == "text":
            yield piece.text


def _told_in(text: str, vocabulary: Vocabulary) -> Iterator[tuple[str, str]]:
    """Yield (name, definition) of each stitch that *text* defines."""
    for part in _parts(text):
        found = _DEFINITION.match(part)
        if found is not None and defines_square(found["name"], found["text"]):
            for name, words in _named(found["name"], found["short"], found["text"].strip()):
                yield name_of_square(name), words
            continue
        if found is not None and _defines(found["name"].strip(), found["text"].strip(), vocabulary):
            yield from _named(found["name"], found["short"], found["text"].strip())
            continue
        told = _TOLD.match(part)
        if told is not None and _may_name(told["name"], vocabulary):
            yield told["name"], told["text"]
    for pattern in (_IN_BRACKETS, _BRACKET_THEN_PLACE):
        for found in pattern.finditer(text):
            if _may_name(found["name"], vocabulary):
                yield found["name"], found["text"]


def _parts(text: str) -> Iterator[str]:
    """Yield the sentences of *text*, whole first, without labels, articles and quotes."""
    whole = text.strip()
    yield from _NEXT_NAME.split(whole)
    bare = _LABEL.sub("", whole, count=1) if _LABEL.match(whole) else whole
    for sentence in re.split(r"(?<=[.;])\s+|\s*\|\s*", bare):
        article = _ARTICLE.match(sentence)
        bare_sentence = sentence[article.end() :] if article else sentence
        bare_sentence = re.sub(r"^([\w -]{1,30})['\"]", r"\1", bare_sentence)
        if bare_sentence and bare_sentence != whole:
            yield bare_sentence


def _named(name: str, short: str | None, text: str) -> Iterator[tuple[str, str]]:
    """Yield the names of one definition: "sh = shell (5 dc in same st)" has two."""
    again = re.fullmatch(r"(?P<name>[A-Za-z][\w -]{1,20}?)\s*\((?P<text>[^()]*\d[^()]*)\)\.?", text)
    if again is not None:
        text = again["text"]
        yield again["name"], text
    yield name.strip(), text
    if short:
        yield short.strip(), text


def _may_name(name: str, vocabulary: Vocabulary) -> bool:
    """Tell whether *name* can be a stitch of the pattern's own, and is none of the trade's."""
    if _NO_NAMES.match(name) or len(name.split()) > 4:
        return False
    phrase = " ".join(re.findall(r"[a-z0-9]+", name.lower()))
    kind = vocabulary.names.get(phrase, ("", ""))[0]
    if kind in ("stitch", "clash") or phrase in _TRADE_WORDS:
        return False
    return not re.fullmatch(r"\w+(?:\d+tog)|[\w ]+tog", phrase)


_TRADE_WORDS = (
    "ch", "st", "sp", "rep", "rnd", "inc", "dec", "sk", "tog", "blo", "flo", "bl", "fl", "tbl", "rs", "ws", "mc", "cc", "pm", "mr",
)  # fmt: skip


def _defines(name: str, text: str, vocabulary: Vocabulary) -> bool:
    """Tell whether "name: text" says how a stitch is made."""
    return (
        _may_name(name, vocabulary)
        and _WHERE.search(text) is not None
        and (_HOW.search(text) is not None or _IN_LOOPS.match(text) is not None)
    )


_WHERE = re.compile(r"\d|same|\byo\b|\(|\bst(?:itch)?(?:es)?\b|\bsps?\b|\bloops?\b", re.IGNORECASE)
_NAMED_STITCH = r"(?:sc|hdc|dc|htr|tr|dtr|(?:single|half double|double|half treble|treble|triple)\s+crochet|treble)"
# A stitch set into a row further down, or into one loop: "dc in FLO of st 2 rows below".
_IN_LOOPS = re.compile(
    rf"(?:work(?:ed)?\s+)?(?:an?\s+|1\s+)?(?:{_NAMED_STITCH}|sk|skip|miss)\b"
    r".*?\b(?:blo|flo|(?:front|back|unused)\s+loops?|rows?\s+below|rnds?\s+below|rounds?\s+below|next|skipped)\b",
    re.IGNORECASE,
)


_HOW = re.compile(
    r"\bsame\b|\byo\b|\byarn over\b|\([^)]*\)|\bin (?:next|one|a|each|indicated|the|st|sp)\b|\bcounts? as\b|\bworked\b|\baround (?:\w+ ){0,3}(?:next|each|skipped)\b|\btog\b|\d+\s*(?:dc|tr|hdc|sc|htr)\b|\bch\s*\d",
    re.IGNORECASE,
)

# One stitch into a row further down; its own place is the one behind it, said or not.
_SET_LOWER = re.compile(
    rf"(?:work(?:ed)?\s+)?(?:an?\s+|1\s+|one\s+)?{_NAMED_STITCH}\s(?![^.;]*\beach\b)[^.;()]*\b(?:rows?|rnds?|rounds?)\s+below\b",
    re.IGNORECASE,
)


def special_stitch(name: str, text: str, vocabulary: Vocabulary) -> SpecialStitch:
    """Return the stitch called *name* as *text* defines it."""
    shown = _known_name(name, vocabulary)
    square = filet_square(name, text, lambda words: row_piece(words, vocabulary))
    if square is not None:
        return SpecialStitch(shown, text, square.over_stitches, over_space=square.over_space)
    plain = shown.lower().removeprefix("beg ").split()[-1:]
    if _ONE_TOP.search(text) or _SET_LOWER.match(text) or (plain and plain[0] in ONE_TOP):
        begins = shown.removeprefix("beg ") if shown.lower().startswith("beg ") else None
        return SpecialStitch(shown, text, (), begins)
    first, *more = re.split(r"(?<=\w|\))\s*[;.]\s+", text, maxsplit=1)
    parts = _parts_of(text, vocabulary) or (_parts_of(first, vocabulary) if more else ())
    return SpecialStitch(shown, text, parts)


def row_piece(text: str, vocabulary: Vocabulary) -> tuple[Instruction, ...]:
    """Return *text* as a piece of a row that has places of its own."""
    return tuple(part for part in _reader(text, vocabulary).read() if not _idle(part))


def _reader(text: str, vocabulary: Vocabulary) -> RowReader:
    line = clean_line(1, re.sub(r"\b(?:all\s+)?worked\s+(?=in)", "", text))
    return RowReader(understood(tokens_of([(line, 0, len(line.text))]), vocabulary))


def _parts_of(text: str, vocabulary: Vocabulary) -> tuple[Instruction, ...]:
    """Return what one such stitch is made of; nothing where the words do not say it."""
    reader = _reader(text, vocabulary)
    worked: list[Instruction] = [part for part in reader.read() if not _idle(part)]
    if len(worked) == 1 and isinstance(worked[0], GroupIn):
        return worked[0].parts
    if len(worked) == 1 and isinstance(worked[0], Make) and worked[0].each > 1:
        return (worked[0],)
    if len(worked) > 1 and not reader.problems:
        return tuple(worked)
    return ()


def _known_name(name: str, vocabulary: Vocabulary) -> str:
    phrase = " ".join(re.findall(r"[a-z0-9]+", name.lower()))
    kind, known = vocabulary.names.get(phrase, ("", ""))
    return known if kind == "unit" else name


def _idle(part: Instruction) -> bool:
    return isinstance(part, Act)


def usual_specials(vocabulary: Vocabulary) -> Mapping[str, SpecialStitch]:
    """Return the groups that the trade knows by name where a pattern defines none.

    A V-stitch is (dc, ch 1, dc) and a shell 5 dc in one place (common practice, no source).
    """
    out = {}
    stitch = "tr" if vocabulary.uk else "dc"
    for name, text in (
        ("V-st", f"({stitch}, ch 1, {stitch}) in same st"),
        ("shell", f"5 {stitch} in same st"),
    ):
        out[name] = special_stitch(name, text, vocabulary)
    return out
