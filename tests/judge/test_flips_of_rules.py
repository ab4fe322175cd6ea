"""What is said to flip an award does flip it when the rules are changed so."""

from dataclasses import replace

import pytest

from benchlog.judge.comparisons import ring_of
from benchlog.judge.flips_of_rules import Knob, award_under_rules, rule_changes, rules_sentence
from benchlog.judge.outcomes import Outlook, Result
from benchlog.judge.rules_within import asked_in
from benchlog.judge.verdict import Award, AwardKind
from benchlog.judge.verdict_of import judge
from benchlog.trade.component import Component
from tests.derive.found import number, word
from tests.judge.bench_of import (
    SHIPPED,
    SPIN_ON,
    award,
    evidence,
    first,
    judged,
    piecewise,
    ranked,
    rules,
)
from tests.judge.six_filters import six_filters

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.01)
DOME = piecewise("can_dome_wall", (0.2, 0), (0.4, 10), meaningful=0.02)
SHARE = replace(WALL, meaningful=0.05, meaningful_is_share=True)


def sizes(wall, dome=None, u=0.002):
    """Two specimens or more with these walls and domes."""
    found = [number("can_wall", x, "mm", u, s.id) for x, s in zip(wall, first(6), strict=False)]
    domes = zip(dome or (), first(6), strict=False)
    return found + [number("can_dome_wall", x, "mm", u, s.id) for x, s in domes]


def changes(findings, by, count=2):
    known = evidence(findings, first(count))
    ids = tuple(s.id for s in known.specimens)
    return {c.knob: c for c in rule_changes(ring_of(Component.CAN, ids, by, known), by, known)}


def changed(by, change):
    """The rules with one change made."""
    if change.entry is None:
        return replace(by, meaningful_score=change.then)
    entry = next(e for e in by.entries if e == change.entry)
    if change.knob is Knob.WEIGHT:
        others = sum(e.weight for e in by.of(entry.component) if e != entry)
        fresh = replace(entry, weight=others * change.then / (1 - change.then))
    else:
        fresh = replace(entry, meaningful=change.then)
    return replace(by, entries=tuple(fresh if e == entry else e for e in by.entries))


def result(found: Award) -> Result:
    winners = () if found.kind is AwardKind.CANNOT_SEPARATE else found.winners
    return Result(found.kind, winners)


def test_wider_score_makes_a_lead_a_tie():
    found = changes(sizes((0.30, 0.25)), rules(replace(WALL, meaningful=0.0)))[Knob.SCORE]
    assert found.then == pytest.approx(2.5)
    assert found.result == Result(AwardKind.TIE, ("a", "b"))


def test_narrower_score_makes_a_tie_a_lead():
    found = changes(sizes((0.31, 0.30), u=0.0005), rules(replace(WALL, meaningful=0.0), score=1.0))
    assert found[Knob.SCORE].then == pytest.approx(0.499)
    assert found[Knob.SCORE].result == Result(AwardKind.WINNER, ("a",))


def test_smaller_difference_in_a_value_makes_a_lead():
    found = changes(sizes((0.35, 0.30)), rules(replace(WALL, meaningful=0.06), score=1.0))
    assert found[Knob.MEANINGFUL].then == pytest.approx(0.0499)
    assert found[Knob.MEANINGFUL].result == Result(AwardKind.WINNER, ("a",))


def test_share_of_a_value_is_told_as_share():
    by = rules(SHARE, score=0.1)
    found = changes(sizes((0.30, 0.25)), by)[Knob.MEANINGFUL]
    assert found.then == pytest.approx(0.2)
    assert result(award(judged(sizes((0.30, 0.25)), changed(by, found)), Component.CAN)) == (
        found.result
    )


def test_other_weight_makes_another_winner():
    by = rules(replace(WALL, weight=3.0), DOME)
    findings = sizes((0.35, 0.25), (0.25, 0.38))
    found = changes(findings, by)[Knob.WEIGHT]
    assert found.now in (pytest.approx(0.75), pytest.approx(0.25))
    assert result(award(judged(findings, by), Component.CAN)).winners == ("a",)
    fresh = award(judged(findings, changed(by, found)), Component.CAN)
    assert result(fresh) == found.result


def test_single_entry_has_no_weight_to_change():
    assert Knob.WEIGHT not in changes(sizes((0.30, 0.25)), rules(WALL))


