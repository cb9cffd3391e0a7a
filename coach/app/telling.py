"""What stands before a maker in a given state.

It chooses among the sentences of `wording` and asks the guide nothing: a state goes in, a View
or Words come out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from coach.craft.drift_causes import FOUNDATION
from coach.craft.own_colors import own_color
from coach.craft.proof import Proof
from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.guide.place import Guide, Mode, Piece, stretch
from coach.ports import View
from coach.wording import conversation, questions_told, replies
from coach.wording.answers import resume_words
from coach.wording.row_facts import closing_count
from coach.wording.telling import view_parts, words_for_step
from coach.wording.words import Words

_KEPT = 64  # utterances


@dataclass(frozen=True, slots=True)
class Telling:
    """The words for one piece. signs: states of the machine, told in words on every view."""

    proof: Proof
    piece: Piece
    signs: tuple[str, ...] = ()
    _said: dict[tuple[object, ...], Words] = field(default_factory=dict, compare=False, repr=False)

    def step_words(self, guide: Guide) -> Words:
        """Return the words of the present step; the same every time it is asked for."""
        key = (guide.stage, guide.step, guide.manner, guide.colors)
        words = self._said.get(key)
        if words is None:
            if len(self._said) >= _KEPT:  # the steps around the present one are asked for again
                self._said.clear()
            words = self._said[key] = self._step_words(guide)
        return words

    def _step_words(self, guide: Guide) -> Words:
        stage, step = self._at(guide)
        manner = guide.manner
        if manner.gentle:
            return _without_counts(
                words_for_step(stage, step, manner.terms, manner.hand, opens=False), stage
            )
        words = words_for_step(stage, step, manner.terms, manner.hand)
        for before in (self._color_words(guide), self._length_words(guide)):
            words = words if before is None else together(before, words)
        return words

    def _color_words(self, guide: Guide) -> Words | None:
        """At the first step of a row: the colour of the maker's own list that comes in."""
        row = self.row_index(guide.stage)
        if row is None or guide.step > 0 or not guide.colors:
            return None
        color = own_color(self.proof.rows, row, guide.colors)
        if color is None:
            return None
        told = conversation.own_color_told(color, first=row == 0)
        return Words(told, color)

    def _length_words(self, guide: Guide) -> Words | None:
        """At the first of some rows that are worked for a length: how many were worked out."""
        span = stretch(self.piece, guide.stage)
        if span is None or guide.stage != span.start or guide.step > 0:
            return None
        row = self.piece.stages[guide.stage].row
        if row is None or row.until_cm is None:
            return None
        last = self.piece.stages[span.stop - 1]
        return conversation.length_words(row.until_cm, len(span), last)

    def state_words(self, guide: Guide) -> Words:
        """Return the words of what stands before the maker: the step, or what was asked."""
        if guide.question is not None:
            return questions_told.question_words(guide.question, guide, self.piece, self.proof)
        if guide.mode is Mode.PAUSED:
            return replies.PAUSED
        if guide.mode is Mode.FINISHED:
            return replies.FINISHED
        return self.step_words(guide)

    def view(self, guide: Guide, notice: str = "") -> View:
        """Return all that stands before the maker in this state."""
        stage, step = self._at(guide)
        words = self.state_words(guide)
        if guide.question is not None:
            words = questions_told.question_shown(guide.question, guide, self.piece, self.proof)
        shown = view_parts(stage, step, guide.manner.terms, guide.manner.hand)
        aside = guide.question is not None or guide.mode is not Mode.WORKING
        signs = self.signs
        if guide.mode is Mode.PAUSED:
            signs = ("paused", *signs)
        if guide.resting:
            signs = ("quiet time", *signs)
        if not guide.manner.microphone:
            signs = ("microphone off", *signs)
        return View(
            sentence=words.full,
            headline=shown.headline,
            big=(words.brief,) if aside else shown.big,
            group="" if aside else shown.group,
            count="" if guide.manner.gentle else shown.count,
            side=shown.side,
            signs=signs,
            choices=questions_told.choices(guide.question, self.proof),
            notice=notice,
            worked=0 if aside else shown.worked,
            at=address(stage, step),
            row_stitches=stage.stitches if stage.row is not None else None,
            done=guide.mode is Mode.FINISHED,
        )

    def resume_words(self, guide: Guide) -> Words:
        """Return what is told on coming back: piece, row, side, what is done, left, and next."""
        stage, step = self._at(guide)
        return resume_words(self.proof.title, stage, step, guide.manner.terms)

    def row_index(self, stage: int) -> int | None:
        """Return which row of the proof *stage* is, or None where it is none."""
        return self.piece.stages[stage].row_at

    def counts(self, guide: Guide) -> Mapping[int, int]:
        """Return what the maker has counted, by row of the proof; the foundation is row -1."""
        stages = self.piece.stages
        rows = {each.stage: stages[each.stage].row_at for each in guide.counts}
        return {
            FOUNDATION if rows[each.stage] is None else rows[each.stage] or 0: each.number
            for each in guide.counts
            if rows[each.stage] is not None or each.stage == 0
        }

    def _at(self, guide: Guide) -> tuple[Stage, Step]:
        return self.piece.stage(guide), self.piece.step(guide)


def foundations_before(piece: Piece, at: int) -> int:
    """Return how many foundations there are among the stages before *at*."""
    return sum(1 for stage in piece.stages[:at] if stage.kind is StageKind.FOUNDATION)


def address(stage: Stage, step: Step) -> dict[str, int]:
    """Return the step's address: row, block, repeat and the first stitch, each from 1; 0 for none."""
    number = stage.row.number if stage.row is not None else None
    return {
        "row": number or 0,
        "block": step.number,
        "repeat": step.passes[0].number if step.passes else 0,
        "stitch": step.first,
    }


def together(first: Words, second: Words) -> Words:
    """Return both as one utterance: a new one would cut off the one before."""
    return Words(f"{first.full} {second.full}", second.brief or first.brief)


def _without_counts(words: Words, stage: Stage) -> Words:
    """In gentle time nothing is counted: leave out the count that closes a row."""
    closing = closing_count(stage)
    if not closing:
        return words
    return Words(" ".join(words.full.replace(closing, "").split()), words.brief)
