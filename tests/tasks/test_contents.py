"""A record made again from its contents, and the contents as JSON and back."""

from __future__ import annotations

import json
from dataclasses import fields, replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.errors import OurFault, PlanRefused
from benchlog.judge.overruling import Overruling
from benchlog.judge.verdict import AwardKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.contents import Contents, contents_of
from benchlog.tasks.contents_json import contents_from, contents_from_json, plain_contents
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.lock import change_rules, lock_rules
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component
from tests import strategies as made
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, make_cut, read_dents
from tests.tasks.sample_records import sample_record


def there_and_back(contents: Contents) -> Contents:
    return contents_from_json(json.dumps(plain_contents(contents)))


def test_record_comes_out_the_same() -> None:
    record = sample_record()
    again = worked_out(contents_of(record))
    assert again.digest == record.digest
    assert again.verdict == record.verdict
    assert (again.revision, again.draft) == (record.revision, record.draft)
    assert again.in_doubt == record.in_doubt
    assert {k: str(f) for k, f in again.findings.items()} == {
        k: str(f) for k, f in record.findings.items()
    }


def test_contents_come_back_from_json() -> None:
    contents = contents_of(sample_record())
    assert there_and_back(contents) == contents
    assert contents.scatters, "the sample has pooled scatters"


def test_without_the_scatters_uncertainties_differ() -> None:
    # What earlier line-ups scatter by is no reading of this one: it must be kept with the record.
    record = sample_record()
    bare = worked_out(replace(contents_of(record), scatters=()))
    key = ("can_diameter", record.lineup.specimens[0].id)
    assert str(bare.findings[key].quantity) != str(record.findings[key].quantity)


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(made.lineups, st.data())
def test_hostile_contents_come_back(lineup: object, data: st.DataObject) -> None:
    sample = contents_of(sample_record())
    readings = data.draw(st.lists(made.readings(), max_size=3).map(tuple))
    contents = replace(
        sample,
        lineup=lineup,
        readings=readings,
        instruments=data.draw(st.lists(made.instruments, max_size=2).map(tuple)),
        moments=data.draw(st.lists(made.moments(), max_size=2).map(tuple)),
        remarks=data.draw(st.lists(made.remarks(), max_size=2).map(tuple)),
    )
    assert there_and_back(contents) == contents


def test_unknown_instrument_is_our_fault() -> None:
    with pytest.raises(OurFault, match="not known here"):
        worked_out(replace(contents_of(sample_record()), instruments=(), checks=(), corrections=()))


@pytest.mark.parametrize(
    ("given_text", "what"),
    [
        ("{", "not sound JSON"),
        ("[" * 100_000, "not sound JSON"),
        ("[]", "no record of a line-up"),
        ('{"format": "benchlog record", "format_version": 99}', "format version 99"),
        ('{"format": "benchlog record", "format_version": 1}', "wants a table, not nothing"),
        (
            '{"format": "benchlog record", "format_version": 1, "contents": {}}',
            "'lineup' is missing",
        ),
    ],
)
def test_broken_record_is_refused_in_plain_words(given_text: str, what: str) -> None:
    with pytest.raises(PlanRefused, match=what):
        contents_from_json(given_text)


def test_wrong_kind_is_named_with_its_place() -> None:
    plain = json.loads(json.dumps(plain_contents(contents_of(sample_record()))))
    plain["contents"]["readings"][0]["ordinal"] = "first"
    with pytest.raises(PlanRefused, match=r"readings\[0\]\.ordinal: wants a whole number"):
        contents_from(plain)


def test_broken_bytes_are_refused() -> None:
    plain = json.loads(json.dumps(plain_contents(contents_of(sample_record()))))
    plain["contents"]["readings"][0]["raw"] = "zz"
    with pytest.raises(PlanRefused, match="cannot be read"):
        contents_from(plain)


def drawn_and_worked_out(shelf: SqlShelf, sequence: Sequence) -> tuple[Record, Record]:
    """Return the record from the shelf, and the same made again from its JSON alone."""
    record = draw_up(shelf, "l-1", sequence)
    return record, worked_out(there_and_back(contents_of(record)))


def test_fair_record_comes_out_the_same(fair: SqlShelf, clock: HandClock) -> None:
    # What fairness adds: a lock, a change after the cut, an overruling, all in the digest.
    lock_rules(fair, clock, "l-1", SHIPPED, SPIN_ON)
    read_dents(fair, clock)
    make_cut(fair, clock)
    changed = replace(SHIPPED, version="2 b")
    change_rules(fair, clock, "l-1", changed, "a slip in the weights", SPIN_ON)
    overruling = Overruling("o", "l-1", Component.CAN, AwardKind.TIE, (), "alike", clock.now())
    fair.add_overruling(overruling)
    record, again = drawn_and_worked_out(fair, SPIN_ON)
    assert (len(record.locks), len(record.overrulings), record.cut_made) == (2, 1, True)
    assert again.digest == record.digest
    assert again.rules == record.rules
    assert again.overrulings == record.overrulings
    assert again.verdict == record.verdict


def test_every_field_of_the_record_is_made_again(fair: SqlShelf, clock: HandClock) -> None:
    # A field that is added to the record and forgotten here would fall back to its default.
    read_dents(fair, clock)
    record, again = drawn_and_worked_out(fair, SPIN_ON)
    for field in fields(Record):
        mine, theirs = getattr(record, field.name), getattr(again, field.name)
        if field.name in ("findings", "figures"):
            mine, theirs = str(mine), str(theirs)
        assert mine == theirs, field.name
