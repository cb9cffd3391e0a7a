"""What stands before a maker in a given state, and the words of what was just answered.

It chooses among the sentences of `wording` and asks the guide nothing: a state goes in, a View
or Words come out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from coach.craft.drift import diagnose
from coach.craft.drift_causes import FOUNDATION
from coach.craft.own_colors import colors_left_open, own_color
from coach.craft.problem import Verdict
from coach.craft.proof import Proof
from coach.craft.stages import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.width import check_width, unit_of
from coach.guide import answering
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command, Order
from coach.guide.counting import measured_width
from coach.guide.machine import MOVES
from coach.guide.place import Guide, Mode, Piece, stretch
from coach.ports import View
from coach.wording import before_the_start, conversation, help_told, questions_told, replies
from coach.wording import drift as drift_words
from coach.wording.answers import how_many_words, left_words, resume_words
from coach.wording.explaining import explain_step
from coach.wording.looking import seen_words, side_test
from coach.wording.row_facts import closing_count
from coach.wording.telling import view_parts, words_for_step
from coach.wording.whereabouts import more_where_words, where_words
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

    def answer_words(self, answer: Answer, order: Order) -> Words:
        """Return the words of a reply. Steps and questions are told as they stand."""
        if answer.guide.manner.gentle and answer.reply in {Reply.JUMPED, Reply.RIPPED}:
            return conversation.FRESH_START
        plain = conversation.reply_words(answer, self.piece)
        if plain is not None:
            return plain
        about = _ABOUT.get(answer.reply)
        if about is not None:
            return about(self, answer, order)
        return self.state_words(answer.guide)

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


def _where(telling: Telling, answer: Answer, order: Order) -> Words:
    return where_words(telling.piece.stage(answer.guide), telling.piece.step(answer.guide))


def _where_more(telling: Telling, answer: Answer, order: Order) -> Words:
    """What the place had no room for; where nothing was left out, what is left of the work."""
    stage, step = telling.piece.stage(answer.guide), telling.piece.step(answer.guide)
    return more_where_words(stage, step) or _left(telling, answer, order)


def _how_many(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    return how_many_words(stage, step, guide.manner.terms)


def _left(telling: Telling, answer: Answer, order: Order) -> Words:
    piece, guide = telling.piece, answer.guide
    following = piece.stages[guide.stage + 1 : guide.stage + 2]
    return left_words(piece.stage(guide), piece.step(guide), following[0] if following else None)


def _explain(telling: Telling, answer: Answer, order: Order) -> Words:
    """The first time the step in short movements begins; each time more the next movement."""
    guide, piece = answer.guide, telling.piece
    stage, step = piece.stage(guide), piece.step(guide)
    told = explain_step(stage, step, guide.manner.terms, telling.proof.special_stitches)
    if not told:
        return telling.step_words(guide)
    if len(told) > 1:  # the stitch's name alone explains nothing: the first movement goes with it
        told = (together(told[0], told[1]), *told[2:])
    return told[answer.number % len(told)]


def _see(telling: Telling, answer: Answer, order: Order) -> Words:
    """What stands there now; at a row's end also which side faces, by the starting tail."""
    guide, manner = answer.guide, answer.guide.manner
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    seen = seen_words(stage, step, manner.terms, manner.hand)
    test = side_test(stage, manner.hand) if step.closes_stage and stage.side else ""
    return Words(f"{seen.full} {test}", seen.brief) if test else seen


def _again(telling: Telling, answer: Answer, order: Order) -> Words:
    return telling.step_words(answer.guide)


def _help(telling: Telling, answer: Answer, order: Order) -> Words:
    moves = MOVES[answer.guide.now]
    return help_told.help_words(tuple(moves), answer.number)


def _count_right(telling: Telling, answer: Answer, order: Order) -> Words:
    return drift_words.right(telling.piece.stages[answer.stage or 0], answer.number)


def _count_kept(telling: Telling, answer: Answer, order: Order) -> Words:
    return drift_words.kept(telling.piece.stages[answer.stage or 0], answer.number)


