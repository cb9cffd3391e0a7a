"""A session stores, shows and says, in that order, and loses nothing that was spoken."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from coach.app.proving import prove_text
from coach.app.settings import Settings
from coach.guide.bindings import BINDINGS, binding_of
from coach.guide.commands import TAKES_NUMBER, Command
from coach.guide.dialogue import RESTING
from coach.guide.place import Mode
from coach.ports import Event, Heard, OvertakenError
from coach.tui.keys import keymap
from coach.wording import replies
from tests.app.maker import Maker
from tests.fakes import MemoryProgress
from tests.guide.pieces import open_cloth, plain_cloth

CLOTH = """\
Learning cloth
Ch 17.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (16 sc)
Row 2: Ch 1, sc in each st across, turn. (16 sc)
Row 3: Ch 1, *sc in next st, dc in next st; rep from * across, turn. (8 sc, 8 dc)
Row 4: Ch 1, sc in each st across, turn. (16 sc)
"""


def test_a_command_is_stored_then_shown_then_said() -> None:
    maker = Maker(CLOTH)
    for command in (Command.NEXT, Command.WHERE, Command.COUNT, Command.PAUSE, Command.NEXT):
        maker.log.entries.clear()
        maker.gives(command)
        kinds = maker.log.kinds()
        shown = next(kind for kind in kinds if kind in {"shown", "told"})
        assert kinds.index("saved") < kinds.index(shown) < kinds.index("said"), command
        assert kinds.index("said") < kinds.index("prepared")


def test_what_was_heard_is_answered_with_a_tone_before_the_words() -> None:
    maker = Maker(CLOTH)
    maker.log.entries.clear()

    maker.says("next row")

    kinds = [kind for kind in maker.log.kinds() if kind != "prepared"]
    assert kinds == ["saved", "shown", "tone", "said"]
    assert maker.speaker.tones == ["forward"]
    maker.clock.wait(5)
    maker.says("go back")
    maker.clock.wait(5)
    maker.says("where am i")
    assert maker.speaker.tones == ["forward", "back", "done"]
    assert maker.heard == ["next row", "go back", "where am i"]


def test_a_phrase_that_may_still_grow_is_answered_with_one_tone_and_only_then_taken() -> None:
    """ "How many" may become "how many left": its tone comes before that is known, and once."""
    maker = Maker(CLOTH)
    before = maker.display.view
    maker.session.hear(Heard("", 1.0, 0, 1.0, waits=True))
    assert maker.speaker.tones == ["done"]
    assert (maker.display.view, maker.heard) == (before, []), "nothing is taken yet"

    maker.says("how many")
    assert maker.speaker.tones == ["done"]
    maker.clock.wait(5)
    maker.says("next row")
    assert maker.speaker.tones == ["done", "forward"]


def test_a_phrase_noticed_and_then_not_understood_is_told_so() -> None:
    maker = Maker(CLOTH)
    maker.session.hear(Heard("", 1.0, 0, 1.0, waits=True))

    maker.session.hear(Heard("", 0.55, 0, 1.5))

    assert maker.speaker.tones == ["done", "not understood"]


def test_the_next_the_last_and_the_present_words_are_made_ahead() -> None:
    maker = Maker(CLOTH)
    maker.gives(Command.NEXT)
    ahead = maker.speaker.prepared

    assert len(ahead) == 3
    assert ahead[2] == maker.said
    maker.gives(Command.NEXT)
    assert maker.said == ahead[0]


def test_repeat_says_the_same_words_again_for_as_long_as_it_takes() -> None:
    """R31: no input for 70 minutes, then 'repeat'; nothing was spoken or shown in between."""
    maker = Maker(CLOTH)
    maker.to_row(3, step=2)
    told, entries = maker.said, len(maker.log.entries)

    maker.clock.wait(70 * 60)
    assert len(maker.log.entries) == entries
    maker.gives(Command.REPEAT)

    assert maker.said == told
    assert maker.gives(Command.REPEAT) == maker.gives(Command.REPEAT)


def test_a_full_disk_is_told_once_and_the_work_goes_on() -> None:
    maker = Maker(CLOTH)
    maker.progress.full = True

    first = maker.gives(Command.NEXT)
    second = maker.gives(Command.NEXT)

    assert replies.NOT_SAVED.full in first
    assert replies.NOT_SAVED.full not in second
    assert maker.display.view.at["row"] == 1
    maker.progress.full = False
    maker.gives(Command.NEXT)
    maker.progress.full = True
    assert replies.NOT_SAVED.full in maker.gives(Command.NEXT), "a new trouble is told anew"


def test_a_second_coach_on_the_same_piece_is_told() -> None:
    class Overtaken(MemoryProgress):
        def save(self, piece: str, event: Event, state: str) -> None:
            raise OvertakenError("another coach")

    maker = Maker(CLOTH, progress=Overtaken())

    assert "Another coach is at work on this same piece" in " ".join(maker.display.lines)
    assert maker.gives(Command.NEXT)


def test_the_piece_is_taken_up_at_the_same_block_after_days() -> None:
    """R26: piece, row, side, what is done on this row and left, then what comes next."""
    progress = MemoryProgress()
    before = Maker(open_cloth(), progress=progress)
    before.to_row(14, step=5)  # the chain, 5 sc, then the groups: 2 of 4 are done
    before.session.close()

    after = Maker(open_cloth(), progress=progress)

    assert after.display.view.at == before.display.view.at
    assert after.first.startswith(
        "Open cloth. Row 14, wrong side facing. "
        "2 of 4 groups done. 9 stitches of the row below used, 9 left. "
        "Next: group 3 of 4. Double crochet in the next stitch, chain 1, skip"
    )
    assert after.said.startswith("Open cloth. Row 14, wrong side facing. 2 of 4 groups done")
    assert before.speaker.closed
    assert before.ear.closed


def test_undo_goes_on_over_days() -> None:
    progress = MemoryProgress()
    before = Maker(CLOTH, progress=progress)
    places = [dict(before.display.view.at)]
    for _ in range(5):
        before.gives(Command.NEXT)
        places.append(dict(before.display.view.at))
    before.gives(Command.UNDO)
    places.pop()

    after = Maker(CLOTH, progress=progress)
    for place in reversed(places[:-1]):
        after.gives(Command.UNDO)
        assert dict(after.display.view.at) == place
    assert replies.NOTHING_TO_UNDO.full in after.gives(Command.UNDO)


def test_a_maker_may_begin_at_any_row_with_the_count_to_check() -> None:
    maker = Maker(plain_cloth(26, 10), at_row=6)

    assert maker.first.startswith("Check 26 first.")
    assert maker.display.view.at["row"] == 6


def test_a_row_that_is_not_there_is_told_on_starting() -> None:
    maker = Maker(plain_cloth(26, 10), at_row=60)

    assert "There is no row 60. The last row is 10." in maker.first
    assert maker.display.view.at["row"] == 0


EDITED = CLOTH.replace("Row 2: Ch 1, sc", "Row 2: Ch 1, hdc").replace(
    "(16 sc)\nRow 3", "(16 hdc)\nRow 3"
)


def test_an_edited_pattern_is_never_resumed_silently() -> None:
    progress = MemoryProgress()
    Maker(CLOTH, progress=progress).to_row(3, step=2)

    after = Maker(EDITED, progress=progress)
    assert after.session.guide.now is Mode.ASKING
    assert "changed since you last worked on it. Shall we go on at Row 3?" in after.first
    assert after.display.view.choices == ("yes", "no")
    after.gives(Command.YES)
    assert (after.display.view.at["row"], after.display.view.at["block"]) == (3, 2)

    again = Maker(EDITED, progress=progress)
    assert "changed" not in again.first, "it is asked once"


def test_a_row_that_has_moved_is_found_by_its_words() -> None:
    progress = MemoryProgress()
    Maker(CLOTH, progress=progress).to_row(3, step=2)
    third = "Row 3: Ch 1, *sc"
    more = "Row 3: Ch 1, hdc in each st across, turn. (16 hdc)\nRow 4: Ch 1, *sc"
    moved = CLOTH.replace("Row 4:", "Row 5:").replace(third, more)

    after = Maker(moved, progress=progress)

    assert "Shall we go on at Row 4?" in after.first
    after.gives(Command.YES)
    assert (after.display.view.at["row"], after.display.view.at["block"]) == (4, 2)


def test_an_edited_row_is_begun_anew_and_no_goes_back_to_the_start() -> None:
    progress = MemoryProgress()
    Maker(CLOTH, progress=progress).to_row(2, step=2)

    after = Maker(EDITED, progress=progress)
    assert "Shall we go on at Row 2?" in after.first
    assert (after.session.guide.step, after.display.view.at["row"]) == (0, 2)
    after.gives(Command.NO)
    assert after.display.view.headline == "Foundation"


TWO_PIECES = """Gull (US terms)
BODY
Ch 9.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)
TAIL
Ch 7.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (6 sc)
Row 2: Ch 1, sc in each st across. (6 sc)
"""


def test_a_place_from_before_a_foundation_was_told_is_asked_about() -> None:
    laid_out = prove_text(TWO_PIECES)
    before = replace(laid_out, rows=tuple(replace(row, foundation=None) for row in laid_out.rows))
    progress = MemoryProgress()
    maker = Maker(before, progress=progress)
    while maker.display.view.at["row"] != 2:
        maker.gives(Command.NEXT)

    after = Maker(laid_out, progress=progress)

    assert "changed since you last worked on it. Shall we go on at Tail Row 2?" in after.first


def test_a_place_that_can_not_be_read_is_told_and_the_work_begins() -> None:
    progress = MemoryProgress()
    Maker(CLOTH, progress=progress)
    progress.spoil("piece", "no state")

    maker = Maker(CLOTH, progress=progress)

    assert "Your last place can't be read" in " ".join(maker.display.lines)
    assert maker.display.view.headline == "Foundation"


def test_a_line_that_is_not_known_is_answered() -> None:
    maker = Maker(CLOTH)

    assert maker.types("crochet me a bear") == replies.UNKNOWN_LINE.full
    assert maker.said == replies.UNKNOWN_LINE.full
    assert maker.display.view.headline == "Foundation"


def test_the_enter_key_alone_goes_on() -> None:
    maker = Maker(CLOTH)
    maker.types("")

    assert maker.display.view.at["row"] == 1


def test_numbered_answers_are_taken_by_number_in_plain_mode_too() -> None:
    maker = Maker(plain_cloth(26, 10))
    asked = maker.types("take me to row 9")
    assert "Go to Row 9?" in asked
    maker.types("1")
    assert maker.display.view.at["row"] == 9
    maker.types("take me to row 2", "2")
    assert maker.display.view.at["row"] == 9


def test_an_offered_answer_is_taken_by_its_spoken_number() -> None:
    maker = Maker(plain_cloth(26, 10))
    maker.types("take me to row 9")
    assert maker.says("one", confidence=0.3) == "", "not sure enough to move the place"
    maker.says("one")
    assert maker.display.view.at["row"] == 9


def test_a_row_number_is_asked_for_and_heard() -> None:
    maker = Maker(plain_cloth(26, 10))
    maker.to_row(5, step=2)
    maker.gives(Command.RIPPED)
    assert "end of Row 3?" in maker.says("three")
    maker.clock.wait(5)
    maker.says("yes please")
    assert maker.display.view.at["row"] == 4


def test_pace_and_time_left_come_from_the_maker_s_own_speed_and_only_when_asked() -> None:
    """26 stitches in 52 seconds a row: 30 a minute. After Row 6, 4 rows: 104 stitches, 208 s."""
    maker = Maker(plain_cloth(26, 10))
    assert "I can't tell your pace yet." in maker.types("how much time")
    while maker.display.view.at["row"] < 7:
        chain_alone = maker.display.view.at["stitch"] == 0
        maker.clock.wait(4 if chain_alone else 52)
        told = maker.types("next")
        assert "minute" not in told

    maker.clock.wait(3600)  # the telephone; it changes nothing
    assert maker.types("how much time") == (
        "You make about 30 stitches a minute. About 3 minutes of work on the rows that are left."
    )


def test_the_voice_goes_no_slower_and_no_louder_than_can_be_understood() -> None:
    maker = Maker(CLOTH)
    slow = [maker.types("slow down") for _ in range(5)]
    loud = [maker.types("speak up") for _ in range(3)]

    assert "as slow as I can be" in slow[-1]
    assert (maker.speaker.rate, maker.speaker.loudness) == (80, 100)
    assert "as loud as I can be" in loud[-1]


def test_a_count_within_a_row_tells_what_the_row_has_there() -> None:
    maker = Maker(open_cloth())
    maker.to_row(14, step=4)

    assert maker.types("7").startswith("7, right. Row 14 has 6 before this block, and 7 with it.")
    assert "Row 14 has 6 before this block" in maker.types("9")


def test_where_am_i_is_told_while_something_is_asked() -> None:
    maker = Maker(plain_cloth(26, 10))
    maker.types("take me to row 9")

    assert maker.types("where am i").startswith("Foundation")
    assert maker.session.guide.now is Mode.ASKING


def test_a_stitch_is_explained_one_movement_at_a_time() -> None:
    """The name goes with the first movement; each time more the next; 'repeat' is the block."""
    maker = Maker(CLOTH)
    maker.to_row(2, step=2)
    told = [maker.types("tell me more") for _ in range(3)]

    assert told[0].startswith("Single crochet. ")
    assert len(set(told)) == 3
    assert "single crochet" in maker.types("repeat").lower()
    assert maker.types("explain") not in told, (
        "repeating the block leaves the explanation where it was"
    )


def test_quit_by_key_or_line_ends_at_once_and_by_voice_after_asking() -> None:
    typed = Maker(CLOTH)
    typed.types("quit")
    assert typed.session.over
    heard = Maker(CLOTH)
    assert "Yes or no?" in heard.says("good night coach")
    assert heard.session.guide.now is Mode.ASKING
    heard.clock.wait(3)
    heard.says("yes please")
    assert heard.session.over
    assert heard.said == replies.SAVED.full


def test_two_next_within_the_answer_time_are_one() -> None:
    """L03: 'next' … 1.2 s … 'next' while the first is still being answered."""
    maker = Maker(CLOTH)
    maker.to_row(3, step=1)
    maker.says("next")
    maker.clock.wait(0.5)
    maker.says("next")

    assert maker.display.view.at["block"] == 2


def test_a_count_that_is_heard_wrongly_is_read_back_before_anything_is_explained() -> None:
    """L05: expected 32; 'thirty to', 'twenty two', 'thirty'."""
    maker = Maker(plain_cloth(32, 4))
    maker.to_the_end_of_row(2)

    assert maker.says("i have thirty to").startswith("32, right.")
    maker.clock.wait(5)
    assert (
        maker.says("i have twenty two") == "I heard: twenty two stitches. Is that right? Yes or no?"
    )
    maker.clock.wait(5)
    assert "10 too few" in maker.says("yes")
    maker.clock.wait(5)
    assert "I heard: thirty stitches. Is that right?" in maker.says("i have thirty")
    maker.clock.wait(5)
    assert "too few" not in maker.says("no")


def test_a_number_read_back_is_forgotten_when_a_key_is_pressed() -> None:
    maker = Maker(plain_cloth(32, 4))
    maker.to_the_end_of_row(2)
    maker.says("i have twenty two")
    maker.gives(Command.REPEAT)
    maker.clock.wait(5)

    assert "too few" not in maker.says("yes")


def test_quiet_time_takes_no_spoken_word_but_hello_coach() -> None:
    maker = Maker(CLOTH)
    maker.says("quiet time")
    maker.clock.wait(3)

    assert maker.session.mode == RESTING
    assert maker.ear.phrases == ("hello coach",)
    assert "quiet time" in maker.display.view.signs
    assert maker.says("next row") == ""
    maker.gives(Command.NEXT)
    assert maker.display.view.at["row"] == 1, "keys go on"
    maker.clock.wait(3)
    maker.says("hello coach")
    maker.clock.wait(3)
    maker.says("go back")
    assert maker.display.view.headline == "Foundation"


def test_the_ear_is_given_the_phrases_of_the_present_mode() -> None:
    maker = Maker(CLOTH)

    assert "next row" in maker.ear.phrases
    assert "i have #" in maker.ear.phrases
    assert maker.ear.phrases == maker.session.phrases


def test_one_key_switches_the_microphone_off_and_nothing_is_heard() -> None:
    """The sign says so in words; the setting is kept."""
    maker = Maker(CLOTH)
    maker.gives(Command.MICROPHONE)

    muted = [maker.ear.muted]
    assert "microphone off" in maker.display.view.signs
    assert maker.kept[-1].microphone is False
    assert maker.says("next row") == ""
    assert maker.heard == []
    maker.gives(Command.MICROPHONE)
    muted.append(maker.ear.muted)
    assert muted == [True, False]
    assert "microphone off" not in maker.display.view.signs
    maker.says("next row")
    assert maker.display.view.at["row"] == 1


def test_a_microphone_that_was_off_can_be_switched_on_later() -> None:
    maker = Maker(CLOTH, settings=Settings(microphone=False))
    maker.gives(Command.MICROPHONE)

    maker.says("next row")
    assert maker.display.view.at["row"] == 1


def test_without_a_microphone_the_ear_is_never_started() -> None:
    maker = Maker(CLOTH, settings=Settings(microphone=False))

    assert maker.ear.hears is None


def test_speed_and_loudness_reach_the_voice_and_are_kept() -> None:
    maker = Maker(CLOTH, settings=Settings(rate=150, loudness=80))
    maker.types("slow down", "speak up")

    assert (maker.speaker.rate, maker.speaker.loudness) == (130, 90)
    assert (maker.kept[-1].rate, maker.kept[-1].loudness) == (130, 90)
    maker.types("undo")
    assert maker.speaker.loudness == 80


def test_stop_talking_falls_silent_before_anything_else_is_done() -> None:
    maker = Maker(CLOTH)
    said = len(maker.speaker.said)
    maker.log.entries.clear()

    assert maker.types("stop talking") == replies.SILENT.full
    assert maker.log.kinds()[0] == "stopped"
    assert len(maker.speaker.said) == said


def test_the_view_tells_the_address_for_programs() -> None:
    maker = Maker(open_cloth())
    maker.to_row(14, step=5)
    view = maker.display.view

    assert view.at == {"row": 14, "block": 5, "repeat": 3, "stitch": 8}
    assert view.row_stitches == 14
    assert not view.done
    while not maker.display.view.done:
        maker.gives(Command.NEXT)
    assert maker.display.view.sentence == replies.FINISHED.full


def test_every_stored_state_is_one_line_of_json_with_the_row_it_is_at() -> None:
    maker = Maker(CLOTH)
    maker.to_row(2)

    for state in maker.progress.states("piece"):
        assert "\n" not in state
        assert json.loads(state)["label"]
    assert json.loads(maker.progress.states("piece")[-1])["label"] == "Row 2"


def answers(command: Command, number: int | None) -> dict[str, str]:
    """What a command comes to by voice, key, pedal and typed line, each in a fresh session."""
    binding = binding_of(command)
    keys = keymap(BINDINGS, {"f13": command.value})  # a pedal sends the key of the maker's choice
    told: dict[str, str] = {}
    for way in ("voice", "key", "pedal", "line"):
        fresh = Maker(plain_cloth(26, 10))
        fresh.to_row(4, step=2)
        tail = "" if number is None else f" {number}"
        if way == "voice" and binding.spoken:
            told[way] = fresh.says(binding.spoken[-1] + tail)
        elif way == "line":
            told[way] = fresh.types((*binding.typed, *binding.spoken)[0] + tail)
        elif way == "pedal":
            told[way] = fresh.gives(keys["f13"], number)
        elif way == "key" and binding.keys:
            told[way] = fresh.gives(keys[binding.keys[0]], number)
    return told


NUMBERS = {
    Command.COUNT: 26,
    Command.RIPPED: 2,
    Command.RIP_ROWS: 2,
    Command.GO_TO_ROW: 8,
    Command.REMIND: 20,
    Command.CHOOSE: 1,
    Command.WIDTH: 20,
}


@pytest.mark.parametrize(
    "command", [each for each in Command if each not in {Command.QUIT, Command.MICROPHONE}]
)
def test_every_command_comes_to_the_same_by_voice_key_pedal_and_line(command: Command) -> None:
    """Quitting and the microphone are apart: by voice alone they are asked about."""
    number = NUMBERS.get(command)
    assert (number is not None) == (command in TAKES_NUMBER)

    told = answers(command, number)

    assert len(set(told.values())) == 1, told
    assert all(told.values()), "no command meets silence"


def test_something_unsure_said_across_the_coach_holds_its_voice_and_nothing_else() -> None:
    maker = Maker(plain_cloth())
    said, place = list(maker.speaker.said), maker.display.view.at

    told = maker.says_across("")

    assert told == ""
    assert maker.log.kinds()[-1] == "held"
    assert maker.speaker.said == said
    assert maker.speaker.tones == [], "the silence is the answer"
    assert maker.display.view.at == place


def test_a_command_said_across_the_coach_is_done_like_any_other() -> None:
    maker = Maker(plain_cloth())
    place = maker.display.view.at

    maker.says_across("next row")

    assert maker.display.view.at != place
    assert "held" not in maker.log.kinds()


def test_in_loud_rooms_the_ear_listens_for_longer_words_only() -> None:
    maker = Maker(plain_cloth(), settings=Settings(long_words=True))

    assert "next row" in maker.ear.phrases
    assert [phrase for phrase in maker.ear.phrases if " " not in phrase and phrase != "#"] == []
