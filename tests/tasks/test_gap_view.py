"""Gaps as they are shown, on the sample line-up, whose readings are invented."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from benchlog.judge.differences import attribute_differences
from benchlog.judge.evidence import Evidence
from benchlog.settings import INCH
from benchlog.tasks.gap_view import EXACT, SCORE, GapRow, gap_rows
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.tasks.sample_records import sample_record


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


def rows_of(record: Record, component: Component, subject: str) -> list[GapRow]:
    return [row for row in gap_rows(record, component) if row.subject == subject]


def media_subject(record: Record, label: str) -> str:
    return next(r.subject for r in gap_rows(record, Component.MEDIA) if r.label == label)


def test_rows_agree_with_the_judge(record: Record) -> None:
    standings = attribute_differences(
        record.lineup.specimens, record.findings, record.figures, record.rules, record.sequence
    )
    pairs = {(s.subject, p.first, p.second): p for s in standings for p in s.pairs}
    checked = 0
    for component in (award.component for award in record.verdict.awards):
        for row in gap_rows(record, component):
            if row.subject == SCORE:
                continue
            pair = pairs[row.subject, row.first, row.second]
            assert row.counts is pair.differs
            assert row.size == pytest.approx(abs(pair.gap or 0.0))
            assert (row.expanded, row.meaningful) == (pair.expanded, pair.meaningful)
            checked += 1
    assert checked > 100


def test_whole_score_comes_first(record: Record) -> None:
    rows = gap_rows(record, Component.CAN)
    names = [s.nickname for s in record.lineup.specimens]
    assert [row.names for row in rows if row.subject == SCORE] == list(combinations(names, 2))
    assert rows[0].subject == SCORE


def test_beaten_pairs_count_in_the_score(record: Record) -> None:
    award = next(a for a in record.verdict.awards if a.component is Component.CAN)
    counting = {
        frozenset((r.first, r.second)) for r in rows_of(record, Component.CAN, SCORE) if r.counts
    }
    (winner,) = award.winners
    assert {frozenset((winner, behind)) for behind in award.behind} <= counting


def test_gap_stands_beside_both_limits(record: Record) -> None:
    first = rows_of(record, Component.CAN, "can_wall")[0]
    assert first.gap == "−0.0700 mm"
    assert first.uncertainty == "± 0.0084 mm"
    assert first.limit == "0.05 mm"
    assert first.outcome == "counts: 0.02 mm beyond both limits"


def test_short_gap_says_of_which_limit(record: Record) -> None:
    second = rows_of(record, Component.CAN, "can_wall")[1]
    assert not second.counts
    assert second.outcome == "0.033 mm short of what counts"
    wide = replace(record, rules=_meaningful(record, "can_wall", 0.001))
    assert rows_of(wide, Component.CAN, "can_wall")[1].counts


def test_inch_units_change_numbers_alone(record: Record) -> None:
    metric = gap_rows(record, Component.CAN)
    inch = gap_rows(record, Component.CAN, INCH)
    assert [row.counts for row in inch] == [row.counts for row in metric]
    pair = next((m, i) for m, i in zip(metric, inch, strict=True) if m.subject == "can_wall")
    assert pair[1].size == pytest.approx(pair[0].size / 25.4)
    assert pair[1].gap.endswith("in")


def test_words_have_no_gap(record: Record) -> None:
    outcomes = [row.outcome for row in rows_of(record, Component.CAN, "dents")]
    assert outcomes == ["the same answer", "another answer", "another answer"]


def test_refused_comparison_says_why(record: Record) -> None:
    rows = rows_of(record, Component.MEDIA, media_subject(record, "Exposed media area"))
    assert any("not compared: the kind of media differs" in row.outcome for row in rows)


def test_counts_are_known_exactly(record: Record) -> None:
    rows = rows_of(record, Component.MEDIA, media_subject(record, "Tears and holes"))
    assert {row.uncertainty for row in rows} == {EXACT}


def test_specimens_of_one_part_stand_together(record: Record) -> None:
    one, two, three = record.lineup.specimens
    twin = replace(one, id=two.id, nickname=two.nickname)
    lineup = replace(record.lineup, specimens=(one, twin, three))
    rows = gap_rows(replace(record, lineup=lineup), Component.CAN)
    evidence = Evidence(record.findings, record.figures, record.sequence, lineup.specimens)
    assert len(evidence.parties) == 2
    walls = [row for row in rows if row.subject == "can_wall"]
    assert len(walls) == 1
    assert walls[0].names[0].startswith("these two")


def _meaningful(record: Record, subject: str, limit: float):
    entries = tuple(
        replace(e, meaningful=limit) if e.subject == subject else e for e in record.rules.entries
    )
    return replace(record.rules, entries=entries)


def test_gap_not_compared_says_so(record: Record) -> None:
    entries = tuple(replace(e, compared=e.subject != "can_wall") for e in record.rules.entries)
    shut = replace(record, rules=replace(record.rules, entries=entries))
    assert any(row.gap for row in rows_of(record, Component.CAN, "can_wall"))
    rows = rows_of(shut, Component.CAN, "can_wall")
    assert rows
    assert {row.outcome for row in rows} == {"not compared by the rules"}
    assert {(row.gap, row.counts) for row in rows} == {("", False)}
