"""The record as plain values for JSON."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from benchlog.errors import PlanRefused
from benchlog.measure.coverage import coverage_factor
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.units import registry
from benchlog.tasks.find_number import find_number, find_specimens
from benchlog.tasks.record import Record
from benchlog.tasks.tell import tell, told_figure, told_finding
from benchlog.tasks.tell_number import NO_NUMBER, told_freedom, told_number
from benchlog.tasks.tell_sum import tell_sum
from tests.tasks.sample_records import sample_record


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


@pytest.fixture(scope="module")
def amber(record: Record) -> str:
    return record.lineup.specimens[0].id


def test_whole_record_is_sound_json(record: Record) -> None:
    told = tell(record)
    assert json.loads(json.dumps(told, allow_nan=False)) == told
    assert len(told["figures"]) == len(record.figures)
    assert len(told["checks"]) == len(record.checks)
    assert len(told["corrections"]) == len(record.corrections)


def test_finding_tells_expanded_uncertainty_and_method(record: Record, amber: str) -> None:
    finding = record.findings["can_wall", amber]
    told = told_finding(finding)
    factor = coverage_factor(finding.quantity.magnitude)
    assert told["coverage_factor"] == factor > 1.96
    assert told["expanded_uncertainty"] == pytest.approx(factor * told["standard_uncertainty"])
    assert told["degrees_of_freedom"] > 3
    assert told["taken_with"] == ["micrometer"]


def test_figure_tells_the_terms_of_its_sum(record: Record, amber: str) -> None:
    told = told_figure(record.figures["basis_weight", amber])
    terms = {term["key"]: term for term in told["terms"]}
    assert set(terms) == {"media_mass", "media_length", "media_width"}
    for term in terms.values():
        size = abs(term["sensitivity"]) * term["standard_uncertainty"]
        assert term["contribution"] == pytest.approx(size)
    assert (told["word"], told["low"], told["warnings"]) == (None, None, [])


def test_word_and_interval_are_told_without_plus_minus(record: Record, amber: str) -> None:
    figure = record.figures["exposed_area", amber]
    word = told_figure(replace(figure, quantity=None, word="two candidates", terms=()))
    assert (word["word"], word["value"], word["terms"]) == ("two candidates", None, [])
    told = told_figure(replace(figure, low=700.0, high=800.0, assumed=("Taken so.",)))
    assert (told["low"], told["high"], told["assumptions"]) == (700.0, 800.0, ["Taken so."])
    assert told["expanded_uncertainty"] is None
    assert told["coverage_factor"] is None
    assert told["standard_uncertainty"] > 0


def test_interval_is_told_in_both_units(record: Record, amber: str) -> None:
    bounded = replace(record.figures["exposed_area", amber], low=645.16, high=1290.32)
    changed = replace(record, figures={**record.figures, ("exposed_area", amber): bounded})
    told = tell_sum(changed, "exposed_area", amber)
    # NIST SP 811 B.8: 1 in² is 6.4516 cm² exactly.
    assert told["inch"]["low"] == pytest.approx(100.0)
    assert told["inch"]["high"] == pytest.approx(200.0)
    assert told["budget"]["expanded_uncertainty"] is None
    assert told["budget"]["coverage_factor"] is None


def test_no_number_is_told_as_nothing() -> None:
    assert told_number(None) == NO_NUMBER
    assert told_freedom(float("inf")) is None
    exact = told_number(registry().Quantity(52.0, "count"))
    assert (exact["value"], exact["expanded_uncertainty"]) == (52.0, 0.0)
    assert exact["coverage_factor"] is None


def test_number_is_told_in_the_unit_named() -> None:
    length = registry().Quantity(25.4 + variable(0.254, Part("x", Spread.NORMAL)), "millimeter")
    told = told_number(length, "inch")
    # NIST SP 811 B.8: 1 in is 25.4 mm exactly.
    assert told["value"] == pytest.approx(1.0)
    assert told["standard_uncertainty"] == pytest.approx(0.01)
    assert (told["unit"], told["symbol"]) == ("inch", "in")


def test_every_sum_is_sound_json(record: Record) -> None:
    for key, who in (*record.figures, *record.findings):
        told = tell_sum(record, key, who)
        json.dumps(told, allow_nan=False)
        assert told["specimen_id"] == who
        sources = told["budget"]["sources"] if told["budget"] else []
        assert not sources or sum(s["share"] for s in sources) == pytest.approx(1.0), key


@pytest.mark.parametrize(
    "said", ["exposed_area", "Exposed media area", " exposed  AREA ", "exposed-area"]
)
def test_figure_is_found_by_key_or_name(record: Record, said: str) -> None:
    assert find_number(record, said) == "exposed_area"


def test_attribute_is_found_by_its_name(record: Record) -> None:
    assert find_number(record, "can wall thickness") == "can_wall"


@pytest.mark.parametrize(
    ("said", "near"), [("basis_wieght", "basis_weight"), ("Can wal thickness", "can_wall")]
)
def test_slip_names_the_nearest(record: Record, said: str, near: str) -> None:
    with pytest.raises(PlanRefused) as refused:
        find_number(record, said)
    assert said in refused.value.what
    assert near in refused.value.do


def test_specimens_are_found_by_nickname_or_place(record: Record) -> None:
    every = record.lineup.specimens
    assert find_specimens(record, None) == every
    assert find_specimens(record, "cobalt") == find_specimens(record, "2") == (every[1],)
    for nobody in ("0", "4", "-1", "", "²"):
        with pytest.raises(PlanRefused, match="1 Amber, 2 Cobalt, 3 Moss"):
            find_specimens(record, nobody)
