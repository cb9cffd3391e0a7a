"""The commands and their exit codes; decides nothing about the craft.

0 done (for prove: it holds), 1 the pattern has faults, 2 the command or the input can't be
used, 3 a fault of the machine that stopped the work after everything was saved.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any, NoReturn

from coach import __version__
from coach.wiring.refusal import UnusableError

if TYPE_CHECKING:
    from coach.adapters.pattern_files import PatternText
    from coach.craft.proof import Proof

DONE, FAULTS, UNUSABLE, MACHINE = 0, 1, 2, 3

Run = Callable[[argparse.Namespace], int]


class _Parser(argparse.ArgumentParser):
    """argparse, answering in sentences."""

    def error(self, message: str) -> NoReturn:
        raise UnusableError(f"{message[:1].upper()}{message[1:]}. Try: {self.prog} --help")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status. Never shows a traceback."""
    _speak_utf8()
    try:
        given = _parser().parse_args(arguments)
        run: Run = given.run
        status = run(given)
        _flushed()
        return status
    except KeyboardInterrupt:
        return DONE
    except Exception as fault:
        if os.environ.get("COACH_TRACE"):
            raise
        return _told(fault)


def _flushed() -> None:
    """Write what is still held back, here and not at the interpreter's end, where it has no guard."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        _say_no_more()


def _say_no_more() -> None:
    """The reader of our output left (a pager, `head`): nothing is wrong, nothing more to say."""
    with contextlib.suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _told(fault: Exception) -> int:
    """Tell what stopped the command and return its exit status: the last guard."""
    if isinstance(fault, BrokenPipeError):
        _say_no_more()
        return DONE
    if isinstance(fault, UnusableError):
        print(f"coach: {fault}", file=sys.stderr)
        return UNUSABLE
    reason = f"something in the coach itself failed ({type(fault).__name__}: {fault})"
    if isinstance(fault, OSError):
        reason = fault.strerror or str(fault)
    elif isinstance(fault, MemoryError):
        reason = "the machine has no memory left"
    print(
        f"coach: {reason}. Your place is saved. Start again to go on; "
        "set COACH_TRACE=1 to see where it happened.",
        file=sys.stderr,
    )
    return MACHINE


def _speak_utf8() -> None:
    """A C locale must not stop a dash in a pattern from being read or written."""
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        with contextlib.suppress(AttributeError, OSError, ValueError):
            stream.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(prog="coach", description=__doc__.splitlines()[0] if __doc__ else None)
    parser.description = "Guides you through a crochet pattern, hands on the hook."
    parser.add_argument("--version", action="version", version=f"coach {__version__}")
    parser.set_defaults(run=_open_shelf)
    _session_options(parser)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    follow = commands.add_parser("follow", help="be led through a pattern, step by step")
    follow.add_argument("pattern", help="a file, - for standard input, or a built-in pattern")
    _session_options(follow, again=True)
    follow.add_argument("--from", dest="start", metavar="ROW", help='start there: "row 6"')
    follow.set_defaults(run=_follow)

    prove = commands.add_parser("prove", help="check that every stitch count adds up")
    prove.add_argument("pattern", nargs="?", help="a file, - for standard input, or a built-in")
    prove.add_argument("--json", action="store_true", help="write the proof as JSON")
    prove.add_argument("--lines", metavar="FILE", help="single rows, one JSON object a line")
    prove.add_argument("--size", help="the size to show, where the pattern has several")
    prove.add_argument("--terms", choices=("us", "uk"), help="the terms the pattern is written in")
    prove.add_argument("--write", choices=("us", "uk"), help="write the pattern out anew instead")
    prove.set_defaults(run=_prove)

    steps = commands.add_parser("steps", help="list what would be told, step by step")
    steps.add_argument("pattern", help="a file, - for standard input, or a built-in pattern")
    steps.add_argument("--rows", help="only these, for example 6-10")
    steps.add_argument("--pace", choices=("row", "block", "stitch"), default="block")
    steps.add_argument("--terms", choices=("us", "uk"), help="the terms to speak in")
    steps.add_argument("--size", help="the size to show, where the pattern has several")
    steps.add_argument("--json", action="store_true", help="write the steps as JSON")
    steps.set_defaults(run=_steps)

    shelf = commands.add_parser("shelf", help="list built-in and recent patterns")
    shelf.add_argument("--json", action="store_true", help="write the list as JSON")
    shelf.set_defaults(run=_shelf)

    check = commands.add_parser("soundcheck", help="try speaker, microphone, echo and recogniser")
    check.set_defaults(run=_soundcheck)

    ear = commands.add_parser("ear", help="fetch and list speech models")
    ear.add_argument("what", choices=("get", "list"), help="get: fetch one; list: show them")
    ear.set_defaults(run=_ear)
    return parser


def _session_options(parser: argparse.ArgumentParser, *, again: bool = False) -> None:
    """Add what a session takes. again: what was given before the command's name stays given."""
    usual = argparse.SUPPRESS if again else None
    off = argparse.SUPPRESS if again else False

    def flag(name: str, told: str) -> None:
        parser.add_argument(name, action="store_true", default=off, help=told)

    def option(name: str, told: str, **more: Any) -> None:
        parser.add_argument(name, default=usual, help=told, **more)

    flag("--plain", "lines of text, no screen")
    flag("--json", "plain mode as JSON messages, one a line")
    flag("--also-plain", "plain lines on standard output beside the screen")
    option("--width", "wrap plain lines at this many signs", type=_width)
    option("--pace", "how much at a time", choices=("row", "block", "stitch"))
    option("--terms", "the terms to speak in", choices=("us", "uk"))
    option("--size", "the size to make, where the pattern has several")
    flag("--no-speech", "say nothing aloud")
    flag("--no-ear", "don't listen")
    option("--hear", "listen to a recording instead", metavar="FILE.wav")


