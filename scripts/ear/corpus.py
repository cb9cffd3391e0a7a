"""Training speech on the GPU: waves, texts and frame labels as flat tensors, drawn as batches."""

# ruff: noqa: PLC0415 - torch and the engines are heavy and may be absent: imported where used
# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import json
import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import torch
from torch import Tensor

from . import augment, features
from .chains import batch_chains, best_path, chain
from .network import SUBSAMPLING, Ear
from .phones import GENERAL_PDF, SILENCE_PDF
from .pronunciations import Phonemes

Lexicon = Mapping[str, Sequence[Phonemes]]

OUTPUT_STEP = features.STEP * SUBSAMPLING  # samples from one output to the next
ALIGN_LEAD = 10 * OUTPUT_STEP
SPEEDS = (0.9, 1.0, 1.12)
MOST_WORDS = 32
BATCH_SECONDS = 420.0
QUIET_PART = 0.012  # of a clip's peak: below it is silence in synthetic speech
MASKED_SHARE = 0.4
CUT_SHARE = 0.25  # of the clips, cut close to the voice as a detector of voices cuts
WORST_SHARE = 0.03  # of each speed's alignments, left out of training


@dataclass(frozen=True, slots=True)
class Said:
    """One utterance: where its samples lie in the flat sound, and its text and voice."""

    at: int
    samples: int
    text: str
    voice: str


@dataclass(slots=True)
class Labels:
    """Frame labels of one speed: flat pdfs and word marks, with (start, count) of each utterance.

    marks: 0 where the frame must keep its label, else 1 + the word's place in the utterance.
    """

    pdf: Tensor
    mark: Tensor
    start: Tensor
    count: Tensor
    good: Tensor


@dataclass(slots=True)
class Corpus:
    """Utterances with their sound as one int16 tensor."""

    said: list[Said]
    sound: Tensor
    labels: dict[float, Labels] = field(default_factory=dict)


def read_sound(path: Path) -> np.ndarray[tuple[int], np.dtype[np.int16]]:
    """Return 16 kHz samples of a raw .s16 file or of a coded file that soundfile reads."""
    if path.suffix == ".s16":
        return np.fromfile(path, "<i2")
    import soundfile  # type: ignore[import-untyped]

    samples, rate = soundfile.read(str(path), dtype="int16")
    if rate != features.RATE:
        raise ValueError(f"{path} has {rate} samples a second, not {features.RATE}")
    return np.asarray(samples, np.int16)


def load_corpus(folders: Sequence[Path], lexicon: Lexicon, device: torch.device) -> Corpus:
    """Return the speech of several folders; utterances with a word out of the lexicon are left."""
    said: list[Said] = []
    sounds = []
    base = 0
    for folder in folders:
        for facts in sorted(folder.glob("*.jsonl")):
            source = next(
                p for p in (facts.with_suffix(".s16"), facts.with_suffix(".opus")) if p.exists()
            )
            sound = read_sound(source)
            for line in facts.read_text(encoding="utf-8").splitlines():
                fact = json.loads(line)
                text = fact["text"].lower()
                known = all(word in lexicon for word in text.split())
                inside = fact["at"] + fact["samples"] <= len(sound)
                if known and inside and len(text.split()) < MOST_WORDS:
                    voice = f"{fact['engine']} {fact['voice']}"
                    said.append(Said(base + fact["at"], fact["samples"], text, voice))
            sounds.append(sound)
            base += len(sound)
    flat = torch.as_tensor(np.concatenate(sounds), device=device)
    return Corpus(sorted(said, key=lambda each: each.samples), flat)


def batches(said: Sequence[Said], seconds: float = BATCH_SECONDS) -> list[list[int]]:
    """Return the utterances' numbers in groups of like length, each about *seconds* long."""
    groups: list[list[int]] = [[]]
    for index, each in enumerate(said):
        longest = each.samples / features.RATE + 0.8
        if groups[-1] and (len(groups[-1]) + 1) * longest > seconds:
            groups.append([])
        groups[-1].append(index)
    return groups


def waves_of(corpus: Corpus, group: Sequence[int]) -> tuple[Tensor, Tensor]:
    """Return (batch, samples) at full scale 1, zero past each end, and the lengths."""
    device = corpus.sound.device
    at = torch.as_tensor([corpus.said[i].at for i in group], device=device)
    samples = torch.as_tensor([corpus.said[i].samples for i in group], device=device)
    place = torch.arange(int(samples.max()), device=device)
    index = (at[:, None] + place).clamp(max=corpus.sound.numel() - 1)
    waves = corpus.sound[index].float() / 32768
    return waves * (place < samples[:, None]), samples


def placed(waves: Tensor, lead: Tensor, total: int) -> Tensor:
    """Return the waves moved right by *lead* samples each, inside *total* samples."""
    index = torch.arange(total, device=waves.device) - lead[:, None]
    inside = (index >= 0) & (index < waves.shape[1])
    return waves.gather(1, index.clamp(0, waves.shape[1] - 1)) * inside


