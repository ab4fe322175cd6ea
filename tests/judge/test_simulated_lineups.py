"""Over many simulated line-ups, the level and the power are what is said of them.

Print more of it: `python -m tests.judge.simulated_table`.
"""

import pytest
from scipy import stats

from benchlog.judge.chance import FAMILY_LEVEL, power
from tests.judge.simulated import Way, share_found, share_with_a_lead, uncertainty_of_a_gap

LINEUPS = 500
KNOWN = Way(repeats=0)
MIXED = Way(repeats=5, limit=0.005, shared=0.02)


def most(level, lineups=LINEUPS):
    """The most that chance leaves of a level, once in a thousand runs."""
    return stats.binom.isf(1e-3, lineups, level) / lineups


@pytest.mark.parametrize(
    ("way", "count"), [(KNOWN, 2), (KNOWN, 3), (MIXED, 3), (Way(3, 0.01, subjects=2), 3)]
)
def test_equal_filters_have_no_winner(way, count):
    assert share_with_a_lead(way, count, LINEUPS, seed=31) <= most(FAMILY_LEVEL)


def test_known_scatter_uses_the_level_up():
    """One pair of known uncertainty errs as often as it is allowed to, not far less."""
    found = share_with_a_lead(KNOWN, 2, LINEUPS, seed=32)
    assert found >= stats.binom.ppf(1e-3, LINEUPS, FAMILY_LEVEL) / LINEUPS


@pytest.mark.parametrize("count", [2, 3])
def test_gap_of_three_uncertainties_is_found(count):
    gap = 3 * uncertainty_of_a_gap(KNOWN)
    found = share_found(KNOWN, count, gap, LINEUPS, seed=33)
    stated = power(3, count)
    assert found == pytest.approx(stated, abs=4 * (stated * (1 - stated) / LINEUPS) ** 0.5)


# Φ(3 - 1.960) and Φ(3 - 2.394) from normal tables.
@pytest.mark.parametrize(("specimens", "found"), [(2, 0.851), (3, 0.728), (6, 0.526)])
def test_power_is_that_of_normal_tables(specimens, found):
    assert power(3, specimens) == pytest.approx(found, abs=1e-3)


def test_no_gap_is_found_at_the_level():
    assert power(0, 2) == pytest.approx(FAMILY_LEVEL)
    assert power(0, 3) == pytest.approx(FAMILY_LEVEL / 3)
    assert power(-3, 2) == pytest.approx(power(3, 2))


@pytest.mark.parametrize("specimens", [2, 3, 6])
@pytest.mark.parametrize("freedom", [2, 4, 8, 20])
def test_power_of_repeats_is_the_noncentral_ts(specimens, freedom):
    level = FAMILY_LEVEL / (specimens * (specimens - 1) / 2)
    factor = stats.t.isf(level / 2, freedom)
    theirs = stats.nct.sf(factor, freedom, 3) + stats.nct.cdf(-factor, freedom, 3)
    assert power(3, specimens, freedom) == pytest.approx(theirs, abs=1e-9)
    assert power(3, specimens, freedom) < power(3, specimens)


def test_gap_is_found_as_often_as_repeats_allow():
    """Welch tells two scatters apart, which costs a little of the power of a common one."""
    way = Way(repeats=5)
    found = share_found(way, 2, 3 * uncertainty_of_a_gap(way), LINEUPS, seed=34)
    assert power(3, 2, 4) < found < power(3, 2, 8) + 4 * 0.5 / LINEUPS**0.5
