"""How long the sheet of six specimens with 24 photos takes, against the photos' own shrinking."""

from __future__ import annotations

import io
import time
from dataclasses import replace
from pathlib import Path
from statistics import median

from PIL import Image
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.sheet.pdf_sheet import PdfSheet
from benchlog.tasks.record import Record
from tests.sheet.sample_record import PictureShelf, Told, photos, record

STATIONS = ("outside", "cut", "element", "media")
CAMERA = (3000, 2000)
PRINTED = (444, 333)  # 160 x 120 pt at 200 dots an inch
ROUNDS = 9


def six_with_photos() -> tuple[Record, PictureShelf]:
    sample = record(6)
    made, shelf = photos(sample.lineup.specimens, STATIONS, CAMERA)
    return replace(sample, photos=made), shelf


def bare_shrinking(full: Record, shelf: PictureShelf) -> None:
    """Decode, shrink and save every photo; nothing else. The baseline."""
    for photo in full.photos:
        with Image.open(io.BytesIO(shelf.photo_bytes(photo.id))) as image:
            image.draft("RGB", PRINTED)
            image.thumbnail(PRINTED)
            image.save(io.BytesIO(), "JPEG", quality=82)


def test_sheet_time(tmp_path: Path, benchmark: BenchmarkFixture) -> None:
    full, shelf = six_with_photos()
    path = tmp_path / "sheet.pdf"
    bare_s: list[float] = []

    def bare_then_sheet() -> tuple[tuple[object, ...], dict[str, object]]:
        began = time.perf_counter()
        bare_shrinking(full, shelf)
        bare_s.append(time.perf_counter() - began)
        return (full, shelf, path, "A4", Told()), {}

    def first_sheet(*told: object) -> None:
        PdfSheet().write(*told)  # type: ignore[arg-type]  # a new one, with no photo made small yet

    first_sheet(full, shelf, path, "A4", Told())
    benchmark.pedantic(first_sheet, setup=bare_then_sheet, rounds=ROUNDS, iterations=1)
    size_kb = path.stat().st_size / 1000

    assert len(full.photos) == 24
    assert size_kb < 2000
    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(bare_s)
        benchmark.extra_info["bare_median_ms"] = round(median(bare_s) * 1000, 1)
        benchmark.extra_info["ratio_to_bare_shrinking"] = round(ratio, 2)
        benchmark.extra_info["sheet_kb"] = round(size_kb)
        print(f"\nsheet: {ratio:.2f} times the bare shrinking of its photos, {size_kb:.0f} kB")
