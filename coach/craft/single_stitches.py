"""A block or a group taken stitch by stitch, for the finest pace.

It shares a block's places out over its stitches, so that the sums stay the same.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.working import Block, Group, Into

Singles = list[tuple[tuple[Block | Group, ...], int]]


def singles(item: Block | Group) -> Singles:
    """Return *item* stitch by stitch, as (parts, how many times the same)."""
    if isinstance(item, Group):
        return _group_singles(item)
    if item.role is not None or item.stitch in {"ch", "sk"} or item.count <= 1:
        return [((item,), 1)]
    if item.where.into is Into.TOGETHER:
        return _shared(item, item.count)
    if item.each > 1:
        return _increases(item)
    return _shared(item, item.count)


def _shared(item: Block, count: int) -> Singles:
    """Share a block's places out over its stitches; the first takes what doesn't divide."""
    share = {
        name: divmod(getattr(item, name), count)
        for name in ("uses", "uses_spaces", "makes", "makes_spaces")
    }
    places = item.where.places if item.where.into is Into.TOGETHER else 1
    one = replace(
        item,
        count=1,
        where=replace(item.where, places=places, position=None),
        passing=0,
        **{name: whole for name, (whole, _) in share.items()},
    )
    first = replace(
        one,
        where=replace(one.where, position=item.where.position),
        passing=item.passing,
        **{name: whole + rest for name, (whole, rest) in share.items()},
    )
    if item.where.position == "last":
        last = replace(one, where=replace(one.where, position="last"))
        first = replace(first, where=replace(first.where, position=None))
        middle = [((one,), count - 2)] if count > 2 else []
        return [((first,), 1), *middle, ((last,), 1)]
    return [((first,), 1), ((one,), count - 1)]


def _increases(item: Block) -> Singles:
    """Several into each place: the first into it, the others into the same one."""
    places = max(1, item.count // item.each)
    by_place: Singles = []
    one_each = replace(item, count=places, each=1)
    for parts, times in _shared(one_each, places) if places > 1 else [((one_each,), 1)]:
        head = parts[0]
        if not isinstance(head, Block):
            continue
        made = max(head.makes // item.each, 0)
        same = replace(
            head,
            uses=0,
            uses_spaces=0,
            makes=made,
            passing=0,
            where=replace(head.where, into=Into.SAME, position=None),
        )
        first = replace(head, makes=head.makes - made * (item.each - 1))
        for _ in range(times):
            by_place.append(((first,), 1))
            by_place.append(((same,), item.each - 1))
    return by_place


def _group_singles(group: Group) -> Singles:
    """A group in one place, stitch by stitch: the first into the place, the rest into the same."""
    taken: Singles = []
    uses, uses_rest = divmod(group.uses, group.times)
    spaces, spaces_rest = divmod(group.uses_spaces, group.times)
    for time in range(group.times):
        place = replace(group.where, places=1)
        used: tuple[int, int] | None = (
            uses + (uses_rest if time == 0 else 0),
            spaces + (spaces_rest if time == 0 else 0),
        )
        for block in group.parts:
            for parts, times in singles(block):
                one = replace(parts[0], uses=0, uses_spaces=0)  # the place is the group's
                if not isinstance(one, Block) or one.stitch == "ch":
                    taken.append(((one,), times))
                    continue
                same = replace(
                    one, where=replace(place, into=Into.SAME), color=one.color or group.color
                )
                if used is not None:
                    first = replace(same, where=place, uses=used[0], uses_spaces=used[1])
                    taken.append(((first,), 1))
                    taken.append(((same,), times - 1))
                    used = None
                else:
                    taken.append(((same,), times))
    return taken
