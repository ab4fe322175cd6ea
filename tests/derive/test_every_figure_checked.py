"""Every figure that can be worked out has a check value, and comes out as it says."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.derive.all_figures import FIGURE_KINDS, figures_of
from benchlog.derive.figure import Figure
from tests.derive.as_said import said
from tests.derive.check_values import CHECKS, REASONS, Check
from tests.derive.found import ALPHA, value

KINDS = {kind.key: kind for kind in FIGURE_KINDS}
EACH = [
    pytest.param(key, check, id=f"{key}-{n}")
    for key, checks in CHECKS.items()
    for n, check in enumerate(checks)
]
NUMBERS = [each for each in EACH if isinstance(each.values[1].wanted, float)]
NOTICED = 0.02
"""Share by which a wrong formula would be off and be noticed."""


def worked(key: str, check: Check) -> Figure:
    """The figure from what is typed, by way of entry, readings and findings."""
    findings = {attribute: said(attribute, text) for attribute, text in check.typed.items()}
    return figures_of(findings, ALPHA, check.conditions)[key]


def holds(figure: Figure, check: Check) -> bool:
    if isinstance(check.wanted, str):
        return check.wanted in (figure.word or "")
    return abs(value(figure, check.unit) - check.wanted) <= check.within


def test_every_figure_has_a_check_value_or_a_reason() -> None:
    assert CHECKS.keys() | REASONS.keys() == KINDS.keys()
    assert not CHECKS.keys() & REASONS.keys()
    assert all(CHECKS.values())
    assert all(len(reason.split()) > 3 for reason in REASONS.values())


@pytest.mark.parametrize(("key", "check"), EACH)
def test_check_value_comes_out(key: str, check: Check) -> None:
    figure = worked(key, check)
    assert figure.refusal == ""
    assert check.source
    assert holds(figure, check), figure.word or value(figure, check.unit)
    if figure.kind.bounded and figure.quantity is not None:
        assert figure.low is not None
        assert figure.high is not None
        ends = [_in(figure, end, check.unit) for end in (figure.low, figure.high)]
        sought = check.inside or check.wanted
        assert ends[0] - check.within <= sought <= ends[1] + check.within
    else:
        assert check.inside is None


def _in(figure: Figure, end: float, unit: str) -> float:
    assert figure.quantity is not None
    bare = replace(figure, quantity=type(figure.quantity)(end, figure.kind.unit))
    return value(bare, unit)


@pytest.mark.parametrize(("key", "check"), NUMBERS)
def test_wrong_formula_would_be_noticed(key: str, check: Check) -> None:
    figure = worked(key, check)
    assert figure.quantity is not None
    for factor in (1 - NOTICED, 1 + NOTICED):
        assert not holds(replace(figure, quantity=factor * figure.quantity), check)


@pytest.mark.parametrize(("key", "check"), EACH)
def test_words_are_checked_by_words(key: str, check: Check) -> None:
    assert isinstance(check.wanted, str) is (KINDS[key].unit == "")
    assert bool(set(check.typed) & set(KINDS[key].inputs)) is bool(KINDS[key].inputs)


def test_figure_that_is_forgotten_fails() -> None:
    """The list is asked about the kinds that there are, not about itself."""
    assert len(KINDS) == len(FIGURE_KINDS) > 50
