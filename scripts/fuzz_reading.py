"""Feed the reader and the proof mutated patterns, guided by coverage, and tell what broke.

Needs atheris (pip install atheris) in an environment of its own that has the project installed;
the product and its tests do not need it:

    python scripts/fuzz_reading.py --minutes 20 --findings findings.md

The promise under test: any text at all is proved or refused in words (UnreadableError). Anything else
raised, and any input that takes longer than five seconds of processor time, is a finding. Each is
made as small as it gets and written down; the figures are printed as one JSON line.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import re
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
SLOWEST = 5.0
LONGEST_SEED = 1500  # longer ones are cut: a short pattern tries more in the same time
WORDS = (
    "Row 2: ", "Rnd 3: ", "Rows 3-9: ", "Rep Rows 2 and 3 four times more.", "rep from * across", "rep from * to last 3 sts",
    "*", "**", "(", ")", "[", "]", "ch 3", "3ch", "sc", "dc", "hdc", "tr", "htr", "sl st", "sc2tog", "FPdc", "inc", "dec",
    " in next st", " in each st across", " in each of next ", " in same st", " in 2nd ch from hook", "sk ", "miss ", ", turn.",
    "join with sl st in first sc", "(24 sc)", "[36]", " times", " more times", "twice", "shell", "V-st", "ch-2 sp", " to end",
    "counts as first dc", "Fasten off.", "US terms", "UK terms", "Sizes S (M, L)", "until piece measures 20 cm", "BLO", "magic ring",
    "multiple of 6 + 1", "follow chart", "Change to B", "1000000000", "ending last rep at **", "around", "\n", "×", "½", "—",
)  # fmt: skip


class TooSlowError(Exception):
    """One input took longer than it may."""


def prove_within_time(text: str) -> None:
    """Prove *text*; raise what the proof raises, or TooSlowError. A refusal in words is no fault."""
    from coach.app.proving import prove_text  # noqa: PLC0415 - instrumented before it loads
    from coach.notation.unreadable import UnreadableError  # noqa: PLC0415

    signal.signal(signal.SIGVTALRM, _too_slow)
    signal.setitimer(signal.ITIMER_VIRTUAL, SLOWEST)
    try:
        prove_text(text)
    except UnreadableError:
        pass
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)


def _too_slow(_signal: int, _frame: FrameType | None) -> None:
    raise TooSlowError(f"more than {SLOWEST:g} s")


def fault_of(text: str) -> str | None:
    """Return what breaks on *text*, named by its kind and place in the code; None if nothing does."""
    try:
        prove_within_time(text)
    except TooSlowError:
        return "TooSlowError"
    except Exception as fault:  # whatever it is, it is a finding
        frames = [
            each for each in traceback.extract_tb(fault.__traceback__) if "/coach/" in each.filename
        ]
        at = frames[-1] if frames else None
        where = f"{Path(at.filename).name}:{at.lineno} {at.name}" if at else "outside the project"
        return f"{type(fault).__name__} at {where}"
    return None


def seeds() -> Iterator[str]:
    """Yield the built-in patterns, the tests' own patterns, and their single lines on a chain."""
    for folder in ("coach/patterns", "tests/notation/independent/patterns"):
        for path in sorted((ROOT / folder).glob("*.txt")):
            yield path.read_text(encoding="utf-8")
    lines = ROOT / "tests/notation/independent/lines.jsonl"
    for line in lines.read_text(encoding="utf-8").splitlines():
        given = json.loads(line)
        yield f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: {given['text']}\n"