def _width(text: str) -> int:
    """Return a line width; less than 20 signs can't hold the longest words."""
    width = int(text) if text.isdecimal() else 0
    if not 20 <= width <= 1000:
        raise argparse.ArgumentTypeError(f"{text} is no width between 20 and 1000")
    return width


def _open_shelf(given: argparse.Namespace) -> int:
    from coach.wiring import sessions  # noqa: PLC0415 - only when a session is wanted

    sessions.open_shelf(given)
    return DONE


def _follow(given: argparse.Namespace) -> int:
    from coach.wiring import sessions  # noqa: PLC0415

    sessions.follow(given)
    return DONE


def _prove(given: argparse.Namespace) -> int:
    from coach.app import proving  # noqa: PLC0415

    if given.lines:
        return _prove_lines(given.lines)
    if not given.pattern:
        raise UnusableError("Which pattern? Give a file, - for standard input, or a built-in name.")
    pattern = _pattern(given.pattern)
    proof = _proved(pattern, given.size)
    if given.write and proof.rows:
        from coach.notation.reading import read  # noqa: PLC0415
        from coach.notation.writing import write_and_tell  # noqa: PLC0415

        draft = read(pattern.text, terms=proof.terms, size=proof.size)
        text, kept = write_and_tell(draft, terms=given.write)
        print(text, end="")
        if kept:
            told = "stands" if len(kept) == 1 else "stand"
            print(f"coach: {', '.join(kept)} {told} in the words given.", file=sys.stderr)
    elif given.json:
        print(json.dumps(proving.proof_json(proof), ensure_ascii=False))
    else:
        from coach.wording.report import proof_page  # noqa: PLC0415

        print(proof_page(proof, pattern.text, source=pattern.source))
    return _status(proof, pattern)


def _prove_lines(source: str) -> int:
    from coach.app.proving import prove_lines  # noqa: PLC0415

    lines: Iterable[str]
    if source == "-":
        lines = sys.stdin
        for answer in prove_lines(lines):
            print(answer, flush=True)
        return DONE
    try:
        with open(source, encoding="utf-8", errors="replace") as file:
            for answer in prove_lines(file):
                print(answer, flush=True)
    except OSError as fault:
        raise UnusableError(f"{source} can't be read: {fault.strerror}. Check the name.") from fault
    return DONE


def _steps(given: argparse.Namespace) -> int:
    from coach.app.telling_steps import steps_json  # noqa: PLC0415
    from coach.craft.steps import Pace  # noqa: PLC0415

    pattern = _pattern(given.pattern)
    proof = _proved(pattern, given.size)
    terms = given.terms.upper() if given.terms else None
    steps = steps_json(proof, rows=_rows(given.rows), pace=Pace(given.pace), terms=terms)
    if given.json:
        print(json.dumps(steps, ensure_ascii=False))
    else:
        for each in steps:
            print(each["full"])
    return _status(proof, pattern)


def _rows(asked: str | None) -> tuple[int, int] | None:
    """Return the first and last row of "6-10" or "6"."""
    if asked is None:
        return None
    first, _, last = asked.replace("–", "-").partition("-")
    if not first.strip().isdecimal() or (last.strip() and not last.strip().isdecimal()):
        raise UnusableError(f"{asked} is no range of rows. Write it like 6-10, or 6.")
    return int(first), int(last or first)


def _shelf(given: argparse.Namespace) -> int:
    from coach.wiring import tools  # noqa: PLC0415

    tools.shelf(print, as_json=given.json)
    return DONE


def _soundcheck(given: argparse.Namespace) -> int:
    from coach.wiring import tools  # noqa: PLC0415

    return DONE if tools.soundcheck(print) else MACHINE


def _ear(given: argparse.Namespace) -> int:
    from coach.wiring import tools  # noqa: PLC0415

    act = tools.ear_get if given.what == "get" else tools.ear_list
    act(print)
    return DONE


def _pattern(name: str) -> PatternText:
    from coach.wiring.proofs import pattern_named  # noqa: PLC0415

    return pattern_named(name)


def _proved(pattern: PatternText, size: str | None) -> Proof:
    from coach.wiring.proofs import prove  # noqa: PLC0415

    return prove(pattern, size)


def _status(proof: Proof, pattern: PatternText) -> int:
    if proof.verdict == "unreadable":
        from coach.wiring.proofs import rows_missing  # noqa: PLC0415

        print(f"coach: {rows_missing(pattern, proof)}", file=sys.stderr)
        return UNUSABLE
    return DONE if proof.holds else FAULTS
