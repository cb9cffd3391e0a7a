"""Reads and writes the recogniser's `final.mdl`: a transition model and a neural network.

The binary layout is that of the Kaldi toolkit, as found by reading such files. All values are
little-endian; a whole number or float is a size byte (4, or 8 for doubles) and then its value.
Knows nothing of training and of what the phones mean.
"""

# ruff: noqa: SIM905 - word lists read better as lines of words

from __future__ import annotations

import struct
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[Any]
Component = dict[str, Any]

_WHOLE = frozenset(
    "<RankIn> <RankOut> <UpdatePeriod> <Dim> <BlockDim> <InputDim> <OutputDim> <TimePeriod> "
    "<NumRepeats> <RankInOut>".split()
)
_FLAGS = frozenset("<IsGradient> <UseNaturalGradient> <TestMode> <DropoutPerFrame>".split())
_ARRAYS = frozenset(
    "<LinearParams> <BiasParams> <Params> <StatsMean> <StatsVar> <ValueAvg> <DerivAvg> "
    "<OderivRms> <Bias> <Scales>".split()
)


class ModelFileError(ValueError):
    """The file is not a model of the expected layout."""


@dataclass(slots=True)
class Cursor:
    """A place in the bytes of a model file, with one reader for each kind of value."""

    data: bytes
    at: int = 0

    def token(self) -> str:
        end = self.data.find(b" ", self.at)
        if end < 0:
            raise ModelFileError(f"the file ends inside a token at byte {self.at}")
        text = self.data[self.at : end].decode("latin-1")
        self.at = end + 1
        return text

    def expect(self, token: str) -> None:
        found = self.token()
        if found != token:
            raise ModelFileError(f"expected {token} before byte {self.at}, found {found[:40]!r}")

    def _sized(self, kinds: dict[int, str]) -> Any:
        if self.at >= len(self.data):
            raise ModelFileError("the file ends too early")
        size = self.data[self.at]
        if size not in kinds or self.at + 1 + size > len(self.data):
            raise ModelFileError(f"no number at byte {self.at}")
        value = struct.unpack_from(kinds[size], self.data, self.at + 1)[0]
        self.at += 1 + size
        return value

    def whole(self) -> int:
        return int(self._sized({4: "<i"}))

    def real(self) -> float:
        return float(self._sized({4: "<f", 8: "<d"}))

    def flag(self) -> bool:
        value = self.data[self.at : self.at + 1]
        self.at += 1
        return value == b"T"

    def _block(self, kind: str, count: int) -> Array:
        size = np.dtype(kind).itemsize * count
        if count < 0 or self.at + size > len(self.data):
            raise ModelFileError(f"the file ends inside a table at byte {self.at}")
        values = np.frombuffer(self.data, kind, count, self.at).copy()
        self.at += size
        return values

    def whole_vector(self) -> Array:
        self.at += 1  # the size byte of the elements
        (count,) = struct.unpack_from("<i", self.data, self.at)
        self.at += 4
        return self._block("<i4", count)

    def table(self) -> Array:
        kind = self.token()
        element = "<f4" if kind.startswith("F") else "<f8"
        if kind in {"FM", "DM"}:
            rows, columns = self.whole(), self.whole()
            return self._block(element, rows * columns).reshape(rows, columns)
        if kind in {"FV", "DV"}:
            return self._block(element, self.whole())
        raise ModelFileError(f"unknown kind of table {kind[:20]!r} before byte {self.at}")


@dataclass(frozen=True, slots=True)
class Model:
    """A model file in plain values.

    phones: phone numbers. tuples: one row a state: phone, state, forward pdf, loop pdf.
    config: the network's wiring, one line a node. components: name to type and parameters.
    """

    phones: Array
    tuples: Array
    log_probs: Array
    config: tuple[str, ...]
    components: dict[str, Component] = field(repr=False)
    left_context: int = 0
    right_context: int = 0


def _topology(at: Cursor) -> Array:
    at.expect("<Topology>")
    phones = at.whole_vector()
    at.whole_vector()  # phone to entry
    count, extended = at.whole(), False
    if count == -1:
        extended, count = True, at.whole()
    for _ in range(count):
        for _ in range(at.whole()):
            at.whole()
            if extended:
                at.whole()
            for _ in range(at.whole()):
                at.whole()
                at.real()
    at.expect("</Topology>")
    return phones


