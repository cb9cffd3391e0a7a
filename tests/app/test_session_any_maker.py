"""Whatever a maker types, presses or says, in any order: it is answered, stored and taken up again."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coach.app.proving import prove_text
from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command
from coach.guide.place import Mode
from tests.app.maker import Maker
from tests.fakes import MemoryProgress

PIECE = prove_text(
    """\
    Small band (US terms)
    Gauge: 14 sts and 14 rows = 10 cm
    Ch 13.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (12)
    Row 2: Ch 1, turn, *sc in next 2 sts, dc in next st, ch 1, sk 1; rep from * across. (9 sts, 3 ch-1 sps)
    Row 3: Ch 1, turn, sc in each st and sp across. (12)
    Rep Row 3 until piece measures 6 cm, ending with a WS row.
    Fasten off.
    """
)
PHRASES = [phrase for binding in BINDINGS for phrase in (*binding.spoken, *binding.typed)]

lines = st.one_of(
    st.sampled_from(PHRASES),
    st.builds("{} {}".format, st.sampled_from(PHRASES), st.integers(0, 40)),
    st.integers(0, 60).map(str),
    st.text(max_size=12),
)
acts = st.lists(
    st.one_of(
        st.tuples(st.just("types"), lines),
        st.tuples(st.just("says"), lines),
        st.tuples(st.just("gives"), st.sampled_from(list(Command))),
        st.tuples(st.just("next"), st.just("")),
    ),
    max_size=25,
)


@given(acts)
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_maker_is_answered_and_taken_up_at_the_same_place(
    doings: list[tuple[str, str | Command]],
) -> None:
    progress = MemoryProgress()
    maker = Maker(PIECE, progress=progress)
    for way, what in doings:
        if maker.session.over:
            break
        maker.clock.wait(3)
        if way == "says":
            if maker.session.guide.manner.microphone:
                maker.says(str(what))
            continue
        told = (
            maker.gives(Command(what or "next"))
            if way in {"gives", "next"}
            else maker.types(str(what))
        )
        assert told, f"{way} {what} met silence"

    guide = maker.session.guide
    settings_kept = maker.kept[-1] if maker.kept else None
    again = Maker(PIECE, progress=progress, settings=settings_kept).session.guide
    assert (again.stage, again.step, again.longer, again.counts) == (
        guide.stage,
        guide.step,
        guide.longer,
        guide.counts,
    )
    assert (again.mode is Mode.FINISHED) == (guide.mode is Mode.FINISHED)
    assert not again.resting