def outputs_of(samples: Tensor) -> Tensor:
    """Return how many outputs the network gives for a number of samples."""
    frames = 1 + (samples - features.FRAME).div(features.STEP, rounding_mode="floor")
    return (frames + SUBSAMPLING - 1).div(SUBSAMPLING, rounding_mode="floor")


def pronounced(text: str, lexicon: Lexicon, rng: random.Random) -> list[Phonemes]:
    """Return one pronunciation of each word, drawn at random."""
    return [rng.choice(lexicon[word]) for word in text.split()]


def _align_group(  # noqa: PLR0917 - one batch, all of it needed
    ear: Ear, log_prior: Tensor, waves: Tensor, samples: Tensor, texts: list[str], lexicon: Lexicon
) -> tuple[Tensor, Tensor, Tensor, Tensor]:
    device = waves.device
    total = ALIGN_LEAD * 2 + waves.shape[1]
    lead = torch.full((len(texts),), ALIGN_LEAD, device=device)
    sound = placed(waves, lead, total)
    sound = sound + torch.randn_like(sound) * 2e-4
    scores = ear(ear.pad(augment.Cepstra(device)(sound))).log_softmax(-1) - log_prior
    counts = outputs_of(samples + 2 * ALIGN_LEAD).clamp(max=scores.shape[1])
    rng = random.Random(len(texts))
    best: Tensor | None = None
    pdf = mark = torch.zeros(0)
    for _ in range(3):  # a few draws of the pronunciations; the best one is kept
        drawn = [chain(pronounced(text, lexicon, rng)) for text in texts]
        chains = batch_chains(drawn, device)
        score, state = best_path(scores, counts, chains)
        words = np.zeros(tuple(chains.pdf.shape), np.int64)
        for row, each in enumerate(drawn):
            words[row, : len(each.word)] = each.word + 1
        new_pdf = chains.pdf.gather(1, state)
        new_mark = torch.as_tensor(words, device=device).gather(1, state)
        if best is None:
            best, pdf, mark = score, new_pdf, new_mark
        else:
            better = (score > best)[:, None]
            pdf, mark = torch.where(better, new_pdf, pdf), torch.where(better, new_mark, mark)
            best = torch.maximum(best, score)
    assert best is not None
    outside = _outside_speech(sound, pdf.shape[1])
    pdf, mark = torch.where(outside, SILENCE_PDF, pdf), torch.where(outside, 0, mark)
    return pdf, mark, counts, best / counts


def _outside_speech(sound: Tensor, outputs: int) -> Tensor:
    """Return (batch, outputs): before the first and after the last loud frame of clean speech.

    A path alone lets the last sound of a word run on into the silence after it.
    """
    levels = torch.nn.functional.max_pool1d(sound.abs(), OUTPUT_STEP, OUTPUT_STEP, ceil_mode=True)
    levels = torch.nn.functional.pad(levels, (0, max(0, outputs - levels.shape[1])))[:, :outputs]
    loud = levels > QUIET_PART * levels.amax(1, keepdim=True)
    before = loud.cumsum(1) == 0
    after = loud.flip(1).cumsum(1).flip(1) == 0
    return before | after


@torch.no_grad()
def align(
    corpus: Corpus, ear: Ear, log_prior: Tensor, lexicon: Lexicon, keep: frozenset[str]
) -> dict[float, float]:
    """Label every frame at every speed with the ear's own best path. Returns mean scores.

    keep: words whose labels may never be turned into general speech.
    """
    device = corpus.sound.device
    means: dict[float, float] = {}
    for speed in SPEEDS:
        pdfs, marks, counts, scores = [], [], [], []
        for group in batches(corpus.said):
            waves, samples = waves_of(corpus, group)
            waves = augment.at_speed(waves, speed)
            samples = (samples / speed).long()
            texts = [corpus.said[i].text for i in group]
            pdf, mark, count, score = _align_group(ear, log_prior, waves, samples, texts, lexicon)
            kept = np.zeros((len(group), MOST_WORDS + 1), bool)
            for row, text in enumerate(texts):
                for place, word in enumerate(text.split()):
                    kept[row, place + 1] = word in keep
            mark = mark * ~torch.as_tensor(kept, device=device).gather(1, mark)
            for row, size in enumerate(count.tolist()):
                pdfs.append(pdf[row, :size].to(torch.int16))
                marks.append(mark[row, :size].to(torch.int16))
            counts.append(count)
            scores.append(score)
        count, score = torch.cat(counts), torch.cat(scores)
        start = torch.cumsum(count, 0) - count
        good = score > torch.quantile(score.float(), WORST_SHARE)
        corpus.labels[speed] = Labels(torch.cat(pdfs), torch.cat(marks), start, count, good)
        means[speed] = float(score.mean())
    return means


