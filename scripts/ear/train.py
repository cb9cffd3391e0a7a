"""Trains the ear: frames first, then whole phrases against their rivals; stops on unseen voices.

Run, from the repository's root, on a machine with a GPU (works without one, slowly):
  python -m scripts.ear.train --data DIR... --unseen DIR --start FINAL.MDL --published FINAL.MDL --out ear.pt

1. label every frame with the best path of the starting ear (--start: any model file of ours),
2. train the top on the front end as published, then all of it with the front end at a small rate,
3. label again with the new ear and go on,
4. train whole phrases: the right text must outscore rival texts and general speech.
"""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import argparse
import copy
import math
import random
import time
from dataclasses import dataclass
from pathlib import Path

import torch
from torch import Tensor, nn
from torch.nn.functional import cross_entropy

from . import augment, competitors, phrases
from .chains import batch_chains, chain, general_chain, total_score
from .corpus import (
    SPEEDS,
    Batch,
    Corpus,
    Lexicon,
    align,
    draw,
    load_corpus,
    pronounced,
    shuffled,
)
from .measure import Measured, measure
from .network import Ear, load_front, load_own, read_published
from .phones import PDF_COUNT, SILENCE_PDF
from .rebuild_graph import lexicon

GENERAL_SHARE = 0.5
BACKWARDS_SHARE = 0.04
SILENCE_WEIGHT = 0.4
FRONT_RATE = 0.04  # the front end's part of the learning rate
RIVALS = 24
PHRASE_BATCH = 96
PHRASE_SCALE = 0.6  # scores are weighed so in the phrase criterion and in the recogniser
AVERAGING = 0.998


@dataclass(slots=True)
class Trainer:
    """All that one training run needs."""

    corpus: Corpus
    unseen: Corpus
    lexicon: Lexicon
    device: torch.device
    ear: Ear
    average: Ear
    cepstra: augment.Cepstra
    rng: random.Random
    log_prior: Tensor

    def keep_average(self) -> None:
        """Move the averaged weights a little towards the present ones."""
        with torch.no_grad():
            for slow, fast in zip(
                self.average.state_dict().values(), self.ear.state_dict().values(), strict=True
            ):
                if slow.dtype.is_floating_point:
                    slow.lerp_(fast, 1 - AVERAGING)
                else:
                    slow.copy_(fast)

    def batch(self, group: list[int]) -> Batch:
        """Return one disturbed batch."""
        return draw(
            self.corpus,
            self.cepstra,
            group,
            speed=self.rng.choice(SPEEDS),
            warp=self.rng.choice(augment.WARPS),
            general_share=GENERAL_SHARE,
            backwards=self.rng.random() < BACKWARDS_SHARE,
        )


def prior_of(corpus: Corpus) -> Tensor:
    """Return the log share of each output in the labels, as the frame criterion weighs them."""
    counts = torch.ones(PDF_COUNT, device=corpus.sound.device)
    for labels in corpus.labels.values():
        pdf = labels.pdf.long()
        fixed = torch.bincount(pdf[labels.mark == 0], minlength=PDF_COUNT).float()
        free = torch.bincount(pdf[labels.mark > 0], minlength=PDF_COUNT).float()
        counts += fixed + (1 - GENERAL_SHARE) * free
        counts[-1] += GENERAL_SHARE * free.sum()
    counts[SILENCE_PDF] *= SILENCE_WEIGHT
    return (counts / counts.sum()).log().clamp(min=-7.0)


def groups_of(ear: Ear, rate: float, *, front: bool) -> torch.optim.Optimizer:
    """Return the optimiser: the top at *rate*, the front end at its small part of it or not at all."""
    below = [*ear.first.parameters(), *ear.front.parameters()]
    above = [*ear.reduce.parameters(), *ear.top.parameters(), *ear.out.parameters()]
    for parameter in below:
        parameter.requires_grad_(front)
    sets = [{"params": above, "lr": rate, "share": 1.0}]
    if front:
        sets.append({"params": below, "lr": rate * FRONT_RATE, "share": FRONT_RATE})
    return torch.optim.AdamW(sets, weight_decay=1e-2)


def frame_loss(trainer: Trainer, batch: Batch) -> Tensor:
    """Return the cross entropy of the frames' labels."""
    scores = trainer.ear(trainer.ear.pad(batch.cepstra), drop=0.12)
    weight = torch.ones(PDF_COUNT, device=scores.device)
    weight[SILENCE_PDF] = SILENCE_WEIGHT
    return cross_entropy(
        scores.flatten(0, 1), batch.labels.flatten(), weight, ignore_index=-1, label_smoothing=0.03
    )


