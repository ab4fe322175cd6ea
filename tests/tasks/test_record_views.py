from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.derive.sum_shown import budget
from benchlog.judge.rules import Anchor, AttributeRule, ValueKind
from benchlog.judge.verdict import AwardKind
from benchlog.measure.finding import Finding
from benchlog.measure.state import State
from benchlog.tasks.correct import correct
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.figure_view import figure_rows, sum_of
from benchlog.tasks.reading_view import reading_rows
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import NO_ANSWER, label_of, value_text
from benchlog.tasks.verdict_view import (
    SUPPORT_WORDS,
    component_rows,
    meaningful_text,
    value_rows,
)
from benchlog.tasks.work_out import all_figures
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.small_trade import SMALL
from tests.tasks.sample_records import sample_record


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


def test_rows_say_the_award_and_every_score(record: Record) -> None:
    rows = component_rows(record)
    assert [row.award for row in rows] == list(record.verdict.awards)
    for row in rows:
        assert (row.outcome, row.support) == (
            row.award.kind.value,
            "" if row.outcome == "not judged" else SUPPORT_WORDS[row.award.support],
        )
        assert [c.specimen_id for c in row.cells] == [s.id for s in record.lineup.specimens]
        for cell in row.cells:
            score = record.verdict.score(row.component, cell.specimen_id)
            assert (cell.value, cell.low, cell.high) == (score.value, score.low, score.high)
            assert cell.points == ("" if score.value is None else f"{score.value:.1f}")


def test_only_winners_are_marked(record: Record) -> None:
    marked = {
        (r.component, c.specimen_id) for r in component_rows(record) for c in r.cells if c.mark
    }
    wanted = {
        (award.component, winner)
        for award in record.verdict.awards
        if award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS)
        for winner in award.winners
    }
    assert marked == wanted != set()


def test_missing_score_is_said_as_missing(record: Record) -> None:
    cells = [c for row in component_rows(record) for c in row.cells if c.value is None]
    assert cells
    assert all(": no score" in c.spoken or ": never scored" in c.spoken for c in cells)


def test_parts_of_a_score_add_up(record: Record) -> None:
    for award in record.verdict.awards:
        scored = [row for row in value_rows(record, award.component) if row.part]
        if scored:
            assert sum(row.part for row in scored) == pytest.approx(1.0)
            parts = [row.part for row in scored]
            assert parts == sorted(parts, reverse=True)


def test_worth_is_that_of_the_score(record: Record) -> None:
    specimen = record.lineup.specimens[0].id
    score = record.verdict.score(Component.CAN, specimen)
    worths = {c.subject: c.value for c in score.contributions}
    shown = {
        row.subject: row.cells[0].worth for row in value_rows(record, Component.CAN) if row.part
    }
    assert shown == {key: f"{value:.1f}" for key, value in worths.items()}


def test_choice_is_shown_by_its_label(record: Record) -> None:
    moss = record.lineup.specimens[2].id
    assert record.findings["cap_bond", moss].word == "gap"
    assert value_text(record, "cap_bond", moss) == "A gap to be seen"


def test_price_figure_speaks_the_currency(record: Record) -> None:
    texts = [value_text(record, "area_per_price", s.id) for s in record.lineup.specimens]
    priced = [text for text in texts if "/EUR" in text]
    assert priced
    assert not any("money" in text for text in texts)


def test_unknown_value_has_no_answer_yet(record: Record) -> None:
    assert value_text(record, "no_such_thing", record.lineup.specimens[0].id) == "no answer yet"
    assert label_of(record, "no_such_thing") == "no such thing"


def test_not_measured_is_said_only_where_it_was_answered(bench, shelf, record: Record) -> None:
    bench.no_value(State.NOT_MEASURED)
    bench.accept("312.4")
    scored = rule(
        subject="whole_mass", component=SMALL.attribute("whole_mass").component,
        anchors=(Anchor(0.0, 0.0), Anchor(500.0, 10.0)), unit="gram",
    )  # fmt: skip
    drawn = draw_up(shelf, "l-1", SMALL, replace(record.rules, entries=(scored,)))
    cells = value_rows(drawn, scored.component)[0].cells
    assert cells[0].text == "not measured"
    assert cells[1].text.startswith("312.4")
    assert [cell.why_not for cell in cells] == ["not measured", "", NO_ANSWER]
    assert cells[2].text == NO_ANSWER


@pytest.mark.parametrize(
    ("readings", "words"), [(0, "no answer yet"), (1, "not measured")], ids=["open", "answered"]
)
def test_figure_says_whether_its_input_was_answered(
    record: Record, readings: int, words: str
) -> None:
    amber = record.lineup.specimens[0].id
    kept = record.findings["media_length", amber].readings[:readings]
    gone = Finding("media_length", amber, State.NOT_MEASURED, kept)
    findings = {**record.findings, ("media_length", amber): gone}
    drawn = replace(record, findings=findings, figures=all_figures(record.lineup, findings))
    assert value_text(drawn, "exposed_area", amber).endswith(f": {words}.")


