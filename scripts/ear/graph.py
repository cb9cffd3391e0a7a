"""Builds the decoding graph and the vocabulary files of a model folder from a lexicon.

Needs Debian's libfst-tools (1.7.9 tried). The result is the pair HCLr.fst + Gr.fst, which lets the
recogniser take its phrase list at run time.
"""

from __future__ import annotations

import math
import shutil
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from .phones import GENERAL, NUMBER, PHONES, SILENCE, forward_id, loop_id
from .pronunciations import Phonemes

UNKNOWN = "[unk]"
LOOKAHEAD_LIBRARY = Path("/usr/lib/x86_64-linux-gnu/libfstlookahead.so.22")
TOOLS = ("fstcompile", "fstarcsort", "fstconvert")

MFCC_CONF = """\
--use-energy=false
--num-mel-bins=40
--num-ceps=40
--low-freq=20
--high-freq=7600
--allow-upsample=true
--allow-downsample=true
"""

MODEL_CONF = """\
--min-active=200
--max-active=3000
--beam={beam}
--lattice-beam={lattice_beam}
--acoustic-scale={acoustic_scale}
--frame-subsampling-factor=3
--endpoint.silence-phones=1
--endpoint.rule2.min-trailing-silence=0.5
--endpoint.rule3.min-trailing-silence=1.0
--endpoint.rule4.min-trailing-silence=2.0
"""


class MissingToolsError(RuntimeError):
    """The programs that compile a graph are not installed."""


def check_tools() -> None:
    """Raise MissingToolsError, with what to install, unless the graph can be compiled here."""
    missing = [tool for tool in TOOLS if shutil.which(tool) is None]
    if missing or not LOOKAHEAD_LIBRARY.exists():
        raise MissingToolsError(
            f"{', '.join(missing) or LOOKAHEAD_LIBRARY.name}: apt-get install libfst-tools"
        )


@dataclass(slots=True)
class Machine:
    """A finite-state machine as text: arcs and final states."""

    states: int = 0
    arcs: list[tuple[int, int, int, int, float]] = field(default_factory=list)
    finals: list[int] = field(default_factory=list)

    def state(self) -> int:
        self.states += 1
        return self.states - 1

    def arc(self, start: int, end: int, read: int, write: int, cost: float = 0.0) -> None:
        self.arcs.append((start, end, read, write, cost))

    def phone(self, start: int, phone: str, word: int = 0, cost: float = 0.0) -> int:
        """Pass through one phone from *start*: in by its forward id, on by its loop id."""
        inside = self.state()
        self.arc(start, inside, forward_id(phone), word, cost)
        self.arc(inside, inside, loop_id(phone), 0)
        return inside

    def text(self) -> str:
        """Return the machine as fstcompile reads it; the first line's state is the start."""
        lines = [
            f"{start} {end} {read} {write} {cost:.4f}"
            for start, end, read, write, cost in sorted(self.arcs, key=lambda arc: arc[0] != 0)
        ]
        return "\n".join(lines + [str(state) for state in self.finals]) + "\n"


def _place(index: int, *, last: bool) -> str:
    if index == 0:
        return "S" if last else "B"
    return "E" if last else "I"


def lexicon_machine(
    lexicon: Mapping[str, Sequence[Phonemes]],
    word_ids: Mapping[str, int],
    *,
    unknown_cost: float,
    silence_cost: float = math.log(2),
) -> Machine:
    """Return the machine from transition ids to words: a tree of phones, silence between words.

    The word is written on its last phone. UNKNOWN is three phones of general speech.
    """
    machine = Machine()
    start, root, end = machine.state(), machine.state(), machine.state()
    for place in (start, end):
        machine.arc(place, root, 0, 0, silence_cost)
        machine.arc(machine.phone(place, SILENCE, 0, silence_cost), root, 0, 0)
    machine.finals.append(root)
    tree: dict[tuple[int, str], int] = {}
    for word in sorted(lexicon):
        for phonemes in lexicon[word]:
            at = root
            for index, phoneme in enumerate(phonemes):
                last = index == len(phonemes) - 1
                phone = f"{phoneme}_{_place(index, last=last)}"
                if last:
                    machine.arc(machine.phone(at, phone, word_ids[word]), end, 0, 0)
                else:
                    if (at, phone) not in tree:
                        tree[at, phone] = machine.phone(at, phone)
                    at = tree[at, phone]
    at = machine.phone(root, f"{GENERAL}_B", word_ids[UNKNOWN], unknown_cost)
    at = machine.phone(at, f"{GENERAL}_I")
    machine.arc(machine.phone(at, f"{GENERAL}_E"), end, 0, 0)
    return machine


