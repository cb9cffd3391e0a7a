"""Which commands sound most like a text: edits of phonemes, counted for all pairs at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import torch
from torch import Tensor

from .pronunciations import PHONEMES, Phonemes

TEXTS_AT_ONCE = 2000
_NUMBER = {phoneme: index for index, phoneme in enumerate(PHONEMES)}


def phonemes_of(text: str, lexicon: Mapping[str, Sequence[Phonemes]]) -> Phonemes:
    """Return the phonemes of a text, each word in its first pronunciation."""
    return tuple(phoneme for word in text.split() for phoneme in lexicon[word][0])


def edits(ones: Sequence[Phonemes], others: Sequence[Phonemes], device: torch.device) -> Tensor:
    """Return (ones, others): how many phonemes must be changed, put in or left out."""
    first, second = _padded(ones, device), _padded(others, device)
    wanted = torch.as_tensor([len(each) for each in ones], device=device)[:, None]
    ends = torch.as_tensor([len(each) for each in others], device=device)
    ends = ends[None, :, None].expand(len(ones), -1, 1)
    size = (len(ones), len(others))
    row = torch.arange(second.shape[1] + 1, device=device).expand(*size, -1).contiguous()
    found = row.gather(2, ends)[..., 0]
    for place in range(first.shape[1]):
        other = (first[:, place, None, None] != second[None]).int()
        cells = [torch.full(size, place + 1, device=device)]
        for column in range(second.shape[1]):
            changed = row[..., column] + other[..., column]
            moved = torch.minimum(row[..., column + 1], cells[-1]) + 1
            cells.append(torch.minimum(changed, moved))
        row = torch.stack(cells, 2)
        found = torch.where(wanted == place + 1, row.gather(2, ends)[..., 0], found)
    return found


def _padded(texts: Sequence[Phonemes], device: torch.device) -> Tensor:
    longest = max(len(each) for each in texts)
    rows = [[_NUMBER[phoneme] for phoneme in each] for each in texts]
    return torch.as_tensor([row + [-1] * (longest - len(row)) for row in rows], device=device)


def nearest(
    texts: Sequence[str],
    commands: Sequence[str],
    lexicon: Mapping[str, Sequence[Phonemes]],
    count: int,
    device: torch.device,
) -> dict[str, tuple[str, ...]]:
    """Return for each text the *count* commands that sound most like it, nearest first.

    A command that sounds the same as the text is left out: no ear can tell the two apart.
    """
    spoken = [phonemes_of(command, lexicon) for command in commands]
    sizes = torch.as_tensor([len(each) for each in spoken], device=device)
    found: dict[str, tuple[str, ...]] = {}
    ordered = sorted(set(texts), key=len)
    for start in range(0, len(ordered), TEXTS_AT_ONCE):
        some = ordered[start : start + TEXTS_AT_ONCE]
        said = [phonemes_of(text, lexicon) for text in some]
        distance = edits(said, spoken, device)
        own = torch.as_tensor([len(each) for each in said], device=device)[:, None]
        share = distance / torch.maximum(own, sizes)
        share[distance == 0] = 2.0
        best = share.topk(min(count, len(commands)), largest=False).indices.tolist()
        for text, row in zip(some, best, strict=True):
            found[text] = tuple(commands[index] for index in row)
    return found
