"""How long the proof takes and what it costs, as rows, stitches and lines grow.

Every figure is from a process of its own; memory is the peak over that of a bare interpreter.
Seconds are the processor's, of one thread: what the clock shows on a machine that is not busy.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

MEASURE = """
import json, sys, time
from coach.app.proving import prove_text
from coach.notation.unreadable import UnreadableError
text = open(sys.argv[1], encoding="utf-8").read()
prove_text("Ch 3. Row 1: Sc in 2nd ch from hook and in next ch. (2 sc)")
start = time.process_time()
try:
    proof, refusal = prove_text(text), None
except UnreadableError as fault:
    proof, refusal = None, fault.message
took = time.process_time() - start
peak = next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM")) // 1024
if proof is None:
    told = {"rows": 0, "verdict": "refused", "first": refusal}
else:
    first = proof.problems[0].message if proof.problems else ""
    told = {"rows": len(proof.rows), "verdict": proof.verdict, "first": first}
print(json.dumps({"seconds": took, "mib": peak, **told}))
"""
# Not getrusage: its peak is inherited from the process that started this one.
BARE = 'print(next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM")) // 1024)'


def blanket(rows: int, repeats: int) -> str:
    """A textured blanket: `rows` rows of 4 times `repeats` plus 4 stitches, four rows written out."""
    stitches = 4 * repeats + 4
    body = "*FPdc around next st, [sc in next st, dc in next st] 1 time, dc in next st; rep from * to last 3 sts, dc in next 2 sts, dc in top of turning ch, turn."
    plain = "dc in next st and in each st across, working last dc in top of turning ch, turn."
    return (
        "Bench Blanket\\nUS terms. The ch-3 at the start of a row counts as the first dc here and throughout.\\n"
        f"Ch {stitches + 2}.\\n"
        f"Row 1: Dc in 4th ch from hook (3 skipped ch count as first dc) and in each ch across, turn. ({stitches} dc)\\n"
        f"Row 2: Ch 3, {body} ({stitches} sts)\\n"
        f"Row 3: Ch 3, {plain} ({stitches} dc)\\n"
        f"Row 4: Ch 3, {body} ({stitches} sts)\\n"
        f"Row 5: Ch 3, {plain} ({stitches} dc)\\n"
        f"Rows 6-{rows}: Rep Rows 2-5.\\n"
    ).replace("\\n", "\n")


def written_out(lines: int) -> str:
    """A pattern without ranges: every row written, each with its count."""
    rows = "\n".join(
        f"Row {row}: Ch 1, sc in next {row % 7 + 1} sts, [dc in next st, ch 1, sk 1 st] 9 times, sc in each rem st, turn. "
        f"(31 sts, 9 ch-1 sps)"
        if row % 2 == 0
        else f"Row {row}: Ch 1, sc in each st and in each ch-1 sp across, turn. (40 sc)"
        for row in range(2, lines + 1)
    )
    return f"Long Strip\nUS terms\nCh 41.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)\n{rows}\n"


HOSTILE = {
    "repeat 10^9 times": "Ch 9.\nRow 1: [Sc in next ch] 1000000000 times.\n",
    "rows 3 to 10^9, all fit": "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
    "Row 2: Ch 1, sc in each st across, turn.\nRows 3-1000000000: Rep Row 2.\n",
    "rows 1 to 10^9": "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-1000000000: Rep Row 1.\n",
    "200 brackets deep": "Ch 9.\nRow 1: " + "[" * 200 + "sc in next st" + "] 2 times" * 200 + "\n",
    "5 MB on one line": "Row 1: " + "sc in next st, " * 340_000 + "\n",
    "a chain of 10^12": "Ch 1000000000000.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n",
}

ALLOWED = ("a chain of 10^12",)  # absurd, but its sums hold: told in a moment, not refused


def measured(text: str) -> dict[str, object]:
    """Prove *text* in a process of its own and return seconds, peak MiB, rows and verdict."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "pattern.txt"
        path.write_text(text, encoding="utf-8")
        best: dict[str, object] = {}
        for _ in range(3):
            done = subprocess.run(
                [sys.executable, "-c", MEASURE, str(path)],
                capture_output=True,
                text=True,
                check=False,
            )
            if done.returncode:
                raise SystemExit(f"The proof broke:\n{done.stderr[-500:]}")
            one = json.loads(done.stdout)
            if not best or one["seconds"] < best["seconds"]:
                best = one
        return best


def bench() -> dict[str, Any]:
    """Run every case and return the table."""
    bare = int(
        subprocess.run(
            [sys.executable, "-c", BARE], capture_output=True, text=True, check=True
        ).stdout
    )
    cases = {
        "10 rows x 500": blanket(9, 124),
        "100 rows x 500": blanket(101, 124),
        "1000 rows x 500": blanket(1001, 124),
        "1000 rows x 50": blanket(1001, 12),
        "1000 rows x 5000": blanket(1001, 1249),
        "250 lines": written_out(250),
        "500 lines": written_out(500),
        "1000 lines": written_out(1000),
        "2000 lines": written_out(2000),
    }
    table: dict[str, Any] = {"bare interpreter MiB": bare}
    for name, text in (cases | HOSTILE).items():
        one = measured(text)
        if (one["verdict"] == "proved") is (name in HOSTILE and name not in ALLOWED):
            print(f"{name}: {one['verdict']}, which is wrong")
            table["wrong"] = [*table.get("wrong", []), name]
        one["mib over bare"] = int(str(one["mib"])) - bare
        table[name] = one
        print(
            f"{name:20} {one['seconds']:8.3f} s  {one['mib over bare']:5} MiB over bare  "
            f"{one['rows']:5} rows  {one['verdict']}  {str(one['first'])[:70]}"
        )
    return table


if __name__ == "__main__":
    start = time.perf_counter()
    bench()
    print(f"in {time.perf_counter() - start:.0f} s")
