"""Words that a row may carry and that ask for no stitch: remarks, and how to tell them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.tokens import Token

KNOWN = frozenset(
    """
    a about above across add adding after again all along also always an and any approx are around as
    at back be because been before begin being below between big bit blo block both bottom break but by
    can careful carefully carry change changing close closed closing colour come complete completed
    completing contrasting corner counts cut darning do does done don't double down draw drop dropping
    during each edge end ends enough ensure even evenly every eyelet eyelets face faces facing fasten
    fill filling finish finished firm firmly first fit flat float floats flush fold foll follow for
    form forming foundation free from front full gap get give gives go going group half hand have here
    hide hold holding hook if in inside insert into is it join joint just keep keeping knot last lay
    leave leaves leaving left length less like line long longer loop loose loosely make makes making
    mark marked marker markers marks may measure measures more move moves moving neat needle next no not
    note now of off on once one only open opening or other out over pass photo picture piece pin place
    placed placing point position press pull pulling push put rather ready rem remember remove repeat
    rest right rnd rotate round row rows safety same scrap seam secure see sew shape should side sides
    skein skip slip small smaller snug so space start still stitch straight strand stuff stuffing swap
    switch tail tails take taut tension than that the their them then there these they thick this
    thread three throughout tie tight tightly time times to together too top total trim turn turned
    twist two under until up use using wait want weave weaving when where which while will with within
    without work worked working wrap wrong yarn yarns you your yo yoh yrh lightly through always never
    piece unjoined spiral joined rounds continuous continuously pattern patterns patt establish
    established previous prev shaping armhole neck sleeve body crown heel toe foot leg arm head brim
    border edging panel flap cuff side-to-side center middle both yarn-over main contrast mc cc rs ws
    pm sm rm marker lp lps loops st sts ch chs sp sps beg begins beginning counts made making corner
    halves half-way halfway mid stop dk see notes note optional option needed necessary required
    ring magic adjustable circle centre hole tighten close snugly first last st's stitches each way
    don't won't didn't it's that's you'll you're let's we're we'll they're next-to here we us i'll i'm
    desired length yet onto run reach leftover twisting twist yet required stated instead lay our my everyone's shell shells cluster bobble popcorn puff fan picot v-st
    """.split()
)
"""Plain words of instructions (ours, common practice): a clause of these alone is a remark."""

SHOWN = (
    "chart",
    "photo",
    "picture",
    "diagram",
    "shown",
    "graph",
    "pictured",
    "illustration",
    "video",
)
BY_COLOUR = ("darker", "lighter", "dark", "light", "coloured", "colored", "shaded")
PRONOUNCEABLE = frozenset("aeiouy")


def is_remark(tokens: Sequence[Token]) -> bool:
    """Tell whether a clause of *tokens* can be passed as a remark: nothing in it is worked."""
    words = [token for token in tokens if token.kind in ("word", "unit", "stitch", "num", "ord")]
    if not words:
        return True
    if any(token.kind in ("clash",) for token in tokens):
        return False
    unknown = [token for token in words if token.kind == "word" and token.text not in KNOWN]
    if any(looks_abbreviated(token) for token in unknown):
        return False
    if not unknown:
        return True
    if len(words) >= 4:
        return True
    return len(words) > 1 and all(len(token.text) > 3 for token in unknown)


def looks_abbreviated(token: Token) -> bool:
    """Tell whether a word looks like a stitch's short name rather than a word of the language."""
    text = token.text
    if len(text) == 1:
        return False
    if len(text) <= 3 and text.isalpha():
        return not PRONOUNCEABLE & set(text) or len(text) <= 2
    return not PRONOUNCEABLE & set(text)
