"""Plain words of instructions (ours, common practice): a clause of these alone is a remark."""

from __future__ import annotations

_PLAIN = """
a about above across add adding adjustable after again all along also always an and any approx
are arm armhole around as at back be because been before beg begin beginning begins being below
between big bit blo block bobble body border both bottom break brim but by can careful carefully
carry cc center centre ch change changing chs circle close closed closing cluster colour come
complete completed completing continuous continuously contrast contrasting corner counts crown
cuff cut darning desired didn't dk do does don't done double down draw drop dropping during each
edge edging end ends enough ensure establish established even evenly every everyone's eyelet
eyelets face faces facing fan fasten fill filling finish finished firm firmly first fit flap
flat flatten float floats flush fold foll follow foot for form forming foundation free from
front full gap get give gives go going group half half-way halfway halves hand have head heel
here hide hold holding hole hook i'll i'm if in insert inside instead into is it it's join
joined joint just keep keeping knot last lay leave leaves leaving left leftover leg length less
let's lightly like line long longer loop loops loose loosely lp lps made magic main make makes
making mark marked marker markers marks may mc measure measures mid middle more move moves
moving my neat necessary neck needed needle never next next-to no not note notes now of off on
once one only onto open opening option optional or other our out over panel pass patt pattern
patterns photo picot picture piece pin place placed placing pm point popcorn position press prev
previous puff pull pulling push put rather reach ready rem remember remove repeat required rest
return returning right ring rm rnd rotate round rounds row rows rs run safety same scrap seam
secure see sew shape shaping shell shells should side side-to-side sides skein skip sleeve slip
sm small smaller snug snugly so sp space spiral sps st st's start stated still stitch stitches
stop straight strand sts stuff stuffing swap switch tail tails take taut tension than that
that's the their them then there these they they're thick this thread three through throughout
tie tight tighten tightly time times to toe together too top total trim turn turned twist
twisting two under unjoined until up us use using v-st wait want way we we'll we're weave
weaving when where which while will with within without won't work worked working wrap wrong ws
yarn yarn-over yarns yet yo yoh you you'll you're your yrh
"""
KNOWN = frozenset(_PLAIN.split())

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
