"""Scatter pooled over sets of repeats (JCGM 100 4.2.4), and when a set keeps its own."""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.coverage import coverage_factor, degrees_of_freedom
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.part import Spread, part_of
from benchlog.measure.pooled import PooledScatter, pool, scatters_more, without
from benchlog.measure.quantities import uncertainty_in
from benchlog.measure.reading import Reading

Read = Callable[..., Reading]
ROOT_12 = math.sqrt(12)

sets = st.lists(st.lists(st.floats(-100, 100), min_size=2, max_size=6), min_size=1, max_size=8)


def test_pool_weighs_variances_by_their_freedom() -> None:
    # by hand: s² = (2 · 1 + 1 · 8)/(2 + 1) = 10/3 from s² 1 of three and s² 8 of two
    pooled = pool([[1.0, 2.0, 3.0], [0.0, 4.0], [7.0]])
    assert pooled == PooledScatter(pytest.approx(math.sqrt(10 / 3)), 3, 2)
    assert pooled is not None
    assert pooled.words == "pooled over 2 sets of repeats, 3 degrees of freedom"


def test_single_readings_pool_to_nothing() -> None:
    assert pool([]) is None
    assert pool([[1.0], [2.0]]) is None


def test_equal_sets_pool_to_their_own_scatter() -> None:
    one = [-13.0, 13.0, 0.0, 0.0, 0.0]
    pooled = pool([one] * 6)
    assert pooled is not None
    assert pooled.s == pytest.approx(statistics.stdev(one))
    assert (pooled.freedom, pooled.sets) == (24, 6)


@given(sets, st.floats(-1000, 1000))
def test_pool_does_not_mind_where_sets_lie(several: list[list[float]], shift: float) -> None:
    moved = [[value + shift * n for value in one] for n, one in enumerate(several)]
    here, there = pool(several), pool(moved)
    assert here is not None
    assert there is not None
    assert there.s == pytest.approx(here.s, abs=1e-9)
    assert (there.freedom, there.sets) == (here.freedom, here.sets)


@given(sets, st.lists(st.floats(-100, 100), min_size=2, max_size=6))
def test_taking_a_set_out_undoes_putting_it_in(
    several: list[list[float]], one: list[float]
) -> None:
    with_it, before = pool([*several, one]), pool(several)
    assert with_it is not None
    assert before is not None
    left = without(with_it, one)
    assert left is not None
    assert left.s**2 * left.freedom == pytest.approx(before.s**2 * before.freedom, abs=1e-6)
    assert (left.freedom, left.sets) == (before.freedom, before.sets)


def test_only_set_leaves_nothing() -> None:
    pooled = pool([[1.0, 2.0, 4.0]])
    assert pooled is not None
    assert without(pooled, [1.0, 2.0, 4.0]) is None
    assert without(pooled, [1.0]) is pooled
    assert without(pooled, [1.0, 2.0]) is pooled


# F tables, one-sided 1 %: F(4, 24) = 4.22, F(1, 10) = 10.04, F(2, 20) = 5.85
F_TABLE = [(5, 24, 4.22), (2, 10, 10.04), (3, 20, 5.85)]


@pytest.mark.parametrize(("count", "freedom", "limit"), F_TABLE)
def test_scatter_is_larger_beyond_the_f_table(count: int, freedom: int, limit: float) -> None:
    others = PooledScatter(1.0, freedom, 6)
    shape = [0.0] * (count - 1) + [1.0]
    s = statistics.stdev(shape)
    for factor, larger in ((0.99, False), (1.01, True)):
        scaled = [value * math.sqrt(limit * factor) / s for value in shape]
        assert scatters_more(scaled, others) is larger


def test_scatter_of_nothing_is_not_larger() -> None:
    still = PooledScatter(0.0, 5, 3)
    assert not scatters_more([1.0], still)
    assert not scatters_more([1.0, 1.0], still)
    assert scatters_more([1.0, 1.1], still)


def taken(read: Read, *texts: str, instrument: str | None = "cal") -> list[Reading]:
    return [read(text, instrument=instrument) for text in texts]


@pytest.fixture
def pools() -> dict[tuple[str, str], PooledScatter]:
    return {("thing", "cal"): PooledScatter(0.03, 24, 12)}


def own_scatter(quantity: object) -> tuple[float, float]:
    parts = quantity.magnitude.error_components()  # type: ignore[attr-defined]
    (found,) = [(size, v.tag) for v, size in parts.items() if str(v.tag).endswith("/repeats")]
    return found[0], part_of(found[1]).freedom


