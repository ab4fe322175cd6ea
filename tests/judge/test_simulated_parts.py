"""Over simulated line-ups of parts, specimens that differ by chance make no winner."""

import math

import pytest
from scipy import stats

from benchlog.judge.chance import FAMILY_LEVEL, coverage_factor
from tests.judge.simulated_parts import Made, share_found, share_with_a_lead

LINEUPS = 600
SCATTERED = Made(apart=0.05, repeated=0.005, limit=0.005)
ALIKE = Made(apart=0.0, repeated=0.01, limit=0.01)


def most(level):
    """The most that chance leaves of a level, once in a thousand runs."""
    return stats.binom.isf(1e-3, LINEUPS, level) / LINEUPS


@pytest.mark.parametrize("made", [SCATTERED, ALIKE], ids=["scattered", "alike"])
@pytest.mark.parametrize(("parts", "each"), [(2, 3), (3, 2)])
def test_equal_parts_have_no_winner(made, parts, each):
    assert share_with_a_lead(made, parts, each, LINEUPS, seed=41) <= most(FAMILY_LEVEL)


def test_scatter_between_specimens_uses_the_level_up():
    """Two parts of three err nearly as often as allowed: Welch with its freedom rounded down."""
    found = share_with_a_lead(SCATTERED, 2, 3, LINEUPS, seed=42)
    assert found >= 0.01


def test_specimens_taken_singly_would_win_by_chance():
    """Without the scatter between specimens the same line-ups are full of false winners."""
    assert share_with_a_lead(SCATTERED, 2, 3, 60, seed=43, told=False) > 0.9


def test_real_gap_between_parts_is_found():
    """At the power that the noncentral t gives for two of three with three to four freedoms."""
    gap = 6 * SCATTERED.apart * math.sqrt(2 / 3)
    found = share_found(SCATTERED, 3, gap, LINEUPS, seed=44)
    low, high = (stats.nct.sf(coverage_factor(2, freedom), freedom, 6.0) for freedom in (2, 4))
    assert low - 0.05 < found < high + 0.05
