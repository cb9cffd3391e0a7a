"""Counts right, wrong and accepted phrases of unseen voices on the GPU, without the recogniser.

Each clip is scored against every command phrase, near numbers and general speech. The figures
only steer training; the report's figures come from the recogniser itself.
"""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import random
from dataclasses import dataclass

import torch

from . import augment, competitors, phrases
from .chains import batch_chains, best_score, chain, general_chain
from .corpus import (
    OUTPUT_STEP,
    Corpus,
    Lexicon,
    batches,
    outputs_of,
    placed,
    waves_of,
)
from .network import Ear

NOISES = (("steady", 200.0), ("steady", 8.0), ("crowd", 10.0), ("crowd", 5.0))
ROWS_AT_ONCE = 12
NEAR = 24


@dataclass(frozen=True, slots=True)
class Measured:
    """Shares over all clips and noises: of commands and numbers, and of other speech."""

    right: float
    wrong: float
    accepted: float
    numbers_right: float

    def cost(self) -> float:
        """Return one figure to make small: misses, and wrong and false ones three times over."""
        missed = 1 - self.right - self.wrong
        return missed + 3 * self.wrong + 2 * self.accepted + 0.5 * (1 - self.numbers_right)

    def better_than(self, other: Measured) -> bool:
        """Return whether this ear is the better one."""
        return self.cost() < other.cost()

    def __str__(self) -> str:
        return (
            f"commands right {self.right:.3f} wrong {self.wrong:.3f}, "
            f"numbers right {self.numbers_right:.3f}, other accepted {self.accepted:.3f}, "
            f"cost {self.cost():.3f}"
        )


def measure(  # noqa: PLR0917 - one measurement, all of it needed
    ear: Ear,
    log_prior: torch.Tensor,
    unseen: Corpus,
    words: Lexicon,
    scale: float,
    talk: torch.Tensor,
) -> Measured:
    """Return the figures of *ear* on the clips of *unseen*, each clean, in noise and in *talk*."""
    commands, keep = phrases.command_phrases(), phrases.spoken_to_the_coach()
    device, rng = unseen.sound.device, random.Random(3)
    cepstra = augment.Cepstra(device)
    torch.manual_seed(11)
    tally = {"command": [0, 0, 0], "number": [0, 0, 0], "other": [0, 0, 0]}
    clips = [
        g[i : i + ROWS_AT_ONCE]
        for g in batches(unseen.said, 120.0)
        for i in range(0, len(g), ROWS_AT_ONCE)
    ]
    for group in clips:
        waves, samples = waves_of(unseen, group)
        total = waves.shape[1] + 20 * OUTPUT_STEP
        lead = torch.full((len(group),), 8 * OUTPUT_STEP, device=device)
        clean = placed(waves, lead, total)
        counts = outputs_of(samples + 18 * OUTPUT_STEP)
        texts = [unseen.said[i].text for i in group]
        for kind_of_noise, decibels in NOISES:
            crowded = kind_of_noise == "crowd"
            noise = (
                augment.crowd(talk, len(group), total, fewest=3)
                if crowded
                else augment.coloured_noise(len(group), total, device)
            )
            level = torch.full((len(group),), decibels, device=device)
            heard = cepstra(augment.add_noise(clean, noise, level))
            logs = scale * (ear(ear.pad(heard)).log_softmax(-1) - log_prior)
            chains, sets = [], []
            for text in texts:
                near = [competitors.near_numbers(text, rng) for _ in range(NEAR)]
                candidates = [text, *(each for each in (*commands, *near))]
                sets.append(candidates)
                chains += [chain([words[w][0] for w in each.split()]) for each in candidates]
                chains.append(general_chain())
            each_has = len(sets[0]) + 1
            rows = logs.repeat_interleave(each_has, 0)
            sizes = counts.clamp(max=logs.shape[1]).repeat_interleave(each_has, 0)
            best = best_score(rows, sizes, batch_chains(chains, device)).view(len(texts), each_has)
            for text, candidates, row in zip(texts, sets, best, strict=True):
                spoken = set(text.split()) <= keep
                first = 0 if spoken else 1  # other speech may not win as itself
                winner = int(row[first:].argmax()) + first
                general = winner == len(candidates)
                kind = "other"
                if spoken:
                    numeric = competitors.near_numbers(text, rng) != text
                    kind = "number" if numeric else "command" if text in commands else "trade"
                if kind == "trade":
                    continue
                tally[kind][2] += 1
                if general:
                    continue
                tally[kind][0 if candidates[winner] == text else 1] += 1
    return Measured(
        right=tally["command"][0] / max(1, tally["command"][2]),
        wrong=tally["command"][1] / max(1, tally["command"][2]),
        accepted=tally["other"][1] / max(1, tally["other"][2]),
        numbers_right=tally["number"][0] / max(1, tally["number"][2]),
    )
