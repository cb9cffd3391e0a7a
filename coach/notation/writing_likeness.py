"""When two drafts are the same pattern: what is left when places and the words as given are put aside."""

from __future__ import annotations

import dataclasses
from dataclasses import replace
from typing import Any

from coach.craft.pattern import Draft, Part
from coach.craft.problem import Place, Problem
from coach.notation.writing_front import UNTITLED

_NOWHERE = Place(1, 1)


def alike(draft: Draft) -> Draft:
    """Return *draft* in the form in which two drafts of the same pattern are equal.

    Places, the words as given, clues and the sizes not chosen are left out; headings that no
    row stands under too. Stitches have US names inside a draft, so terms make no difference.
    """
    specials = {name: replace(each, definition="") for name, each in sorted(draft.specials.items())}
    plain: Draft = bare(draft)
    return replace(
        plain,
        title="" if draft.title == UNTITLED else draft.title,
        terms=None,
        entries=tuple(bare(entry) for entry in draft.entries if not isinstance(entry, Part)),
        clues=(),
        specials=bare(specials),
        sizes=(),
        size=None,
        finishing=(),
        notes=(),
        materials=(),
        gauge=None,
        not_in_words=(),
    )


def bare(value: Any) -> Any:
    """Return *value* without places and without the words as given."""
    if isinstance(value, Place):
        return _NOWHERE
    if isinstance(value, tuple):
        return tuple(bare(each) for each in value)
    if isinstance(value, dict):
        return {name: bare(each) for name, each in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        given = {each.name: bare(getattr(value, each.name)) for each in dataclasses.fields(value)}
        for name in ("text", "base_stitch", "into"):
            if name in given and not (name == "text" and type(value).__name__ == "Act"):
                given[name] = None
        if type(value).__name__ == "Act" and value.kind in ("remark", "marker", "fasten off"):  # type: ignore[attr-defined]
            given["text"] = ""
        if isinstance(value, Problem):
            given["message"] = given["hint"] = ""
        return type(value)(**given)
    return value
