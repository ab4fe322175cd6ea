"""How sure fields make the mean of a medium: own spread, the stated one, and both together."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.field_scatter import STATED_FREEDOM, field_spreads
from benchlog.measure.micrograph import PictureFigure
from benchlog.measure.picture_doubt import doubt_of, typical_share

EVEN = {"a": [38.0, 40.0, 42.0], "b": [47.5, 50.0, 52.5]}
"""Both spread by exactly 5 % of their mean."""


def test_fields_and_statement_are_joined() -> None:
    # JCGM 100 G.4.2 gives a statement that is good to a quarter 8 degrees of freedom; two sets
    # of three have 4: s² = (4 · 0.05² + 8 · 0.06²) / 12.
    share = math.sqrt((4 * 0.05**2 + 8 * 0.06**2) / 12)
    got = field_spreads(EVEN, 0.06)
    assert got["a"].size == pytest.approx(share * 40.0 / math.sqrt(3))
    assert got["b"].size == pytest.approx(share * 50.0 / math.sqrt(3))
    assert {s.freedom for s in got.values()} == {12}
    assert all(s.common for s in got.values())
    assert "spread by 5.7 % of their mean: by the fields of 2 media" in got["a"].words


def test_fields_that_spread_more_count_alone() -> None:
    got = field_spreads(EVEN, 0.04)
    assert got["a"].size == pytest.approx(0.05 * 40.0 / math.sqrt(3))
    assert got["a"].freedom == 4
    assert "more than the 4 % that the pictures state" in got["a"].words


def test_a_statement_is_believed_up_to_a_tenth_more() -> None:
    assert field_spreads(EVEN, 0.0456)["a"].freedom == 4 + STATED_FREEDOM
    assert field_spreads(EVEN, 0.0453)["a"].freedom == 4


def test_two_fields_share_what_all_show() -> None:
    got = field_spreads(EVEN | {"c": [60.0, 63.0]}, 0.06)
    # Five degrees of freedom of the fields bear the statement out: 8 more.
    share = math.sqrt((4 * 0.05**2 + 4.5 / 61.5**2 + 8 * 0.06**2) / 13)
    assert got["c"].size == pytest.approx(share * 61.5 / math.sqrt(2))
    assert {s.freedom for s in got.values()} == {13}


def test_a_statement_hardly_borne_out_counts_little() -> None:
    # Good to a half: ν = ½ · 0.5⁻² = 2 (JCGM 100 G.4.2).
    got = field_spreads({"a": EVEN["a"]}, 0.06)["a"]
    assert got.freedom == 2 + 2
    assert got.size == pytest.approx(math.sqrt((2 * 0.05**2 + 2 * 0.06**2) / 4) * 40 / math.sqrt(3))


def test_two_fields_that_lie_together_prove_little() -> None:
    got = field_spreads({"a": [58.0, 58.1]}, 0.12)["a"]
    assert got.size > 0.09 * 58.0 / math.sqrt(2)


def test_nothing_stated_leaves_the_fields_alone() -> None:
    got = field_spreads(EVEN, None)
    assert {s.freedom for s in got.values()} == {2}
    assert not any(s.words for s in got.values())


def test_one_field_is_as_unsure_as_is_stated() -> None:
    alone = field_spreads({"a": [50.0]}, 0.06)["a"]
    assert (alone.size, alone.freedom) == (pytest.approx(3.0), 2)
    assert "One field each" in alone.words
    wider = field_spreads({"a": [100.0], "b": [40.0, 44.0, 36.0], "c": [20.0, 22.0, 18.0]}, 0.05)
    assert wider["a"].size == pytest.approx(10.0)  # the others spread by 10 %
    assert field_spreads({"a": [50.0]}, None)["a"].size == 0.0


def test_a_medium_without_fields_is_left_out() -> None:
    assert set(field_spreads(EVEN | {"c": []}, 0.06)) == {"a", "b"}


VALUES = st.lists(st.floats(1.0, 100.0), min_size=3, max_size=6)


@given(VALUES, VALUES, st.floats(0.01, 0.3), st.floats(0.1, 10.0))
def test_another_unit_changes_nothing(
    a: list[float], b: list[float], stated: float, factor: float
) -> None:
    one = field_spreads({"a": a, "b": b}, stated)
    other = field_spreads({"a": [factor * v for v in a], "b": [factor * v for v in b]}, stated)
    if one["a"].freedom == other["a"].freedom:  # on the very limit the last digit decides
        assert other["a"].size == pytest.approx(factor * one["a"].size, rel=1e-9, abs=1e-12)
    assert {one["a"].freedom, other["a"].freedom} <= {
        len(a) + len(b) - 2.0,
        len(a) + len(b) - 2.0 + STATED_FREEDOM,
    }


def test_the_typical_share_is_the_median() -> None:
    assert typical_share([(40.0, 2.4), (50.0, 2.5), (10.0, 5.0)]) == pytest.approx(0.06)
    assert typical_share([(0.0, 1.0), (5.0, 0.0)]) is None


def test_light_is_parted_into_common_and_own() -> None:
    figure = PictureFigure("open area", 0.6, "1", 0.02, 0.01, 0.002)
    above, below = (doubt_of("m-1", light, figure, factor=100.0) for light in ("above", "below"))
    assert (above.sampling, above.scale) == (pytest.approx(2.0), pytest.approx(0.2))
    for doubt in (above, below):
        assert math.hypot(doubt.light, doubt.own_light) / math.sqrt(3) == pytest.approx(1.0)
    assert 0.0 < above.own_light < below.own_light < below.light
    assert doubt_of("m-1", "", figure, factor=100.0) == below