def _run(command: list[str], *, lookahead: bool = False) -> None:
    environment = {"PATH": "/usr/bin:/bin"}
    if lookahead:  # the tool knows the lookahead type only when this library is loaded with it
        environment["LD_PRELOAD"] = str(LOOKAHEAD_LIBRARY)
    done = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    if done.returncode:
        raise RuntimeError(f"{command[0]} failed: {done.stderr[-400:]}")


def _compile(text: str, folder: Path, sort: str) -> Path:
    source, plain, ready = folder / "machine.txt", folder / "machine.fst", folder / "sorted.fst"
    source.write_text(text, encoding="ascii")
    _run(["fstcompile", str(source), str(plain)])
    _run(["fstarcsort", f"--sort_type={sort}", str(plain), str(ready)])
    return ready


def _phone_files(graph: Path) -> None:
    kinds = {"B": "begin", "E": "end", "I": "internal", "S": "singleton"}
    boundary = [
        f"{number} {'nonword' if phone == SILENCE else kinds[phone[-1]]}\n"
        for phone, number in NUMBER.items()
    ]
    (graph / "phones").mkdir(exist_ok=True)
    (graph / "phones" / "word_boundary.int").write_text("".join(boundary), encoding="ascii")
    names = ["<eps> 0\n", *(f"{phone} {number}\n" for phone, number in NUMBER.items())]
    (graph / "phones.txt").write_text("".join(names), encoding="ascii")
    (graph / "disambig_tid.int").write_text(f"{2 * len(PHONES) + 1}\n", encoding="ascii")


def build_graph(
    folder: Path, lexicon: Mapping[str, Sequence[Phonemes]], *, unknown_cost: float
) -> None:
    """Write `graph/` of a model folder: HCLr.fst, Gr.fst, words.txt and the phone files."""
    check_tools()
    graph = folder / "graph"
    graph.mkdir(parents=True, exist_ok=True)
    ids = {word: number for number, word in enumerate([UNKNOWN, *sorted(lexicon)], 1)}
    machine = lexicon_machine(lexicon, ids, unknown_cost=unknown_cost)
    with tempfile.TemporaryDirectory() as scratch:
        work = Path(scratch)
        ready, pairs = _compile(machine.text(), work, "olabel"), work / "relabelled"
        convert = ["fstconvert", "--fst_type=olabel_lookahead", f"--save_relabel_opairs={pairs}"]
        _run([*convert, str(ready), str(graph / "HCLr.fst")], lookahead=True)
        moved: dict[int, int] = {}
        for line in pairs.read_text(encoding="ascii").splitlines():
            before, after = line.split()
            moved[int(before)] = int(after)
        # words.txt must carry the ids as the lookahead machine has renumbered them
        ids = {word: moved.get(number, number) for word, number in ids.items()}
        cost = math.log(len(ids))
        loop = "".join(f"0 0 {number} {number} {cost:.4f}\n" for number in ids.values()) + "0\n"
        ready = _compile(loop, work, "ilabel")
        _run(["fstconvert", "--fst_type=const", str(ready), str(graph / "Gr.fst")])
    lines = ["<eps> 0\n", *(f"{word} {number}\n" for word, number in ids.items())]
    (graph / "words.txt").write_text("".join(lines), encoding="utf-8")
    _phone_files(graph)


def write_settings(
    folder: Path, *, acoustic_scale: float, beam: float = 12.0, lattice_beam: float = 4.0
) -> None:
    """Write `conf/` of a model folder."""
    conf = folder / "conf"
    conf.mkdir(parents=True, exist_ok=True)
    (conf / "mfcc.conf").write_text(MFCC_CONF, encoding="ascii")
    text = MODEL_CONF.format(beam=beam, lattice_beam=lattice_beam, acoustic_scale=acoustic_scale)
    (conf / "model.conf").write_text(text, encoding="ascii")
