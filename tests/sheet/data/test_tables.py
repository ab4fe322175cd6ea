"""What each table says, held against the record it was made from."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from benchlog.judge.blind import Poll
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict import AwardKind
from benchlog.measure.reading import standing
from benchlog.measure.state import State
from benchlog.sheet.data import meaning_tables, plan_tables, reading_tables, value_tables
from benchlog.sheet.data.table import FieldKind, Table, cell
from benchlog.sheet.data.tables import tables_of
from benchlog.tasks.plan_changes import PlanChange
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import value_text
from benchlog.trade.component import Component
from tests.tasks.sample_records import sample_record

AT = datetime(2026, 3, 7, 9, 30, tzinfo=UTC)
KINDS = {
    FieldKind.TEXT: str,
    FieldKind.WHOLE: int,
    FieldKind.YES_NO: bool,
    FieldKind.TIME: datetime,
}


def dicts(table: Table) -> list[dict[str, Any]]:
    names = [field.name for field in table.fields]
    return [dict(zip(names, row, strict=True)) for row in table.rows]


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


def test_cells_are_of_their_columns_kind(record: Record) -> None:
    for table in tables_of(record):
        for row in table.rows:
            for field, value in zip(table.fields, row, strict=True):
                wanted = KINDS.get(field.kind)
                if value is not None and wanted:
                    assert isinstance(value, wanted), (table.name, field.name)
                if field.kind is FieldKind.NUMBER:
                    assert not isinstance(value, (str, bool)), (table.name, field.name)


def test_required_columns_are_never_empty(record: Record) -> None:
    for table in tables_of(record):
        for row in dicts(table):
            for field in table.fields:
                assert not field.required or row[field.name] not in (None, ""), field.name


def test_every_table_and_column_has_a_plain_name(record: Record) -> None:
    allowed = set("abcdefghijklmnopqrstuvwxyz0123456789_")
    tables = tables_of(record)
    assert len({table.name for table in tables}) == len(tables)
    for table in tables:
        assert set(table.name) <= allowed
        assert all(set(field.name) <= allowed and field.about for field in table.fields)


def test_ids_named_in_tables_are_there(record: Record) -> None:
    tables = {table.name: dicts(table) for table in tables_of(record)}
    specimens = {row["id"] for row in tables["specimens"]}
    readings = {row["id"] for row in tables["readings"]}
    instruments = {row["id"] for row in tables["instruments"]}
    attributes = {row["attribute"] for row in tables["attributes"]}
    for row in (*tables["readings"], *tables["findings"]):
        assert row["specimen_id"] in specimens
        assert row["attribute"] in attributes
    for row in (*tables["readings"], *tables["checks"]):
        assert row["instrument_id"] in instruments or row["instrument_id"] is None
    for row in (*tables["findings"], *tables["figures"]):
        assert set(filter(None, row["readings"].split("; "))) <= readings
    kinds = {row["figure"] for row in tables["figure_kinds"]}
    assert {row["figure"] for row in tables["figures"]} == kinds


def test_readings_say_what_stands_and_what_is_in_doubt(record: Record) -> None:
    doubted = frozenset({record.readings[3].id})
    rows = dicts(reading_tables.readings_table(replace(record, in_doubt=doubted)))
    stands = {r.id for r in standing(list(record.readings))}
    assert {row["id"] for row in rows if row["stands"]} == stands
    assert {row["id"] for row in rows if row["in_doubt"]} == doubted
    assert [row["id"] for row in rows] == [r.id for r in record.readings]


def test_missing_values_have_their_state_and_no_number(record: Record) -> None:
    rows = [r for r in dicts(value_tables.findings_table(record)) if r["value"] is None]
    without = [r for r in rows if r["word"] is None]
    assert {row["state"] for row in without} <= {s.value for s in State if not s.has_value}
    assert all(row["unit"] == "" and row["expanded_uncertainty"] is None for row in without)


def test_printed_is_what_every_output_prints(record: Record) -> None:
    for row in dicts(value_tables.findings_table(record)):
        assert row["printed"] == value_text(record, row["attribute"], row["specimen_id"])
    for row in dicts(value_tables.figures_table(record)):
        assert row["printed"] == value_text(record, row["figure"], row["specimen_id"])


def test_bounded_figure_has_ends_and_no_expanded_uncertainty(record: Record) -> None:
    rows = dicts(value_tables.figures_table(record))
    bounded = [row for row in rows if row["low"] is not None]
    assert bounded, "the sample has estimates between bounds"
    assert all(row["expanded_uncertainty"] is None for row in bounded)
    assert all(row["low"] <= row["value"] <= row["high"] for row in bounded)


def test_expanded_is_coverage_times_standard(record: Record) -> None:
    # JCGM 100, 6.2.1: U = k u.
    rows = [r for r in dicts(value_tables.figures_table(record)) if r["coverage_factor"]]
    assert len(rows) > 20
    for row in rows:
        product = row["coverage_factor"] * row["standard_uncertainty"]
        assert row["expanded_uncertainty"] == pytest.approx(product)


def test_refused_figure_says_why(record: Record) -> None:
    rows = dicts(value_tables.figures_table(record))
    refused = [row for row in rows if row["refusal"]]
    assert refused
    assert all(row["value"] is None and not row["word"] for row in refused)


def test_scores_tell_their_contributions(record: Record) -> None:
    rows = dicts(value_tables.scores_table(record))
    assert len(rows) == len(record.verdict.scores)
    for row, score in zip(rows, record.verdict.scores, strict=True):
        assert row["score"] == score.value
        parts = row["contributions"].split("; ") if score.contributions else []
        assert len(parts) >= len(score.contributions)
        assert all(c.subject in row["contributions"] for c in score.contributions)


def test_overruled_award_keeps_what_the_rules_gave(record: Record) -> None:
    award = record.verdict.awards[0]
    hand = Overruling(
        "o", record.lineup.id, award.component, AwardKind.TIE, (), "alike to the eye", AT
    )
    rows = dicts(value_tables.awards_table(replace(record, overrulings={award.component: hand})))
    first, *others = rows
    assert first["award"] == award.kind.value
    assert (first["overruled_to"], first["overruled_reason"]) == ("tie", "alike to the eye")
    assert all(row["overruled_to"] is None for row in others)
    assert isinstance(award.component, Component)


def test_poll_has_a_row_for_each_specimen(record: Record) -> None:
    ids = [s.id for s in record.lineup.specimens]
    votes = tuple(zip(ids, (12, 7, 0), strict=True))
    poll = Poll("p", record.lineup.id, "Which first?", votes, True, AT)
    rows = dicts(value_tables.polls_table(replace(record, polls=(poll,))))
    assert [(row["specimen_id"], row["votes"]) for row in rows] == list(votes)
    assert all(row["before_reveal"] for row in rows)


def test_rules_tell_their_corners_and_ranks(record: Record) -> None:
    rows = {row["subject"]: row for row in dicts(plan_tables.rules_table(record))}
    for rule in record.rules.entries:
        row = rows[rule.subject]
        assert row["corners"].count("→") == len(rule.anchors)
        assert row["ranks"].count("→") == len(rule.ranks)
        assert (row["weight"], row["meaningful"]) == (rule.weight, rule.meaningful)
        assert row["source"]


def test_locks_carry_the_rules_digest(record: Record) -> None:
    rules = record.rules
    lock = RulesLock("k", record.lineup.id, rules, digest(rules), AT, "a slip", "r", True)
    (row,) = dicts(plan_tables.locks_table(replace(record, locks=(lock,))))
    assert row["digest"] == digest(rules)
    assert (row["reason"], row["after_cut"], row["version"]) == ("a slip", True, rules.version)


def test_plan_changes_are_told_in_order(record: Record) -> None:
    changes = (PlanChange("Question", "a", "b", AT), PlanChange("Amber, lot", "", "x", AT))
    rows = dicts(plan_tables.plan_changes_table(replace(record, plan_changes=changes)))
    assert [(row["number"], row["what"]) for row in rows] == [(1, "Question"), (2, "Amber, lot")]


def test_photos_are_named_by_their_checksum(record: Record) -> None:
    photo = record.photos[0]
    rows = dicts(reading_tables.photos_table(record, {photo.id: "photos/a.jpg"}))
    assert (rows[0]["sha256"], rows[0]["path"]) == (photo.id, "photos/a.jpg")
    assert all(len(row["sha256"]) == 64 for row in rows)
    assert rows[1]["path"] is None


def test_checks_tell_what_was_known_and_shown(record: Record) -> None:
    rows = dicts(reading_tables.checks_table(record))
    assert len(rows) == len(record.checks)
    for row, check in zip(rows, record.checks, strict=True):
        assert (row["known"], row["said_value"]) == (check.known, check.said.value)


def test_attributes_name_units_and_sources(record: Record) -> None:
    rows = dicts(meaning_tables.attributes_table(record))
    assert len(rows) == len(record.sequence.attributes)
    assert all(row["source"] for row in rows)
    numbers = {a.key for a in record.sequence.attributes if a.is_number}
    assert all(row["unit"] for row in rows if row["attribute"] in numbers)


def test_figure_kinds_say_where_formulas_stand(record: Record) -> None:
    rows = dicts(meaning_tables.figure_kinds_table(record))
    assert all(row["formula"] and row["source"] for row in rows)


def test_bytes_lists_and_others_become_cells() -> None:
    assert cell(b"\x01\xff") == "01ff"
    assert cell(("a", "b")) == "a; b"
    assert cell(State.NOT_MARKED) == "not marked"
    assert cell(AT) == AT
    assert cell({"a": 1}) == "{'a': 1}"