def _component(at: Cursor) -> tuple[str, Component]:
    at.expect("<ComponentName>")
    name, kind = at.token(), at.token()
    found: Component = {"type": kind.strip("<>")}
    while (token := at.token()) != f"</{kind[1:]}":
        if token == "<TimeOffsets>":  # noqa: S105 - a file's token, not a password
            found[token] = at.whole_vector()
        elif token in _FLAGS:
            found[token] = at.flag()
        elif token in _ARRAYS:
            found[token] = at.table()
        elif token in _WHOLE:
            found[token] = at.whole()
            if at.data[at.at] == 4:  # <RankInOut> carries two
                at.whole()
        else:
            while at.data[at.at : at.at + 1] != b"<":
                if at.data[at.at : at.at + 1] in (b"T", b"F"):
                    at.flag()
                else:
                    found[token] = at.real()
    return name, found


def read_model(path: Path) -> Model:
    """Return the contents of a `final.mdl`. Raises ModelFileError when it is not one."""
    data = path.read_bytes()
    if data[:2] != b"\0B":
        raise ModelFileError(f"{path} is not a binary model file")
    at = Cursor(data, 2)
    at.expect("<TransitionModel>")
    phones = _topology(at)
    width = 3 if at.token() == "<Triples>" else 4
    tuples = [[at.whole() for _ in range(width)] for _ in range(at.whole())]
    at.token()
    at.expect("<LogProbs>")
    log_probs = at.table()
    at.expect("</LogProbs>")
    at.expect("</TransitionModel>")
    at.expect("<Nnet3>")
    end = data.find(b"<NumComponents> ", at.at)
    if end < 0:
        raise ModelFileError(f"{path} has no network")
    config = tuple(data[at.at : end].decode("latin-1").strip().splitlines())
    at.at = end
    at.expect("<NumComponents>")
    components = dict(_component(at) for _ in range(at.whole()))
    at.expect("</Nnet3>")
    at.expect("<LeftContext>")
    left = at.whole()
    at.expect("<RightContext>")
    return Model(phones, np.asarray(tuples), log_probs, config, components, left, at.whole())


def _token(text: str) -> bytes:
    return text.encode() + b" "


def _whole(value: int) -> bytes:
    return b"\4" + struct.pack("<i", value)


def _real(value: float) -> bytes:
    return b"\4" + struct.pack("<f", value)


def _double(value: float) -> bytes:
    return b"\x08" + struct.pack("<d", value)


def _whole_vector(values: Iterable[int]) -> bytes:
    packed = np.asarray(list(values), "<i4")
    return b"\4" + struct.pack("<i", len(packed)) + packed.tobytes()


def _matrix(values: Array) -> bytes:
    packed = np.ascontiguousarray(values, "<f4")
    return b"FM " + _whole(packed.shape[0]) + _whole(packed.shape[1]) + packed.tobytes()


def _vector(values: Array | Sequence[float]) -> bytes:
    packed = np.ascontiguousarray(values, "<f4")
    return b"FV " + _whole(packed.size) + packed.tobytes()


