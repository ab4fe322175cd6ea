"""A package worked out again: nothing differs, and whatever is changed is found."""

from __future__ import annotations

import csv
import io
import shutil
import tempfile
import zipfile
from pathlib import Path

import pytest

from benchlog.errors import PlanRefused
from benchlog.sheet.data.csv_text import read_csv
from benchlog.sheet.data.recompute import Difference, recompute
from benchlog.sheet.data.write_package import zip_package
from tests.sheet.data.published import copy_in, published, swap


def edit(folder: Path, name: str, **changes: tuple[str, str]) -> None:
    """Change columns of the first row of a table whose column has the first text of a pair."""
    path = folder / f"{name}.csv"
    rows = read_csv(name, path.read_bytes().decode())
    row = next(r for r in rows if all(r[c] == old for c, (old, _) in changes.items()))
    row.update({column: new for column, (_, new) in changes.items()})
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerows([list(rows[0]), *(r.values() for r in rows)])
    path.write_bytes(out.getvalue().encode())


def by_place(found: tuple[Difference, ...]) -> dict[str, list[Difference]]:
    told: dict[str, list[Difference]] = {}
    for one in found:
        told.setdefault(one.place, []).append(one)
    return told


def test_published_package_comes_out_the_same() -> None:
    assert recompute(published()) == ()


