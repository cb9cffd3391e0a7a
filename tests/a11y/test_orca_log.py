"""The report on a screen reader's log finds what was said, when, and what was not said right."""

from tests.a11y.orca_log import report

LOG = """
10:00:00.100000 - SPEECH OUTPUT: 'Screen reader on.'{'established': False}
10:00:05.000000 - SPEECH OUTPUT: 'return ' {'established': False}
10:00:05.080000 - SPEECH OUTPUT: 'Chain 20. That's the
                  first.'[{'established': False}]
10:00:07.000000 - SPEECH OUTPUT: 'return ' {'established': False}
10:00:07.060000 - SPEECH OUTPUT: 'Chain 2.'[{'established': False}]
10:00:09.000000 - SPEECH OUTPUT: 'Screen reader off.'{'established': False}
"""


def test_steps_said_word_for_word_are_counted() -> None:
    told, wrong = report(LOG, ["Plain mode.", "Chain 20. That's the first.", "Chain 2."], 2)
    assert wrong == 0
    assert told == [
        "2 steps, 2 said word for word in one utterance, 0 drawing characters; "
        "key to speech request: median 70 ms, longest 80 ms"
    ]


def test_a_step_said_otherwise_is_told() -> None:
    told, wrong = report(LOG, ["Chain 20. That's the first.", "Chain 3."], 2)
    assert wrong == 1
    assert told[0] == "Written: 'Chain 3.'. Said: ('Chain 2.',)"


def test_a_silent_reader_is_told_as_no_measurement() -> None:
    told, wrong = report("", ["Chain 3."], 20)
    assert wrong == 20
    assert told == [
        "Nothing was measured: the reader heard none of 20 keys. "
        "See that its window has the focus, and run it again, alone."
    ]


def test_keys_that_were_lost_are_no_success() -> None:
    told, wrong = report(LOG, ["Chain 20. That's the first.", "Chain 2."], 5)
    assert wrong == 3
    assert told[0] == "Not all was measured: 3 of 5 keys never reached the reader."
