"""What it takes that a sheet can be listened to and kept, against the same pages without it."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any

import pikepdf
from pytest_benchmark.fixture import BenchmarkFixture
from reportlab.platypus import BaseDocTemplate

from benchlog.sheet import layout
from benchlog.sheet.pdf_sheet import PdfSheet
from tests.sheet.sample_record import PictureShelf, Told
from tests.sheet.worked_record import worked

ROUNDS = 7

Build = Callable[[Any, list[Any]], None]


def test_tagged_time(tmp_path: Path, benchmark: BenchmarkFixture, monkeypatch: Any) -> None:
    record = worked()
    tagged: Build = layout.SheetDocument.build
    plain_s: list[float] = []

    def write(name: str, build: Build) -> Path:
        monkeypatch.setattr(layout.SheetDocument, "build", build)
        path = tmp_path / name
        PdfSheet().write(record, PictureShelf({}), path, "A4", Told())  # type: ignore[arg-type]
        return path

    def plain_first() -> tuple[tuple[object, ...], dict[str, object]]:
        began = time.perf_counter()
        write("plain.pdf", BaseDocTemplate.build)
        plain_s.append(time.perf_counter() - began)
        return ("tagged.pdf", tagged), {}

    write("tagged.pdf", tagged)
    benchmark.pedantic(write, setup=plain_first, rounds=ROUNDS, iterations=1)
    sizes = [(tmp_path / name).stat().st_size for name in ("plain.pdf", "tagged.pdf")]

    with pikepdf.open(tmp_path / "tagged.pdf") as pdf:
        assert "/StructTreeRoot" in pdf.Root
    with pikepdf.open(tmp_path / "plain.pdf") as pdf:
        assert "/StructTreeRoot" not in pdf.Root
    assert sizes[1] < 1.6 * sizes[0]
    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(plain_s)
        benchmark.extra_info["plain_median_ms"] = round(median(plain_s) * 1000, 1)
        benchmark.extra_info["ratio_to_plain_pages"] = round(ratio, 2)
        print(f"\ntagged sheet: {ratio:.2f} times the plain pages, {sizes[1] / 1000:.0f} kB")
