"""A sound worker with a fault: stub_sound_worker.py FAULT MARK; the second one works well."""

from __future__ import annotations

import os
import sys
import threading
import time
from pathlib import Path
from typing import BinaryIO

from coach.adapters.worker_pipe import read_message, take_the_pipes, write_message


def beat(reports: BinaryIO) -> None:
    while True:
        write_message(reports, {"beat": time.monotonic()})
        time.sleep(0.1)


def main(fault: str, mark: Path) -> None:
    orders, reports = take_the_pipes()
    if mark.exists():
        fault = "works"
    mark.touch()
    if fault == "crashes":
        os.abort()  # as PortAudio does where ALSA has no configuration
    if fault == "missing":
        write_message(reports, {"missing": "No loudspeaker was found.", "remedy": "Plug one in."})
    else:
        write_message(reports, {"opened": "stub", "rate": 22050, "latency": 0.0})
    if fault != "hangs":
        threading.Thread(target=beat, args=(reports,), daemon=True).start()
    while (read := read_message(orders)) is not None:
        order, _ = read
        if fault == "dies" and order["do"] == "begin":
            os._exit(1)
        if fault == "works" and order["do"] == "finish":
            write_message(reports, {"started": order["line"]})
            write_message(reports, {"ended": order["line"]})
    os._exit(0)


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
