"""Rows in short: what lies below in a few words, the text, and what it must come to.

"sc 24" is a row of 24 sc; "round sc 24" a round; "chain 30" a foundation; "dc 20, counted 3"
a row whose last place is a counted turning chain of 3; "10 x (dc, ch2), dc" a mesh.
"""

from __future__ import annotations

import json
import re
from typing import Any

from coach.app.line_proving import answer


def below(words: str) -> dict[str, Any]:
    """Return the record of what lies below, from its short form."""
    if words == "nothing":
        return {"kind": "none", "sts": 0, "spaces": 0}
    kind = "row"
    if words.startswith("round "):
        kind, words = "round", words.removeprefix("round ")
    turning: dict[str, Any] | None = None
    if found := re.search(r", (not )?counted (\d)(?: made)?$", words):
        turning = {"chains": int(found[2]), "counts": not found[1]}
        if words.endswith("made"):
            turning["already_made_for_this_row"] = True
        words = words[: found.start()]
    if words.startswith("chain "):
        count = int(words.removeprefix("chain "))
        return {"kind": "chain", "sts": count, "places": [{"k": "ch", "n": count}]}
    places: list[dict[str, Any]] = []
    for part in re.split(r", (?![^(]*\))", words):
        if repeat := re.fullmatch(r"(\d+) x \((.*)\)", part):
            places += [_place(each) for each in repeat[2].split(", ")] * int(repeat[1])
        else:
            places.append(_place(part))
    stitches = sum(place["n"] for place in places if not place["k"].endswith("sp"))
    return {"kind": kind, "sts": stitches, "places": places, "turning_chain": turning}


def _place(words: str) -> dict[str, Any]:
    if space := re.fullmatch(r"ch(\d+)", words):
        return {"k": f"ch-{space[1]} sp", "n": 1}
    name, _, count = words.rpartition(" ") if words[-1].isdigit() else (words, "", "1")
    return {"k": name, "n": int(count)}


def came_to(words: str, text: str, terms: str = "US", **more: Any) -> str:
    """Return "verdict used/spaces used -> made/spaces made" of *text* worked on *words*."""
    record = {"id": "row", "terms": terms, "before": {**below(words), **more}, "text": text}
    got = answer(json.dumps(record), 1)
    used = "-" if got["worked"] is None else f"{got['worked']}"
    if got["spaces_worked"]:
        used += f"/{got['spaces_worked']}"
    made = f"{got['produces']}"
    if got["chains_spaces"]:
        made += f"/{got['chains_spaces']}"
    if got["verdict"] != "ok":
        return str(got["verdict"])
    return f"ok {used} -> {made}"