def rule(**more: object) -> AttributeRule:
    settled: dict[str, object] = {
        "subject": "can_wall", "component": Component.CAN, "kind": ValueKind.PIECEWISE,
        "weight": 1.0, "support": Support.OPINION, "source": "", "reason": "",
    }  # fmt: skip
    return AttributeRule(**(settled | more))  # type: ignore[arg-type]


def test_meaningful_difference_is_said_with_its_unit() -> None:
    assert meaningful_text(rule(meaningful=0.05, unit="millimeter")) == "0.05 mm"
    assert meaningful_text(rule(meaningful=0.05, meaningful_is_share=True)) == "5 %"
    assert meaningful_text(rule(kind=ValueKind.RANK)) == "any"
    assert meaningful_text(rule(unit="count")) == "none set"


@pytest.mark.parametrize(
    ("size", "unit", "said"),
    [(6, "month", "6 months"), (1, "month", "1 month"), (0.25, "turn", "0.25 turn")],
)
def test_meaningful_difference_counts_in_words(size: float, unit: str, said: str) -> None:
    assert meaningful_text(rule(meaningful=float(size), unit=unit)) == said


def test_meaningful_difference_follows_the_units_shown(record: Record) -> None:
    # NIST SP 811 B.8: 1 in is 25.4 mm exactly, so that 0.05 mm is 0.00197 in.
    locked = rule(meaningful=0.05, unit="millimeter")
    assert meaningful_text(locked, "inch") == "0.00197 in"
    assert meaningful_text(rule(meaningful=0.5, unit="count"), "count") == "0.5"
    for units, wanted in (("metric", "0.05 mm"), ("both", "0.05 mm"), ("inch", "0.00197 in")):
        rows = {row.subject: row for row in value_rows(record, Component.CAN, units)}
        assert rows["can_wall"].meaningful == wanted
        assert (" in" in rows["can_wall"].cells[0].text) is (units != "metric")


def test_every_figure_row_has_an_input_that_was_read(record: Record) -> None:
    for component in Component:
        for row in figure_rows(record, component):
            figures = [record.figures[row.kind.key, s.id] for s in record.lineup.specimens]
            assert any(figure.readings for figure in figures)
            assert row.kind.component is component
            assert len(row.texts) == len(figures)


def test_sum_names_inputs_shares_and_readings(record: Record) -> None:
    specimen = record.lineup.specimens[0]
    figure = record.figures["exposed_area", specimen.id]
    shown = sum_of(record, "exposed_area", specimen.id)
    assert shown.title == f"{specimen.nickname} · {figure.kind.label}"
    assert shown.formula == figure.kind.formula
    assert len(shown.readings) == len(figure.readings)
    assert len(shown.shares) == len(budget(figure)) > 1
    assert all("of the variance" in share for share in shown.shares)
    assert {"Strip length, unfolded", "Strip width, full"} <= {one.label for one in shown.inputs}


def test_unknown_figure_is_a_key_error(record: Record) -> None:
    with pytest.raises(KeyError):
        sum_of(record, "no_such_figure", record.lineup.specimens[0].id)


def test_readings_are_all_listed_in_the_order_of_the_work(record: Record) -> None:
    rows = reading_rows(record)
    assert {r.reading.id for r in rows} == {r.id for r in record.readings}
    keys = [a.key for a in record.sequence.attributes]
    places = [keys.index(row.reading.attribute) for row in rows]
    assert places == sorted(places)


def test_readings_of_one_component_only(record: Record) -> None:
    rows = reading_rows(record, Component.MEDIA)
    assert rows
    wanted = {record.sequence.attribute(r.reading.attribute).component for r in rows}
    assert wanted == {Component.MEDIA}


def test_corrected_reading_is_listed_as_no_longer_standing(bench, shelf, clock, record) -> None:
    old = bench.accept("287.4").reading
    new = correct(shelf, clock, SMALL, "l-1", old.id, "278.4 g", "digits swapped")
    bench.reload()
    last = bench.accept("312.4").reading
    bench.scratch_last()
    drawn = draw_up(shelf, "l-1", SMALL, replace(record.rules, entries=()))
    rows = {row.reading.id: row for row in reading_rows(drawn)}
    assert [rows[r.id].stands for r in (old, new, last)] == [False, True, False]
    assert "no longer stands" in rows[old.id].spoken
    assert rows[new.id].note == "digits swapped"
    withdrawal = next(row for row in rows.values() if row.reading.withdrawn)
    assert withdrawal.text == "scratched"
    assert rows[new.id].taken_with == "Bench scale"
