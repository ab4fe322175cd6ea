"""Draws are kept until something behind them changes, and never longer."""

from dataclasses import replace

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.criterion_draws import CriterionDraws
from benchlog.judge.evidence import Evidence
from benchlog.judge.ranked import Criterion
from benchlog.judge.worth_draws import draw_worths
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.units import registry
from benchlog.trade.component import Component
from tests.derive.found import number, word
from tests.judge.bench_of import SPIN_ON, first, keyed, piecewise, ranked

TRIALS = 500
IDS = ("a", "b", "c")
WALL = piecewise("can_wall", (0.2, 0), (0.4, 10))
DOME = piecewise("can_dome_wall", (0.2, 0), (0.3, 9), (0.4, 10), weight=3.0)
DENTS = ranked("dents", none=10, light=5, deep=0)
MEDIA = piecewise("media_thickness", (0.3, 0), (1.2, 10))
CRITERIA = (
    Criterion(Component.CAN.value, 0.5, (WALL, DOME, DENTS)),
    Criterion(Component.MEDIA.value, 0.5, (MEDIA,)),
)


def findings():
    shared = variable(0.01, Part("instrument/calliper", Spread.RECTANGULAR))
    found = []
    for n, s in enumerate(IDS):
        wall = number("can_wall", 0.3, "mm", specimen=s)
        own = variable(0.01, Part(f"can_wall/{s}/repeats", Spread.REPEATS, 4))
        size = registry().Quantity(0.28 + 0.02 * n + own + shared, "mm")
        found += [
            replace(wall, quantity=size),
            number("can_dome_wall", 0.3 + 0.01 * n, "mm", 0.02, s),
            number("media_thickness", 0.8, "mm", 0.05, s),
            word("dents", "light", s),
        ]
    return found


FOUND = findings()


def bench(found=FOUND):
    return Evidence(keyed(found), {}, SPIN_ON, first(len(IDS)))


def drawn(kept, evidence, criteria=CRITERIA, trials=TRIALS, seed=1):
    with kept.values(criteria, IDS, evidence, trials, seed) as values:
        return values.copy()


def with_change(key, specimen, value, u):
    """The same findings, one of them read anew."""
    fresh = number(key, value, "mm", u, specimen)
    return [fresh if (f.attribute, f.specimen_id) == (key, specimen) else f for f in FOUND]


def test_criterion_is_its_entries_weighted():
    values = drawn(CriterionDraws(), bench())
    worths = draw_worths((WALL, DOME, DENTS), IDS, bench(), TRIALS, 1)
    assert values.shape == (3, 2, TRIALS)
    for row, s in enumerate(IDS):
        expected = (worths["can_wall", s] + 3 * worths["can_dome_wall", s] + worths["dents", s]) / 5
        assert values[row, 0] == pytest.approx(expected, abs=1e-12)


def test_nothing_changed_draws_nothing():
    kept = CriterionDraws()
    before = drawn(kept, bench())
    assert kept.redrawn == 6
    assert (drawn(kept, bench()) == before).all()
    assert kept.redrawn == 0


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["can_dome_wall", "media_thickness"]),
            st.sampled_from(IDS),
            st.floats(0.1, 1.4),
            st.floats(0, 0.2),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_changed_reading_is_as_drawn_afresh(changes):
    kept = CriterionDraws()
    drawn(kept, bench())
    for change in changes:
        changed = bench(with_change(*change))
        assert (drawn(kept, changed) == drawn(CriterionDraws(), changed)).all()


def test_one_reading_redraws_one_criterion():
    kept = CriterionDraws()
    before = drawn(kept, bench())
    after = drawn(kept, bench(with_change("media_thickness", "b", 0.9, 0.05)))
    assert kept.redrawn == 1
    same = (before == after).all(axis=2)
    assert same.tolist() == [[True, True], [True, False], [True, True]]


def test_changed_uncertainty_redraws():
    kept = CriterionDraws()
    drawn(kept, bench())
    drawn(kept, bench(with_change("media_thickness", "b", 0.8, 0.04)))
    assert kept.redrawn == 1


@pytest.mark.parametrize(
    "changed",
    [
        replace(WALL, weight=2.0),
        replace(WALL, anchors=piecewise("can_wall", (0.2, 0), (0.41, 10)).anchors),
    ],
    ids=["weight", "anchors"],
)
def test_changed_rule_redraws(changed):
    kept = CriterionDraws()
    drawn(kept, bench())
    criteria = (replace(CRITERIA[0], basis=(changed, DOME, DENTS)), CRITERIA[1])
    values = drawn(kept, bench(), criteria)
    assert kept.redrawn == 3
    assert (values == drawn(CriterionDraws(), bench(), criteria)).all()


@pytest.mark.parametrize("other", [{"seed": 2}, {"trials": TRIALS + 1}])
def test_other_seed_or_number_redraws_all(other):
    kept = CriterionDraws()
    drawn(kept, bench())
    drawn(kept, bench(), **other)
    assert kept.redrawn == 6


def test_one_subject_in_two_criteria_is_worth_each():
    """A rule of a purpose's own may speak of what a component's rule speaks of too."""
    other = Criterion("other", 0.5, (piecewise("can_wall", (0.2, 10), (0.4, 0)),))
    alone = Criterion("can", 0.5, (WALL,))
    both = drawn(CriterionDraws(), bench(), (alone, other))
    assert (both[:, 0] == drawn(CriterionDraws(), bench(), (alone,))[:, 0]).all()
    assert both[:, 1] == pytest.approx(10 - both[:, 0], abs=1e-9)


def test_failed_draw_keeps_nothing_wrong(monkeypatch):
    """What was being drawn when it failed is drawn again."""
    kept, changed = CriterionDraws(), bench(with_change("media_thickness", "b", 0.9, 0.05))
    drawn(kept, bench())

    def fail(*_):
        raise MemoryError

    with monkeypatch.context() as broken:
        broken.setattr("benchlog.judge.criterion_draws.add_worth", fail)
        with pytest.raises(MemoryError):
            drawn(kept, changed)
    assert (drawn(kept, changed) == drawn(CriterionDraws(), changed)).all()
    assert numpy.isfinite(drawn(kept, changed)).all()
