"""The map of a sheet: each value's box holds the words of that value, on the page it names."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from benchlog.sheet.numbered import NumberText
from benchlog.sheet.typography import PAPERS, STYLES, use_fonts
from benchlog.sheet.value_rows import all_rows
from benchlog.tasks.sheet_places import NumberPlace, map_beside, read_places
from benchlog.tasks.sheet_wishes import SheetWishes
from tests.sheet.reading_back import plain, write
from tests.sheet.sample_record import record
from tests.sheet.text_boxes import Run, runs_of
from tests.sheet.worked_record import worked

MAPPED = SheetWishes(mapped=True)


def inside(place: NumberPlace, runs: list[Run], height: float) -> str:
    """Return the words whose baseline begins in a box."""
    said = [
        run.text
        for run in runs
        if place.left - 0.5 <= run.x <= place.left + place.width
        and place.top - 0.5 <= height - run.y <= place.top + place.height + 0.5
    ]
    return plain("".join(said)).replace(" ", "")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_boxes_hold_their_values(tmp_path: Path, paper: str) -> None:
    made = worked()
    sheet = write(made, tmp_path, paper, wishes=MAPPED)
    pages, height = runs_of(sheet), PAPERS[paper].height
    rows = {row.key: row for row in all_rows(made)}
    order = [s.id for s in made.lineup.specimens]
    checked = 0
    for place in read_places(sheet):
        row = rows[place.key]
        cell, dot = (each[order.index(place.specimen_id)] for each in (row.cells, row.dots))
        said = inside(place, pages[place.page], height)
        wanted = {plain(w).replace(" ", "")[:12] for w in (cell.main, dot.text) if w}
        assert any(said.startswith(w) or w in said for w in wanted), (place, said, wanted)
        checked += 1
    assert checked > 100


def test_every_finding_printed_is_mapped(tmp_path: Path) -> None:
    made = worked()
    mapped = {one.number for one in read_places(write(made, tmp_path, wishes=MAPPED))}
    measured = {n for n, f in made.findings.items() if f.quantity is not None}
    assert measured - mapped == set()
    assert mapped <= {*made.findings, *made.figures}


def test_sums_lead_back_too(tmp_path: Path) -> None:
    made = worked()
    bare = write(made, tmp_path, wishes=MAPPED)
    before = len(PdfReader(bare).pages)
    places = read_places(write(made, tmp_path, wishes=SheetWishes(sums=True, mapped=True)))
    appended = {one.key for one in places if one.page >= before}
    assert appended & {key for key, _ in made.figures}


def test_no_map_unless_wanted(tmp_path: Path) -> None:
    sheet = write(record(2), tmp_path)
    assert not map_beside(sheet).exists()
    bare = sheet.read_bytes()
    write(record(2), tmp_path, wishes=MAPPED)
    assert sheet.read_bytes() == bare, "the map changes nothing of the sheet"


def test_split_value_keeps_its_number() -> None:
    use_fonts()
    text = NumberText("said at length, " * 60, STYLES["cell"])
    text.number = ("box_claims", "s1")
    _, height = text.wrap(120, 800)
    assert [half.number for half in text.split(120, height / 2)] == [text.number] * 2
