"""The sum behind any number, as texts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.derive.figure import Figure, Term
from benchlog.derive.sum_shown import budget_of, budget_of_finding, budget_of_number
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.tasks.budget_view import (
    amount,
    budget_rows,
    coverage_words,
    freedom_text,
    instrument_words,
    source_words,
)
from benchlog.tasks.check_sum import check_sum
from benchlog.tasks.figure_view import figure_rows, sum_of
from benchlog.tasks.record import Record
from benchlog.tasks.sum_text import sum_text
from benchlog.tasks.value_text import figure_text, shown_units, value_text
from benchlog.trade.component import Component
from tests.tasks.sample_records import sample_record


class Steps:
    """Hears how far it has come."""

    def __init__(self) -> None:
        self.heard: list[tuple[int, int]] = []

    def step(self, done: int, total: int, _what: str) -> None:
        self.heard.append((done, total))


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


@pytest.fixture(scope="module")
def amber(record: Record) -> str:
    return record.lineup.specimens[0].id


def with_figure(record: Record, key: str, who: str, **changes: object) -> Record:
    changed: Figure = replace(record.figures[key, who], **changes)
    return replace(record, figures={**record.figures, (key, who): changed})


def test_every_number_of_the_record_shows_its_sum(record: Record) -> None:
    assert record.figures
    for key, who in (*record.figures, *record.findings):
        for units in ("metric", "inch", "both"):
            shown = sum_of(record, key, who, units)
            assert shown.result, key
            assert shown.formula, key
            shares = [row.share for row in shown.rows if not row.inset]
            assert sum(shares) == pytest.approx(1.0) or not any(shares), key
            assert "money" not in "".join(row.contribution for row in shown.rows)


def test_inset_lines_make_up_the_line_above(record: Record) -> None:
    for (key, who), figure in record.figures.items():
        if figure.quantity is None:
            continue
        above, inset = None, 0.0
        for row in (*sum_of(record, key, who).rows, None):
            if row is not None and row.inset:
                inset += row.share
                continue
            assert above is None or not inset or inset == pytest.approx(above.share), key
            above, inset = row, 0.0


def test_input_tells_each_reading_with_its_instrument(record: Record, amber: str) -> None:
    shown = sum_of(record, "exposed_area", amber)
    width = next(one for one in shown.inputs if one.key == "media_width")
    finding = record.findings["media_width", amber]
    assert len(width.readings) == len(width.taken_with) == len(finding.readings)
    ((tool, taken),) = width.by_instrument
    assert tool.startswith("Steel rule, 300 mm, reads to 0.5 mm, permissible error ± 0.2 mm")
    assert taken == width.readings
    assert width.text == value_text(record, "media_width", amber)


def test_assumption_is_an_input_with_its_sentence(record: Record, amber: str) -> None:
    shown = sum_of(record, "thread_engagement", amber)
    ends = next(one for one in shown.inputs if one.key == "ends_of_thread")
    assert ends.readings == ()
    assert ends.note in shown.assumed


def test_price_among_the_inputs_speaks_its_currency(record: Record, amber: str) -> None:
    shown = sum_of(record, "area_per_price", amber)
    price = next(one for one in shown.inputs if one.key == "price")
    assert price.text.endswith(" EUR")
    assert "cm²/EUR" in shown.coverage


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_contribution_is_slope_times_uncertainty(record: Record, amber: str, units: str) -> None:
    # JCGM 100, 5.1.3: |c|·u, whatever the units both are told in.
    for row in sum_of(record, "basis_weight", amber, units).rows:
        if row.sensitivity and row.u != "0":
            slope, u, size = (
                abs(float(text.split()[0].replace("−", "-")))
                for text in (row.sensitivity, row.u, row.contribution)
            )
            assert slope * u == pytest.approx(size, rel=0.06)


def test_same_budget_in_inches_keeps_its_shares(record: Record, amber: str) -> None:
    metric, inch = (sum_of(record, "exposed_area", amber, u).rows for u in ("metric", "inch"))
    assert [row.share for row in metric] == pytest.approx([row.share for row in inch])
    assert metric[0].contribution.endswith("cm²")
    assert inch[0].contribution.endswith("in²")
    assert inch[0].value.endswith(" in")


def test_both_units_stand_side_by_side(record: Record, amber: str) -> None:
    metric, inch = value_text(record, "exposed_area", amber, "both").split(" · ")
    assert metric == value_text(record, "exposed_area", amber)
    assert inch == value_text(record, "exposed_area", amber, "inch")
    assert " · " not in value_text(record, "pleat_count", amber, "both")
    assert " · " not in value_text(record, "media_kind", amber, "both")


def test_units_shown_are_one_or_two() -> None:
    assert shown_units("millimeter", "inch", "both") == ("millimeter", "inch")
    assert shown_units("millimeter", "inch", "inch") == ("inch",)
    assert shown_units("count", "count", "both") == ("count",)
    assert shown_units("gram", "", "inch") == ("gram",)


def test_word_figure_prints_its_word(record: Record, amber: str) -> None:
    changed = with_figure(record, "basis_weight", amber, quantity=None, word="two candidates")
    assert value_text(changed, "basis_weight", amber, "both") == "two candidates"
    shown = sum_of(changed, "basis_weight", amber)
    assert (shown.result, shown.rows, shown.coverage) == ("two candidates", (), "")
    assert shown.inputs


def test_bounded_figure_prints_its_interval(record: Record, amber: str) -> None:
    changed = with_figure(record, "exposed_area", amber, low=645.16, high=1290.32, estimate=True)
    # NIST SP 811 B.8: 1 in² is 6.4516 cm² exactly.
    assert value_text(changed, "exposed_area", amber) == "640 to 1300 cm²"
    assert figure_text(changed.figures["exposed_area", amber], "inch**2") == "100 to 200 in²"
    coverage = sum_of(changed, "exposed_area", amber).coverage
    assert "no ± is printed" in coverage
    assert "U =" not in coverage


def test_refusal_tells_what_was_asked(record: Record) -> None:
    refused = [(key, who) for (key, who), f in record.figures.items() if f.refusal and f.readings]
    assert refused
    for key, who in refused:
        shown = sum_of(record, key, who)
        assert shown.rows == ()
        asked = [k for k in record.figures[key, who].kind.inputs if (k, who) in record.findings]
        assert [one.key for one in shown.inputs] == asked


def test_warnings_and_sentence_beside_are_told(record: Record, amber: str) -> None:
    kind = replace(record.figures["exposed_area", amber].kind, beside="Not a capacity.")
    changed = with_figure(record, "exposed_area", amber, warnings=("Measure again.",), kind=kind)
    shown = sum_of(changed, "exposed_area", amber)
    assert (shown.warnings, shown.beside) == (("Measure again.",), "Not a capacity.")
    text = sum_text(shown)
    assert "Warnings\nMeasure again." in text
    assert "\n\nNot a capacity.\n\n" in text
    row = next(r for r in figure_rows(changed, Component.MEDIA) if r.kind.key == "exposed_area")
    assert row.warnings[0] == ("Measure again.",)


def test_finding_says_how_it_was_read(record: Record, amber: str) -> None:
    assert "the mean of 4 readings" in sum_of(record, "can_wall", amber).formula
    assert sum_of(record, "pleat_count", amber).formula == "n, the same in 2 counts"
    assert sum_of(record, "media_mass", amber).formula == "x, as read once"
    assert sum_of(record, "media_kind", amber).formula == "as answered last"
    open_slot = Finding("can_wall", amber, State.NOT_MEASURED)
    findings = {**record.findings, ("can_wall", amber): open_slot}
    shown = sum_of(replace(record, findings=findings), "can_wall", amber)
    assert (shown.formula, shown.result, shown.inputs) == ("nothing was read", "no answer yet", ())


def test_counts_that_disagree_say_so(record: Record, amber: str) -> None:
    count = 54 + variable(0.6, Part(f"pleat_count/{amber}/counts", Spread.RECTANGULAR))
    old = record.findings["pleat_count", amber]
    found = replace(old, quantity=registry().Quantity(count, "count"), low=53.0, high=55.0)
    findings = {**record.findings, ("pleat_count", amber): found}
    shown = sum_of(replace(record, findings=findings), "pleat_count", amber)
    assert shown.formula == "n, from 2 counts that do not agree"
    assert [row.label for row in shown.rows] == ["counts that disagree"]


def test_mixed_foot_pressures_are_warned_of(record: Record, amber: str) -> None:
    found = replace(record.findings["media_thickness", amber], mixed_pressure=True)
    findings = {**record.findings, ("media_thickness", amber): found}
    shown = sum_of(replace(record, findings=findings), "media_thickness", amber)
    assert "different foot pressures" in shown.warnings[0]


def test_every_source_has_words(record: Record) -> None:
    seen = set()
    for finding in record.findings.values():
        budget = budget_of_finding(finding)
        for source in budget.sources if budget else ():
            words = source_words(record, source)
            assert "/" not in words, source.name
            seen.add(words.split(" of ")[0])
    assert {"scatter", "permissible error", "the last digit read", "the interval said"} <= seen


def test_cancelled_source_keeps_its_line(record: Record, amber: str) -> None:
    zero = variable(0.02, Part("instrument/nobody", Spread.RECTANGULAR))
    own = variable(0.01, Part("assumed/x", Spread.NORMAL))
    terms = [
        Term("media_width", 50 + zero + own, "millimeter", 1.0),
        Term("media_hidden", 4 + zero, "millimeter", -1.0),
    ]
    whole = budget_of_number(terms[0].number - terms[1].number, "millimeter", terms)
    rows = budget_rows(record, whole, "millimeter")
    assert rows[-1].share_text == "0.0 %"
    assert "an instrument, shared: cancels; apart it would be 0.028 mm" in rows[-1].note
    assert rows[0].note == "assumed interval"
    assert sum(row.share for row in rows if not row.inset) == pytest.approx(1.0)


def test_coverage_tells_factor_and_freedom(record: Record) -> None:
    # JCGM 100 Table G.2: t for 95 % is 12.71 at 1 degree of freedom.
    few = 10 + variable(1.0, Part("x/y/repeats", Spread.REPEATS, 1))
    words = coverage_words(budget_of_number(few, "millimeter", ()), "millimeter")
    assert "effective degrees of freedom 1, coverage factor k = 12.71, U = 13 mm" in words
    exact = budget_of_number(52.0, "count", ())
    assert coverage_words(exact, "count") == "Exact: nothing in it is uncertain."


def test_small_texts_of_a_budget() -> None:
    assert [freedom_text(v) for v in (4.0, 25.64, 810.4, float("inf"))] == ["4", "25.6", "810", "∞"]
    assert amount(0.028868, "gram") == "0.029 g"
    assert amount(2.0, "gram") == "2.0 g"
    assert amount(0.0, "gram") == "0 g"


def test_instrument_is_told_with_what_it_is_good_for() -> None:
    plain = Instrument("i", "Gauge", InstrumentKind.THICKNESS_GAUGE, "millimeter", 0.01, 0.02, 20.0)
    words = "Gauge, reads to 0.01 mm, permissible error ± 0.02 mm, foot pressure 20 kPa"
    assert instrument_words(plain) == words
    scale = Instrument(
        "s", "Scale", InstrumentKind.SCALE, "gram", 0.01, 0.0,
        accuracy_class="II", verification_interval=0.1,
    )  # fmt: skip
    assert instrument_words(scale) == "Scale, reads to 0.01 g, class II, e = 0.1 g"


def test_draws_tell_each_block_and_agree_with_the_sum(record: Record, amber: str) -> None:
    steps = Steps()
    found = check_sum(record, "basis_weight", amber, steps, trials=100_000)
    value = budget_of(record.figures["basis_weight", amber])
    assert found.mean == pytest.approx(value.value, abs=value.u / 20)
    assert found.u == pytest.approx(value.u, rel=0.1)
    assert steps.heard[-1] == (100_000, 100_000)
    assert len(steps.heard) > 1


def test_draws_of_a_price_speak_the_currency(record: Record, amber: str) -> None:
    assert "EUR" in check_sum(record, "area_per_price", amber, Steps(), trials=50_000).words


def test_reading_word_and_refusal_have_nothing_to_draw(record: Record, amber: str) -> None:
    assert check_sum(record, "can_wall", amber, Steps()) is None
    changed = with_figure(record, "basis_weight", amber, quantity=None, refusal="No weight.")
    assert check_sum(changed, "basis_weight", amber, Steps()) is None


def test_every_figure_is_listed_when_asked(record: Record) -> None:
    for component in Component:
        few = figure_rows(record, component)
        every = figure_rows(record, component, every=True)
        assert {row.kind.key for row in few} <= {row.kind.key for row in every}
    kinds = {key for key, _ in record.figures}
    listed = [r.kind.key for c in Component for r in figure_rows(record, c, every=True)]
    assert sorted(listed) == sorted(kinds)


def note_of(record: Record, key: str, specimen_id: str) -> str:
    return sum_of(record, key, specimen_id).inputs[0].note


def test_sum_says_what_the_width_leaves_out(record: Record, amber: str) -> None:
    once, unnamed = "Read once:", "No instrument is named:"
    assert note_of(record, "can_height", amber).startswith(once)
    assert unnamed not in note_of(record, "can_height", amber)
    assert once in note_of(record, "tube_open_area", amber)
    assert unnamed in note_of(record, "tube_open_area", amber)
    assert note_of(record, "media_air_pressure", amber).startswith(unnamed)
    assert note_of(record, "media_length", amber).startswith("Scatter pooled")
    for exact_or_said in ("pleat_count", "claim_months", "thread_code"):
        assert note_of(record, exact_or_said, amber) == ""
