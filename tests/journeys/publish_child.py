"""Correct and publish until killed; every acknowledged revision is printed."""

from __future__ import annotations

import itertools
import sys
from pathlib import Path

from benchlog.shelf import open_shelf
from benchlog.tasks.clock import SystemClock
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import WordsWriter, publish, put_right

FILES = tuple(f"cards/{n}.txt" for n in range(6))
WRITERS = (WordsWriter(padding=300_000), WordsWriter("cards", "cards", FILES, padding=60_000))


class Loud:
    """Progress that says every step at once."""

    def step(self, done: int, total: int, what: str) -> None:
        print("step", f"{done}/{total}", what, flush=True)


def main(folder: Path) -> None:
    """Publish revision after revision, each with a corrected reading."""
    clock = HandClock()
    clock.wall = SystemClock().now()
    with open_shelf(folder) as shelf:
        for turn in itertools.count(1):
            revision = len(shelf.publications("l-1")) + 1
            put_right(shelf, clock, f"{1200 + revision} mm", f"turn {turn}")
            made = publish(shelf, clock, writers=WRITERS, progress=Loud())
            print("done", made.revision, flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
