from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.settings import INCH
from benchlog.tasks.publish import write_sheet
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from tests.tasks.sample_records import sample_record


class Writer:
    """Keeps what it was asked for, and writes nothing."""

    def __init__(self) -> None:
        self.asked: list[tuple[object, ...]] = []

    def write(self, *asked: object) -> None:
        self.asked.append(asked)


def test_wishes_reach_the_writer(tmp_path: Path) -> None:
    writer, path = Writer(), tmp_path / "sheet.pdf"
    wishes = SheetWishes(INCH, sums=True)
    for wanted in (wishes, USUAL):
        write_sheet(None, sample_record(), writer, path, "A4", None, wanted)  # type: ignore[arg-type]
    assert [asked[-1] for asked in writer.asked] == [wishes, USUAL]
    assert SheetWishes("metric", sums=False) == USUAL


def test_units_nobody_knows_are_refused(tmp_path: Path) -> None:
    writer = Writer()
    with pytest.raises(PublishRefused, match="metric, inch or both"):
        write_sheet(
            None, sample_record(), writer, tmp_path / "s.pdf", "A4", None, SheetWishes("cubits")
        )  # type: ignore[arg-type]
    assert not writer.asked
