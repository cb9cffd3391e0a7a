"""A guided maker's state as plain values, and back: what a store can keep, whatever store it is."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from coach.craft.steps import Pace
from coach.craft.width import Width
from coach.guide.manner import Manner
from coach.guide.place import Counted, Guide, Mode


def to_plain(guide: Guide) -> dict[str, object]:
    """Return *guide* as plain values that can be stored; its past is stored elsewhere."""
    manner = guide.manner
    return {
        "stage": guide.stage,
        "step": guide.step,
        "mode": guide.mode.value,
        "resting": guide.resting,
        "counts": [[each.stage, each.number, int(each.kept)] for each in guide.counts],
        "began": guide.began,
        "answers": [list(each) for each in guide.answers],
        "colors": list(guide.colors),
        "width": _width_to_plain(guide.width),
        "longer": [list(each) for each in guide.longer],
        "manner": {
            "pace": manner.pace.value,
            "terms": manner.terms,
            "hand": manner.hand,
            "gentle": manner.gentle,
            "rate": manner.rate,
            "loudness": manner.loudness,
            "rest_minutes": manner.rest_minutes,
            "usual_pace": manner.usual_pace.value,
            "microphone": manner.microphone,
        },
    }


def from_plain(plain: Mapping[str, object]) -> Guide:
    """Return the guide that `to_plain` made *plain* of.

    Raises:
        ValueError: it is not such a thing.
    """
    try:
        manner = dict(_mapping(plain["manner"]))
        return Guide(
            stage=_whole(plain["stage"]),
            step=_whole(plain["step"]),
            mode=Mode(str(plain["mode"])),
            resting=bool(plain["resting"]),
            counts=tuple(
                Counted(stage, number, bool(kept)) for stage, number, kept in _rows(plain["counts"])
            ),
            began=_whole(plain["began"]),
            answers=_answers(plain["answers"]),
            colors=_texts(plain["colors"]),
            width=_width_from_plain(plain["width"]),
            longer=tuple((stage, rows) for stage, rows in _rows(plain["longer"])),
            manner=Manner(
                pace=Pace(str(manner["pace"])),
                terms=str(manner["terms"]),
                hand=str(manner["hand"]),
                gentle=bool(manner["gentle"]),
                rate=_whole(manner["rate"]),
                loudness=_whole(manner["loudness"]),
                rest_minutes=_whole(manner["rest_minutes"]),
                usual_pace=Pace(str(manner["usual_pace"])),
                microphone=bool(manner["microphone"]),
            ),
        )
    except (KeyError, TypeError) as fault:
        raise ValueError(f"not a stored place: {fault}") from fault


def _texts(plain: object) -> tuple[str, ...]:
    if not isinstance(plain, list):
        raise TypeError(f"{plain!r} is no list")
    return tuple(str(each) for each in plain)


def _answers(plain: object) -> tuple[tuple[str, int], ...]:
    if not isinstance(plain, list):
        raise TypeError(f"{plain!r} is no list")
    return tuple((str(question), _whole(answer)) for question, answer in plain)


def _width_to_plain(width: Width | None) -> list[object] | None:
    if width is None:
        return None
    return [str(width.measure), width.unit, width.stitches]


def _width_from_plain(plain: object) -> Width | None:
    if plain is None:
        return None
    if not isinstance(plain, list) or len(plain) != 3:
        raise TypeError(f"{plain!r} is no width")
    return Width(Fraction(str(plain[0])), str(plain[1]), _whole(plain[2]))


def _whole(value: object) -> int:
    if not isinstance(value, int):
        raise TypeError(f"{value!r} is no whole number")
    return value


def _mapping(value: object) -> Mapping[str, object]:
    if not isinstance(value, Mapping):
        raise TypeError(f"{value!r} is no table")
    return value


def _rows(value: object) -> list[list[int]]:
    if not isinstance(value, list):
        raise TypeError(f"{value!r} is no list")
    return [[_whole(each) for each in row] for row in value]