def test_alike_in_all_flips_by_nothing():
    known = evidence(sizes((0.3, 0.3), u=0.0))
    by = rules(WALL)
    ring = ring_of(Component.CAN, ("a", "b"), by, known)
    assert rule_changes(ring, by, known) == ()
    assert rules_sentence(ring, by, known).startswith("No other difference that counts")


def test_weight_that_moves_coverage_is_not_tried():
    """Heavier, what Bravo lacks would leave it unjudged: another question than who leads."""
    by = rules(WALL, replace(DOME, weight=1.0), coverage=0.5)
    findings = [*sizes((0.30, 0.25)), number("can_dome_wall", 0.3, "mm", 0.002, "a")]
    known = evidence(findings)
    outlook = Outlook(ring_of(Component.CAN, ("a", "b"), by, known), by, known)
    assert outlook.under_weight(by.entries[1], 0.9) is not None
    assert outlook.under_weight(by.entries[1], 1.1) is None


def test_sentence_names_both_changes():
    by = rules(replace(WALL, weight=3.0), DOME)
    findings = sizes((0.35, 0.25), (0.25, 0.38))
    verdict = judged(findings, by)
    found = award_under_rules(award(verdict, Component.CAN), verdict.scores, by, evidence(findings))
    limit, weight = found.split(". ", 1)
    assert limit.startswith("Counting differences in ")
    assert "of the weight, instead of" in weight
    assert weight.endswith(".")


def test_words_have_no_difference_to_change():
    dents = ranked("dents", none=10, light=5, deep=0)
    findings = [word("dents", "none", "a"), word("dents", "deep", "b")]
    found = changes(findings, rules(dents))
    assert [(k, c.then, c.result.kind) for k, c in found.items()] == [
        (Knob.SCORE, 10.0, AwardKind.TIE)
    ]


def test_parts_of_several_keep_their_weights():
    """The scatter within a part would have to be worked out anew: of that nothing is said."""
    specimens = tuple(
        replace(s, maker="Larkfield", part_number=f"LF-{n % 2}") for n, s in enumerate(first(4))
    )
    findings = sizes((0.35, 0.25, 0.35, 0.25), (0.25, 0.38, 0.25, 0.38))
    known = evidence(findings, specimens)
    by = rules(WALL, DOME)
    ring = ring_of(Component.CAN, tuple("abcd"), by, known)
    assert Outlook(ring, by, known).under_weight(WALL, 2.0) is None
    assert all(change.knob is not Knob.WEIGHT for change in rule_changes(ring, by, known))


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("count", [2, 4, 6])
def test_every_flip_of_the_shipped_rules_flips(seed, count):
    """Over invented line-ups, the whole judge gives what each change is said to give."""
    known = six_filters(seed)
    known = replace(known, specimens=known.specimens[:count])

    def judged_by(by):
        found = judge(known.specimens, known.findings, known.figures, by, SPIN_ON)
        return {one.component: one for one in found.awards}

    scores = judge(known.specimens, known.findings, known.figures, SHIPPED, SPIN_ON).scores
    before, tried = judged_by(SHIPPED), 0
    for component, was in before.items():
        if not award_under_rules(was, scores, asked_in(SHIPPED, SPIN_ON), known):
            continue
        scored = tuple(s.id for s in known.specimens)
        ring = ring_of(component, scored, SHIPPED, known)
        assert Outlook(ring, SHIPPED, known).now == result(was)
        for change in rule_changes(ring, SHIPPED, known):
            after = judged_by(changed(SHIPPED, change))[component]
            assert result(after) == change.result != result(was)
            tried += 1
    assert tried >= 8


def test_weight_as_it_is_changes_nothing():
    known = six_filters(2)
    for component in Component:
        ring = ring_of(component, tuple(s.id for s in known.specimens), SHIPPED, known)
        outlook = Outlook(ring, SHIPPED, known)
        if outlook.pairs:
            for entry in ring.entries:
                assert outlook.under_weight(entry, entry.weight) == outlook.now


def test_unscored_award_has_no_rule_to_change():
    findings = [word("media_kind", kind, s) for kind, s in (("cellulose", "a"), ("blend", "b"))]
    verdict = judged(findings, SHIPPED)
    for one in verdict.awards:
        assert award_under_rules(one, verdict.scores, SHIPPED, evidence(findings)) == ""
