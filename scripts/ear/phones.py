"""The phones of the model, their numbers, and which output of the network each one reads.

SIL, then 39 phonemes and GAR (general speech), each at four places in a word: B begin, E end,
I inside, S alone. The four share their outputs. Each phoneme has a forward output (its first
frame) and a loop output (the rest); SIL and GAR have one output for both, trained so, because two
made the first words after a silence go wrong.
"""

from __future__ import annotations

from .pronunciations import PHONEMES

PLACES = "BEIS"
GENERAL = "GAR"
SILENCE = "SIL"

PHONES = (SILENCE, *(f"{phoneme}_{place}" for phoneme in (*PHONEMES, GENERAL) for place in PLACES))
NUMBER = {phone: index for index, phone in enumerate(PHONES, 1)}

SILENCE_PDF = 0
GENERAL_PDF = 1 + 2 * len(PHONEMES)
PDF_COUNT = GENERAL_PDF + 1
FIRST_PDF = {phoneme: 1 + 2 * index for index, phoneme in enumerate(PHONEMES)}


def pdfs(phone: str) -> tuple[int, int]:
    """Return the (forward, loop) outputs of a phone such as "AH_B", or of a bare phoneme."""
    plain = phone.split("_", maxsplit=1)[0]
    if plain == SILENCE:
        return SILENCE_PDF, SILENCE_PDF
    if plain == GENERAL:
        return GENERAL_PDF, GENERAL_PDF
    return FIRST_PDF[plain], FIRST_PDF[plain] + 1


def phone_pdfs() -> list[tuple[int, int]]:
    """Return the outputs of every phone, in the order of the phones' numbers."""
    return [pdfs(phone) for phone in PHONES]


def forward_id(phone: str) -> int:
    """Return the transition id that enters a phone."""
    return 2 * NUMBER[phone]


def loop_id(phone: str) -> int:
    """Return the transition id that stays in a phone."""
    return 2 * NUMBER[phone] - 1
