"""Utterances as chains of states, and the best or total score of a batch of them on the GPU.

A chain is the state sequence of one known text: for each phone an entering state (one output
frame) and a staying state (none or more), with a silence that may be skipped around each word.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import torch
from torch import Tensor

from .phones import GENERAL, SILENCE_PDF, pdfs
from .pronunciations import Phonemes

NEVER = -1e30
GENERAL_PHONES: Phonemes = (GENERAL,) * 3
BETWEEN = -1  # the word index of a silence

Whole = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Chain:
    """One text as states. jumps[s, k] is true where state s may follow state s - k (0: stay)."""

    pdf: Whole
    word: Whole
    jumps: npt.NDArray[np.bool_]
    starts: npt.NDArray[np.bool_]
    ends: npt.NDArray[np.bool_]


def chain(words: Sequence[Phonemes]) -> Chain:
    """Return the chain of words given by their phonemes; GENERAL_PHONES is general speech."""
    return _chain(tuple(words))


@lru_cache(maxsize=100_000)
def _chain(words: tuple[Phonemes, ...]) -> Chain:
    pdf, word, jumps = [SILENCE_PDF], [BETWEEN], [[True, False, False, False]]
    for index, phonemes in enumerate(words):
        for place, phoneme in enumerate(phonemes):
            forward, loop = pdfs(phoneme)
            first_of_word = place == 0
            # behind: [enter, stay, silence] before a word, [enter, stay] inside one
            enter = [False, True, True, True] if first_of_word else [False, True, True, False]
            if first_of_word and index == 0:
                enter = [False, True, False, False]
            pdf += [forward, loop]
            word += [index, index]
            jumps += [enter, [True, True, False, False]]
        pdf.append(SILENCE_PDF)
        word.append(BETWEEN)
        jumps.append([True, True, True, False])
    count = len(pdf)
    starts, ends = np.zeros(count, bool), np.zeros(count, bool)
    starts[:2] = True
    ends[-3:] = True
    return Chain(np.asarray(pdf), np.asarray(word), np.asarray(jumps), starts, ends)


def general_chain() -> Chain:
    """Return the chain of speech that is nothing but general speech, of any length."""
    return chain([GENERAL_PHONES])


@dataclass(frozen=True, slots=True)
class ChainBatch:
    """Chains padded to one length on one device: (batch, states), jumps (4, batch, states)."""

    pdf: Tensor
    jump_costs: Tensor
    start_costs: Tensor
    end_costs: Tensor


def batch_chains(chains: Sequence[Chain], device: torch.device | str) -> ChainBatch:
    """Return the chains as one batch."""
    longest = max(len(each.pdf) for each in chains)
    size = (len(chains), longest)
    pdf = np.zeros(size, np.int64)
    jumps = np.zeros((*size, 4), bool)
    starts, ends = np.zeros(size, bool), np.zeros(size, bool)
    for row, each in enumerate(chains):
        count = len(each.pdf)
        pdf[row, :count], jumps[row, :count] = each.pdf, each.jumps
        starts[row, :count], ends[row, :count] = each.starts, each.ends

    def costs(allowed: npt.NDArray[np.bool_]) -> Tensor:
        return torch.as_tensor(np.where(allowed, 0.0, NEVER), dtype=torch.float32, device=device)

    return ChainBatch(
        torch.as_tensor(pdf, device=device),
        costs(jumps.transpose(2, 0, 1)),
        costs(starts),
        costs(ends),
    )


def _arrivals(score: Tensor, jump_costs: Tensor) -> Tensor:
    """Return (4, batch, states): the score of arriving in each state by each jump."""
    moved = [score]
    for jump in (1, 2, 3):
        moved.append(torch.nn.functional.pad(score, (jump, 0), value=NEVER)[:, : score.shape[1]])
    return torch.stack(moved) + jump_costs


def best_path(scores: Tensor, lengths: Tensor, chains: ChainBatch) -> tuple[Tensor, Tensor]:
    """Return (best total score (batch,), state of each frame (batch, frames)).

    scores: (batch, frames, pdfs). Frames past a length repeat the last state.
    """
    frames = scores.shape[1]
    emitted = scores.gather(2, chains.pdf[:, None, :].expand(-1, frames, -1))
    score = chains.start_costs + emitted[:, 0]
    steps = []
    for frame in range(1, frames):
        arrivals, jump = _arrivals(score, chains.jump_costs).max(0)
        alive = (frame < lengths)[:, None]
        score = torch.where(alive, arrivals + emitted[:, frame], score)
        steps.append(torch.where(alive, jump, torch.zeros_like(jump)))
    total, state = (score + chains.end_costs).max(1)
    path = [state]
    for jump in reversed(steps):
        state = state - jump.gather(1, state[:, None])[:, 0]
        path.append(state)
    return total, torch.stack(path[::-1], 1)


def best_score(scores: Tensor, lengths: Tensor, chains: ChainBatch) -> Tensor:
    """Return the best total score of each chain, (batch,)."""
    emitted = scores.gather(2, chains.pdf[:, None, :].expand(-1, scores.shape[1], -1))
    score = chains.start_costs + emitted[:, 0]
    for frame in range(1, scores.shape[1]):
        arrivals = _arrivals(score, chains.jump_costs).max(0).values + emitted[:, frame]
        score = torch.where((frame < lengths)[:, None], arrivals, score)
    return (score + chains.end_costs).max(1).values


def total_score(scores: Tensor, lengths: Tensor, chains: ChainBatch) -> Tensor:
    """Return the log of the summed likelihood over all paths of each chain, (batch,)."""
    emitted = scores.gather(2, chains.pdf[:, None, :].expand(-1, scores.shape[1], -1))
    score = chains.start_costs + emitted[:, 0]
    for frame in range(1, scores.shape[1]):
        arrivals = torch.logsumexp(_arrivals(score, chains.jump_costs), 0) + emitted[:, frame]
        score = torch.where((frame < lengths)[:, None], arrivals.clamp(min=NEVER), score)
    return torch.logsumexp(score + chains.end_costs, 1)
