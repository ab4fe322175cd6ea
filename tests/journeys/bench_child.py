"""Answer at the bench until killed; every acknowledged reading is printed with where it stands."""

from __future__ import annotations

import itertools
import sys
from pathlib import Path

from benchlog.shelf import open_shelf
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.walk import Teardown
from tests.small_trade import SMALL

ANSWERS = {
    "whole_mass": "287.4",
    "label_kind": "1",
    "rattle": "no",
    "media_length": "1400",
    "pleat_count": "52",
    "remark_media": "tan",
}


def main(folder: Path) -> None:
    """Walk the short bench round and round, adding repeats, scratching and moving now and then."""
    with open_shelf(folder) as shelf:
        bench = Teardown(shelf, SystemClock(), SMALL, "l-1")
        for turn in itertools.count():
            if bench.slot is None or turn % 11 == 10:
                print("moving", flush=True)
                bench.say_yes()
                bench.go_to_station("media" if turn % 2 else "outside")
            elif turn % 5 == 4 and bench.view().can_scratch:
                bench.scratch_last()
            else:
                bench.accept(ANSWERS[bench.slot.attribute])
            place = bench.place
            print(
                "done", len(bench.readings), bench.readings[-1].id,
                place.station, place.attribute, place.specimen_id, flush=True,
            )  # fmt: skip


if __name__ == "__main__":
    main(Path(sys.argv[1]))