def test_edited_copy_helper_changes_nothing_else(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    before = (folder / "readings.csv").read_bytes()
    edit(folder, "readings", ordinal=("1", "1"))
    assert (folder / "readings.csv").read_bytes() == before


def test_changed_reading_moves_what_rests_on_it(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    row = next(
        r
        for r in read_csv("r", (folder / "readings.csv").read_bytes().decode())
        if r["attribute"] == "media_length" and r["stands"] == "true"
    )
    changed = {"said_value": (row["said_value"], "9999"), "id": (row["id"], row["id"])}
    edit(folder, "readings", **changed)
    found = by_place(recompute(folder))
    assert set(found) >= {"readings.csv", "readings", "findings", "figures", "datapackage.json"}
    assert [d.column for d in found["readings"]] == ["said_value"]
    assert found["readings"][0].printed == "“9999”"
    lengths = [d for d in found["findings"] if d.row.startswith("media_length")]
    assert "printed" in {d.column for d in lengths}
    assert any("area" in d.row for d in found["figures"])


@pytest.mark.parametrize(
    ("table", "column"),
    [("figures", "printed"), ("findings", "value"), ("scores", "score"), ("awards", "award")],
)
def test_changed_result_is_found(tmp_path: Path, table: str, column: str) -> None:
    folder = copy_in(tmp_path)
    rows = read_csv(table, (folder / f"{table}.csv").read_bytes().decode())
    old = next(row[column] for row in rows if row[column])
    edit(folder, table, **{column: (old, "12.5")})
    found = by_place(recompute(folder))
    assert set(found) == {f"{table}.csv", table}
    assert [(d.column, d.printed) for d in found[table]] == [(column, "“12.5”")]
    assert f"“{old}”" in found[table][0].sentence


def test_last_digits_of_a_sum_may_differ(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    rows = read_csv("figures", (folder / "figures.csv").read_bytes().decode())
    old = next(r["value"] for r in rows if len(r["value"]) > 14 and "e" not in r["value"])
    edit(folder, "figures", value=(old, repr(float(old) * (1 + 1e-13))))
    assert set(by_place(recompute(folder))) == {"figures.csv"}


def test_changed_instrument_is_found_with_its_effect(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    rows = read_csv("i", (folder / "instruments.csv").read_bytes().decode())
    tape = next(r for r in rows if r["kind"] == "tape")
    edit(
        folder,
        "instruments",
        id=(tape["id"], tape["id"]),
        permissible_error=(tape["permissible_error"], "50.0"),
    )
    found = by_place(recompute(folder))
    assert [d.column for d in found["instruments"]] == ["permissible_error"]
    moved = {d.column for d in found["findings"] if d.row.startswith("media_length")}
    assert {"standard_uncertainty", "printed"} <= moved


def test_changed_rule_in_the_table_is_found(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    rows = read_csv("rules", (folder / "rules.csv").read_bytes().decode())
    edit(folder, "rules", weight=(rows[0]["weight"], "9.5"))
    assert [d.column for d in by_place(recompute(folder))["rules"]] == ["weight"]


def test_missing_and_surplus_rows_are_named(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    lines = (folder / "scores.csv").read_bytes().decode().split("\r\n")
    (folder / "scores.csv").write_bytes("\r\n".join([*lines[:-2], lines[1], ""]).encode())
    found = by_place(recompute(folder))["scores"]
    assert sorted((d.printed, d.worked_out) for d in found) == [
        ("(nothing)", "a row"),
        ("a row twice", "one row"),
    ]


def test_missing_table_is_named(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    (folder / "awards.csv").unlink()
    assert {d.place for d in recompute(folder)} == {"awards.csv"}


def test_changed_picture_or_workbook_is_named(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    with (folder / "tables.xlsx").open("ab") as file:
        file.write(b"more")
    (one,) = recompute(folder)
    assert one.place == "tables.xlsx"
    assert "checksum" in one.sentence


@pytest.mark.parametrize(
    ("column", "new", "what"),
    [
        ("said_value", "much", "'much' is no number"),
        ("state", "lost", "Invalid enum value"),
        ("said_unit", "cubit", "do not hold together"),
        ("instrument_id", "nobody", "do not hold together"),
    ],
)
def test_row_that_makes_no_sense_is_refused(
    tmp_path: Path, column: str, new: str, what: str
) -> None:
    folder = copy_in(tmp_path)
    rows = read_csv("r", (folder / "readings.csv").read_bytes().decode())
    row = next(r for r in rows if r["instrument_id"] and r["said_value"] and r["stands"] == "true")
    edit(folder, "readings", id=(row["id"], row["id"]), **{column: (row[column], new)})
    with pytest.raises(PlanRefused, match=what):
        recompute(folder)


def test_other_digest_is_named(tmp_path: Path) -> None:
    folder = copy_in(tmp_path)
    swap(folder / "datapackage.json", '"id": "', '"id": "0')
    (one,) = recompute(folder)
    assert (one.place, one.column) == ("datapackage.json", "id")


def test_zip_is_worked_out_as_its_folder(tmp_path: Path) -> None:
    assert recompute(zip_package(published(), tmp_path / "p.zip")) == ()


def test_zip_without_a_package_is_refused(tmp_path: Path) -> None:
    (tmp_path / "torn.zip").write_bytes(b"PK torn")
    with pytest.raises(PlanRefused, match=r"torn\.zip cannot be read"):
        recompute(tmp_path / "torn.zip")
    with zipfile.ZipFile(tmp_path / "other.zip", "w") as packed:
        packed.writestr("a.txt", "a")
    with pytest.raises(PlanRefused, match=r"holds no datapackage\.json"):
        recompute(tmp_path / "other.zip")


def test_zip_writes_nothing_outside_its_place(tmp_path: Path) -> None:
    path = zip_package(published(), tmp_path / "p.zip")
    with zipfile.ZipFile(path, "a") as packed:
        packed.writestr("../../escaped.txt", "out")
    recompute(path)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["p.zip"]
    for place in (Path(tempfile.gettempdir()), Path(tempfile.gettempdir()).parent):
        assert not (place / "escaped.txt").exists()


def test_recomputing_needs_no_shelf(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    shutil.copytree(published(), elsewhere)
    before = sorted(p.name for p in elsewhere.iterdir())
    assert recompute(elsewhere) == ()
    assert sorted(p.name for p in elsewhere.iterdir()) == before
