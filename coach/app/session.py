"""One maker, one piece: a command in; then the store, the screen and the voice, in that order.

The guide decides, wording words it, and this puts it through the ports. It holds no clock, no
file and no device of its own; whoever hears on another thread hands over through `in_turn`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime

from coach.app import keeping, pacing
from coach.app.settings import Settings, with_manner
from coach.app.telling import (
    SHOWN_ONLY,
    TOLD_BY_STATE,
    TOLD_WITH_STATE,
    Telling,
    opening_notices,
    rows_begin,
    together,
)
from coach.craft.length import with_changes
from coach.craft.proof import Proof
from coach.craft.stages import stages
from coach.guide.answer import Answer, Reply
from coach.guide.commands import BINDINGS, Command, Order, order_for
from coach.guide.counting import expected
from coach.guide.dialogue import RESTING, SURE_TO_MOVE, Dialogue, Taken
from coach.guide.machine import take
from coach.guide.manner import Manner
from coach.guide.place import Ask, Guide, Mode, Piece, Question, at_pace
from coach.guide.spoken_numbers import heard_number
from coach.ports import Clock, Display, Ear, Event, Heard, OvertakenError, Progress, Speaker, View
from coach.wording import conversation, replies
from coach.wording import heard as heard_words
from coach.wording.words import Words

Settle = Callable[[tuple[tuple[str, int], ...]], Proof]


def _nothing(*_: object) -> None:
    """Stand in for a caller who doesn't want to know."""


