"""How soon the pages follow a changed reading, against a sheet that is written for the first time.

The baseline stands in the same run: a new writer, that has made no photo small yet. What is
measured beside it is all that the window does after a reading changed: the record worked out
anew, then the sheet written by a writer that wrote before.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog import wiring
from benchlog.sheet.pdf_sheet import PdfSheet
from benchlog.tasks.correct import correct
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.trade.sequence_file import load_sequence
from tests.sheet.reading_back import words
from tests.sheet.sample_record import Told
from tests.tasks.sample_records import pictured_shelf

ROUNDS = 5
MAPPED = SheetWishes(mapped=True)


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[wiring.Workshop]:
    with wiring.open_workshop(pictured_shelf(tmp_path / "shelf")) as opened:
        yield opened


def test_preview_follows_a_reading(
    workshop: wiring.Workshop, tmp_path: Path, benchmark: BenchmarkFixture
) -> None:
    shelf, lineup_id, path = workshop.shelf, workshop.shelf.lineups()[0].id, tmp_path / "sheet.pdf"
    sequence = load_sequence(shelf.lineup(lineup_id).sequence)
    record = wiring.record_of(workshop, lineup_id)
    height = next(r for r in record.readings if r.attribute == "can_height")
    kept, first_s, said = PdfSheet(), [], [height]

    def first_then_change() -> None:
        began = time.process_time()
        PdfSheet().write(record, shelf, path, "A4", Told(), MAPPED)
        first_s.append(time.process_time() - began)
        millimetres = f"{88.01 + len(said) / 100:.2f} mm"
        new = correct(
            shelf, workshop.clock, sequence, lineup_id, said[-1].id, millimetres, "again", sure=True
        )
        said.append(new)

    def follow() -> Record:
        worked_out = wiring.record_of(workshop, lineup_id)
        kept.write(worked_out, shelf, path, "A4", Told(), MAPPED)
        return worked_out

    kept.write(record, shelf, path, "A4", Told(), MAPPED)
    benchmark.pedantic(follow, setup=first_then_change, rounds=ROUNDS, iterations=1)

    assert f"{88.01 + (len(said) - 1) / 100:.2f}" in words(path)
    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(first_s)
        benchmark.extra_info["first_median_ms"] = round(median(first_s) * 1000)
        benchmark.extra_info["ratio_to_first_sheet"] = round(ratio, 2)
        print(f"\npages after a changed reading: {ratio:.2f} times a first sheet, "
              f"{benchmark.stats.stats.median * 1000:.0f} ms")  # fmt: skip
