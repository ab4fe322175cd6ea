"""Writes a whole revision's files in a process of its own, and tells what that took as JSON.

Six specimens with 24 photos of 12 megapixels, read from files as from a shelf: the sheet with its
sums and its large print, every card in both sizes, and the open data.
"""

from __future__ import annotations

import io
import json
import sys
import time
import zlib
from dataclasses import replace
from pathlib import Path

from PIL import Image

from benchlog.sheet.outputs import CardsOutput, DataOutput, SheetOutput
from benchlog.tasks.ports import OutputWriter
from benchlog.tasks.sheet_wishes import SheetWishes
from tests.bench.peak import peak_bytes
from tests.sheet.sample_record import Told, photos, record

STATIONS = ("outside", "cut", "element", "media")
TWELVE_MEGAPIXELS = (4000, 3000)


class FolderShelf:
    """Reads photos from files, as a shelf does."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def photo_bytes(self, photo_id: str) -> bytes:
        return (self._folder / photo_id).read_bytes()


def peak_mb() -> float:
    """The most memory that this process has held so far."""
    return peak_bytes() / 1024**2


def bare_encoding(pictures: list[Path]) -> float:
    """Return the processor time of encoding every card again from its pixels: the baseline."""
    took = 0.0
    for path in pictures:
        with Image.open(path) as image:
            image.load()
            began = time.process_time()
            image.save(io.BytesIO(), "PNG", compress_level=4, compress_type=zlib.Z_RLE)
            took += time.process_time() - began
    return took


def main(place: Path, *, cards: bool) -> dict[str, float]:
    """Write everything below `place`, cards only if wanted; return what it took."""
    shelf_folder, out = place / "photos", place / "out"
    shelf_folder.mkdir()
    out.mkdir()
    sample = record(6)
    made, kept = photos(sample.lineup.specimens, STATIONS, TWELVE_MEGAPIXELS)
    for photo in made:
        (shelf_folder / photo.id).write_bytes(kept.photo_bytes(photo.id))
    full, shelf = replace(sample, photos=made), FolderShelf(shelf_folder)
    del kept
    writers: list[OutputWriter] = [
        SheetOutput("A4", SheetWishes(sums=True, large_print=True)),
        DataOutput("CC-BY-4.0"),
        *([CardsOutput()] if cards else []),
    ]
    told, began, files = Told(), time.process_time(), 0
    for writer in writers:
        files += len(writer.write(full, shelf, out, told))  # type: ignore[arg-type]
    took, most = time.process_time() - began, peak_mb()
    bare = bare_encoding(sorted(out.rglob("*.png")))
    return {
        "files": files, "steps": len(told.steps), "cpu_s": took, "bare_s": bare, "peak_mb": most,
        "photos": len(made),
    }  # fmt: skip


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), cards="cards" in sys.argv)))