def train_frames(trainer: Trainer, seconds: float, rate: float, *, front: bool) -> None:
    """Train on frame labels for *seconds*, the rate falling to nothing."""
    optimiser = groups_of(trainer.ear, rate, front=front)
    started, step, total = time.monotonic(), 0, 0.0
    trainer.ear.train()
    while (spent := (time.monotonic() - started) / seconds) < 1:
        for group in shuffled(trainer.corpus.said, trainer.rng):
            spent = (time.monotonic() - started) / seconds
            if spent >= 1:
                break
            now = rate * min(1, (step + 1) / 60) * (0.5 + 0.5 * math.cos(math.pi * spent) + 0.01)
            for each in optimiser.param_groups:
                each["lr"] = now * each["share"]
            loss = frame_loss(trainer, trainer.batch(group))
            optimiser.zero_grad()
            loss.backward()  # type: ignore[no-untyped-call]
            nn.utils.clip_grad_norm_(trainer.ear.parameters(), 5.0)
            optimiser.step()
            trainer.keep_average()
            step += 1
            total += float(loss.detach()) if step % 20 == 0 else 0.0
        print(
            f"  frames: step {step}, {spent:.0%}, loss {total / max(1, step // 20):.3f}", flush=True
        )


def phrase_loss(trainer: Trainer, batch: Batch, commands: tuple[str, ...]) -> tuple[Tensor, Tensor]:
    """Return (phrase loss, frame loss): the right text against rivals and general speech.

    Speech that holds none of the coach's words must be general speech; other texts themselves.
    """
    keep, rng, said = phrases.spoken_to_the_coach(), trainer.rng, trainer.corpus.said
    rows = rng.sample(range(len(batch.group)), min(PHRASE_BATCH, len(batch.group)))
    scores = trainer.ear(trainer.ear.pad(batch.cepstra), drop=0.08)
    frames = cross_entropy(scores.flatten(0, 1), batch.labels.flatten(), ignore_index=-1)
    chains, answers, chosen = [], [], []
    for row in rows:
        text = said[batch.group[row]].text
        words = text.split()
        wholly, partly = set(words) <= keep, bool(set(words) & keep)
        if partly and not wholly:
            continue  # talk with a command's word in it: the dialogue's task, not the ear's
        own = [text] if wholly else []
        others = competitors.rivals(text, commands, RIVALS - len(own), rng)
        for each in own + others:
            chains.append(chain(pronounced(each, trainer.lexicon, rng)))
        chains.append(general_chain())
        answers.append(0 if wholly else RIVALS)
        chosen.append(row)
    if not chosen:
        return frames, frames
    device = scores.device
    logs = (scores[chosen].log_softmax(-1) - trainer.log_prior).repeat_interleave(RIVALS + 1, 0)
    counts = batch.counts[chosen].repeat_interleave(RIVALS + 1, 0)
    totals = total_score(PHRASE_SCALE * logs, counts, batch_chains(chains, device))
    answer = torch.as_tensor(answers, device=device)
    # a single phrase may cost at most so much, or one mislabelled clip rules the step
    loss = cross_entropy(totals.view(-1, RIVALS + 1), answer, reduction="none").clamp(max=12.0)
    return loss.mean(), frames


