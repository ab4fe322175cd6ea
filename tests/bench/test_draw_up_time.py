"""How long the whole record of the sample takes, against its figures alone."""

from __future__ import annotations

import time
from pathlib import Path
from statistics import median

from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.derive.all_figures import FIGURE_KINDS, figures_of
from benchlog.derive.inputs import Common
from benchlog.tasks.record import Record
from benchlog.wiring import open_workshop, record_of
from tests.tasks.sample_records import pictured_shelf

ROUNDS = 9


def figures_alone(record: Record) -> None:
    common = Common()
    for specimen in record.lineup.specimens:
        found = {key: f for (key, of), f in record.findings.items() if of == specimen.id}
        figures_of(found, specimen, record.lineup.conditions, common)


def test_draw_up_time(tmp_path: Path, benchmark: BenchmarkFixture) -> None:
    workshop = open_workshop(pictured_shelf(tmp_path / "shelf"))
    (lineup,) = (brief.id for brief in workshop.shelf.lineups())
    alone_s: list[float] = []

    def alone_first() -> tuple[tuple[object, ...], dict[str, object]]:
        began = time.perf_counter()
        figures_alone(record)
        alone_s.append(time.perf_counter() - began)
        return (workshop, lineup), {}

    record = record_of(workshop, lineup)
    drawn_up = benchmark.pedantic(record_of, setup=alone_first, rounds=ROUNDS, iterations=1)
    workshop.close()

    assert len(drawn_up.figures) == 3 * len(FIGURE_KINDS)
    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(alone_s)
        benchmark.extra_info["figures_alone_ms"] = round(median(alone_s) * 1000, 1)
        benchmark.extra_info["ratio_to_figures_alone"] = round(ratio, 2)
        whole_ms = benchmark.stats.stats.median * 1000
        print(f"\nwhole record: {whole_ms:.0f} ms, {ratio:.1f} times its figures alone")
