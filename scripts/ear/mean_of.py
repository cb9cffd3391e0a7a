"""Writes the plain mean of several sets of weights: what each alone forgot, the mean still knows.

Run: python -m scripts.ear.mean_of OUT.pt ONE.pt TWO.pt models/english-commands/am/final.mdl
All must go back to the same weights: means of ears that never were one ear are noise.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

import torch
from torch import Tensor

from .network import load_own

Weights = dict[str, Tensor]


def read(path: Path) -> tuple[Weights, Tensor]:
    """Return (weights, log prior) of a trained ear.pt or of a model file of ours."""
    if path.suffix == ".mdl":
        loaded = load_own(path)
        return loaded.ear.state_dict(), torch.as_tensor(loaded.log_prior, dtype=torch.float32)
    kept = torch.load(path, map_location="cpu")
    return kept["state"], kept["log_prior"]


def mean(several: Sequence[Weights]) -> Weights:
    """Return the mean of each weight; whole numbers are those of the first set."""
    first = several[0]
    return {
        name: torch.stack([each[name].double() for each in several]).mean(0).to(value.dtype)
        if value.dtype.is_floating_point
        else value
        for name, value in first.items()
    }


def main() -> None:
    """Read the command line and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("trained", type=Path, nargs="+")
    given = parser.parse_args()
    several = [read(path) for path in given.trained]
    state = mean([weights for weights, _ in several])
    priors = torch.stack([prior for _, prior in several])
    torch.save({"state": state, "log_prior": priors.mean(0)}, given.out)


if __name__ == "__main__":
    main()