@dataclass(frozen=True, slots=True)
class Batch:
    """Disturbed cepstra with their labels; -1 marks frames that do not count.

    no_words: nothing in it may be taken for words, whatever the texts of the group say.
    """

    cepstra: Tensor
    labels: Tensor
    group: list[int]
    counts: Tensor
    no_words: bool


@dataclass(frozen=True, slots=True)
class Way:
    """How a batch is spoken.

    general_share: the chance that a word outside the kept ones is labelled as general speech.
    backwards: played in reverse, as speech that is no language at all.
    crowded: nothing but several people who talk at once.
    """

    speed: float
    warp: float
    general_share: float
    backwards: bool = False
    crowded: bool = False


def _edges(waves: Tensor, samples: Tensor) -> tuple[Tensor, Tensor]:
    """Return (outputs before the voice begins, outputs until it has ended) of clean clips."""
    loud = waves.abs() > QUIET_PART * waves.abs().amax(1, keepdim=True).clamp(min=1e-6)
    first = loud.float().argmax(1)
    last = waves.shape[1] - loud.flip(1).float().argmax(1)
    return first // OUTPUT_STEP, last.minimum(samples) // OUTPUT_STEP


def draw(corpus: Corpus, cepstra: augment.Cepstra, group: list[int], way: Way) -> Batch:
    """Return one batch of disturbed speech with labels."""
    device = corpus.sound.device
    labels = corpus.labels[way.speed]
    waves, samples = waves_of(corpus, group)
    waves = augment.at_speed(waves, way.speed)
    samples = (samples / way.speed).long()
    count = len(group)
    chosen = torch.as_tensor(group, device=device)
    lead = torch.randint(3, 20, (count,), device=device)
    begins, ends = _edges(waves, samples)
    cut = (torch.rand(count, device=device) < CUT_SHARE) & (not way.backwards)
    lead = torch.where(cut, torch.randint(-1, 5, (count,), device=device) - begins, lead)
    jitter = torch.randint(-200, 200, (count,), device=device)
    total = waves.shape[1] + 40 * OUTPUT_STEP
    if way.backwards:
        waves = placed(waves.flip(1), samples - waves.shape[1], waves.shape[1])
    clean = placed(waves, lead * OUTPUT_STEP + jitter, total)
    if way.crowded:
        clean = augment.crowd(corpus.sound, count, total, fewest=2)
    sound = augment.disturb(clean, augment.crowd(corpus.sound, count, total))
    heard = cepstra(sound, way.warp, masks=MASKED_SHARE)
    outputs = (heard.shape[1] + SUBSAMPLING - 1) // SUBSAMPLING
    place = torch.arange(outputs, device=device) - lead[:, None] + ALIGN_LEAD // OUTPUT_STEP
    sizes = labels.count[chosen][:, None]
    if way.backwards:
        place = sizes - 1 - place
    inside = (place >= 0) & (place < sizes)
    index = labels.start[chosen][:, None] + place.clamp(min=0).minimum(sizes - 1)
    pdf = torch.where(inside, labels.pdf[index].long(), SILENCE_PDF)
    mark = torch.where(inside, labels.mark[index].long(), 0)
    turned = torch.rand(count, MOST_WORDS + 1, device=device) < way.general_share
    turned[:, 0] = False
    pdf = torch.where(turned.gather(1, mark), GENERAL_PDF, pdf)
    if way.backwards:
        pdf = torch.where(pdf != SILENCE_PDF, GENERAL_PDF, pdf)
    if way.crowded:
        pdf = torch.full_like(pdf, GENERAL_PDF)
    # Each clip ends early in its silence, then its last frame is repeated: so the recogniser
    # sees the end of a sound, and without it the last outputs are far off.
    counts = outputs_of(samples + (lead + 20) * OUTPUT_STEP)
    counts = counts - torch.randint(0, 18, (count,), device=device)
    close = lead + ends + torch.randint(-1, 8, (count,), device=device)
    counts = torch.where(cut, close, counts).clamp(min=3, max=outputs)
    last = (SUBSAMPLING * (counts - 1) + torch.randint(0, 3, (count,), device=device))[:, None]
    frames = torch.arange(heard.shape[1], device=device).minimum(last)
    heard = heard.gather(1, frames[..., None].expand_as(heard))
    late = torch.arange(outputs, device=device) >= counts[:, None]
    ok = labels.good[chosen][:, None] & ~late
    return Batch(
        heard, torch.where(ok, pdf, -1), group, counts, no_words=way.backwards or way.crowded
    )


def shuffled(said: Sequence[Said], rng: random.Random) -> Iterator[list[int]]:
    """Yield the batches of one pass through the speech in random order."""
    groups = batches(said)
    rng.shuffle(groups)
    yield from groups
