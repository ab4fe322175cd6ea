"""The package as a whole: valid, complete, refused where it must be, the same when read back."""

from __future__ import annotations

import csv
import hashlib
import json
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.errors import PlanRefused, PublishRefused
from benchlog.measure.rounding import exact_number, rounded
from benchlog.sheet.data.licence import LICENCES, licence
from benchlog.sheet.data.read_package import read_package, record_in
from benchlog.sheet.data.tables import tables_of
from benchlog.sheet.data.write_package import write_package, zip_package
from benchlog.tasks.ports import Remark
from benchlog.trade.specimen import Paid
from tests.sheet.data.published import LICENCE, copy_in, published, swap
from tests.sheet.data.test_csv_text import hostile
from tests.tasks.sample_records import sample_record


def descriptor() -> dict:
    return json.loads((published() / "datapackage.json").read_text(encoding="utf-8"))


def rows(name: str) -> list[dict[str, str]]:
    with (published() / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_validator_finds_nothing_wrong() -> None:
    # The published validator of the standard, with its profile of version 2.
    import frictionless

    report = frictionless.validate(str(published() / "datapackage.json"))
    assert report.flatten(["title", "note"]) == []
    assert report.valid
    assert len(report.tasks) == len(descriptor()["resources"])


def test_same_descriptor_is_valid_as_version_1(tmp_path: Path) -> None:
    import frictionless

    folder = copy_in(tmp_path)
    path = folder / "datapackage.json"
    told = json.loads(path.read_text(encoding="utf-8"))
    del told["$schema"]
    path.write_text(json.dumps({**told, "profile": "data-package"}), encoding="utf-8")
    report = frictionless.validate(str(path))
    assert report.flatten(["title", "note"]) == []


def test_hostile_text_is_read_the_same_by_the_standards_library(tmp_path: Path) -> None:
    import frictionless

    nasty = '=1+1, "quoted"\r\nsecond line\rthird\u2028\x85 😀 \u202eשלום'
    record = sample_record()
    first, *others = record.lineup.specimens
    lineup = replace(record.lineup, specimens=(replace(first, note=nasty), *others))
    folder = write_package(replace(record, lineup=lineup), tmp_path / "p", LICENCE)
    assert frictionless.validate(str(folder / "datapackage.json")).valid
    package = frictionless.Package(str(folder / "datapackage.json"))
    rows_read = package.get_resource("specimens").read_rows()
    assert rows_read[0]["note"] == f"'{nasty}"


def test_validator_finds_what_is_wrong(tmp_path: Path) -> None:
    import frictionless

    folder = copy_in(tmp_path)
    swap(folder / "specimens.csv", "8.90", "eight")
    assert not frictionless.validate(str(folder / "datapackage.json")).valid


def test_descriptor_keeps_both_profiles() -> None:
    told = descriptor()
    assert told["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    names = [r["name"] for r in told["resources"]]
    assert len(set(names)) == len(names)
    for resource in told["resources"]:
        # Version 1: names in lower case, of letters, digits, point, hyphen, underscore and slash.
        assert set(resource["name"]) <= set("abcdefghijklmnopqrstuvwxyz0123456789-._/")
        assert ("path" in resource) is not ("data" in resource)
        if resource["path"].endswith(".csv"):
            assert (resource["type"], resource["profile"]) == ("table", "tabular-data-resource")
            assert all(field["name"] for field in resource["schema"]["fields"])


def test_checksums_are_those_of_the_files() -> None:
    for resource in descriptor()["resources"]:
        data = (published() / resource["path"]).read_bytes()
        assert resource["hash"] == f"sha256:{hashlib.sha256(data).hexdigest()}"
        assert resource["bytes"] == len(data)


def test_nothing_in_the_folder_is_left_unnamed() -> None:
    named = {r["path"] for r in descriptor()["resources"]}
    there = {p.relative_to(published()).as_posix() for p in published().rglob("*") if p.is_file()}
    assert there - named == {"datapackage.json", "README.txt"}


def test_licence_is_the_one_chosen() -> None:
    assert [one["name"] for one in descriptor()["licenses"]] == [LICENCE]
    assert LICENCE in (published() / "README.txt").read_text(encoding="utf-8")


def test_readme_begins_with_who_paid() -> None:
    readme = (published() / "README.txt").read_text(encoding="utf-8")
    assert readme.startswith("Who paid: Cobalt was given to me free by the maker")
    assert all(f"{table.name}.csv" in readme for table in tables_of(sample_record()))


def test_every_number_is_the_records_rounded_one() -> None:
    found = {(r["figure"], r["specimen_id"]): r for r in rows("figures")}
    looked_at = 0
    for key, figure in sample_record().figures.items():
        row = found[key]
        if figure.quantity is None or figure.low is not None or not row["expanded_uncertainty"]:
            continue
        value, half = rounded(float(row["value"]), float(row["expanded_uncertainty"]))
        if half == "0":
            value = exact_number(float(row["value"]), figure.kind.unit)
        assert value in row["printed"]
        assert half == "0" or half in row["printed"]
        looked_at += 1
    assert looked_at > 50


def test_who_paid_stands_in_every_row() -> None:
    told = {row["nickname"]: row["disclosure"] for row in rows("specimens")}
    assert told["Amber"] == "Paid for by the reviewer"
    assert told["Cobalt"].startswith("Given free by the maker: ")


def test_dictionary_explains_every_column() -> None:
    told = {(row["table"], row["column"]) for row in rows("dictionary")}
    for table in tables_of(sample_record()):
        assert {(table.name, field.name) for field in table.fields} <= told
    assert all(row["about"] for row in rows("dictionary"))


def test_tables_tell_their_rows_apart() -> None:
    for table in tables_of(sample_record()):
        keys = [tuple(row[table.place(name)] for name in table.key) for row in table.rows]
        assert len(set(keys)) == len(keys), table.name


def test_import_gives_the_same_record() -> None:
    record, again = sample_record(), record_in(published())
    assert again.digest == record.digest
    assert again.readings == record.readings
    assert again.verdict == record.verdict
    assert {k: str(f.quantity) for k, f in again.figures.items()} == {
        k: str(f.quantity) for k, f in record.figures.items()
    }


def test_package_of_the_import_is_the_same(tmp_path: Path) -> None:
    again = write_package(record_in(published()), tmp_path / "again", LICENCE)
    for path in published().glob("*.csv"):
        assert (again / path.name).read_bytes() == path.read_bytes()


@settings(max_examples=6, deadline=None)
@given(hostile, hostile)
def test_hostile_text_comes_back_in_full(nickname: str, remark: str) -> None:
    import tempfile

    record = sample_record()
    first, *others = record.lineup.specimens
    lineup = replace(record.lineup, specimens=(replace(first, note=nickname), *others))
    remarks = {k: Remark(r.id, r.lineup_id, *k, remark, r.at) for k, r in record.remarks.items()}
    changed = replace(record, lineup=lineup, remarks=remarks)
    with tempfile.TemporaryDirectory() as place:
        folder = write_package(changed, Path(place) / "p", LICENCE)
        package = read_package(folder)
    assert package.contents.lineup.specimens[0].note == nickname
    assert {r.text for r in package.contents.remarks} == {remark}
    assert package.changed == ()


def test_photos_lie_in_the_package_once(tmp_path: Path) -> None:
    record = sample_record()
    pictures = [f"picture {n}".encode() for n in range(len(record.photos))]
    photos = tuple(
        replace(p, id=hashlib.sha256(data).hexdigest())
        for p, data in zip(record.photos, pictures, strict=True)
    )
    # One picture may belong to two specimens: it lies in the package once.
    record = replace(record, photos=(*photos, replace(photos[0], specimen_id="other")))
    known = dict(zip([p.id for p in photos], pictures, strict=True))
    folder = write_package(record, tmp_path / "p", LICENCE, known.__getitem__)
    told = read_package(folder)
    assert told.changed == ()
    paths = [row["path"] for row in told.tables["photos"]]
    assert len(set(paths)) == len(pictures) == len(paths) - 1
    assert [(folder / path).read_bytes() for path in paths] == [*pictures, pictures[0]]


def test_damaged_photo_blocks_the_package(tmp_path: Path) -> None:
    with pytest.raises(PublishRefused, match="not the one that was taken in"):
        write_package(sample_record(), tmp_path / "p", LICENCE, lambda _one: b"damaged")
    assert list(tmp_path.iterdir()) == []


class Steps:
    """Keeps what it is told."""

    def __init__(self) -> None:
        self.told: list[tuple[int, int, str]] = []

    def step(self, done: int, total: int, what: str) -> None:
        self.told.append((done, total, what))


def test_progress_is_told_to_the_end(tmp_path: Path) -> None:
    steps = Steps()
    write_package(sample_record(), tmp_path / "p", LICENCE, progress=steps)
    assert [done for done, _, _ in steps.told] == [1, 2, 3, 4]
    assert {total for _, total, _ in steps.told} == {4}


@pytest.mark.parametrize("stop_at", [1, 2, 3, 4])
def test_stopping_leaves_nothing_behind(tmp_path: Path, stop_at: int) -> None:
    class Stopped(Exception):
        pass

    class Stop:
        def step(self, done: int, _total: int, _what: str) -> None:
            if done == stop_at:
                raise Stopped

    with pytest.raises(Stopped):
        write_package(sample_record(), tmp_path / "p", LICENCE, progress=Stop())
    assert list(tmp_path.iterdir()) == []


def test_zip_holds_the_same_files(tmp_path: Path) -> None:
    one = zip_package(published(), tmp_path / "a.zip").read_bytes()
    assert zip_package(published(), tmp_path / "b.zip").read_bytes() == one
    assert record_in(tmp_path / "a.zip").digest == sample_record().digest
    with zipfile.ZipFile(tmp_path / "a.zip") as packed:
        assert packed.testzip() is None
        told = packed.read("package/readings.csv")
    assert told == (published() / "readings.csv").read_bytes()


def test_open_disclosure_blocks_the_package(tmp_path: Path) -> None:
    record = sample_record()
    first, *others = record.lineup.specimens
    specimens = (replace(first, paid=Paid.UNANSWERED), *others)
    open_one = replace(record, lineup=replace(record.lineup, specimens=specimens))
    with pytest.raises(PublishRefused, match="Nobody said who paid for Amber"):
        write_package(open_one, tmp_path / "p", LICENCE)
    assert list(tmp_path.iterdir()) == []


def test_sealed_answers_block_the_package(tmp_path: Path) -> None:
    record = sample_record()
    sealed = replace(record, sealed=frozenset({record.readings[0].id}))
    with pytest.raises(PublishRefused, match="under seal"):
        write_package(sealed, tmp_path / "p", LICENCE)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["", "mine"])
def test_licence_must_be_chosen(tmp_path: Path, name: str) -> None:
    with pytest.raises(PublishRefused, match="licence") as refused:
        write_package(sample_record(), tmp_path / "p", name)
    assert "CC-BY-4.0" in refused.value.do


def test_licences_are_found_by_name() -> None:
    assert [licence(one.name) for one in LICENCES] == list(LICENCES)


def test_full_folder_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("keep", encoding="utf-8")
    with pytest.raises(PublishRefused, match="not an empty folder"):
        write_package(sample_record(), tmp_path, LICENCE)
    assert [p.name for p in tmp_path.iterdir()] == ["mine.txt"]


def test_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(PublishRefused, match="cannot be written"):
        write_package(sample_record(), tmp_path / "file" / "p", LICENCE)
    with pytest.raises(PublishRefused, match="cannot be written"):
        zip_package(published(), tmp_path / "none" / "p.zip")


def test_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "p").mkdir()
    assert (write_package(sample_record(), tmp_path / "p", LICENCE) / "record.json").is_file()


