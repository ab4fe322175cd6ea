"""What would change an award does change it, on flat pieces and past peaks as well.

Every suggested value is put in, a hair further, and the line-up judged anew.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.judge.evidence import Outcome
from benchlog.judge.piecewise import places_of, value_at
from benchlog.judge.rules import Rules
from benchlog.judge.verdict import Award, AwardKind
from benchlog.trade.component import Component
from tests.derive.found import number, word
from tests.judge.bench_of import award, evidence, first, judged, piecewise, ranked, rules

RISING = ((0.2, 0), (0.4, 10))
STEP = ((0.2, 0), (0.3, 6), (0.36, 6), (0.4, 10))
FALLING = ((0.2, 10), (0.4, 0))
BAND = ((0.2, 0), (0.28, 10), (0.32, 10), (0.4, 0))
FLOOR = ((0.2, 4), (0.25, 4), (0.3, 10), (0.4, 10))
NAMED = {"Alpha": 0, "Bravo": 1, "Charlie": 2}
LABELS = {"No": "none", "Li": "light", "De": "deep"}
HAIR = 2e-4
"""Two of the last digit that a suggested value is printed with."""

Can = tuple[float, str]
cans = st.lists(
    st.tuples(
        st.floats(0.15, 0.45).map(lambda size: round(size, 4)),
        st.sampled_from(["none", "light", "deep"]),
    ),
    min_size=2,
    max_size=3,
)
by = st.builds(
    lambda shape, weight, meaningful, score: rules(
        piecewise("can_wall", *shape, weight=weight, meaningful=meaningful),
        ranked("dents", none=10, light=6, deep=0),
        score=score,
    ),
    st.sampled_from([RISING, STEP, FALLING, BAND, FLOOR]),
    st.sampled_from([1, 2, 4]),
    st.sampled_from([0.002, 0.02, 0.05]),
    st.sampled_from([0.5, 1.0, 2.0]),
)


def of_cans(these: list[Can], rules: Rules, u: float) -> Award:
    findings = [
        finding
        for s, (size, dents) in zip("abc", these, strict=False)
        for finding in (number("can_wall", size, "mm", u, s), word("dents", dents, s))
    ]
    return award(judged(findings, rules, first(len(these))), Component.CAN)


def changed(these: list[Can], sentence: str) -> list[Can] | None:
    """The cans with the suggested value, a hair further on; None where none is named."""
    after = list(these)
    if found := re.match(r"(\w+)'s can wall thickness at ([\d.]+) instead of", sentence):
        who, new = NAMED[found[1]], float(found[2])
        after[who] = (new + (HAIR if new > these[who][0] else -HAIR), these[who][1])
        return after
    if found := re.match(r"(\w+)'s can wall thickness a hair (above|below) ", sentence):
        who = NAMED[found[1]]
        after[who] = (these[who][0] + (HAIR if found[2] == "above" else -HAIR), these[who][1])
        return after
    if found := re.match(r"(\w+)'s dents '(.+?)' instead of", sentence):
        who = NAMED[found[1]]
        after[who] = (these[who][0], LABELS[found[2][:2]])
        return after
    return None


@settings(max_examples=150, deadline=None)
@given(cans, by, st.sampled_from([0.0005, 0.002, 0.01]))
def test_suggested_value_flips_the_award(these: list[Can], rules: Rules, u: float) -> None:
    before = of_cans(these, rules, u)
    after = changed(these, before.would_change)
    if before.kind in (AwardKind.CANNOT_SEPARATE, AwardKind.NOT_JUDGED) or after is None:
        return
    found = of_cans(after, rules, u)
    assert (found.kind, found.winners, found.behind) != (before.kind, before.winners, before.behind)


# Cases in which a value that reaches a limit on a flat piece was suggested, and nothing came of it.
@pytest.mark.parametrize(
    ("shape", "weight", "meaningful", "these"),
    [
        (FALLING, 4, 0.002, [(0.1709, "deep"), (0.2295, "none")]),
        (FLOOR, 2, 0.002, [(0.2917, "light"), (0.383, "deep")]),
        (STEP, 2, 0.02, [(0.3261, "deep"), (0.285, "light")]),
        (BAND, 2, 0.05, [(0.1663, "deep"), (0.1523, "light")]),
    ],
)
def test_limit_on_a_flat_piece_is_not_beyond(
    shape: tuple[tuple[float, float], ...], weight: int, meaningful: float, these: list[Can]
) -> None:
    wall = piecewise("can_wall", *shape, weight=weight, meaningful=meaningful)
    own = rules(wall, ranked("dents", none=10, light=6, deep=0), score=2.0)
    before = of_cans(these, own, 0.002)
    assert before.kind is AwardKind.TIE
    after = changed(these, before.would_change)
    assert after is None or of_cans(after, own, 0.002).kind is AwardKind.WINNER


def test_word_on_the_limit_is_not_beyond() -> None:
    own = rules(ranked("dents", none=10, light=8, deep=0), score=2.0)
    found = award(judged([word("dents", "none", s) for s in "ab"], own), Component.CAN)
    assert found.would_change.startswith("Bravo's dents 'Deep")


def test_lead_may_end_by_less_for_the_leader() -> None:
    """Bravo lies on the floor of the function and is far from its slope; Alpha is near a limit."""
    wall = piecewise("can_wall", *FLOOR, meaningful=0.002)
    found = of_cans([(0.27, "none"), (0.16, "none")], rules(wall, score=1.0), 0.0005)
    assert found.kind is AwardKind.WINNER
    assert found.would_change.startswith("Alpha's can wall thickness at 0.2583 instead of 0.27 mm,")
    assert found.would_change.endswith("would make Alpha and Bravo too close to call.")


def test_lowered_leader_frees_nobody_whom_another_beats() -> None:
    wall = piecewise("can_wall", *RISING, meaningful=0.002)
    these = [(0.33, "none"), (0.329, "none"), (0.30, "none")]
    found = of_cans(these, rules(wall, score=1.0), 0.0005)
    assert found.winners == ("a", "b")
    assert found.would_change.startswith("Charlie's can wall thickness at 0.31 instead of 0.3 mm,")


def test_changed_evidence_forgets_what_hung_on_it() -> None:
    known = evidence([number("can_wall", 0.3, "mm", 0.001, s) for s in "ab"])
    before = known.outcome("can_wall", "a")
    other = known.with_outcome("can_wall", "a", Outcome(why_not="spoiled"))
    assert other.outcome("can_wall", "a").why_not == "spoiled"
    assert other.outcome("can_wall", "b") == known.outcome("can_wall", "b")
    assert known.outcome("can_wall", "a") is before


@given(st.floats(0, 10))
def test_places_of_a_value_have_it(worth: float) -> None:
    anchors = piecewise("can_wall", *BAND).anchors
    places = places_of(anchors, worth)
    assert len(places) == 2
    assert all(value_at(anchors, place) == pytest.approx(worth, abs=1e-9) for place in places)
