"""A purpose is declared before all eyes: kept, changed and taken back, with its side of the cut."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.purposes_file import load_purposes
from benchlog.shelf import SqlShelf
from benchlog.tasks.changed import DATA, SHEET, PurposeChange, outputs_touched
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.contents import contents_of
from benchlog.tasks.contents_json import contents_from_json, plain_contents
from benchlog.tasks.declare import declare_purpose, standing_declaration, take_back_purpose
from benchlog.tasks.declared_view import declared_story, purpose_name, purpose_title
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.frozen_record import frozen, frozen_text, thawed
from benchlog.tasks.own_purpose import own_purpose
from benchlog.tasks.own_sets import rescore
from benchlog.tasks.rank_view import ranks_shown
from benchlog.tasks.record import Record
from benchlog.tasks.tell import tell
from benchlog.tasks.work_out import worked_out
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, make_cut, read_dents
from tests.tasks.sample_records import sample_for, sample_record

PURPOSES = {purpose.key: purpose for purpose in load_purposes()}
PRICE, COLD = PURPOSES["price"], PURPOSES["cold_starts"]
OWN = own_purpose({"media": "3", "can": "1", "gasket": "open"})


def drawn(shelf: SqlShelf) -> Record:
    return draw_up(shelf, "l-1", SPIN_ON)


def test_declared_purpose_stands_with_its_ranks(fair: SqlShelf, clock: HandClock) -> None:
    made = declare_purpose(fair, clock, "l-1", PRICE, " viewers asked ")
    assert (made.purpose, made.reason, made.after, made.after_cut) == (
        PRICE, "viewers asked", "", False,
    )  # fmt: skip
    record = drawn(fair)
    assert record.declared is not None
    assert record.declared.declaration == made
    assert record.declarations == (made,)
    assert record.declared.ranking.purpose == PRICE


def test_declaring_after_the_cut_says_so(fair: SqlShelf, clock: HandClock) -> None:
    declare_purpose(fair, clock, "l-1", PRICE)
    read_dents(fair, clock)
    make_cut(fair, clock)
    late = declare_purpose(fair, clock, "l-1", COLD)
    assert late.after_cut
    assert late.after == fair.readings("l-1")[-1].id
    first, second = declared_story(fair.declarations("l-1"))
    assert first.startswith("Declared on ")
    assert first.endswith(", before the cut: “Price”, version 1.")
    assert second.startswith("Changed on ")
    assert second.endswith(", after the cut to “Cold starts”, version 1.")


def test_taken_back_purpose_leaves_its_trace(fair: SqlShelf, clock: HandClock) -> None:
    declare_purpose(fair, clock, "l-1", PRICE)
    take_back_purpose(fair, clock, "l-1", "nobody asked")
    record = drawn(fair)
    assert record.declared is None
    assert len(record.declarations) == 2
    assert declared_story(record.declarations)[1].endswith("before the cut. Reason: nobody asked.")
    declare_purpose(fair, clock, "l-1", PRICE)
    assert drawn(fair).declared is not None


def test_same_purpose_is_not_declared_twice(fair: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(PlanRefused, match="No purpose is declared"):
        take_back_purpose(fair, clock, "l-1")
    declare_purpose(fair, clock, "l-1", OWN)
    with pytest.raises(PlanRefused, match="declared already"):
        declare_purpose(fair, clock, "l-1", OWN)
    take_back_purpose(fair, clock, "l-1")
    with pytest.raises(PlanRefused, match="No purpose is declared"):
        take_back_purpose(fair, clock, "l-1")
    assert standing_declaration(fair.declarations("l-1")) is None


def test_endless_weight_is_not_declared(fair: SqlShelf, clock: HandClock) -> None:
    endless = replace(OWN, weights=(("can", float("inf")),))
    with pytest.raises(PlanRefused, match="no end"):
        declare_purpose(fair, clock, "l-1", endless)
    assert fair.declarations("l-1") == []


def test_ranks_of_the_record_are_those_shown() -> None:
    record = sample_for(PRICE)
    assert record.declared is not None
    bare = replace(record, declared=None)
    assert ranks_shown(record, PRICE) == ranks_shown(bare, PRICE)
    assert ranks_shown(record, PRICE, seed=5) != ranks_shown(record, PRICE)
    assert ranks_shown(record, PRICE, trials=1000).summary.endswith(" of 1 000 draws.")


def test_ranks_come_out_the_same_from_the_contents() -> None:
    record = sample_for(PRICE, None, OWN)
    contents = contents_from_json(json.dumps(plain_contents(contents_of(record))))
    assert contents == contents_of(record)
    again = worked_out(contents)
    assert again.declared == record.declared
    assert again.digest == record.digest


def test_declaring_moves_the_digest_alone() -> None:
    bare, priced = sample_record(), sample_for(PRICE)
    assert sample_for().digest == bare.digest
    assert len({bare.digest, priced.digest, sample_for(OWN).digest}) == 3
    assert priced.verdict == bare.verdict


def test_other_rules_rank_by_those(fair: SqlShelf, clock: HandClock) -> None:
    declare_purpose(fair, clock, "l-1", OWN)
    strict = replace(SHIPPED, smallest_coverage=0.9)
    found = rescore(fair, "l-1", strict).declared
    assert found is not None
    assert "90 %" in found.ranking.refused or "Fewer" in found.ranking.refused


def test_ranks_are_told_whole() -> None:
    record = sample_for(PRICE)
    told = json.loads(json.dumps(tell(record), allow_nan=False))
    assert record.declared is not None
    shares = record.declared.ranking.shares
    assert shares is not None
    ranks = told["ranks"]
    assert ranks["shares"]["acceptability"] == [list(own) for own in shares.acceptability]
    assert ranks["specimens"] == [[one] for one in record.declared.ranking.ids]
    assert (ranks["seed"], ranks["shares"]["trials"]) == (20_010_301, 100_000)
    assert told["declarations"][0]["purpose"]["version"] == "1"
    assert tell(sample_record())["ranks"] is None


def test_revisions_tell_what_was_declared() -> None:
    none, price, back = sample_record(), sample_for(PRICE), sample_for(PRICE, None)
    earlier = {k: v for k, v in frozen(none).items() if k != "purpose"}
    assert changed_between(earlier, frozen(none)) == ()
    said = changed_between(earlier, thawed(frozen_text(price)))
    assert all(type(change) is PurposeChange for change in said)
    assert said[0].sentence.startswith("Declared on 2026-05-04 12:00 UTC, before the cut: “Price”")
    assert any(c.sentence.startswith("Amber · ranks: nothing → ") for c in said)
    first, *ranks = changed_between(frozen(price), frozen(back))
    assert first.sentence.startswith("Taken back on ")
    assert len(ranks) == 3
    assert outputs_touched(first) == (SHEET, DATA)


def test_purposes_have_names_on_paper() -> None:
    assert purpose_name(COLD) == "“Cold starts”, version 1"
    assert purpose_name(replace(COLD, open_share=0.5)) == "“Cold starts”, version 1, edited"
    assert purpose_name(replace(COLD, version="0")) == "“Cold starts”, version 0"
    own = "the reviewer's own weights (media 3, gasket open, can 1, all others 0)"
    assert sorted(purpose_name(OWN)) == sorted(own)
    assert purpose_title(OWN) == "own weights"
    assert purpose_title(COLD) == "cold starts"