@pytest.mark.parametrize(
    ("file", "text", "what"),
    [
        ("datapackage.json", "{", "not sound JSON"),
        ("datapackage.json", "{}", "names no resources"),
        ("record.json", "{}", "no record of a line-up"),
        ("readings.csv", "a,b\r\n1\r\n", "record 2 has 1 fields"),
    ],
)
def test_broken_file_is_named(tmp_path: Path, file: str, text: str, what: str) -> None:
    folder = copy_in(tmp_path)
    (folder / file).write_text(text, encoding="utf-8", newline="")
    with pytest.raises(PlanRefused, match=what):
        read_package(folder)


def test_bytes_that_are_no_text_are_named(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    (folder / "record.json").write_bytes(b"\xff\xfe")
    with pytest.raises(PlanRefused, match=r"record.json .* not plain UTF-8"):
        read_package(folder)


def test_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(PlanRefused, match=r"datapackage\.json cannot be read"):
        read_package(tmp_path)


def test_nothing_outside_the_folder_is_read(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    swap(folder / "datapackage.json", '"path": "awards.csv"', '"path": "../awards.csv"')
    with pytest.raises(PlanRefused, match="outside the package"):
        read_package(folder)


@given(st.sampled_from(["photos", "moments", "rule_locks"]))
def test_tables_are_there_even_when_empty(name: str) -> None:
    assert name in read_package(published()).tables
