"""Settings are checked one by one; what can't be is told and nothing else is lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.app.settings import (
    Settings,
    UnknownSettingError,
    Value,
    changed,
    from_values,
    to_values,
    with_manner,
)
from coach.craft.steps import Pace


def test_what_is_stored_comes_back_as_it_was() -> None:
    settings = Settings(rate=130, hand="left", pace="stitch", keys={"f13": "next"})

    values = to_values(settings)

    assert values == {"rate": 130, "hand": "left", "pace": "stitch", "keys.f13": "next"}
    assert from_values(values) == (settings, ())


@pytest.mark.parametrize(
    ("name", "value", "told"),
    [
        ("rate", 5, "rate is between 80 and 320, not 5."),
        ("rate", "fast", "rate is a number, not fast."),
        ("hand", "both", "hand is one of: right, left. It can't be both."),
        ("terms", "AU", "terms is one of: nothing, US, UK. It can't be AU."),
        ("speech", 1, "speech is true or false, not 1."),
        ("colour", "red", "There is no setting colour."),
    ],
)
def test_what_can_not_be_is_told_and_the_rest_is_kept(name: str, value: Value, told: str) -> None:
    settings, left_out = from_values({name: value, "size": 4})

    assert left_out == (told,)
    assert settings == Settings(size=4)


def test_terms_are_taken_in_any_case() -> None:
    assert changed(Settings(), "terms", "uk").terms == "UK"


@given(st.dictionaries(st.text(), st.one_of(st.text(), st.integers(), st.floats(), st.booleans())))
def test_no_stored_values_stop_the_coach(values: dict[str, Value]) -> None:
    settings, left_out = from_values(values)

    assert len(left_out) <= len(values)
    assert settings.manner(None).terms in {"US", "UK"}


def test_a_fresh_setting_is_refused_by_name() -> None:
    with pytest.raises(UnknownSettingError):
        changed(Settings(), "keys", "all")


def test_gentle_time_keeps_the_usual_pace_for_afterwards() -> None:
    settings = Settings(pace="row", gentle=True)
    manner = settings.manner("UK")

    assert (manner.pace, manner.usual_pace, manner.terms) == (Pace.STITCH, Pace.ROW, "UK")
    assert with_manner(settings, manner) == settings
