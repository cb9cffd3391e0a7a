"""Spoken style to the same grammar: remarks and restarts go, the words of the craft stay."""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.tokens import Token

_PHRASES = tuple(
    phrase.split()
    for phrase in (
        "go ahead and", "you're going to", "you are going to", "we're going to", "we are going to",
        "i'm going to", "i am going to", "you want to", "you'll want to", "you need to", "you will",
        "you'll", "we'll", "we will", "i'll", "you can", "we can", "all the way", "let's", "let us", "make sure to",
        "what you do is", "i want you to", "alright", "all right", "okay", "ok", "so", "well", "um", "uh",
        "now", "please", "basically", "just", "gonna", "right", "there", "we decrease", "we increase", "you're gonna",
        "it's", "it is", "as usual", "once again", "this time", "and then", "you know", "if you like",
    )
)  # fmt: skip
_SPEECH = frozenset(
    [
        "you're",
        "you'll",
        "we're",
        "we'll",
        "gonna",
        "okay",
        "ok",
        "let's",
        "you",
        "we",
        "our",
        "i'm",
        "i'll",
        "you've",
    ]
)


def plainly(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* without the words of talk, if the row is talked at all."""
    if not any(token.text in _SPEECH for token in tokens) and not _wordy(tokens):
        return list(tokens)
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        for phrase in _PHRASES:
            words = [token.text for token in tokens[index : index + len(phrase)]]
            if words == phrase and not (
                phrase == ["right"] and index + 1 < len(tokens) and tokens[index + 1].text == "side"
            ):
                index += len(phrase)
                while (
                    index < len(tokens)
                    and tokens[index].text == ","
                    and (not out or out[-1].text == ",")
                ):
                    index += 1
                break
        else:
            if not _someone_works(tokens, index):
                out.append(tokens[index])
            index += 1
    return out


_WORKING = ("rep", "repeat", "put", "work", "make", "skip", "sk", "chain", "ch", "crochet")


def _someone_works(tokens: Sequence[Token], index: int) -> bool:
    """Tell whether the word is only who works: "you repeat that", "we put two"."""
    return (
        tokens[index].text in ("you", "we", "i")
        and index + 1 < len(tokens)
        and tokens[index + 1].text in _WORKING
    )


def _wordy(tokens: Sequence[Token]) -> bool:
    texts = {token.text for token in tokens}
    return bool(texts & {"crochet", "stitches"}) and not texts & {"*", "["}
