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

import numpy as np
import torch
from torch import Tensor, nn
from torch.nn.functional import cross_entropy

from . import augment, competitors, phrases
from .chains import GENERAL_PHONES, NEVER, Chain, batch_chains, chain, total_score
from .corpus import (
    SPEEDS,
    Batch,
    Corpus,
    Lexicon,
    Way,
    align,
    draw,
    load_corpus,
    pronounced,
    shuffled,
)
from .measure import Measured, measure
from .nearness import nearest
from .network import Ear, load_front, load_own, read_published
from .phones import PDF_COUNT, SILENCE_PDF
from .pronunciations import Phonemes
from .rebuild_graph import lexicon

Sounds = tuple[Phonemes, ...]

GENERAL_SHARE = 0.5
BACKWARDS_SHARE = 0.025
CROWDED_SHARE = 0.045
SILENCE_WEIGHT = 0.4
RIVALS = 30
RHYMES, TORN = 4, 4  # among the rivals of a phrase
ALIKE = 20
PHRASE_BATCH = 224
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
    keep: frozenset[str]
    near: dict[str, tuple[str, ...]]
    near_rhymes: dict[str, tuple[str, ...]]

    def keep_average(self) -> None:
        """Move the averaged weights a little towards the present ones."""
        slow, fast = self.average.state_dict(), self.ear.state_dict()
        names = [name for name, each in slow.items() if each.dtype.is_floating_point]
        with torch.no_grad():
            torch._foreach_lerp_(
                [slow[name] for name in names], [fast[name] for name in names], 1 - AVERAGING
            )

    def batch(self, group: list[int]) -> Batch:
        """Return one disturbed batch."""
        roll = self.rng.random()
        backwards = roll < BACKWARDS_SHARE
        way = Way(
            speed=self.rng.choice(SPEEDS),
            warp=self.rng.choice(augment.WARPS),
            general_share=GENERAL_SHARE,
            backwards=backwards,
            crowded=not backwards and roll < BACKWARDS_SHARE + CROWDED_SHARE,
        )
        return draw(self.corpus, self.cepstra, group, way)


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


def groups_of(ear: Ear, rate: float, front: float) -> torch.optim.Optimizer:
    """Return the optimiser: the top at *rate*, the front end at *front* of it, 0: not at all."""
    below = [*ear.first.parameters(), *ear.front.parameters()]
    above = [*ear.reduce.parameters(), *ear.top.parameters(), *ear.out.parameters()]
    for parameter in below:
        parameter.requires_grad_(front > 0)
    sets = [{"params": above, "lr": rate, "share": 1.0}]
    if front:
        sets.append({"params": below, "lr": rate * front, "share": front})
    return torch.optim.AdamW(sets, weight_decay=1e-2)


def frame_loss(trainer: Trainer, batch: Batch) -> Tensor:
    """Return the cross entropy of the frames' labels."""
    scores = trainer.ear(trainer.ear.pad(batch.cepstra), drop=0.12)
    weight = torch.ones(PDF_COUNT, device=scores.device)
    weight[SILENCE_PDF] = SILENCE_WEIGHT
    return cross_entropy(
        scores.flatten(0, 1), batch.labels.flatten(), weight, ignore_index=-1, label_smoothing=0.03
    )


def train_frames(trainer: Trainer, seconds: float, rate: float, front: float) -> None:
    """Train on frame labels for *seconds*, the rate falling to nothing."""
    optimiser = groups_of(trainer.ear, rate, front)
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


def own_chains(text: str, keep: frozenset[str], words: Lexicon, rng: random.Random) -> list[Sounds]:
    """Return the chains that count as right for a text.

    Wholly the coach's words: the text, in up to two ways to say it. Otherwise general speech alone,
    or around the words of the coach's that the talk holds.
    """
    said = text.split()
    if set(said) <= keep:
        return list(dict.fromkeys(tuple(pronounced(text, words, rng)) for _ in range(2)))
    mixed: list[Phonemes] = []
    for word in said:
        if word in keep:
            mixed.append(rng.choice(words[word]))
        elif not mixed or mixed[-1] != GENERAL_PHONES:
            mixed.append(GENERAL_PHONES)
    return list(dict.fromkeys(((GENERAL_PHONES,), tuple(mixed))))


def wrong_chains(
    trainer: Trainer, text: str, commands: tuple[str, ...], *, whole: bool
) -> list[Sounds]:
    """Return the chains of what a text must not be taken for."""
    alike = trainer.near.get(text, ())
    texts = competitors.rivals(text, commands, RIVALS, trainer.rng, alike)
    if whole:
        texts[:TORN] = [competitors.torn(text, trainer.rng) for _ in range(TORN)]
        rhymes = trainer.near_rhymes.get(text, ())
        rhymes = tuple(trainer.rng.sample(rhymes, min(RHYMES, len(rhymes))))
        texts[TORN : TORN + len(rhymes)] = rhymes
    wrong = [tuple(pronounced(each, trainer.lexicon, trainer.rng)) for each in texts]
    if whole:  # the recogniser may hear general speech too, before the phrase or after it
        said = tuple(pronounced(text, trainer.lexicon, trainer.rng))
        wrong[-3:] = [(GENERAL_PHONES,), (GENERAL_PHONES, *said), (*said, GENERAL_PHONES)]
    return wrong


