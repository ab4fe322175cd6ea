"""From the microscope to the sheet: calibrate, take fields, be refused, retake, read the answer."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchlog.measure.micrograph import Side
from benchlog.tasks.field_order import (
    FieldStanding,
    FieldState,
    WantedField,
    fields_in_order,
    fields_standing,
    next_field,
)
from benchlog.tasks.fields import keep_answer, measured, take_back, take_picture
from benchlog.tasks.sample_media import micrograph_of
from benchlog.tasks.set_ups import current_set_ups
from benchlog.trade.sequence_file import load_sequence
from benchlog.wiring import Workshop, open_workshop, picture_measurer, record_of, sheet_writer
from tests.sheet.reading_back import words
from tests.tasks.sample_records import pictured_shelf


class Untold:
    def step(self, _done: int, _total: int, _what: str) -> None:
        return


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(pictured_shelf(tmp_path / "shelf")) as workshop:
        yield workshop


def standings(bench: Workshop) -> tuple[FieldStanding, ...]:
    (brief,) = bench.shelf.lineups()
    lineup = bench.shelf.lineup(brief.id)
    order = fields_in_order(lineup, 3, (Side.IN,))
    shelf = bench.shelf
    return fields_standing(order, shelf.micrographs(lineup.id), shelf.picture_answers(lineup.id))


def wanted(bench: Workshop) -> WantedField:
    field = next_field(standings(bench))
    assert field is not None
    return field


def test_the_bench_goes_on_where_the_sample_left_off(bench: Workshop, tmp_path: Path) -> None:
    (brief,) = bench.shelf.lineups()
    moss = brief.specimens[2]
    assert wanted(bench) == WantedField(moss.id, Side.IN, 3)
    (set_up,) = current_set_ups(bench.shelf)
    data = micrograph_of("moss_in_2_blurred").read_bytes()
    made = take_picture(
        bench.shelf, bench.clock, brief.id, wanted(bench), set_up.id, "third.jpg", data
    )
    assert [s.state for s in standings(bench) if s.field.specimen_id == moss.id] == [
        FieldState.MEASURED, FieldState.MEASURED, FieldState.WAITING,
    ]  # fmt: skip
    said = measured(bench.shelf, picture_measurer(here=True), made, Untold())
    sequence = load_sequence("spin_on")
    assert keep_answer(bench.shelf, bench.clock, sequence, brief.id, made.id, said).readings == ()
    assert wanted(bench) == WantedField(moss.id, Side.IN, 3)
    path = tmp_path / "sheet.pdf"
    sheet_writer().write(record_of(bench, brief.id), bench.shelf, path, "A4", Untold())
    told = words(path)
    assert "Amber is more open than Cobalt" in told
    assert "Amber against Moss: cannot tell" in told
    assert "Moss, inlet side, field 2 The picture is blurred" in told
    assert "refused; taken again" in told
    assert "refused; no figure from it" in told
    assert "no micron rating, no efficiency" in told
    take_back(bench.shelf, bench.clock, brief.id, made.id)
    assert wanted(bench) == WantedField(moss.id, Side.IN, 3)
