"""Put a failed bracket right and take it back, over and over, until killed."""

from __future__ import annotations

import itertools
import sys
from pathlib import Path

from benchlog.measure.check import Remedy
from benchlog.shelf import open_shelf
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.group_correct import correct_group, take_back_group


def main(folder: Path) -> None:
    """Tell of each action once it is acknowledged."""
    with open_shelf(folder) as shelf:
        (failed,) = shelf.checks("l-1")
        done = shelf.group_corrections("l-1")
        holds = done[-1].id if len(done) % 2 else ""
        clock = SystemClock()
        print("ready", flush=True)
        for _ in itertools.count():
            if holds:
                made = take_back_group(shelf, clock, "l-1", holds, "the power went")
                holds = ""
            else:
                made = correct_group(shelf, clock, "l-1", failed.id, Remedy.SHIFT, "chip")
                holds = made.id
            print(made.id, flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