def phrase_loss(trainer: Trainer, batch: Batch, commands: tuple[str, ...]) -> tuple[Tensor, Tensor]:
    """Return (phrase loss, frame loss): the right text against rivals and general speech.

    Speech that holds none of the coach's words must be general speech; talk with some of them
    general speech around those; other texts themselves.
    """
    rng, said = trainer.rng, trainer.corpus.said
    scores = trainer.ear(trainer.ear.pad(batch.cepstra), drop=0.08)
    frames = cross_entropy(scores.flatten(0, 1), batch.labels.flatten(), ignore_index=-1)
    most = max(24, PHRASE_BATCH * 110 // scores.shape[1])
    rows = rng.sample(range(len(batch.group)), min(most, len(batch.group)))
    chains: list[Chain] = []
    ours = np.zeros((len(rows), RIVALS + 2), bool)
    for index, row in enumerate(rows):
        text = said[batch.group[row]].text
        own = own_chains(text, trainer.keep, trainer.lexicon, rng)
        whole = set(text.split()) <= trainer.keep
        if batch.no_words:
            own, whole = [(GENERAL_PHONES,)], False
            text = rng.choice(commands)
        wrong = wrong_chains(trainer, text, commands, whole=whole)
        mine = {sum(each, ()) for each in own}
        # what sounds the same is not wrong
        wrong = [each for each in wrong if sum(each, ()) not in mine]
        each_has = own + wrong
        each_has += [wrong[0]] * (RIVALS + 2 - len(each_has))
        chains += [chain(each) for each in each_has[: RIVALS + 2]]
        ours[index, : len(own)] = True
    device = scores.device
    logs = scores[rows].log_softmax(-1) - trainer.log_prior
    counts = batch.counts[rows].repeat_interleave(RIVALS + 2, 0)
    tiled = (PHRASE_SCALE * logs).repeat_interleave(RIVALS + 2, 0)
    totals = total_score(tiled, counts, batch_chains(chains, device)).view(len(rows), RIVALS + 2)
    right = totals.masked_fill(~torch.as_tensor(ours, device=device), NEVER)
    # a single phrase may cost at most so much, or one mislabelled clip rules the step
    loss = (totals.logsumexp(1) - right.logsumexp(1)).clamp(max=12.0)
    return loss.mean(), frames


def train_phrases(trainer: Trainer, seconds: float, rate: float, front: float) -> None:
    """Train on whole phrases for *seconds*, with the frame criterion beside it."""
    commands = phrases.command_phrases()
    optimiser = groups_of(trainer.ear, rate, front)
    started, step, sums = time.monotonic(), 0, [0.0, 0.0]
    trainer.ear.train()
    while (spent := (time.monotonic() - started) / seconds) < 1:
        for group in shuffled(trainer.corpus.said, trainer.rng):
            spent = (time.monotonic() - started) / seconds
            if spent >= 1:
                break
            part = trainer.rng.sample(group, min(len(group), PHRASE_BATCH))
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
    talk = trainer.corpus.sound
    found = measure(ear, trainer.log_prior, trainer.unseen, trainer.lexicon, PHRASE_SCALE, talk)
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
        if given.published:  # all new but the front end
            ear.reduce.load_state_dict(start.reduce.state_dict())
            load_front(ear, read_published(given.published))
        else:
            ear.load_state_dict(start.state_dict())
    known = given.labels or given.resume
    if known:
        kept = torch.load(known, map_location=device)
        labeller = Ear().to(device)
        labeller.load_state_dict(kept["state"])
        return ear, labeller.eval(), kept["log_prior"].to(device)
    loaded = load_own(given.start)
    prior = torch.as_tensor(loaded.log_prior, dtype=torch.float32, device=device)
    return ear, *as_ours(loaded.ear.to(device), prior)


def kept_words(words: Lexicon) -> frozenset[str]:
    """Return the coach's words and those that sound the same: "know" is no general speech."""
    own = phrases.spoken_to_the_coach()
    sounds = {said for word in own for said in words[word]}
    return own | {word for word, said in words.items() if sounds & set(said)}


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
        keep=kept_words(words),
        near={},
        near_rhymes={},
    )
    texts = [each.text for each in corpus.said]
    trainer.near = nearest(texts, phrases.command_phrases(), words, ALIKE, device)
    rhymes = [word for word in phrases.RHYMES if word not in trainer.keep]
    trainer.near_rhymes = nearest(texts, rhymes, words, ALIKE // 2, device)
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
    means = align(trainer.corpus, ear.eval(), log_prior, trainer.lexicon, trainer.keep)
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
    parser.add_argument("--frame-rate", type=float, default=1.2e-3)
    parser.add_argument("--front-rate", type=float, default=0.1, help="of the top's, for the front")
    parser.add_argument("--rounds", type=int, default=3, help="of whole phrases, each measured")
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    torch.manual_seed(given.seed)
    torch.backends.cuda.matmul.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    trainer = begin(given, device)
    if given.frame_seconds:
        if given.published and not given.resume:
            train_frames(trainer, given.frame_seconds * 0.15, 2e-3, 0.0)
        part = given.frame_seconds * (0.5 if given.relabel else 1.0)
        train_frames(trainer, part, given.frame_rate, given.front_rate)
        if given.relabel:
            label(trainer, trainer.average, trainer.log_prior)
            train_frames(trainer, part, given.frame_rate, given.front_rate)
        save(given.out.with_suffix(".frames.pt"), trainer.average, trainer.log_prior)
    best = on_unseen(trainer, trainer.average)
    save(given.out, trainer.average, trainer.log_prior)
    rounds = given.rounds
    for index in range(rounds if given.phrase_seconds else 0):
        rate = given.phrase_rate * (1 - index / rounds)
        train_phrases(trainer, given.phrase_seconds / rounds, rate, given.front_rate)
        found = on_unseen(trainer, trainer.average)
        if found.better_than(best):
            best = found
            save(given.out, trainer.average, trainer.log_prior)
    print(f"kept: {best}", flush=True)


if __name__ == "__main__":
    main()