def run_child(found: Path, corpus: Path, minutes: float) -> None:
    """Fuzz in this process until the time is over; keep each new fault's input in *found*."""
    import atheris  # noqa: PLC0415 - only in the fuzzing environment

    with atheris.instrument_imports(include=["coach"]):
        import coach.app.proving  # noqa: F401, PLC0415 - imported here to be instrumented

    def one_input(data: bytes) -> None:
        text = data.decode("utf-8", errors="replace")
        name = fault_of(text)
        if name:
            path = found / hashlib.sha256(name.encode()).hexdigest()[:16]
            if not path.exists():
                path.write_text(text, encoding="utf-8")

    words = corpus.parent / "words.dict"
    words.write_text("".join(f'"{_quoted(word)}"\n' for word in WORDS), encoding="ascii")
    atheris.Setup(
        [
            sys.argv[0],
            str(corpus),
            f"-dict={words}",
            f"-max_len={LONGEST_SEED}",
            f"-max_total_time={int(minutes * 60)}",
            "-timeout=120",
            "-rss_limit_mb=3000",
            "-print_final_stats=1",
        ],
        one_input,
    )
    atheris.Fuzz()


def _quoted(word: str) -> str:
    plain = all(32 <= byte < 127 and byte not in b'"\\' for byte in word.encode())
    return word if plain else "".join(f"\\x{byte:02x}" for byte in word.encode())


def smallest(text: str, still_wrong: Callable[[str], bool], tries: int = 400) -> str:
    """Return *text* with all left out that *still_wrong* does not need, in so many tries at most."""
    piece = max(1, len(text) // 2)
    while piece and tries > 0:
        at = 0
        while at < len(text) and tries > 0:
            shorter = text[:at] + text[at + piece :]
            tries -= 1
            if still_wrong(shorter):
                text = shorter
            else:
                at += piece
        piece //= 2
    return text


def confirmed(found: Path) -> dict[str, str]:
    """Return each fault that a plain interpreter meets too, with its smallest input."""
    out: dict[str, str] = {}
    for path in sorted(found.iterdir()):
        text = path.read_text(encoding="utf-8")
        name = fault_of(text)
        if name and name not in out:
            slow = name == "TooSlowError"
            out[name] = smallest(text, _gives(name), 24 if slow else 400)
    return out


def _gives(name: str) -> Callable[[str], bool]:
    return lambda text: fault_of(text) == name


def figures_in(log: str) -> dict[str, int]:
    """Return executions, coverage edges and features from the fuzzer's own log."""
    covered = re.findall(r"cov: (\d+) ft: (\d+)", log)
    runs = re.findall(r"^#(\d+)|number_of_executed_units: (\d+)", log, re.MULTILINE)
    return {
        "executions": max((int(one or two) for one, two in runs), default=0),
        "edges": int(covered[-1][0]) if covered else 0,
        "features": int(covered[-1][1]) if covered else 0,
    }


def main() -> int:
    """Fuzz for the minutes asked, write the findings, print the figures; 1 if anything broke."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--minutes", type=float, default=20)
    parser.add_argument("--findings", type=Path, default=Path("fuzz-findings.md"))
    parser.add_argument("--child", nargs=2, type=Path, help=argparse.SUPPRESS)
    given = parser.parse_args()
    if given.child:
        found, corpus = given.child
        run_child(found, corpus, given.minutes)
        return 0
    with tempfile.TemporaryDirectory() as folder:
        found, corpus = Path(folder, "found"), Path(folder, "corpus")
        found.mkdir()
        corpus.mkdir()
        for number, text in enumerate(seeds()):
            (corpus / f"seed-{number:04}").write_text(text, encoding="utf-8")
        start = time.monotonic()
        child = [
            sys.executable,
            __file__,
            "--minutes",
            str(given.minutes),
            "--child",
            str(found),
            str(corpus),
        ]
        done = subprocess.run(
            child, stderr=subprocess.PIPE, text=True, errors="replace", check=False
        )
        took = time.monotonic() - start
        faults = confirmed(found)
        kept = len(list(corpus.iterdir()))
    pages = [f"## {name}\n\n```text\n{text}\n```\n" for name, text in faults.items()]
    given.findings.write_text(
        "# What fuzzing found\n\n" + ("\n".join(pages) or "Nothing.\n"), encoding="utf-8"
    )
    figures = {
        **figures_in(done.stderr),
        "corpus": kept,
        "seconds": round(took),
        "faults": len(faults),
        "exit": done.returncode,
    }
    print(json.dumps(figures))
    if done.returncode:
        print(done.stderr[-2000:], file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
