"""How a row begins and ends: the chain that it begins with, and what is told with its last step."""

from __future__ import annotations

from coach.craft.working import Action, Block, Work


def is_chain_of_row(block: Block) -> bool:
    """Return whether *block* is the chain that a row begins with, or the chains that it skips.

    A stitch may be a "beginning" one too (a standing stitch, a beginning cluster): it is no chain.
    """
    if block.stitch == "ch":
        return block.role in {"turning", "beginning"}
    return block.role == "skipped chains"


def closing_actions(work: tuple[Work, ...]) -> tuple[tuple[Work, ...], tuple[Action, ...]]:
    """Split off what ends a row and is told with its last step: turning, the chain for the next row."""
    end = len(work)
    while end > 1 and (isinstance(work[end - 1], Action) or _is_closing_chain(work[end - 1])):
        end -= 1
    if end == 1 and isinstance(work[0], Action):
        end = 0
    closing = tuple(_as_action(item) for item in work[end:])
    return work[:end], tuple(action for action in closing if action is not None)


CLOSING_CHAIN = "turning chain"  # the kind of action that a chain made for the next row is told as


def _is_closing_chain(item: Work) -> bool:
    return (
        isinstance(item, Block)
        and item.stitch == "ch"
        and item.role == "turning"
        and (not item.makes)
    )


def _as_action(item: Work) -> Action | None:
    if isinstance(item, Action):
        return item
    return Action(CLOSING_CHAIN, str(item.count)) if isinstance(item, Block) else None


def opening_actions(work: tuple[Work, ...]) -> tuple[tuple[Work, ...], tuple[Action, ...]]:
    """Split off the actions that begin a row: they are told with its first step."""
    start = 0
    while start < len(work) and isinstance(work[start], Action):
        start += 1
    return work[start:], tuple(item for item in work[:start] if isinstance(item, Action))
