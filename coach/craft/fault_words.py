"""The words of a fault: what is wrong by how much, and what would mend it."""

from __future__ import annotations

from coach.craft import fabric
from coach.craft.problem import Verdict
from coach.craft.row_bench import ROW_BELOW, Ground, RowResult


def message_of(  # noqa: PLR0911
    code: Verdict, why: str, result: RowResult, ground: Ground, label: str
) -> tuple[str, str]:
    """Return (message, hint) for a row that does not fit what lies below it."""
    there, spaces = fabric.size(ground.below)
    what = "chains" if ground.kind in ("chain", "joined chain") else "stitches"
    where = "below" if ground.named == ROW_BELOW else f"of {ground.named}"
    match code:
        case Verdict.TOO_MANY_STITCHES:
            asked = result.used
            if result.over:
                return (
                    f"{label} asks for {asked} {what}; {ground.named} has {there}: "
                    f"{_many(asked - there)} too many.",
                    f"Take {_many(asked - there)} place{_s(asked - there)} out, or see whether {ground.named} is short.",
                )
            return (
                f"{label} asks for more chain spaces than the {spaces} that there are.",
                f"Count the spaces of {ground.named}.",
            )
        case Verdict.STITCHES_LEFT_OVER:
            if result.left:
                return (
                    f"{label} uses {result.used} of the {there} {what} {where}; {_many(result.left)} "
                    f"{'is' if result.left == 1 else 'are'} left, and nothing says to leave {'it' if result.left == 1 else 'them'}.",
                    f"Work {_many(result.left)} more, or say that {'it is' if result.left == 1 else 'they are'} left unworked.",
                )
            return (
                f"{label} leaves {_many(result.left_spaces)} chain space{_s(result.left_spaces)} unworked.",
                "Work into every space, or say which are left.",
            )
        case Verdict.REPEAT_DOES_NOT_FIT:
            return _no_fit(result, there, what, label)
        case Verdict.NO_WORDS:
            return (
                f"{label}: {why}.",
                "Write what is worked, stitch by stitch, or take the row number away.",
            )
        case Verdict.NO_SUCH_PLACE:
            return (
                f"{label}: {why}.",
                f"Name a place that {ground.named} has, or correct {ground.named}.",
            )
    return f"{label}: {why}.", "Write the row in shorter steps."


def _no_fit(result: RowResult, there: int, what: str, label: str) -> tuple[str, str]:
    if result.fit is None or result.fit[1] < 1 or result.fit[0] < 0:
        return (
            f"The repeat of {label} does not come out even over {there} {what}.",
            "Check the numbers of the repeat against the row below.",
        )
    outside, each, available = result.fit
    inside = available - outside
    left = inside % each if inside >= 0 else 0
    nearest = (
        [outside + each * (inside // each + more) for more in (0, 1)]
        if inside >= 0
        else [outside + each]
    )
    short = f" With {outside} outside it and {each} each time, {available - left} of them fit."
    return (
        f"The repeat of {label} does not come out even over {available} {what}."
        f"{short if left else ''}",
        f"It would fit over {' or '.join(str(number) for number in nearest)} {what}.",
    )


def stated_message(stated: int, found: int, what: str, label: str) -> tuple[str, str]:
    """Return (message, hint) for a stated count that the row does not make."""
    more = found - stated
    return (
        f"{label} makes {found} {what}; {stated} is stated: {_many(abs(more))} too "
        f"{'few' if more > 0 else 'many'} stated.",
        f"Correct the count to {found}, or the row by {_many(abs(more))}.",
    )


def _many(number: int) -> str:
    small = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return small[number] if 0 <= number < len(small) else str(number)


def _s(number: int) -> str:
    return "" if number == 1 else "s"
