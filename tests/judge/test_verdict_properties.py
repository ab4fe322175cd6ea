"""What holds for every verdict, whatever was read."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.judge.comparisons import ring_of
from benchlog.judge.verdict import AwardKind
from benchlog.measure.state import WITHOUT_VALUE, State
from benchlog.trade.component import Component
from tests.derive.found import number, without, word
from tests.judge.bench_of import (
    SHIPPED,
    SPECIMENS,
    award,
    evidence,
    first,
    judged,
    piecewise,
    ranked,
    rules,
    unscored,
)

FEW = settings(max_examples=25)
"""Every example is a line-up judged whole, some of them several times."""

NUMBERS = {
    "can_wall": ("mm", 0.15, 0.8, "inch"),
    "base_thickness": ("mm", 1.0, 7.0, "inch"),
    "thread_length": ("mm", 2.0, 10.0, "inch"),
    "gasket_hardness": ("", 35.0, 99.0, ""),
    "adbv_leak": ("milliliter/hour", 0.0, 80.0, "liter/day"),
    "media_length": ("mm", 500.0, 3000.0, "inch"),
    "media_exposed_width": ("mm", 30.0, 120.0, "inch"),
    "media_thickness": ("mm", 0.3, 1.4, "thou"),
}
WORDS = {
    "dents": ("none", "light", "deep"),
    "adbv_material": ("nbr", "hnbr", "vmq", "coloured_rubber"),
    "pleat_evenness": ("even", "slight", "bunched"),
    "spring_kind": ("coil", "leaf"),
    "media_kind": ("blend", "blend", "glass"),
    "media_state": ("conditioned", "conditioned", "drained"),
}


@st.composite
def filters(draw, specimen):
    """One specimen's findings: a value for most attributes, a state for some."""
    found = []
    for key, (unit, low, high, _) in NUMBERS.items():
        if draw(st.integers(0, 5)):
            size, share = draw(st.floats(low, high)), draw(st.floats(0, 0.1))
            found.append(number(key, size, unit, size * share, specimen))
        else:
            found.append(without(key, draw(st.sampled_from(WITHOUT_VALUE)), specimen))
    for key, words in WORDS.items():
        if draw(st.integers(0, 5)):
            found.append(word(key, draw(st.sampled_from(words)), specimen))
    return found


def benches(count):
    return st.tuples(*(filters(s.id) for s in SPECIMENS[:count])).map(
        lambda each: [finding for one in each for finding in one]
    )


def plain(verdict):
    """Everything but the sentences, whose order of names follows the line-up's."""
    scores = {
        (s.component, s.specimen_id): (s.value, s.low, s.high, s.counted, s.of, s.coverage)
        for s in verdict.scores
    }
    awards = {
        a.component: (a.kind, frozenset(a.winners), frozenset(a.behind), a.support)
        for a in verdict.awards
    }
    return scores, awards


@FEW
@given(benches(4))
def test_scores_do_not_depend_on_who_else_is_there(findings):
    four = judged(findings, specimens=first(4))
    for count in (1, 2, 3):
        fewer = judged(findings, specimens=first(count))
        for score in fewer.scores:
            assert four.score(score.component, score.specimen_id) == score


@FEW
@given(benches(3), st.permutations(range(3)))
def test_order_of_specimens_changes_nothing(findings, order):
    straight = judged(findings, specimens=first(3))
    turned = judged(findings, specimens=tuple(SPECIMENS[i] for i in order))
    (scores, awards), (other_scores, other_awards) = plain(straight), plain(turned)
    assert scores == other_scores
    assert awards == other_awards


def in_inches(finding):
    if finding.quantity is None or not NUMBERS[finding.attribute][3]:
        return finding
    return replace(finding, quantity=finding.quantity.to(NUMBERS[finding.attribute][3]))


@FEW
@given(benches(3))
def test_units_change_nothing(findings):
    ours, awards = plain(judged(findings, specimens=first(3)))
    theirs, other = plain(judged([in_inches(f) for f in findings], specimens=first(3)))
    assert awards == other
    for key, score in ours.items():
        for mine, yours in zip(score, theirs[key], strict=True):
            assert mine == (None if yours is None else pytest.approx(yours, abs=1e-7))


def less_sure(finding, factor):
    """The same best estimate with a wider uncertainty."""
    if finding.quantity is None:
        return finding
    magnitude = finding.quantity.magnitude
    middle = getattr(magnitude, "nominal_value", magnitude)
    u = getattr(magnitude, "std_dev", 0.0) * factor + 0.001 * (factor - 1) * abs(middle)
    return number(finding.attribute, middle, str(finding.quantity.units), u, finding.specimen_id)


