"""One maker, one piece: a command in; then the store, the screen and the voice, in that order.

The guide decides, wording words it, and this puts it through the ports. It holds no clock, no
file and no device of its own; whoever hears on another thread hands over through `in_turn`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from coach.app import keeping, taking_up
from coach.app.answers_told import SHOWN_ONLY, TOLD_BY_STATE, TOLD_WITH_STATE, answer_words
from coach.app.hearing import Hearing, mode_of
from coach.app.journal import Journal
from coach.app.opening import opening_notices
from coach.app.resting import Rests
from coach.app.settings import Settings, with_manner
from coach.app.teaching import Teaching
from coach.app.telling import Telling, foundations_before, together
from coach.craft.length import with_changes
from coach.craft.proof import Proof
from coach.craft.stages import stages
from coach.guide.answer import Answer, Reply
from coach.guide.commands import Command, Order
from coach.guide.counting import rows_unchecked
from coach.guide.machine import take
from coach.guide.manner import Manner
from coach.guide.place import Guide, Piece
from coach.guide.spoken_numbers import heard_number
from coach.guide.typed_lines import order_for
from coach.ports import Clock, Display, Ear, Heard, Progress, Speaker, View
from coach.wording import conversation, lessons_told, replies
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
        self._display, self._speaker, self._ear = display, speaker, ear
        self._clock = clock
        self._settings = settings or Settings()
        self._settle, self._heard, self._changed = settle, heard, changed
        self._in_turn = in_turn
        self._proof = proof
        self._telling = Telling(proof, Piece(stages(proof)))
        self._fingerprint = keeping.fingerprint_of(proof)
        self._journal = Journal(piece, progress, clock, self._fingerprint)
        self._journal.lay_out(self._telling.piece)
        self._guide = Guide(manner=self._settings.manner(proof.terms))
        self._laid_out = Guide()  # for whose answers and lengths the piece is laid out
        self._heard_at = 0.0  # when the last phrase was taken, by the ear's own clock
        self._tone_sounded = False  # for a phrase that was noticed and isn't taken yet
        self._hearing = Hearing(long_words=self._settings.long_words)
        self._rests = Rests(clock.now())
        self._lesson: Teaching | None = None
        self._unlearned: Mapping[str, str] | None = None  # own words before the lesson just over
        self._over = self._started = False
        self._listened: tuple[str, ...] = ()

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
        return mode_of(self._guide)

    @property
    def phrases(self) -> tuple[str, ...]:
        """The closed list of phrases that the ear is to take in the present mode."""
        return self._hearing.phrases(self._guide, self._telling.piece)

    def begin(self, at_row: int | None = None) -> None:
        """Take the piece up where it was left, or at the start, or at the row asked for."""
        taken = self._take_up(at_row)
        self._speaker.set_rate(self._guide.manner.rate)
        self._speaker.set_loudness(self._guide.manner.loudness)
        self._save("begin", at_row)
        self._let_hear()
        self._display.show(self._telling.view(self._guide, taken.words.full))
        words = taken.words
        if not taken.says_next or self._guide.question is not None:
            words = together(words, self._telling.state_words(self._guide))
        self._speaker.say(words)
        self._afterwards()

    def receive(self, order: Order) -> None:
        """Do what a key, a pedal or a typed line has asked for."""
        self._do(order)

    def choose(self, number: int) -> None:
        """Take the answer with this number, where something is asked."""
        self._do(Order(Command.CHOOSE, number))

    def typed(self, line: str) -> None:
        """Do what a typed line says, and answer one that isn't known; a bare one is the enter key."""
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
        if self._over or not self._guide.manner.microphone:
            return
        if heard.waits:
            self._notice_phrase()
            return
        if heard.interrupts and not heard.text:
            self._speaker.hold()  # perhaps a word for the coach: it goes on by itself if not
            return
        if self._lesson is not None:
            self._learn(self._lesson, self._lesson.hear(heard.readings))
            return
        self._heard(heard)
        rows = len(self._telling.proof.rows)
        piece = self._telling.piece
        # The ear's own time: a recording may be heard faster than it was spoken.
        at = heard.at or self._clock.now()
        self._heard_at = at + heard.ms / 1000
        understood = self._hearing.take(heard, at, self._guide, piece, rows)
        if understood.order is not None:
            self._do(understood.order, by_voice=True)
            return
        self._tone_sounded = False
        if understood.tone is not None:
            self._speaker.tone(understood.tone)
        if understood.words is not None:
            self._answer(understood.words)
            self._listen()

    def _notice_phrase(self) -> None:
        """Answer a phrase that may still grow with its one tone; what it asks for follows."""
        if self._lesson is None and not self._tone_sounded:
            self._speaker.tone("done")
            self._tone_sounded = True

    def notice(self, words: Words) -> None:
        """Tell that a part of the machine has come or gone."""
        self._display.tell(words)

    def close(self) -> None:
        """Let ear and speaker go. Everything is stored already."""
        self._over = True
        self._ear.close()
        self._speaker.close()

    # How it begins

    def _take_up(self, at_row: int | None) -> taking_up.TakenUp:
        """Set the first state, and return what is to be told of it."""
        taken = self._resumed() or taking_up.fresh(self._telling, self._guide.manner)
        if at_row is not None:
            taken = taking_up.at_row(at_row, taken.guide, self._telling)
        self._guide = taken.guide
        if self._guide.question is None:
            self._guide = taking_up.open_question(self._guide, self._telling)
        words = taken.words
        for told in reversed(opening_notices(self._proof)):
            words = together(told, words)
        return replace(taken, words=words)

    def _resumed(self) -> taking_up.TakenUp | None:
        """Go on where the maker was; in an edited pattern only after asking."""
        kept = self._journal.kept()
        if kept is None or isinstance(kept, Words):
            if kept is not None:
                self.notice(kept)
            return None
        manner = self._guide.manner
        if not self._settings.terms:
            manner = replace(manner, terms=kept.guide.manner.terms)
        if kept.fingerprint == self._fingerprint:
            self._lay_out(kept.guide)
            taken = taking_up.resumed(kept, self._telling, manner)
            if taken is not None:
                return taken
        self._lay_out(replace(kept.guide, longer=()))
        return taking_up.resumed_edited(kept, self._telling, manner)

    # What a command does

    def _do(self, order: Order, *, by_voice: bool = False) -> None:
        if self._over:
            return
        if self._is_of_lesson(order):
            return
        if order.command is Command.STOP_TALKING:
            self._speaker.stop()
        if not by_voice:
            self._hearing.put_aside()
        before = self._guide
        if order.command is Command.UNDO and before.past is None:
            before = self._journal.with_past(before)
        piece = self._telling.piece
        answer = take(before, order, piece, by_voice=by_voice)
        answer, rest = self._rests.offered(before, answer, piece, self._clock.now())
        self._lay_out(answer.guide)
        if answer.reply is Reply.SETTLED:
            answer = self._settled(answer)
        self._guide = answer.guide
        self._save(order.command.value, order.number)
        self._put_manner(before.manner)
        if answer.reply is Reply.LEARN:
            self._begin_lesson()
            return
        words = rest or self._words(answer, order)
        aside = _praise(before, answer) or self._check_offered(before, answer)
        self._show(answer, words, aside, offers_rest=rest is not None)
        if by_voice:
            if not self._tone_sounded:
                self._speaker.tone(_tone(before, self._guide))
            self._hearing.answered(self._heard_at)
        self._tone_sounded = False
        self._say(answer, words, aside)
        if answer.reply is Reply.GOODBYE:
            self._over = True
            return
        self._afterwards()

    # A lesson

    def _begin_lesson(self) -> None:
        if not self._guide.manner.microphone:
            self._answer(lessons_told.NO_MICROPHONE)
            return
        lesson = self._lesson = Teaching(self.phrases, self._settings.own_words)
        self._ear.learn(True)
        self._answer(lesson.begin())

    def _is_of_lesson(self, order: Order) -> bool:
        """Give *order* to the lesson; return whether that was all it meant."""
        lesson, unlearned, self._unlearned = self._lesson, self._unlearned, None
        if lesson is not None:
            told = lesson.order(order)
            self._learn(lesson, told)
            return told is not None
        if unlearned is None or order.command is not Command.UNDO:
            return False
        self._take_own_words(unlearned)
        self._answer(lessons_told.FORGOTTEN)
        return True

    def _learn(self, lesson: Teaching, told: Words | None) -> None:
        """Tell what came of a saying or an order, and keep what was learned when it is over."""
        if told is not None:
            self._answer(told)
        if not lesson.over:
            return
        self._lesson = None
        self._ear.learn(False)
        if lesson.changed:
            self._unlearned = self._settings.own_words
            self._take_own_words(lesson.own_words)

    def _take_own_words(self, own_words: Mapping[str, str]) -> None:
        self._settings = replace(self._settings, own_words=dict(own_words))
        self._ear.take_words(own_words)
        self._changed(self._settings)

    def _settled(self, answer: Answer) -> Answer:
        """Speak in the terms that were chosen, and ask what else the pattern leaves open."""
        guide = answer.guide
        if not self._settings.terms and self._proof.terms:
            guide = replace(guide, manner=replace(guide.manner, terms=self._proof.terms))
        return replace(answer, guide=taking_up.open_question(guide, self._telling))

    def _lay_out(self, guide: Guide) -> None:
        """Lay the piece out as *guide* has it: with its answers, and its rows more or fewer."""
        was = self._laid_out
        if (guide.answers, guide.longer) == (was.answers, was.longer):
            return
        if guide.answers != was.answers and self._settle is not None:
            self._proof = self._settle(guide.answers)
        piece = self._telling.piece
        changes = [(at - foundations_before(piece, at), by) for at, by in guide.longer]
        proof = with_changes(self._proof, changes)
        self._telling = Telling(proof, Piece(stages(proof)))
        self._journal.lay_out(self._telling.piece)
        self._laid_out = guide

    def _save(self, command: str, number: int | None) -> None:
        trouble = self._journal.save(command, number, self._guide)
        if trouble is not None:
            self._answer(trouble)

    def _put_manner(self, before: Manner) -> None:
        """Let voice and ear be as the maker has asked for, and let it be kept."""
        manner = self._guide.manner
        if manner == before:
            return
        if manner.rate != before.rate:
            self._speaker.set_rate(manner.rate)
        if manner.loudness != before.loudness:
            self._speaker.set_loudness(manner.loudness)
        if manner.microphone != before.microphone:
            self._let_hear()
        self._settings = with_manner(self._settings, manner)
        self._changed(self._settings)

    def _let_hear(self) -> None:
        """Start the ear where it is wanted; mute it where it isn't."""
        wanted = self._guide.manner.microphone
        if wanted and not self._started:
            self._started = True
            self._ear.start(self._hear_in_turn, self._tell_in_turn)
        if self._started:
            self._ear.mute(not wanted)

    def _words(self, answer: Answer, order: Order) -> Words:
        if answer.reply is Reply.TIME_LEFT:
            return self._journal.time_left(answer.guide)
        return answer_words(self._telling, answer, order)

    def _check_offered(self, before: Guide, answer: Answer) -> Words | None:
        """Coming to a new row after many without a count: offer one, in the same breath."""
        every, guide = self._settings.check_rows, answer.guide
        new_row = answer.reply is Reply.STEP and guide.stage > before.stage
        if not every or guide.manner.gentle or not new_row:
            return None
        rows = rows_unchecked(guide, self._telling.piece)
        return conversation.check_offered(rows) if rows and rows % every == 0 else None

    def _show(
        self, answer: Answer, words: Words, aside: Words | None, *, offers_rest: bool
    ) -> None:
        telling, guide = self._telling, self._guide
        if answer.reply in TOLD_BY_STATE:
            view = telling.view(guide, aside.full if aside else "")
            self._display.show(replace(view, sentence=words.full) if offers_rest else view)
        elif answer.reply in TOLD_WITH_STATE | SHOWN_ONLY:
            self._display.show(telling.view(guide, words.full))
        else:
            self._display.tell(words)

    def _say(self, answer: Answer, words: Words, aside: Words | None) -> None:
        if answer.reply is Reply.SILENT:
            return
        if answer.reply in TOLD_WITH_STATE:
            words = together(words, self._telling.state_words(self._guide))
        self._speaker.say(together(aside, words) if aside else words)

    def _answer(self, words: Words) -> None:
        self._display.tell(words)
        self._speaker.say(words)

    def _afterwards(self) -> None:
        """Make the likely next utterances ahead, and let the ear know what to listen for."""
        piece, telling = self._telling.piece, self._telling
        near = [
            take(self._guide, Order(each), piece).guide for each in (Command.NEXT, Command.BACK)
        ]
        self._speaker.prepare([telling.state_words(guide) for guide in (*near, self._guide)])
        self._listen()

    def _listen(self) -> None:
        phrases = self.phrases
        if phrases != self._listened:
            self._listened = phrases
            self._ear.listen_for(phrases)

    def _hear_in_turn(self, heard: Heard) -> None:
        self._in_turn(lambda: self.hear(heard))

    def _tell_in_turn(self, words: Words) -> None:
        self._in_turn(lambda: self.notice(words))


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