def train_phrases(trainer: Trainer, seconds: float, rate: float) -> None:
    """Train on whole phrases for *seconds*, with the frame criterion beside it."""
    commands = phrases.command_phrases()
    optimiser = groups_of(trainer.ear, rate, front=True)
    started, step, sums = time.monotonic(), 0, [0.0, 0.0]
    trainer.ear.train()
    while (spent := (time.monotonic() - started) / seconds) < 1:
        for group in shuffled(trainer.corpus.said, trainer.rng):
            spent = (time.monotonic() - started) / seconds
            if spent >= 1:
                break
            part = group
            if len(group) > PHRASE_BATCH:
                part = trainer.rng.sample(group, PHRASE_BATCH)
            now = rate * min(1, (step + 1) / 30) * (0.5 + 0.5 * math.cos(math.pi * spent) + 0.01)
            for each in optimiser.param_groups:
                each["lr"] = now * each["share"]
            batch = trainer.batch(part)
            phrase, frames = phrase_loss(trainer, batch, commands)
            optimiser.zero_grad()
            (phrase + 0.5 * frames).backward()  # type: ignore[no-untyped-call]
            nn.utils.clip_grad_norm_(trainer.ear.parameters(), 5.0)
            optimiser.step()
            trainer.keep_average()
            step += 1
            if step % 20 == 0:
                sums[0] += float(phrase.detach())
                sums[1] += float(frames.detach())
        share = max(1, step // 20)
        print(
            f"  phrases: step {step}, {spent:.0%}, loss {sums[0] / share:.3f}, frames {sums[1] / share:.3f}",
            flush=True,
        )


@torch.no_grad()
def on_unseen(trainer: Trainer, ear: Ear) -> Measured:
    """Return how the ear does on the voices that it was never trained on."""
    ear.eval()
    found = measure(ear, trainer.log_prior, trainer.unseen, trainer.lexicon, PHRASE_SCALE)
    print(f"  unseen voices: {found}", flush=True)
    return found


def save(path: Path, ear: Ear, log_prior: Tensor) -> None:
    """Write the network and its prior."""
    state = {name: value.cpu() for name, value in ear.state_dict().items()}
    torch.save({"state": state, "log_prior": log_prior.cpu()}, path)


def networks(given: argparse.Namespace, device: torch.device) -> tuple[Ear, Ear, Tensor]:
    """Return the ear to train, the ear that labels, and the labelling ear's prior."""
    ear = Ear().to(device)
    if given.resume:
        ear.load_state_dict(torch.load(given.resume, map_location=device)["state"])
    else:
        start = load_own(given.start).ear.to(device)
        for part in ("first", "front", "reduce"):
            getattr(ear, part).load_state_dict(getattr(start, part).state_dict())
        ear.first_scale.copy_(start.first_scale)
        ear.first_offset.copy_(start.first_offset)
        if given.published:
            load_front(ear, read_published(given.published))
    known = given.labels or given.resume
    if known:
        kept = torch.load(known, map_location=device)
        labeller = Ear().to(device)
        labeller.load_state_dict(kept["state"])
        return ear, labeller.eval(), kept["log_prior"].to(device)
    loaded = load_own(given.start)
    prior = torch.as_tensor(loaded.log_prior, dtype=torch.float32, device=device)
    return ear, *as_ours(loaded.ear.to(device), prior)


def begin(given: argparse.Namespace, device: torch.device) -> Trainer:
    """Load speech and networks, and label the speech with the starting ear."""
    words = lexicon(given.dictionary)
    corpus = load_corpus(given.data, words, device)
    unseen = load_corpus([given.unseen], words, device)
    hours = sum(each.samples for each in corpus.said) / 16_000 / 3600
    print(
        f"{len(corpus.said)} utterances, {hours:.2f} hours; {len(unseen.said)} unseen", flush=True
    )
    ear, labeller, prior = networks(given, device)
    trainer = Trainer(
        corpus=corpus,
        unseen=unseen,
        lexicon=words,
        device=device,
        ear=ear,
        average=copy.deepcopy(ear),
        cepstra=augment.Cepstra(device),
        rng=random.Random(given.seed),
        log_prior=prior,
    )
    label(trainer, labeller, prior)
    return trainer


def as_ours(ear: Ear, prior: Tensor) -> tuple[Ear, Tensor]:
    """Return an ear whose first output is silence; the interim one has a dead output before it."""
    if prior[0] <= -6.9 and prior[1] > -3:
        with torch.no_grad():
            spare = torch.full_like(ear.out.bias[:1], -20.0)
            ear.out.weight = nn.Parameter(torch.cat([ear.out.weight[1:], ear.out.weight[:1] * 0]))
            ear.out.bias = nn.Parameter(torch.cat([ear.out.bias[1:], spare]))
        prior = torch.cat([prior[1:], prior[:1] * 0])
    return ear, prior


def label(trainer: Trainer, ear: Ear, log_prior: Tensor) -> None:
    """Label the training speech with *ear* and take the prior from the labels."""
    keep = phrases.spoken_to_the_coach()
    means = align(trainer.corpus, ear.eval(), log_prior, trainer.lexicon, keep)
    trainer.log_prior = prior_of(trainer.corpus)
    print(f"  labelled; mean score of a frame {means}", flush=True)


def main() -> None:
    """Read the command line and train."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, nargs="+", required=True)
    parser.add_argument("--unseen", type=Path, required=True)
    parser.add_argument("--published", type=Path, help="front end; without it that of --start")
    parser.add_argument("--dictionary", type=Path)
    parser.add_argument("--start", type=Path)
    parser.add_argument("--labels", type=Path, help="a trained ear.pt that labels the speech")
    parser.add_argument("--resume", type=Path, help="a trained ear.pt to go on from")
    parser.add_argument("--relabel", action="store_true", help="label anew half-way")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--frame-seconds", type=float, default=150)
    parser.add_argument("--phrase-seconds", type=float, default=120)
    parser.add_argument("--phrase-rate", type=float, default=4e-4)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    torch.manual_seed(given.seed)
    torch.backends.cuda.matmul.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    trainer = begin(given, device)
    if given.frame_seconds:
        if not given.resume:
            train_frames(trainer, given.frame_seconds * 0.15, 2e-3, front=False)
        train_frames(trainer, given.frame_seconds * 0.4, 1.5e-3, front=True)
        if given.relabel:
            label(trainer, trainer.average, trainer.log_prior)
        train_frames(trainer, given.frame_seconds * 0.45, 1.5e-3, front=True)
        save(given.out.with_suffix(".frames.pt"), trainer.average, trainer.log_prior)
    best = on_unseen(trainer, trainer.average)
    save(given.out, trainer.average, trainer.log_prior)
    rounds = 3
    for index in range(rounds if given.phrase_seconds else 0):
        rate = given.phrase_rate * (1 - index / rounds)
        train_phrases(trainer, given.phrase_seconds / rounds, rate)
        found = on_unseen(trainer, trainer.average)
        if found.better_than(best):
            best = found
            save(given.out, trainer.average, trainer.log_prior)
    print(f"kept: {best}", flush=True)


if __name__ == "__main__":
    main()