def test_pool_gives_few_repeats_its_freedom(
    read: Read, calliper: Instrument, pools: dict[tuple[str, str], PooledScatter]
) -> None:
    readings = taken(read, "12.00", "12.04")
    finding = Observer([calliper], scatter=pools).observe("thing", "a", readings, "millimeter")
    size, freedom = own_scatter(finding.quantity)
    assert (size, freedom) == (pytest.approx(0.03 / math.sqrt(2)), 24)
    assert finding.scatter == "Scatter pooled over 12 sets of repeats, 24 degrees of freedom."


def test_pool_gives_a_single_reading_its_scatter(
    read: Read, calliper: Instrument, pools: dict[tuple[str, str], PooledScatter]
) -> None:
    readings = taken(read, "12.00")
    finding = Observer([calliper], scatter=pools).observe("thing", "a", readings, "millimeter")
    assert own_scatter(finding.quantity) == (pytest.approx(0.03), 24)


def test_gum_h1_pooled_scatter_of_five(read: Read) -> None:
    # JCGM 100 H.1.3.2: s 13 nm of 24 degrees of freedom gives the mean of five u = 5.8 nm
    fine = Instrument("cal", "comparator", InstrumentKind.OTHER, "millimeter", 1e-9, 0.0)
    pools = {("thing", "cal"): PooledScatter(13.0, 24, 1)}
    readings = taken(read, "215", "225", "205", "220", "210")
    finding = Observer([fine], scatter=pools).observe("thing", "a", readings, "millimeter")
    assert finding.quantity is not None
    assert round(uncertainty_in(finding.quantity, "millimeter"), 1) == 5.8
    assert own_scatter(finding.quantity)[1] == 24


def test_wild_repeats_keep_their_own(
    read: Read, calliper: Instrument, pools: dict[tuple[str, str], PooledScatter]
) -> None:
    readings = taken(read, "12.00", "12.30")
    values = [12.00, 12.30]
    finding = Observer([calliper], scatter=pools).observe("thing", "a", readings, "millimeter")
    size, freedom = own_scatter(finding.quantity)
    assert (size, freedom) == (pytest.approx(statistics.stdev(values) / math.sqrt(2)), 1)
    assert "F test at 1 %" in finding.scatter


@pytest.mark.parametrize("texts", [("~12.00",), ("12.0 +/- 0.1", "12.1")])
def test_estimates_and_intervals_take_no_pool(
    read: Read,
    calliper: Instrument,
    pools: dict[tuple[str, str], PooledScatter],
    texts: tuple[str, ...],
) -> None:
    readings = taken(read, *texts)
    finding = Observer([calliper], scatter=pools).observe("thing", "a", readings, "millimeter")
    assert finding.scatter == ""


def test_other_instruments_take_no_pool(
    read: Read, calliper: Instrument, pools: dict[tuple[str, str], PooledScatter]
) -> None:
    observer = Observer([calliper], scatter=pools)
    for readings in (
        taken(read, "12.00", instrument=None),
        taken(read, "12.00") + taken(read, "12.01", instrument=None),
    ):
        assert observer.observe("thing", "a", readings, "millimeter").scatter == ""
    assert observer.observe("other", "a", taken(read, "12.00"), "millimeter").scatter == ""


def test_two_findings_of_one_pool_count_its_freedom_once(
    read: Read, pools: dict[tuple[str, str], PooledScatter]
) -> None:
    # Both sizes rest on one s with ν = 24: (s²/2 + s²/2) is one estimate, not two independent ones
    fine = Instrument("cal", "calliper", InstrumentKind.CALLIPER, "millimeter", 1e-9, 0.0)
    observer = Observer([fine], scatter=pools)
    one = observer.observe("thing", "a", taken(read, "12.00", "12.01"), "millimeter").quantity
    other = observer.observe("thing", "b", taken(read, "13.00", "13.01"), "millimeter").quantity
    apart = one - other
    assert uncertainty_in(apart, "millimeter") == pytest.approx(0.03)
    assert degrees_of_freedom(apart.magnitude) == pytest.approx(24.0)
    assert coverage_factor(apart.magnitude) == pytest.approx(2.064, abs=5e-4)  # Table G.2


def test_parts_tell_their_shapes(read: Read, calliper: Instrument) -> None:
    finding = Observer([calliper]).observe(
        "thing", "a", taken(read, "12.00", "12.04", "12.05"), "millimeter"
    )
    assert finding.quantity is not None
    parts = {str(v.tag): part_of(v.tag) for v in finding.quantity.magnitude.derivatives}
    repeats = parts["thing/a/repeats"]
    assert (repeats.spread, repeats.freedom) == (Spread.REPEATS, 2)
    for name in ("thing/a/resolution", "instrument/cal"):
        assert (parts[name].spread, parts[name].freedom) == (Spread.RECTANGULAR, math.inf)
