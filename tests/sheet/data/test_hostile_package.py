"""Whatever was typed, a package is written, is valid, and comes out the same."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from benchlog.sheet.data.csv_text import unguarded
from benchlog.sheet.data.read_package import read_package, record_in
from benchlog.sheet.data.recompute import recompute
from benchlog.sheet.data.workbook import readable
from benchlog.sheet.data.write_package import write_package
from benchlog.tasks.contents import contents_of
from benchlog.tasks.ports import Moment, Remark
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out
from benchlog.trade.specimen import Paid
from tests.sheet.data.published import LICENCE
from tests.sheet.data.test_csv_text import hostile
from tests.tasks.sample_records import sample_record

AT = datetime(2026, 3, 7, 9, 30, tzinfo=UTC)
NASTY = '=HYPERLINK("x";"y")\r\n@SUM(1), "q"\r\ttab\u2028\u202eשלום 😀'
answered = st.sampled_from([paid for paid in Paid if paid is not Paid.UNANSWERED])


def typed_all_over(text: str, other: str, paid: Paid) -> Record:
    """Return the sample record with these texts wherever a person may type."""
    made = contents_of(sample_record())
    specimens = tuple(
        replace(
            s,
            nickname=text or "A",
            maker=other,
            part_number=text,
            lot=other,
            giver=text,
            note=other,
            currency=text,
            paid=paid,
        )
        for s in made.lineup.specimens
    )
    lineup = replace(made.lineup, name=text, question=other, reviewer=text, specimens=specimens)
    readings = tuple(
        replace(r, text=text, word=other or "x", reason=text)
        if r.word and r.attribute in ("box_claims", "remark_media", "can_markings")
        else r
        for r in made.readings
    )
    first = specimens[0].id
    return worked_out(
        replace(
            made,
            lineup=lineup,
            readings=readings,
            instruments=tuple(replace(i, name=text or "x", note=other) for i in made.instruments),
            remarks=(Remark("r", lineup.id, "can", first, text, AT),),
            moments=(Moment("m", lineup.id, AT, 5.0, other),),
        )
    )


@settings(max_examples=5, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(hostile, hostile, answered)
@example(NASTY, "'=1", Paid.GIVEN_BY_MAKER)
def test_published_text_comes_out_the_same(text: str, other: str, paid: Paid) -> None:
    record = typed_all_over(text, other, paid)
    with tempfile.TemporaryDirectory() as place:
        folder = write_package(record, Path(place) / "p", LICENCE)
        assert recompute(folder) == ()
        assert record_in(folder).digest == record.digest
        (row, *_) = read_package(folder).tables["specimens"]
        assert (unguarded(row["part_number"]), unguarded(row["maker"])) == (text, other)


def test_validator_and_workbook_take_the_nastiest(tmp_path: Path) -> None:
    import frictionless

    record = typed_all_over(NASTY, NASTY, Paid.LENT)
    folder = write_package(record, tmp_path / "p", LICENCE)
    report = frictionless.validate(str(folder / "datapackage.json"))
    assert report.flatten(["title", "note"]) == []
    sheet = load_workbook(folder / "tables.xlsx")["specimens"]
    cell = sheet.cell(2, [c.value for c in sheet[1]].index("note") + 1)
    assert (readable(cell.value), cell.data_type) == (NASTY, "s")
    assert (folder / "README.txt").read_text(encoding="utf-8").startswith("Who paid: ")
