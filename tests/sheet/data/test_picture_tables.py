"""Pictures of the media go out with the data, and come out the same when worked out again."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.measure.micrograph import NOT_A_RATING
from benchlog.sheet.data.licence import licence
from benchlog.sheet.data.picture_tables import picture_tables
from benchlog.sheet.data.read_package import record_in
from benchlog.sheet.data.readme import readme_of
from benchlog.sheet.data.recompute import recompute
from benchlog.sheet.data.tables import tables_of
from benchlog.sheet.data.write_package import ending_of, write_package
from benchlog.tasks.contents import contents_of
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out
from tests.sheet.data import test_tables as form
from tests.sheet.data.published import LICENCE, swap
from tests.sheet.data.test_tables import dicts
from tests.tasks.pictured_records import DARK, pictured_record

LINES = b"\x89PNG\r\n\x1a\n fine lines"
NAMES = {
    "set_ups", "micrographs", "picture_answers", "picture_figures", "picture_gates",
    "fibre_histograms",
}  # fmt: skip


@cache
def record() -> Record:
    """The pictured record, its scale found on a picture that is at hand."""
    contents = contents_of(pictured_record())
    found = replace(contents.set_ups[0], scale_picture=hashlib.sha256(LINES).hexdigest())
    return worked_out(replace(contents, set_ups=(found,)))


@pytest.fixture
def package(tmp_path: Path) -> Path:
    scales = {"u-1": LINES}
    return write_package(record(), tmp_path / "p", LICENCE, scale_bytes=scales.__getitem__)


def test_pictures_round_trip_and_agree(package: Path) -> None:
    assert recompute(package) == ()
    again = record_in(package)
    assert (again.set_ups, again.micrographs, again.answers) == (
        record().set_ups,
        record().micrographs,
        record().answers,
    )
    assert again.digest == record().digest
    assert {f"{name}.csv" for name in NAMES} <= {path.name for path in package.iterdir()}


def test_the_readme_says_what_the_figures_are_not(package: Path) -> None:
    readme = (package / "README.txt").read_text(encoding="utf-8")
    assert NOT_A_RATING in readme
    assert "recompute --pictures" in readme
    bare = replace(record(), micrographs=(), answers=(), set_ups=())
    assert NOT_A_RATING not in readme_of(bare, licence(LICENCE), ())


def test_the_library_of_the_standard_takes_them(package: Path) -> None:
    import frictionless

    assert frictionless.validate(str(package / "datapackage.json")).valid


def test_the_scales_picture_goes_out_unchanged(package: Path) -> None:
    (set_up,) = dicts(picture_tables(record(), {})[0])
    assert set_up["scale_path"] is None
    (file,) = (package / "scales").iterdir()
    assert file.suffix == ".png"
    assert file.read_bytes() == LINES
    assert f"scales/{file.name}" in (package / "set_ups.csv").read_text(encoding="utf-8")


def test_another_scales_picture_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PublishRefused, match="of the scale of stereo, 4x is not the one"):
        write_package(record(), tmp_path / "p", LICENCE, scale_bytes=lambda _one: b"other")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("table", "old", "new", "place"),
    [
        ("picture_figures", ",41.5,", ",40.5,", "a3 / D50, value"),
        ("picture_gates", "refused", "passed", "a1 / brightness, outcome"),
        ("picture_answers", "refused", "measured", "a1, verdict"),
        ("micrographs", "inlet side", "outlet side", "m1, side"),
        ("set_ups", "0.5,", "0.6,", "u-1, um_per_px"),
        ("fibre_histograms", "0.25", "0.35", "a2 / 1, share"),
    ],
)
def test_what_was_altered_is_named(
    package: Path, table: str, old: str, new: str, place: str
) -> None:
    swap(package / f"{table}.csv", old, new)
    told = [one.sentence for one in recompute(package)]
    assert any(one.startswith(f"{table}, {place}:") for one in told), told


def test_a_changed_reading_of_a_picture_moves_its_finding(package: Path) -> None:
    swap(package / "readings.csv", "41.5 µm,41.5,", "41.5 µm,51.5,")
    told = {(one.place, one.column) for one in recompute(package)}
    assert ("readings", "said_value") in told
    assert ("findings", "value") in told


def test_tables_keep_to_the_form_of_all() -> None:
    form.test_cells_are_of_their_columns_kind(record())
    form.test_required_columns_are_never_empty(record())
    form.test_every_table_and_column_has_a_plain_name(record())
    for table in picture_tables(record(), {}):
        keys = [tuple(row[name] for name in table.key) for row in dicts(table)]
        assert len(set(keys)) == len(keys)
        assert table.rows, table.name


def test_the_dictionary_names_units_and_sources() -> None:
    (dictionary,) = (t for t in tables_of(record()) if t.name == "dictionary")
    told = {(row["table"], row["column"]): row for row in dicts(dictionary)}
    assert {table for table, _ in told} >= NAMES
    assert told["set_ups", "um_per_px"]["unit"] == "micrometres per pixel of the file"
    assert "Hildebrand" in told["picture_figures", "figure"]["source"]
    assert "JCGM 100" in told["picture_figures", "u_sampling"]["source"]


def test_tables_say_what_the_answers_say() -> None:
    _, micrographs, answers, figures, gates, classes = map(dicts, picture_tables(record(), {}))
    assert [m["id"] for m in micrographs if m["stands"]] == ["m2", "m3", "m4", "m5"]
    assert answers[0]["reasons"] == DARK
    assert [a["readings"] for a in answers] == ["", "p2", "p3", "p4"]
    d50 = next(f for f in figures if f["answer_id"] == "a3" and f["figure"] == "D50")
    assert d50["u"] ** 2 == pytest.approx(
        d50["u_sampling"] ** 2 + d50["u_systematic"] ** 2 + d50["u_calibration"] ** 2
    )
    assert [g["value"] for g in gates if g["gate"] == "layers"] == [None] * 3
    assert [(c["from_um"], c["to_um"], c["share"]) for c in classes[:2]] == [
        (0.0, 5.0, 0.25),
        (5.0, 10.0, 0.75),
    ]


def test_there_are_none_without_pictures() -> None:
    bare = replace(record(), micrographs=(), answers=(), set_ups=())
    assert picture_tables(bare, {}) == ()


@pytest.mark.parametrize(
    ("begins", "ending"),
    [
        (b"\xff\xd8\xff\xe0", "jpg"), (LINES, "png"), (b"II*\x00", "tif"), (b"MM\x00*", "tif"),
        (b"RIFF....WEBP", "webp"), (b"", "bin"),
    ],
)  # fmt: skip
def test_files_end_as_what_they_hold(begins: bytes, ending: str) -> None:
    assert ending_of(begins) == ending
