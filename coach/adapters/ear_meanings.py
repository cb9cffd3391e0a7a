"""Which command each phrase of the closed list gives, and which commands a model can't hear."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import NUMBER


def meaning_of(phrase: str) -> str:
    """Return the command that *phrase* gives, or the phrase itself."""
    stem = phrase.split(NUMBER, maxsplit=1)[0].strip()
    for binding in BINDINGS:
        if any(stem == spoken.lower() for spoken in binding.spoken):
            return binding.command.value
    return phrase


def lacking(meanings: Mapping[str, str], unheard: Collection[str]) -> list[str]:
    """Return those of the *unheard* phrases whose command has no other phrase that is heard."""
    heard = {meaning for phrase, meaning in meanings.items() if phrase not in unheard}
    return [phrase for phrase in unheard if meanings.get(phrase) not in heard]
