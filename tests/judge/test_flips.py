"""What would change an award: doing it does change it."""

import re
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlog.judge.verdict import AwardKind
from benchlog.trade.component import Component
from tests.derive.found import number, word
from tests.judge.bench_of import award, first, judged, piecewise, ranked, rules

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), weight=2, meaningful=0.02)
DENTS = ranked("dents", none=10, light=6, deep=0)
CAN = rules(WALL, DENTS, score=1.0)
sizes = st.floats(0.15, 0.45).map(lambda size: round(size, 4))
words = st.sampled_from(["none", "light", "deep"])


def of_cans(cans, u=0.002):
    findings = [
        finding
        for s, (size, dents) in zip("abc", cans, strict=False)
        for finding in (number("can_wall", size, "mm", u, s), word("dents", dents, s))
    ]
    return award(judged(findings, CAN, first(len(cans))), Component.CAN)


NAMED = {"Alpha": 0, "Bravo": 1, "Charlie": 2}


def changed(cans, sentence):
    """The cans after what the sentence suggests, a hair further; None when it names no value."""
    wall = re.match(r"(\w+)'s can wall thickness at ([\d.]+) instead of ([\d.]+) mm", sentence)
    dents = re.match(r"(\w+)'s dents '(.+?)' instead of", sentence)
    after = list(cans)
    if wall:
        who = NAMED[wall[1]]
        now, new = cans[who][0], float(wall[2])
        after[who] = (new + (0.001 if new > now else -0.001), cans[who][1])
        return after
    if dents:
        who = NAMED[dents[1]]
        by_label = {"No": "none", "Li": "light", "De": "deep"}
        after[who] = (cans[who][0], by_label[dents[2][:2]])
        return after
    return None


@given(sizes, words, sizes, words)
def test_suggested_value_flips_a_pair(one, dents, other, more_dents):
    cans = [(one, dents), (other, more_dents)]
    before = of_cans(cans)
    after = changed(cans, before.would_change)
    assume(after is not None)
    found = of_cans(after)
    if before.kind is AwardKind.WINNER:
        assert found.kind is not AwardKind.WINNER or found.winners != before.winners
    else:
        assert before.kind is AwardKind.TIE
        assert found.kind is AwardKind.WINNER


def test_lead_ends_where_the_sentence_says():
    found = of_cans([(0.38, "none"), (0.30, "none")])
    assert found.kind is AwardKind.WINNER
    assert found.would_change == (
        "Bravo's can wall thickness at 0.35 instead of 0.3 mm, or 1.7 points more for Bravo would "
        "make Alpha and Bravo too close to call."
    )
    assert of_cans([(0.38, "none"), (0.3505, "none")]).kind is AwardKind.TIE
    assert of_cans([(0.38, "none"), (0.3495, "none")]).kind is AwardKind.WINNER


def test_tie_ends_where_the_sentence_says():
    found = of_cans([(0.31, "none"), (0.30, "none")])
    assert found.kind is AwardKind.TIE
    assert found.would_change == (
        "Alpha's can wall thickness at 0.33 instead of 0.31 mm would put Alpha clearly ahead of "
        "Bravo."
    )
    assert of_cans([(0.3305, "none"), (0.30, "none")]).kind is AwardKind.WINNER
    assert of_cans([(0.3295, "none"), (0.30, "none")]).kind is AwardKind.TIE


def test_changed_value_must_differ_clearly_by_itself():
    """0.32 mm would be worth the point that is wanted, yet 0.08 mm is what counts here."""
    strict = rules(replace(WALL, meaningful=0.08), DENTS, score=1.0)

    def of_walls(*sizes):
        pairs = list(zip("ab", sizes, strict=True))
        findings = [number("can_wall", size, "mm", 0.002, s) for s, size in pairs]
        return award(judged(findings, strict), Component.CAN)

    found = of_walls(0.31, 0.30)
    assert found.would_change.startswith("Alpha's can wall thickness at 0.38 instead of 0.31 mm ")
    assert of_walls(0.379, 0.30).kind is AwardKind.TIE
    assert of_walls(0.381, 0.30).kind is AwardKind.WINNER


def test_tie_on_the_very_limit_asks_for_a_hair():
    found = of_cans([(0.3414, "light"), (0.2714, "none")])
    assert found.kind is AwardKind.TIE
    assert found.would_change.startswith("Alpha's can wall thickness a hair above 0.3414 mm would")
    assert of_cans([(0.3415, "light"), (0.2714, "none")]).kind is AwardKind.WINNER


def test_best_possible_tie_ends_by_a_worse_value():
    """Nobody can rise above ten, yet a fall of either would do it."""
    found = of_cans([(0.4, "none"), (0.4, "none")])
    assert found.kind is AwardKind.TIE
    assert found.would_change == (
        "Bravo's can wall thickness at 0.37 instead of 0.4 mm would put Alpha clearly ahead of "
        "Bravo."
    )
    assert of_cans([(0.4, "none"), (0.3695, "none")]).kind is AwardKind.WINNER
    assert of_cans([(0.4, "none"), (0.3705, "none")]).kind is AwardKind.TIE


def test_worse_word_is_named_where_nothing_better_is():
    dents = rules(DENTS, score=1.0)
    found = award(judged([word("dents", "none", s) for s in "ab"], dents), Component.CAN)
    assert found.would_change.startswith("Bravo's dents 'Li")
    assert found.would_change.endswith(" would put Alpha clearly ahead of Bravo.")


def test_nothing_single_could_do_it():
    """A tie of the best: nobody can have more points, and one value alone is not worth nine."""
    wide = rules(WALL, DENTS, score=9.0)
    findings = [f for s in "ab" for f in (number("can_wall", 0.4, "mm", 0.002, s),
                                          word("dents", "none", s))]  # fmt: skip
    found = award(judged(findings, wide), Component.CAN)
    assert found.kind is AwardKind.TIE
    assert found.would_change == (
        "9.0 points less for Bravo would put Alpha clearly ahead of Bravo; "
        "no single value of this component could do it."
    )


def test_unsure_readings_are_named():
    found = of_cans([(0.31, "light"), (0.30, "light")], u=0.05)
    assert found.kind is AwardKind.CANNOT_SEPARATE
    assert found.would_change == "Surer readings, above all of can wall thickness."


def test_counts_change_by_whole_ones():
    threads = rules(piecewise("full_threads", (2, 0), (8, 10), meaningful=1), score=0.5)
    findings = [number("full_threads", n, "count", specimen=s) for s, n in (("a", 7), ("b", 4))]
    found = award(judged(findings, threads), Component.THREAD)
    assert found.would_change.startswith("Bravo's full threads at 6 instead of 4, or ")


@pytest.mark.parametrize("count", [2, 3])
def test_every_award_says_what_would_change_it(count):
    cans = [(0.40, "none"), (0.30, "light"), (0.31, "deep")][:count]
    assert of_cans(cans).would_change
