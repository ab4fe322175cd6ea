"""Retake a field and measure it, over and over, until killed."""

from __future__ import annotations

import hashlib
import itertools
import sys
from dataclasses import replace
from pathlib import Path

from benchlog.measure.reading import standing
from benchlog.shelf import SqlShelf, open_shelf
from tests.shelf import picture_scenes, scenes

READINGS = 6


def main(folder: Path) -> None:
    """Tell of each field and each answer once it is acknowledged."""
    with open_shelf(folder) as shelf:
        last = shelf.micrographs("spring")
        print("ready", flush=True)
        before = last[-1].id if last else ""
        for number in itertools.count(len(last)):
            before = retake(shelf, f"m{number}", before)
            print(before, flush=True)
            measure(shelf, before, number)
            print(f"a-{before}", flush=True)


def retake(shelf: SqlShelf, name: str, before: str) -> str:
    """Put a new picture of the field on the shelf, with the withdrawals it brings."""
    data = f"picture {name}".encode()
    photo = replace(scenes.photo(), id=hashlib.sha256(data).hexdigest())
    shelf.add_photo(photo, data)
    withdrawals = [
        replace(one, id=f"w-{one.id}", supersedes=one.id, withdrawn=True)
        for one in standing(shelf.readings("spring"))
    ]
    made = replace(picture_scenes.micrograph(name, before), photo_id=photo.id)
    shelf.add_micrograph(made, withdrawals)
    return name


def measure(shelf: SqlShelf, name: str, number: int) -> None:
    """Put an answer with its readings on the shelf."""
    ids = tuple(f"r-{name}-{k}" for k in range(READINGS))
    readings = [picture_scenes.opening(one, number + 1) for one in ids]
    shelf.add_picture_answer(picture_scenes.answer(f"a-{name}", name, ids), readings)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
