"""What is stored of a guided piece, and how it is taken up again.

A place is stored with the words of its row, so that an edited pattern is noticed: the coach
never goes on silently where the pattern has changed.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from coach.craft.proof import Proof
from coach.craft.stage import Stage
from coach.craft.stages import foundation_of
from coach.guide.commands import Command
from coach.guide.place import Guide, Mode, Past, Piece
from coach.guide.storing import from_plain, to_plain

FORM = 1  # of the stored state; a later form is not read by an older coach


@dataclass(frozen=True, slots=True)
class Kept:
    """A state as it was stored: where, in which pattern, at which words, what the place was called.

    alike: how many rows of that pattern had the same words.
    """

    guide: Guide
    fingerprint: str
    label: str
    text: str
    alike: int = 1


def fingerprint_of(proof: Proof) -> str:
    """Return the fingerprint of what is worked: every row's name and words, and each foundation.

    A piece that is laid out with one more foundation than before has other stages: a place that
    was stored then is asked about, as in a pattern that was edited.
    """
    digest = hashlib.sha256()
    foundation = proof.foundation
    if foundation is not None:
        digest.update(f"{foundation.kind} {foundation.chains}\n".encode())
    for at, row in enumerate(proof.rows):
        begun = foundation_of(proof, at) if at else None
        if begun is not None:
            digest.update(f"{begun.kind} {begun.chains}\n".encode())
        digest.update(f"{row.part}\t{row.label}\t{row.made}\t{row.text}\n".encode())
    return digest.hexdigest()[:16]


class Keeper:
    """Writes states of one piece for storing."""

    def __init__(self, piece: Piece, fingerprint: str) -> None:
        self._piece, self._fingerprint = piece, fingerprint
        self._alike = Counter(_text(stage) for stage in piece.stages)

    def stored(self, guide: Guide) -> str:
        """Return *guide* as it is to be stored: one line of JSON."""
        stage = self._piece.stage(guide)
        text = _text(stage)
        return json.dumps(
            {
                "form": FORM,
                "pattern": self._fingerprint,
                "label": stage.label,
                "text": text,
                "alike": self._alike[text],
                "done": guide.mode is Mode.FINISHED,
                "guide": to_plain(guide),
            },
            ensure_ascii=False,
            separators=(",", ":"),
        )


def _text(stage: Stage) -> str:
    return stage.row.text if stage.row is not None else ""


def read(state: str) -> Kept:
    """Return the state that was stored.

    Raises:
        ValueError: it can't be read, or a later coach has written it.
    """
    plain = json.loads(state)
    if not isinstance(plain, dict) or plain.get("form") != FORM:
        raise ValueError("the place was stored in a form that this coach can't read")
    return Kept(
        from_plain(plain["guide"]),
        str(plain["pattern"]),
        str(plain["label"]),
        str(plain["text"]),
        int(plain.get("alike", 1)),
    )


def fits(guide: Guide, piece: Piece) -> bool:
    """Return whether the stored place exists in *piece*."""
    if not 0 <= guide.stage < len(piece.stages):
        return False
    return 0 <= guide.step < len(piece.steps(guide.stage, guide.manner.pace))


def found_again(kept: Kept, piece: Piece) -> int | None:
    """Return the stage of an edited pattern that is the row of the stored place, or None.

    The row of the same name and words is taken; else one that has moved: of the same words, if
    only one had and has them. Where the row itself was changed there is none.
    """
    same = [at for at, stage in enumerate(piece.stages) if _text(stage) == kept.text]
    named = [at for at in same if piece.stages[at].label == kept.label]
    if named:
        return named[0]
    moved = kept.text and kept.alike == 1 and len(same) == 1
    return same[0] if moved else None


def same_name(kept: Kept, piece: Piece) -> int | None:
    """Return the stage of an edited pattern that has the stored place's name, or None."""
    found = (at for at, stage in enumerate(piece.stages) if stage.label == kept.label)
    return next(found, None)


def with_past(
    guide: Guide, fingerprint: str, commands: Sequence[str], states: Iterable[str]
) -> Guide:
    """Return *guide* with the past that the journal holds, so that undo goes on over days.

    The journal's events are gone through in order: each that changed the state is one step of
    undo, and each "undo" takes one away. What was done in an earlier form of the pattern can't
    be undone in this one.
    """
    here = f'"pattern":"{fingerprint}"'
    behind: list[str] = []
    present: str | None = None
    for command, state in zip(commands, states, strict=True):
        if here not in state:
            behind, present = [], None
            continue
        if command == Command.UNDO.value:
            if behind and state != present:
                behind.pop()
        elif present is not None and state != present:
            behind.append(present)
        present = state
    past: Past | None = None
    for state in behind:
        past = Past(replace(read(state).guide, past=past))
    return replace(guide, past=past)
