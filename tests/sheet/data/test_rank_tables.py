"""Declared purposes and ranks go out with the data, and come out the same when worked out again."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.purposes_json import purpose_digest
from benchlog.sheet.data.rank_tables import rank_tables
from benchlog.sheet.data.read_package import record_in
from benchlog.sheet.data.recompute import recompute
from benchlog.sheet.data.tables import tables_of
from benchlog.sheet.data.write_package import write_package
from benchlog.tasks.own_purpose import own_purpose
from tests.sheet.data import test_tables as form
from tests.sheet.data.published import LICENCE, swap
from tests.sheet.data.test_tables import dicts
from tests.tasks.sample_records import WHY, sample_for, sample_record

PRICE = next(p for p in load_purposes() if p.key == "price")
OWN = own_purpose({"media": "3", "can": "1", "gasket": "open"})


@pytest.fixture(scope="module")
def package(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_package(sample_for(PRICE), tmp_path_factory.mktemp("p") / "package", LICENCE)


def test_ranks_round_trip_and_agree(package: Path) -> None:
    assert recompute(package) == ()
    again = record_in(package)
    assert again.declarations == sample_for(PRICE).declarations
    assert again.declared == sample_for(PRICE).declared
    assert {"purposes.csv", "ranks.csv", "rank_pairs.csv", "rank_weights.csv"} <= {
        path.name for path in package.iterdir()
    }


def test_tables_keep_to_the_form_of_all() -> None:
    for shown in (sample_for(PRICE), sample_for(PRICE, OWN, None)):
        form.test_cells_are_of_their_columns_kind(shown)
        form.test_required_columns_are_never_empty(shown)
        form.test_every_table_and_column_has_a_plain_name(shown)
        for table in rank_tables(shown):
            keys = [tuple(row[name] for name in table.key) for row in dicts(table)]
            assert len(set(keys)) == len(keys)


def test_tables_hold_what_the_ranking_gave() -> None:
    shown = sample_for(PRICE)
    assert shown.declared is not None
    shares = shown.declared.ranking.shares
    assert shares is not None
    purposes, ranks, pairs, weights = map(dicts, rank_tables(shown))
    assert [r["share"] for r in ranks] == [s for own in shares.acceptability for s in own]
    assert {(r["draws"], r["seed"]) for r in ranks} == {(100_000, 20_010_301)}
    for row in pairs:
        (back,) = [r for r in pairs if (r["other_id"], r["specimen_id"]) == (
            row["specimen_id"], row["other_id"])]  # fmt: skip
        assert row["before"] + back["before"] == pytest.approx(1.0)
        assert row["lead"] == -back["lead"]
    by_id = {}
    for row in weights:
        by_id.setdefault(row["specimen_id"], []).append(row)
    for own in by_id.values():
        assert sum(row["weight"] for row in own) == pytest.approx(1.0, abs=1e-5)
        if own[0]["confidence"] is not None:
            assert sum(row["central_weight"] for row in own) == pytest.approx(1.0, abs=1e-5)
    (only,) = purposes
    assert (only["digest"], only["version"], only["stands"]) == (purpose_digest(PRICE), "1", True)


def test_every_declaration_is_a_row() -> None:
    (purposes,) = rank_tables(sample_for(PRICE, OWN, None))
    rows = dicts(purposes)
    assert [row["purpose"] for row in rows] == ["price", "own_weights", None]
    assert [row["stands"] for row in rows] == [False, False, False]
    assert rows[1]["weights"] == "can: 1.0; media: 3.0"
    assert rows[1]["version"] is None
    assert {row["reason"] for row in rows} == {WHY}


def test_without_a_purpose_there_are_no_tables() -> None:
    assert rank_tables(sample_record()) == ()
    names = {table.name for table in tables_of(sample_record())}
    assert names.isdisjoint({"purposes", "ranks", "rank_pairs", "rank_weights"})


def test_refused_ranks_leave_the_declaration() -> None:
    declared = sample_for(PRICE).declared
    assert declared is not None
    refused = replace(declared, ranking=replace(declared.ranking, shares=None, refused="why"))
    (purposes,) = rank_tables(replace(sample_for(PRICE), declared=refused))
    assert purposes.name == "purposes"


def test_touched_up_share_is_found(package: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    copy.mkdir()
    for path in package.iterdir():
        (copy / path.name).write_bytes(path.read_bytes())
    rows = (copy / "ranks.csv").read_text().splitlines()
    swap(copy / "ranks.csv", rows[1], rows[1].replace(rows[1].split(",")[2], "0.5"))
    found = recompute(copy)
    assert [(d.place, d.column, d.printed) for d in found if d.place == "ranks"] == [
        ("ranks", "share", "“0.5”")
    ]


def test_other_purpose_in_the_record_is_found(package: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    copy.mkdir()
    for path in package.iterdir():
        (copy / path.name).write_bytes(path.read_bytes())
    record = json.loads((copy / "record.json").read_text())
    record["contents"]["declarations"][0]["purpose"]["weights"] = [["can", 1.0]]
    (copy / "record.json").write_text(json.dumps(record))
    places = {difference.place for difference in recompute(copy)}
    assert {"record.json", "datapackage.json", "purposes", "ranks"} <= places