def _count_within(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    return drift_words.within(stage, step, answer.number)


def _count_off(telling: Telling, answer: Answer, order: Order) -> Words:
    stage = answer.stage or 0
    row = telling.row_index(stage)
    counts = telling.counts(answer.guide)
    proof = telling.proof
    if row is None:  # the foundation, of this part or of another
        proof = replace(proof, foundation=telling.piece.stages[stage].foundation)
    found = diagnose(proof, FOUNDATION if row is None else row, answer.number, counts)
    return drift_words.diagnosis(found, answer.guide.manner.terms)


def _width(telling: Telling, answer: Answer, order: Order) -> Words:
    gauge = telling.proof.gauge
    unit = order.unit or unit_of(gauge)
    guide, piece = answer.guide, telling.piece
    told = replace(measured_width(Given(guide, order, piece)), unit=unit)
    first = replace(guide.width, unit=guide.width.unit or unit) if guide.width else None
    if first == told:  # only just told: there is nothing yet to compare it with
        first = None
    return drift_words.width(check_width(told, gauge, first))


def _answer(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    question = guide.question
    if question is None:
        return telling.state_words(guide)
    given = Given(guide, Order(Command.NEXT), telling.piece)
    number = answering.answer_number(given, question)
    return questions_told.answer_words(question, number, telling.proof)


_ABOUT: Mapping[Reply, Callable[[Telling, Answer, Order], Words]] = {
    Reply.AGAIN: _again,
    Reply.WHERE: _where,
    Reply.WHERE_MORE: _where_more,
    Reply.HOW_MANY: _how_many,
    Reply.LEFT: _left,
    Reply.EXPLAIN: _explain,
    Reply.SEE: _see,
    Reply.HELP_IN_FULL: _help,
    Reply.COUNT_RIGHT: _count_right,
    Reply.COUNT_KEPT: _count_kept,
    Reply.COUNT_WITHIN: _count_within,
    Reply.COUNT_OFF: _count_off,
    Reply.WIDTH: _width,
    Reply.ANSWER: _answer,
}

# After these the present state is shown anew, with the reply as a notice before it.
TOLD_WITH_STATE = frozenset(
    {
        Reply.UNDONE,
        Reply.CARRIED_ON,
        Reply.RIPPED,
        Reply.JUMPED,
        Reply.PACE,
        Reply.TERMS,
        Reply.HAND,
        Reply.GENTLE,
        Reply.GENTLE_ENDS,
        Reply.LEFT_AS_IT_WAS,
        Reply.SETTLED,
        Reply.LONGER,
        Reply.LONG_ENOUGH,
    }
)
# After these it is shown anew because a sign has changed, but only the reply is said.
SHOWN_ONLY = frozenset({Reply.QUIET_TIME, Reply.AWAKE, Reply.MICROPHONE_ON, Reply.MICROPHONE_OFF})
# After these the present state is shown and nothing else is told.
TOLD_BY_STATE = frozenset({Reply.STEP, Reply.ASKED, Reply.PAUSED, Reply.FINISHED})


def together(first: Words, second: Words) -> Words:
    """Return both as one utterance: a new one would cut off the one before."""
    return Words(f"{first.full} {second.full}", second.brief or first.brief)


def opening_notices(proof: Proof) -> tuple[Words, ...]:
    """Return what a maker must know before the first stitch: rows that can't be guided."""
    notices: list[Words] = []
    silent = [row.label for row in proof.rows if row.verdict is Verdict.NO_WORDS]
    if silent:
        notices.append(before_the_start.rows_without_words(silent))
    if proof.not_in_words:
        notices.append(before_the_start.not_in_words(proof.not_in_words))
    faulty = [
        row.label
        for row in proof.rows
        if row.verdict not in {Verdict.OK, Verdict.NO_WORDS, Verdict.UNCLEAR}
    ]
    if faulty:
        notices.append(before_the_start.faults_found(faulty))
    if colors_left_open(proof.rows, (*proof.colors, *proof.materials)):
        notices.append(replies.NO_COLOR_WORDS)
    return tuple(notices)


def _without_counts(words: Words, stage: Stage) -> Words:
    """In gentle time nothing is counted: leave out the count that closes a row."""
    closing = closing_count(stage)
    if not closing:
        return words
    return Words(" ".join(words.full.replace(closing, "").split()), words.brief)