@dataclass(slots=True)
class NetworkWriter:
    """Collects a network layer by layer; each method returns the name to feed into the next."""

    input_dim: int
    _lines: list[str] = field(default_factory=list)
    _components: list[bytes] = field(default_factory=list)

    def _add(self, name: str, kind: str, body: bytes, source: str) -> str:
        head = _token("<ComponentName>") + _token(name) + _token(f"<{kind}>")
        self._components.append(head + body + _token(f"</{kind}>"))
        self._lines.append(f"component-node name={name} component={name} input={source}")
        return name

    def affine(self, name: str, source: str, weight: Array, bias: Array) -> str:
        body = _token("<LinearParams>") + _matrix(weight) + _token("<BiasParams>") + _vector(bias)
        return self._add(name, "FixedAffineComponent", body, source)

    def time_delay(
        self, name: str, source: str, offsets: Sequence[int], weight: Array, bias: Array | None
    ) -> str:
        """Add a layer that reads its input at several frame *offsets* (10 ms frames)."""
        body = _token("<LearningRate>") + _real(0.001)
        body += _token("<TimeOffsets>") + _whole_vector(offsets)
        body += _token("<LinearParams>") + _matrix(weight)
        body += _token("<BiasParams>") + _vector([] if bias is None else bias)
        body += _token("<OrthonormalConstraint>") + _real(0)
        body += _token("<UseNaturalGradient>") + b"T"
        body += _token("<NumSamplesHistory>") + _real(2000)
        body += _token("<AlphaInOut>") + _real(4) + _real(4)
        body += _token("<RankInOut>") + _whole(20) + _whole(80)
        return self._add(name, "TdnnComponent", body, source)

    def _nonlinear(self, name: str, kind: str, source: str, dim: int, repair: bytes) -> str:
        body = _token("<Dim>") + _whole(dim)
        body += _token("<ValueAvg>") + _vector([]) + _token("<DerivAvg>") + _vector([])
        body += _token("<Count>") + _double(0) + _token("<OderivRms>") + _vector([])
        body += _token("<OderivCount>") + _double(0) + _token("<NumDimsSelfRepaired>") + _double(0)
        body += _token("<NumDimsProcessed>") + _double(0) + _token("<SelfRepairScale>") + repair
        return self._add(name, kind, body, source)

    def relu(self, name: str, source: str, dim: int) -> str:
        return self._nonlinear(name, "RectifiedLinearComponent", source, dim, _real(0))

    def log_softmax(self, name: str, source: str, dim: int) -> str:
        return self._nonlinear(name, "LogSoftmaxComponent", source, dim, _real(0))

    def batch_norm(self, name: str, source: str, scale: Array, offset: Array) -> str:
        """Add value * scale + offset. Raises ValueError unless every scale is above 0."""
        wide = np.asarray(scale, np.float64)
        if not (wide > 0).all():
            raise ValueError("the format can only hold scales above 0")
        epsilon = 1e-9
        body = _token("<Dim>") + _whole(wide.size) + _token("<BlockDim>") + _whole(wide.size)
        body += _token("<Epsilon>") + _real(epsilon) + _token("<TargetRms>") + _real(1)
        body += _token("<TestMode>") + b"T" + _token("<Count>") + _double(1e5)
        body += _token("<StatsMean>") + _vector(-np.asarray(offset) / wide)
        body += _token("<StatsVar>") + _vector(1 / wide**2 - epsilon)
        return self._add(name, "BatchNormComponent", body, source)

    def pass_on(self, name: str, source: str, dim: int) -> str:
        body = _token("<Dim>") + _whole(dim) + _token("<BackpropScale>") + _real(1)
        return self._add(name, "NoOpComponent", body, source)

    def data(self, output: str) -> bytes:
        """Return the network's bytes, its output taken from the layer *output*."""
        lines = [f"input-node name=input dim={self.input_dim}", *self._lines]
        lines.append(f"output-node name=output input={output} objective=linear")
        wiring = "\n" + "\n".join(lines) + "\n\n"
        head = _token("<Nnet3>") + wiring.encode() + _token("<NumComponents>")
        return (
            head + _whole(len(self._components)) + b"".join(self._components) + _token("</Nnet3>")
        )


def transition_model(pdfs: Sequence[tuple[int, int]]) -> bytes:
    """Return the transition model of phones 1 to N, each with its (forward pdf, loop pdf).

    One emitting state a phone. Transition ids of phone p: 2p - 1 for the loop, 2p for forward.
    """
    count = len(pdfs)
    body = _token("<TransitionModel>") + _token("<Topology>")
    body += _whole_vector(range(1, count + 1)) + _whole_vector([-1] + [0] * count)
    body += _whole(-1) + _whole(1) + _whole(2)  # extended layout, one entry, two states
    body += _whole(0) + _whole(1) + _whole(2)  # state 0: forward class 0, loop class 1, two arcs
    body += _whole(0) + _real(0.5) + _whole(1) + _real(0.5)
    body += _whole(-1) + _whole(-1) + _whole(0)  # the final state emits nothing
    body += _token("</Topology>") + _token("<Tuples>") + _whole(count)
    for phone, (forward, loop) in enumerate(pdfs, 1):
        body += _whole(phone) + _whole(0) + _whole(forward) + _whole(loop)
    halves = [0.0, *[float(np.log(0.5))] * (2 * count)]
    body += _token("</Tuples>") + _token("<LogProbs>") + _vector(halves)
    return body + _token("</LogProbs>") + _token("</TransitionModel>")


def write_model(
    path: Path, pdfs: Sequence[tuple[int, int]], network: bytes, left: int, right: int
) -> None:
    """Write a whole `final.mdl` with the given context (10 ms frames to the left and right)."""
    tail = _token("<LeftContext>") + _whole(left) + _token("<RightContext>") + _whole(right)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(
        b"\0B" + transition_model(pdfs) + network + tail + _token("<Priors>") + _vector([])
    )
