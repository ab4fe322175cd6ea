"""Estimates between bounds inform; they decide nothing."""

from dataclasses import replace

import pytest

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.derive.figure import Figure
from benchlog.judge.comparisons import ring_of
from benchlog.judge.differences import difference
from benchlog.judge.evidence import Evidence
from benchlog.judge.rule_checks import fault_in
from benchlog.judge.rules import Anchor, AttributeRule, ValueKind
from benchlog.measure.units import registry
from benchlog.trade.attribute import Judged, Support
from tests.derive.found import word
from tests.judge.bench_of import SPIN_ON, first, rules, unscored

(AREA,) = [kind for kind in FIGURE_KINDS if kind.key == "exposed_area"]
BOUNDED = replace(AREA, bounded=True, judged=Judged.MORE)


def rule(kind=ValueKind.NONE):
    scored = kind is not ValueKind.NONE
    return AttributeRule(
        AREA.key, AREA.component, kind, 1.0 if scored else 0.0, Support.OPINION,
        source="invented for a test", reason="invented for a test", unit=AREA.unit,
        anchors=(Anchor(0, 0), Anchor(1000, 10)) if scored else (),
    )  # fmt: skip


def bench(*ends, kind=BOUNDED):
    """Figures (low, best, high) in their kind's unit, one a specimen."""
    figures = {
        (kind.key, s.id): Figure(
            kind, s.id, registry().Quantity(best, kind.unit), "", (), low=low, high=high
        )
        for s, (low, best, high) in zip(first(len(ends)), ends, strict=True)
    }
    media = {("media_kind", s.id): word("media_kind", "blend", s.id) for s in first(len(ends))}
    return Evidence(media, figures, SPIN_ON, first(len(ends)))


def compared(*ends):
    return difference(rule(), "a", "b", bench(*ends))


@pytest.mark.parametrize(
    ("one", "other", "differs"),
    [
        ((400, 500, 600), (590, 700, 800), False),
        ((400, 500, 600), (610, 700, 800), True),
        ((610, 700, 800), (400, 500, 600), True),
        ((400, 500, 600), (600, 700, 800), False),
        ((400, 500, 600), (450, 500, 550), False),
    ],
)
def test_intervals_that_meet_do_not_differ(one, other, differs):
    found = compared(one, other)
    assert found.differs is differs
    assert found.gap == one[1] - other[1]


def test_one_side_may_be_sharp():
    assert compared((400, 500, 600), (None, 650, None)).differs
    assert not compared((400, 500, 600), (None, 590, None)).differs


def test_no_rule_may_score_them():
    assert fault_in(rule(), BOUNDED) is None
    assert fault_in(rule(ValueKind.PIECEWISE), replace(BOUNDED, bounded=False)) is None
    field, what = fault_in(rule(ValueKind.PIECEWISE), BOUNDED)
    assert field == "kind"
    assert "informs and is never scored" in what


def test_scored_all_the_same_they_are_dropped():
    """Rules that came another way than through a checked file decide nothing by them either."""
    by = rules(rule(ValueKind.PIECEWISE))
    far = ((100, 110, 120), (900, 910, 920))
    ring = ring_of(AREA.component, ("a", "b"), by, bench(*far))
    assert not ring.compared
    assert ring.dropped == {AREA.key: "an estimate between bounds informs and decides nothing"}
    sharp = bench((None, 110, None), (None, 910, None), kind=replace(BOUNDED, bounded=False))
    (pair,) = ring_of(AREA.component, ("a", "b"), by, sharp).compared
    assert pair.ahead == "b"


def test_words_of_figures_are_compared_as_words():
    figures = {
        ("thread_fit", s): Figure(AREA, s, None, "", (), word=said)
        for s, said in (("a", "3/4-16 UNF"), ("b", "M20x1.5"))
    }
    both = Evidence({}, figures, SPIN_ON, first(2))
    word_rule = replace(unscored("can_wall"), subject="thread_fit", unit="")
    assert difference(word_rule, "a", "b", both).differs
    same = figures | {("thread_fit", "b"): replace(figures["thread_fit", "b"], word="3/4-16 UNF")}
    alike = Evidence({}, same, SPIN_ON, first(2))
    assert not difference(word_rule, "a", "b", alike).differs
    assert both.outcome("thread_fit", "a").word == "3/4-16 UNF"