class Session:
    """A guided session. Make it, `begin` it, then give it orders, lines and heard phrases.

    piece: the name under which the place is kept. settle: proves the pattern again once its
    open questions are answered. heard: told of each phrase taken, before its answer. changed:
    told when the maker changes a setting by command. in_turn: does a thing on the thread that
    all calls come on, for an ear that hears on a thread of its own.
    """

    def __init__(
        self,
        proof: Proof,
        piece: str,
        *,
        display: Display,
        speaker: Speaker,
        ear: Ear,
        progress: Progress,
        clock: Clock,
        settings: Settings | None = None,
        settle: Settle | None = None,
        heard: Callable[[Heard], None] = _nothing,
        changed: Callable[[Settings], None] = _nothing,
        in_turn: Callable[[Callable[[], None]], None] = lambda act: act(),
    ) -> None:
        self._name = piece
        self._display, self._speaker, self._ear = display, speaker, ear
        self._progress, self._clock = progress, clock
        self._settings = settings or Settings()
        self._settle, self._heard, self._changed = settle, heard, changed
        self._in_turn = in_turn
        self._proof = proof
        self._telling = Telling(proof, Piece(stages(proof)))
        self._longer: tuple[tuple[int, int], ...] = ()
        self._answers: tuple[tuple[str, int], ...] = ()
        self._fingerprint = keeping.fingerprint_of(proof)
        self._keeper = keeping.Keeper(self._telling.piece, self._fingerprint)
        self._guide = Guide(manner=self._settings.manner(proof.terms))
        self._dialogue = Dialogue(BINDINGS)
        self._over = False
        self._save_failed = False
        self._recalled = False
        self._resumed = False  # the words on coming back say what comes next
        self._listened: tuple[str, ...] = ()
        self._worked_since = clock.now()

    @property
    def over(self) -> bool:
        """Whether the maker has ended the session."""
        return self._over

    @property
    def guide(self) -> Guide:
        """The state of the guided maker, for those who show or test it."""
        return self._guide

    @property
    def piece(self) -> Piece:
        """The piece as it is laid out now."""
        return self._telling.piece

    @property
    def view(self) -> View:
        """What stands before the maker now."""
        return self._telling.view(self._guide)

    @property
    def mode(self) -> str:
        """The mode as the ear knows it."""
        return RESTING if self._guide.resting else self._guide.now.value

    @property
    def phrases(self) -> tuple[str, ...]:
        """The closed list of phrases that the ear is to take in the present mode."""
        question = self._guide.question
        asked = question is not None
        due = expected(self._guide, self._telling.piece) is not None
        return self._dialogue.phrases(self.mode, number_asked=asked or due)

    def begin(self, at_row: int | None = None) -> None:
        """Take the piece up where it was left, or at the start, or at the row asked for."""
        notice = self._take_up(at_row)
        self._speaker.set_rate(self._guide.manner.rate)
        self._speaker.set_loudness(self._guide.manner.loudness)
        self._save("begin", at_row)
        if self._settings.microphone:
            self._ear.start(self._hear_in_turn, self._tell_in_turn)
        self._display.show(self._telling.view(self._guide, notice.full))
        says_next = self._resumed and self._guide.question is None
        words = self._telling.state_words(self._guide)
        self._speaker.say(notice if says_next else together(notice, words))
        self._afterwards()

    def receive(self, order: Order) -> None:
        """Do what a key, a pedal or a typed line has asked for."""
        self._do(order)

    def choose(self, number: int) -> None:
        """Take the answer with this number, where something is asked."""
        self._do(Order(Command.CHOOSE, number))

    def typed(self, line: str) -> None:
        """Do what a typed line says; a bare line end is the enter key. A line that isn't known
        is answered."""
        if not line.strip():
            self._do(Order(Command.NEXT))
            return
        order = order_for(line, heard_number)
        if order is None:
            self._answer(replies.UNKNOWN_LINE)
        else:
            self._do(order)

    def hear(self, heard: Heard) -> None:
        """Take a phrase that the ear has heard: it may be an order, a question, or nothing."""
        if self._over:
            return
        self._heard(heard)
        question = self._guide.question
        chosen = heard_number(heard.text) if question is not None and question.answers else None
        if question and chosen and chosen <= question.answers and not self._guide.resting:
            if heard.confidence >= SURE_TO_MOVE:
                self._do(Order(Command.CHOOSE, chosen), by_voice=True)
            return
        due = expected(self._guide, self._telling.piece)
        if due is None and question is not None and question.kind in {Ask.NUMBER, Ask.PATTERN}:
            due = 0
        taken = self._dialogue.take(
            heard.text,
            heard.confidence,
            self._clock.now(),
            mode=self.mode,
            expected_count=due,
            rows=len(self._telling.proof.rows),
        )
        self._take_heard(taken)

    def notice(self, words: Words) -> None:
        """Tell that a part of the machine has come or gone."""
        self._display.tell(words)

    def close(self) -> None:
        """Let ear and speaker go. Everything is stored already."""
        self._over = True
        self._ear.close()
        self._speaker.close()

    # What it does

    def _take_up(self, at_row: int | None) -> Words:
        """Set the first state, and return what is to be told before it."""
        telling = self._telling
        kept = self._kept()
        words = self._resume(kept) if kept is not None else replies.began(telling.proof.title)
        if at_row is not None:
            answer = take(self._guide, Order(Command.GO_TO_ROW, at_row), telling.piece)
            if answer.guide.question is not None:  # asked for on starting: there is no need to ask
                answer = take(answer.guide, Order(Command.YES), telling.piece)
            self._guide = answer.guide
            words = telling.answer_words(answer, Order(Command.GO_TO_ROW, at_row), _NONE)
            self._resumed = False
        for told in reversed(opening_notices(telling.proof)):
            words = together(told, words)
        if self._guide.question is None:
            self._ask_what_the_pattern_leaves_open()
        return words

    def _kept(self) -> keeping.Kept | None:
        try:
            state = self._progress.state(self._name)
            return keeping.read(state) if state is not None else None
        except (OSError, ValueError) as fault:
            reason = str(fault) or type(fault).__name__
            self.notice(Words(f"Your last place can't be read: {reason}.", "Place not read"))
            return None

    def _resume(self, kept: keeping.Kept) -> Words:
        """Go on where the maker was; in an edited pattern only after asking."""
        manner, guide = self._guide.manner, kept.guide
        if not self._settings.terms:
            manner = replace(manner, terms=guide.manner.terms)
        if kept.fingerprint != self._fingerprint:
            return self._resume_edited(kept, manner)
        self._guide = guide
        if guide.answers:
            self._prove_again(guide.answers)
        self._lay_out()
        piece = self._telling.piece
        if not keeping.fits(guide, piece):
            return self._resume_edited(kept, manner)
        step = at_pace(piece, guide, manner.pace)
        mode = Mode.FINISHED if guide.mode is Mode.FINISHED else Mode.WORKING
        self._guide = replace(guide, manner=manner, step=step, mode=mode, resting=False)
        self._resumed = True
        return self._telling.resume_words(self._guide)

    def _resume_edited(self, kept: keeping.Kept, manner: Manner) -> Words:
        piece = self._telling.piece
        stage = keeping.found_again(kept, piece)
        step = kept.guide.step
        if stage is None:
            stage, step = keeping.same_name(kept, piece) or 0, 0
        guide = replace(
            kept.guide, stage=stage, step=step, mode=Mode.WORKING, resting=False, counts=()
        )
        if not keeping.fits(guide, piece):
            guide = replace(guide, step=0)
        guide = replace(guide, step=at_pace(piece, guide, manner.pace), manner=manner)
        self._guide = replace(guide, question=Question(Ask.EDITED, number=stage))
        return replies.resumed(self._telling.proof.title)

    def _ask_what_the_pattern_leaves_open(self) -> None:
        settled = {question for question, _ in self._guide.answers}
        for at, question in enumerate(self._telling.proof.questions):
            if question.what not in settled and question.choices:
                answers = len(question.choices)
                asked = Question(Ask.PATTERN, number=at, answers=answers, about=question.what)
                self._guide = replace(self._guide, question=asked)
                return

    def _prove_again(self, answers: tuple[tuple[str, int], ...]) -> None:
        self._answers = answers
        if self._settle is None:
            return
        self._proof = self._settle(answers)
        self._lay_out()

    def _lay_out_as_stated(self) -> None:
        """After an answer, a change of length, or the undoing of either: lay the piece out anew."""
        if self._guide.answers != self._answers:
            self._prove_again(self._guide.answers)
        elif self._guide.longer != self._longer:
            self._lay_out()

    def _lay_out(self) -> None:
        """Lay the piece out as stages, with the rows more or fewer that the maker has asked for."""
        first = rows_begin(self._telling.piece)
        self._longer = self._guide.longer
        proof = with_changes(self._proof, [(at - first, by) for at, by in self._longer])
        self._telling = Telling(proof, Piece(stages(proof)), self._telling.signs)
        self._keeper = keeping.Keeper(self._telling.piece, self._fingerprint)

    def _do(self, order: Order, *, by_voice: bool = False) -> None:
        if self._over:
            return
        if order.command is Command.STOP_TALKING:
            self._speaker.stop()
        before = self._guide
        if order.command is Command.UNDO and before.past is None:
            before = self._guide = self._with_stored_past()
        answer = take(before, order, self._telling.piece, by_voice=by_voice)
        answer, rest = self._rest_offered(before, answer)
        if answer.reply is Reply.SETTLED:
            answer = self._settled(answer)
        self._guide = answer.guide
        self._lay_out_as_stated()
        self._save(order.command.value, order.number)
        self._put_manner(before.manner)
        self._tell(answer, order, before, rest=rest, by_voice=by_voice)
        if answer.reply is Reply.GOODBYE:
            self._over = True
            return
        self._afterwards()

    def _with_stored_past(self) -> Guide:
        """Return the state with what the journal remembers of days before."""
        if self._recalled:
            return self._guide
        self._recalled = True
        try:
            commands = [event.command for event in self._progress.events(self._name)]
            states = self._progress.states(self._name)
            return keeping.with_past(self._guide, self._fingerprint, commands, states)
        except (OSError, ValueError):
            return self._guide

    def _settled(self, answer: Answer) -> Answer:
        """Prove the pattern as its maker reads it, and ask what else it leaves open."""
        self._prove_again(answer.guide.answers)
        self._guide = answer.guide
        if not self._settings.terms and self._proof.terms:
            manner = replace(self._guide.manner, terms=self._proof.terms)
            self._guide = replace(self._guide, manner=manner)
        self._ask_what_the_pattern_leaves_open()
        return replace(answer, guide=self._guide)

    def _rest_offered(self, before: Guide, answer: Answer) -> tuple[Answer, Words | None]:
        """At the end of a block, when it is time: pause, and offer a rest."""
        minutes = answer.guide.manner.rest_minutes
        now = self._clock.now()
        if answer.reply in {Reply.CARRIED_ON, Reply.REMIND}:
            self._worked_since = now
        due = minutes and now - self._worked_since >= 60 * minutes
        goes_on = (answer.guide.stage, answer.guide.step) > (before.stage, before.step)
        if not due or answer.reply is not Reply.STEP or not goes_on:
            return answer, None
        self._worked_since = now
        done = conversation.done_told(self._telling.piece, before)
        paused = replace(answer.guide, mode=Mode.PAUSED)
        words = replies.rest_reminder(minutes, done)
        return Answer(paused, Reply.PAUSED), words

    def _save(self, command: str, number: int | None) -> None:
        guide = self._guide
        at = datetime.fromtimestamp(self._clock.now(), UTC).isoformat(timespec="milliseconds")
        event = Event(command, number, at, guide.stage + 1, guide.step + 1)
        state = self._keeper.stored(guide)
        try:
            self._progress.save(self._name, event, state)
        except OSError as fault:
            if not self._save_failed:
                self._save_failed = True
                overtaken = isinstance(fault, OvertakenError)
                self._answer(conversation.OVERTAKEN if overtaken else replies.NOT_SAVED)
        else:
            self._save_failed = False

    def _put_manner(self, before: Manner) -> None:
        manner = self._guide.manner
        if manner == before:
            return
        if manner.rate != before.rate:
            self._speaker.set_rate(manner.rate)
        if manner.loudness != before.loudness:
            self._speaker.set_loudness(manner.loudness)
        self._settings = with_manner(self._settings, manner)
        self._changed(self._settings)

    def _tell(
        self, answer: Answer, order: Order, before: Guide, *, rest: Words | None, by_voice: bool
    ) -> None:
        if rest is not None:
            words = rest
            self._display.show(replace(self._telling.view(self._guide), sentence=rest.full))
        elif answer.reply in TOLD_BY_STATE:
            words = self._telling.state_words(self._guide)
            praise = _praise(before, answer)
            self._display.show(self._telling.view(self._guide, praise.full if praise else ""))
            words = together(praise, words) if praise else words
        else:
            words = self._telling.answer_words(answer, order, self._time_left(answer))
            if answer.reply in TOLD_WITH_STATE:
                self._display.show(self._telling.view(self._guide, words.full))
                words = together(words, self._telling.state_words(self._guide))
            elif answer.reply in SHOWN_ONLY:
                self._display.show(self._telling.view(self._guide, words.full))
            else:
                self._display.tell(words)
        if by_voice:
            self._speaker.tone(_tone(before, self._guide))
            self._dialogue.answered(self._clock.now())
        if answer.reply is not Reply.SILENT:
            self._speaker.say(words)

    def _time_left(self, answer: Answer) -> Words:
        if answer.reply is not Reply.TIME_LEFT:
            return _NONE
        try:
            events = self._progress.events(self._name)
        except OSError:
            events = ()
        return pacing.time_left(events, self._guide, self._telling.piece)

    def _answer(self, words: Words) -> None:
        self._display.tell(words)
        self._speaker.say(words)

    def _afterwards(self) -> None:
        """Make the likely next utterances ahead, and let the ear know what to listen for."""
        piece = self._telling.piece
        likely = [
            take(self._guide, Order(command), piece).guide
            for command in (Command.NEXT, Command.BACK)
        ]
        self._speaker.prepare(
            [self._telling.state_words(guide) for guide in (*likely, self._guide)]
        )
        phrases = self.phrases
        if phrases != self._listened:
            self._listened = phrases
            self._ear.listen_for(phrases)

    def _take_heard(self, taken: Taken) -> None:
        if taken.order is not None:
            self._do(taken.order, by_voice=True)
            return
        if taken.tone is not None:
            self._speaker.tone(taken.tone)
        if taken.ask is not None:
            self._answer(heard_words.question_words(taken.ask))
            self._afterwards()
        if taken.say is not None:
            self._answer(heard_words.hint_words(taken.say))

    def _hear_in_turn(self, heard: Heard) -> None:
        self._in_turn(lambda: self.hear(heard))

    def _tell_in_turn(self, words: Words) -> None:
        self._in_turn(lambda: self.notice(words))


_NONE = Words("", "")


def _praise(before: Guide, answer: Answer) -> Words | None:
    """In gentle time the end of each row is praised, and nothing is counted."""
    row_done = answer.reply is Reply.STEP and answer.guide.stage > before.stage
    return conversation.PRAISE if row_done and answer.guide.manner.gentle else None


def _tone(before: Guide, after: Guide) -> str:
    """Return the tone for what a spoken command did: rising for forward, falling for back."""
    place, was = (after.stage, after.step), (before.stage, before.step)
    if place == was:
        return "done"
    return "forward" if place > was else "back"
