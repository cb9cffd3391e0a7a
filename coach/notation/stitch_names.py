"""The trade's names of stitches and groups in both terms, and plain words with their short forms."""

from __future__ import annotations

from collections.abc import Mapping

US_NAMES: Mapping[str, tuple[str, ...]] = {
    "sl st": ("sl st", "slst", "ss", "slip stitch", "slip st", "sl stitch", "s st", "slst st"),
    "sc": ("sc", "single crochet", "s c", "single", "sgl crochet"),
    "hdc": ("hdc", "half double crochet", "half double", "h d c", "half dc", "hlf dc"),
    "dc": ("dc", "double crochet", "d c", "double", "dbl crochet"),
    "tr": (
        "tr",
        "treble crochet",
        "treble",
        "triple crochet",
        "tr c",
        "t r",
        "trc",
        "triple",
        "t c",
    ),
    "dtr": ("dtr", "double treble crochet", "double treble", "d tr", "dbl tr", "double triple"),
    "trtr": ("trtr", "triple treble crochet", "triple treble", "tr tr", "ttr"),
}

UK_NAMES: Mapping[str, tuple[str, ...]] = {
    "sl st": ("ss", "sl st", "slst", "slip stitch", "slip st", "s s"),
    "dc": ("dc", "double crochet", "d c", "double"),
    "htr": ("htr", "half treble crochet", "half treble", "h tr", "half tr", "h t r"),
    "tr": ("tr", "treble crochet", "treble", "t r"),
    "dtr": ("dtr", "double treble crochet", "double treble", "d tr"),
    "ttr": ("ttr", "trtr", "triple treble crochet", "triple treble", "tr tr"),
    "qtr": ("qtr", "quadruple treble crochet", "quadruple treble", "quad tr"),
}

ONLY_US = ("sc", "hdc", "single crochet", "half double crochet", "s c", "half double", "h d c")

ONLY_UK = ("htr", "half treble crochet", "half treble", "h tr", "half tr", "qtr")

UNITS = (
    "shell", "v st", "v stitch", "vst", "bobble", "puff", "puff st", "puff stitch", "popcorn",
    "popcorn st", "pc", "cluster", "cl", "picot", "half shell", "fan", "corner shell", "beg cl",
    "beg cluster", "beg puff", "beg popcorn", "beg pc", "beg shell", "beg v st", "half v st",
    "bo", "mb", "sh", "y st", "x st", "p", "double v st", "dv st", "large shell", "small shell",
    "long crochet", "long st", "long stitch", "spike st", "spike stitch", "spike",
)  # fmt: skip

UNIT_NAMES = {
    "v stitch": "V-st", "v st": "V-st", "vst": "V-st", "puff st": "puff", "puff stitch": "puff",
    "popcorn st": "popcorn", "cluster": "cl", "half shell": "half shell", "beg cluster": "beg cl",
    "beg v st": "beg V-st", "half v st": "half V-st", "sh": "shell", "bo": "bobble", "mb": "bobble",
    "p": "picot",
}  # fmt: skip

PLAIN: Mapping[str, str] = {
    "sts": "st", "stitch": "st", "stitches": "st", "stich": "st", "sttiches": "st", "stiches": "st",
    "sps": "sp", "space": "sp", "spaces": "sp", "spc": "sp", "arch": "sp", "arches": "sp",
    "arc": "sp", "arcs": "sp", "lps": "lp", "loop": "lp", "loops": "lp",
    "chs": "ch", "chain": "ch", "chains": "ch", "chn": "ch",
    "skip": "sk", "miss": "sk", "skipping": "sk", "missing": "sk", "omit": "sk",
    "missed": "skipped", "skipped": "skipped", "sk'd": "skipped",
    "repeat": "rep", "repeats": "rep", "repeating": "rep", "rpt": "rep", "repeated": "rep", "reps": "rep",
    "rnds": "rnd", "round": "rnd", "rounds": "rnd", "rows": "row", "rd": "rnd", "rds": "rnd",
    "beginning": "beg", "begin": "beg", "begins": "beg", "starting": "beg", "initial": "beg",
    "foll": "next", "following": "next", "nxt": "next", "nex": "next",
    "till": "until", "remaining": "rem", "remain": "rem", "remainder": "rem", "unworked": "unworked",
    "ea": "each", "every": "each", "centre": "center", "middle": "center", "ctr": "center",
    "together": "tog", "corners": "corner", "bet": "between", "btw": "between", "btwn": "between",
    "joining": "join", "joined": "join", "turned": "turn", "ends": "end", "thru": "through",
    "hk": "hook",
    "tch": "tch", "increase": "inc", "incr": "inc", "increases": "inc", "incs": "inc",
    "decrease": "dec", "decr": "dec", "decreases": "dec", "decs": "dec", "invisible": "inv",
    "color": "colour", "colors": "colour", "colours": "colour", "col": "colour",
    "thrice": "thrice", "posts": "post", "rings": "ring", "circle": "ring", "place": "place",
    "spot": "place",
    "groups": "group", "grp": "group", "squares": "square", "blocks": "block", "bl": "block",
    "bls": "block", "meshes": "mesh", "onto": "into", "count": "counts", "counted": "counts",
    "previous": "prev", "blos": "blo", "flos": "flo", "bl only": "blo", "tbl": "blo", "flp": "flo",
    "blp": "blo", "edges": "edge", "time": "times", "×": "x", "sl": "sl",
}  # fmt: skip
