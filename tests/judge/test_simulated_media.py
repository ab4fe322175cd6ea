"""Media looked at by chance fields: seldom called different when alike, mostly a fifth apart."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.judge.differences import difference
from benchlog.judge.evidence import Evidence
from benchlog.measure.finding import Finding
from benchlog.microscope.comparing import opening_difference
from tests.judge.bench_of import first
from tests.judge.simulated_media import (
    D50,
    RULE,
    Looked,
    called_different,
    findings_of_fields,
    judged,
)
from tests.small_media import SPIN_ON

TRIALS = 250
SURE = 2 * (0.05 * 0.95 / TRIALS) ** 0.5
"""Two standard errors of a share of 5 % in so many trials."""


@pytest.mark.parametrize("way", [Looked(), Looked(spread=0.12), Looked(fields=2)])
def test_one_medium_is_seldom_called_two(way: Looked) -> None:
    assert called_different((40.0, 40.0), way, TRIALS) < 0.05 + SURE


def test_a_fifth_apart_is_mostly_told() -> None:
    # 80 % in 3,000 trials; 0.75 is two standard errors of a share of 250 below that.
    assert called_different((48.0, 40.0), Looked(), TRIALS) > 0.75
    assert called_different((48.0, 40.0), Looked(fields=4), TRIALS) > 0.86


FIELDS = st.lists(st.floats(20.0, 80.0), min_size=3, max_size=5)


@settings(max_examples=25)
@given(FIELDS, FIELDS)
def test_verdict_and_comparison_by_fields_agree(a: list[float], b: list[float]) -> None:
    a, b = [round(v, 2) for v in a], [round(v, 2) for v in b]
    alone = opening_difference(a, b, sampling=0.06)
    gap = judged({"a": a, "b": b})
    assert gap.gap == pytest.approx(alone.difference)
    half = (alone.high - alone.low) / 2
    # The verdict also has what light shifts in each medium, and rounds degrees of freedom down.
    assert half <= gap.expanded * (1 + 1e-6)
    light = 1.96 * (0.2 * 0.05 / 3**0.5) * (sum(a) / len(a) + sum(b) / len(b))
    assert gap.expanded <= half * 1.6 + light
    if gap.differs:
        assert alone.answer == ("tighter" if alone.difference < 0 else "more open")


def stands(findings: dict[tuple[str, str], Finding]) -> str:
    bench = Evidence(findings, {}, SPIN_ON, first(2))
    return difference(RULE, "a", "b", bench).refused


def test_unlike_set_ups_are_not_compared() -> None:
    findings = findings_of_fields({"a": [40.0, 41.0, 42.0], "b": [50.0, 51.0, 52.0]})
    assert stands(findings) == ""
    other = replace(findings[D50, "b"], set_ups=(("m-2", "Four times"),))
    said = stands(findings | {(D50, "b"): other})
    assert said == "the microscope's set-up differs: Alpha “Ten times”, Bravo “Four times”"
    anew = replace(other, set_ups=(("m-2", "Ten times"),))
    assert "calibrated anew between Alpha and Bravo" in stands(findings | {(D50, "b"): anew})
    by_hand = replace(other, set_ups=())
    assert "is not known for Bravo (not recorded)" in stands(findings | {(D50, "b"): by_hand})
    both = replace(other, set_ups=(("m-1", "Ten times"), ("m-2", "Four times")))
    assert "is not known for Bravo (more than one)" in stands(findings | {(D50, "b"): both})


def test_one_field_is_compared_with_nothing() -> None:
    findings = findings_of_fields({"a": [40.0, 41.0, 42.0], "b": [80.0]})
    assert stands(findings) == (
        "only one field of Bravo was measured, and fields of one medium differ"
    )
