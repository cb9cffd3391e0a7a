"""Names the sound devices that are there now, in a process of its own, and ends.

PortAudio looks at the devices only when it starts, and may end its process at that, at an
assertion, while a sound server is going or coming. So nobody who is needed looks. Run as a
module with "input" or "output"; writes one name a line.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable

from coach.adapters.device_names import Way, names_of

PATIENCE = 5.0  # seconds for one look


def names_now(way: Way, *, patience: float = PATIENCE) -> tuple[str, ...]:
    """Return the names of the devices of this kind that are there now; none when nobody can tell."""
    try:
        looked = subprocess.run(  # noqa: S603 - our own module, no shell
            [sys.executable, "-m", __name__, way.value],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=patience,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return ()
    names = looked.stdout.decode("utf-8", "replace").splitlines()
    return tuple(names) if looked.returncode == 0 else ()


Look = Callable[[Way], tuple[str, ...]]


def main(way: str) -> None:
    """Write the names."""
    import sounddevice

    for name in names_of(sounddevice, Way(way)):
        sys.stdout.write(f"{name}\n")


if __name__ == "__main__":
    main(sys.argv[1])
