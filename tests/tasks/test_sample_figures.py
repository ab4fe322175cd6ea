"""What the sample line-up has to show: figures of every part, gaps where there are gaps, awards."""

from __future__ import annotations

import pytest

from benchlog.judge.verdict import AwardKind
from benchlog.tasks.sample import load_sample
from benchlog.trade.sequence_file import load_sequence
from tests.tasks.sample_records import sample_record


def by_name() -> dict[str, str]:
    return {specimen.nickname: specimen.id for specimen in sample_record().lineup.specimens}


SHOWN = {
    "can_wall_from_diameters": {"Amber", "Cobalt"},
    "spring_rate": {"Amber", "Cobalt"},
    "spring_rate_from_wire": {"Amber"},
    "hold_down_load": {"Amber", "Cobalt", "Moss"},
    "tube_area_from_holes": {"Amber", "Moss"},
    "solidity": {"Amber", "Cobalt", "Moss"},
    "tips_to_flat": {"Amber", "Cobalt", "Moss"},
    "permeability": {"Amber", "Cobalt"},
    "permeability_estimated": {"Amber", "Cobalt"},
    "pressure_drop": {"Amber", "Cobalt"},
    "bubble_pressure": {"Amber", "Cobalt", "Moss"},
    "bubble_diameter": {"Amber", "Cobalt", "Moss"},
    "claimed_ratio": {"Cobalt"},
    "price_per_year": {"Amber"},
}


@pytest.mark.parametrize("key", SHOWN)
def test_figure_is_shown_for_those_that_have_it(key: str) -> None:
    have = {
        name
        for name, of in by_name().items()
        if sample_record().figures[key, of].quantity is not None
    }
    assert have == SHOWN[key]
    for name in by_name().keys() - have:
        assert sample_record().figures[key, by_name()[name]].refusal


def test_every_thread_is_named() -> None:
    words = {sample_record().figures["thread_candidates", of].word for of in by_name().values()}
    assert words == {"3/4-16 UNF"}


def test_two_ways_to_one_number_agree() -> None:
    """The wire's rate holds the measured one; the tube's holes give the area that was read."""
    amber = by_name()["Amber"]
    rate, by_wire = (
        sample_record().figures[k, amber] for k in ("spring_rate", "spring_rate_from_wire")
    )
    assert rate.quantity is not None
    assert by_wire.low is not None
    assert by_wire.high is not None
    assert by_wire.low < rate.quantity.magnitude.nominal_value < by_wire.high
    for key in ("tube_area_from_holes", "can_wall_from_diameters", "spring_rate_from_wire"):
        assert sample_record().figures[key, amber].warnings == ()


def test_most_figures_are_worked_out() -> None:
    told = [f for f in sample_record().figures.values() if f.quantity is not None or f.word]
    assert 0.6 < len(told) / len(sample_record().figures) < 0.9


def test_awards_stay_varied() -> None:
    kinds = {award.kind for award in sample_record().verdict.awards}
    assert kinds >= {
        AwardKind.WINNER,
        AwardKind.JOINT_WINNERS,
        AwardKind.TIE,
        AwardKind.CANNOT_SEPARATE,
        AwardKind.DIFFERENT,
        AwardKind.NOT_JUDGED,
    }


def test_every_answer_is_asked() -> None:
    sample = load_sample()
    asked = {a.key for a in load_sequence(sample.lineup.sequence).attributes if a.usual}
    asked |= set(sample.lineup.also)
    assert {key for key in sample.answers if not key.startswith("remark")} <= asked
    assert set(sample.lineup.also) <= sample.answers.keys()
