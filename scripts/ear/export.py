"""Writes a trained ear as a model folder that the recogniser loads.

Run: python -m scripts.ear.export EAR.pt FOLDER [--acoustic-scale 0.6] [--general-gain 0.0]
"""

from __future__ import annotations

import argparse
import shutil
import tempfile
from pathlib import Path

import numpy as np
import torch

from . import graph
from .network import Ear, write_ear
from .phones import GENERAL_PDF
from .rebuild_graph import UNKNOWN_COST, lexicon

ACOUSTIC_SCALE = 0.6


def load_trained(path: Path) -> tuple[Ear, np.ndarray[tuple[int], np.dtype[np.float64]]]:
    """Return the network and the log prior that training saved."""
    kept = torch.load(path, map_location="cpu", weights_only=True)
    ear = Ear()
    ear.load_state_dict(kept["state"])
    return ear.eval(), np.asarray(kept["log_prior"].numpy(), np.float64)


def export(
    trained: Path,
    folder: Path,
    *,
    acoustic_scale: float = ACOUSTIC_SCALE,
    general_gain: float = 0.0,
    unknown_cost: float = UNKNOWN_COST,
    beam: float = 12.0,
    graph_from: Path | None = None,
) -> None:
    """Write am/, conf/ and graph/ of the model folder.

    graph_from: a model folder whose graph is copied, where the graph tools are not installed.
    general_gain: added to the score of general speech in each frame; more rejects more.
    """
    ear, log_prior = load_trained(trained)
    log_prior[GENERAL_PDF] -= general_gain
    write_ear(folder / "am" / "final.mdl", ear, log_prior)
    graph.write_settings(folder, acoustic_scale=acoustic_scale, beam=beam)
    if graph_from is not None:
        shutil.copytree(graph_from / "graph", folder / "graph", dirs_exist_ok=True)
    else:
        graph.build_graph(folder, lexicon(), unknown_cost=unknown_cost)


def swap(new: Path, old: Path) -> None:
    """Put a copy of folder *new* in the place of *old*; licence and card of the old one are kept.

    The copy is made beside *old* first, so that a fault half-way leaves the old one whole.
    """
    with tempfile.TemporaryDirectory(dir=old.parent) as folder:
        ready, aside = Path(folder) / "ready", Path(folder) / "aside"
        shutil.copytree(new, ready)
        if old.exists():
            for kept in old.iterdir():
                if kept.is_file() and not (ready / kept.name).exists():
                    shutil.copy(kept, ready / kept.name)
            old.rename(aside)
        ready.rename(old)


def main() -> None:
    """Read the command line and export."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("trained", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--acoustic-scale", type=float, default=ACOUSTIC_SCALE)
    parser.add_argument("--general-gain", type=float, default=0.0)
    parser.add_argument("--unknown-cost", type=float, default=UNKNOWN_COST)
    parser.add_argument("--graph-from", type=Path)
    parser.add_argument("--swap-into", type=Path)
    given = parser.parse_args()
    export(
        given.trained,
        given.folder,
        acoustic_scale=given.acoustic_scale,
        general_gain=given.general_gain,
        unknown_cost=given.unknown_cost,
        graph_from=given.graph_from,
    )
    if given.swap_into:
        swap(given.folder, given.swap_into)


if __name__ == "__main__":
    main()