@FEW
@given(benches(3), st.floats(1.01, 20), st.sets(st.sampled_from("abc"), min_size=1))
def test_more_uncertainty_never_makes_a_tie_a_win(findings, factor, whose):
    sure = judged(findings, specimens=first(3))
    wider = [less_sure(f, factor) if f.specimen_id in whose else f for f in findings]
    unsure = judged(wider, specimens=first(3))
    for before, after in zip(sure.awards, unsure.awards, strict=True):
        # A ring of leads judges nobody; when one lead is lost it may open, which is no new lead.
        if before.kind is not AwardKind.NOT_JUDGED:
            assert set(after.behind) <= set(before.behind)
        if before.kind in (AwardKind.TIE, AwardKind.CANNOT_SEPARATE):
            assert after.kind not in (AwardKind.WINNER, AwardKind.JOINT_WINNERS)


@FEW
@given(benches(3), st.floats(1.01, 20), st.sets(st.sampled_from("abc"), min_size=1))
def test_more_uncertainty_never_makes_a_lead(findings, factor, whose):
    wider = [less_sure(f, factor) if f.specimen_id in whose else f for f in findings]
    assert leads(wider) <= leads(findings)


def leads(findings):
    """Every (component, ahead, behind) among three specimens."""
    bench = evidence(findings, first(3))
    return {
        (component, pair.ahead, pair.behind)
        for component in Component
        for pair in ring_of(component, ("a", "b", "c"), SHIPPED, bench).compared
        if pair.ahead
    }


@FEW
@given(benches(4))
def test_awards_hold_together(findings):
    verdict = judged(findings, specimens=first(4))
    for one in verdict.awards:
        winners, behind = set(one.winners), set(one.behind)
        assert not winners & behind
        assert one.reason
        assert one.would_change
        wins = {AwardKind.WINNER: 1, AwardKind.TIE: 2, AwardKind.JOINT_WINNERS: 2}
        if one.kind is AwardKind.WINNER:
            assert len(winners) == 1
        assert len(winners) >= wins.get(one.kind, 0)
        assert bool(behind) == (one.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS))
        for specimen in winners | behind:
            score = verdict.score(one.component, specimen)
            assert score.value is not None or not score.of


@FEW
@given(benches(3))
def test_scores_stay_within_their_scale(findings):
    for score in judged(findings, specimens=first(3)).scores:
        if score.value is None:
            assert score.coverage < SHIPPED.smallest_coverage
        else:
            assert 0 <= score.low <= score.value <= score.high <= 10
            assert score.counted > 0


walls = st.lists(st.floats(0.15, 0.6), min_size=3, max_size=6)


@given(walls)
def test_ties_do_not_chain(sizes):
    """Joint winners are exactly those whom nobody clearly beats, pair by pair."""
    by = rules(piecewise("can_wall", (0.2, 0), (0.6, 10), meaningful=0.02), score=1.0)
    specimens = first(len(sizes))
    findings = [
        number("can_wall", size, "mm", 0.001, s.id)
        for s, size in zip(specimens, sizes, strict=True)
    ]
    found = award(judged(findings, by, specimens), Component.CAN)
    points = {
        s.id: min(max((size - 0.2) / 0.04, 0), 10) for s, size in zip(specimens, sizes, strict=True)
    }
    best = max(points.values())
    clear = {s for s, mine in points.items() if best - mine > 1.0 + 1e-6}
    close = {s for s, mine in points.items() if best - mine < 1.0 - 1e-6}
    assert clear <= set(found.behind)
    assert close <= set(found.winners)


@FEW
@given(benches(2), benches(2))
def test_unscored_values_win_nothing(findings, others):
    entries = [unscored(key) for key in (*NUMBERS, *WORDS)]
    for one in judged([*findings, *others], rules(*entries), first(2)).awards:
        assert one.kind in (AwardKind.DIFFERENT, AwardKind.TIE, AwardKind.NOT_JUDGED)


# Common practice, no source: three strips that a practitioner calls the same in area.
def test_practitioners_strips_tie_in_area():
    strips = ((56.0, 3.68), (54.0, 3.88), (53.0, 3.89))
    findings = [
        finding
        for s, (length, width) in zip("abc", strips, strict=True)
        for finding in (
            number("media_length", length, "inch", 0.1, s),
            number("media_width", width, "inch", 0.01, s),
            number("media_hidden", 0.1, "inch", 0.01, s),
            number("media_tears", 0, "count", specimen=s),
            word("media_kind", "cellulose", s),
        )
    ]
    found = award(judged(findings, specimens=first(3)), Component.MEDIA)
    assert (found.kind, found.winners) == (AwardKind.TIE, ("a", "b", "c"))
    assert "left out" not in found.reason


def test_states_without_value_score_nothing_at_all():
    by = rules(piecewise("can_wall", (0.2, 0), (0.4, 10)), ranked("dents", none=10, deep=0))
    findings = [
        without(key, State.COULD_NOT_TELL, s) for key in ("can_wall", "dents") for s in "ab"
    ]
    verdict = judged(findings, by)
    assert all(score.value is None and score.coverage == 0 for score in verdict.scores)
    assert award(verdict, Component.CAN).kind is AwardKind.NOT_JUDGED
