"""Plain lines beside another display get the same, in the same order."""

import io

from coach.adapters.display_recorder import DisplayRecorder, Together
from coach.adapters.plain import PlainDisplay
from coach.ports import View
from coach.wording.words import Words

CHAIN = View(sentence="Chain 3.", headline="Row 2", big=("3", "chain"))


class TakesKeys(DisplayRecorder):
    """A display that can hand on the next key."""

    def next_key(self, taker: object) -> None:
        """Keep that a key was asked for."""
        self.shown.append(Words("asked", "asked"))


def test_each_display_gets_everything_in_order() -> None:
    stream, recorder = io.StringIO(), DisplayRecorder()
    both = Together((recorder, PlainDisplay(stream)))
    both.show(CHAIN)
    both.tell(Words("You are in row 2.", "Row 2"))
    assert recorder.shown == [CHAIN, Words("You are in row 2.", "Row 2")]
    assert recorder.views == [CHAIN]
    assert recorder.told == [Words("You are in row 2.", "Row 2")]
    assert stream.getvalue() == "Chain 3. Row 2.\nYou are in row 2.\n"


def test_only_a_display_with_keys_is_asked_for_the_next_key() -> None:
    with_keys = TakesKeys()
    Together((PlainDisplay(io.StringIO()), with_keys)).next_key(lambda key: None)
    assert with_keys.told == [Words("asked", "asked")]
