"""Awards of single components."""

from dataclasses import replace
from itertools import permutations

import pytest

from benchlog.judge.award_words import listed
from benchlog.judge.verdict import AwardKind
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.derive.found import number, word
from tests.judge.bench_of import SHIPPED, award, first, judged, piecewise, ranked, rules

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.02)
DENTS = ranked("dents", none=10, light=6, deep=0)
CAN = rules(WALL, score=1.0)


def of_walls(*sizes, u=0.002, by=CAN):
    specimens = first(len(sizes))
    findings = [
        number("can_wall", size, "mm", u, s.id) for s, size in zip(specimens, sizes, strict=True)
    ]
    return award(judged(findings, by, specimens), Component.CAN)


def test_clear_gap_makes_a_winner():
    found = of_walls(0.36, 0.30)
    assert (found.kind, found.winners, found.behind) == (AwardKind.WINNER, ("a",), ("b",))
    assert found.reason == (
        "Alpha is ahead of Bravo by 3.0 points of 10 (8.0 against 5.0), where 1.0 was needed; "
        "the difference lies in can wall thickness."
    )


def test_award_names_level_and_method():
    """Where gaps were told from chance it says how; where nothing was compared, nothing."""
    three = of_walls(0.36, 0.30, 0.31)
    assert three.judged_by.startswith("Level: 5 % for all 3 pairs together, by Student's t")
    assert of_walls(0.31, 0.30).judged_by == "Level: 5 % for the one pair, by Student's t."
    spring = [word("spring_kind", "coil", "a"), word("spring_kind", "leaf", "b")]
    assert award(judged(spring), Component.SPRING).judged_by
    assert award(judged([]), Component.SPRING).judged_by == ""
    assert of_walls(0.3).judged_by == ""


def test_few_repeats_win_less():
    """The same scatter from three repeats leaves open what eleven would settle."""

    def of_repeats(freedom):
        findings = []
        for s, size in (("a", 0.33), ("b", 0.30)):
            part = Part(f"can_wall/{s}/repeats", Spread.REPEATS, freedom)
            quantity = registry().Quantity(size + variable(0.0085, part), "mm")
            findings.append(Finding("can_wall", s, State.MEASURED, quantity=quantity))
        return award(judged(findings, CAN), Component.CAN)

    assert of_repeats(10).kind is AwardKind.WINNER
    assert of_repeats(2).kind is AwardKind.CANNOT_SEPARATE


def test_meaningless_gap_makes_a_tie():
    found = of_walls(0.31, 0.30)
    assert (found.kind, found.winners, found.behind) == (AwardKind.TIE, ("a", "b"), ())
    assert "Only 0.5 points of 10 lie between Alpha (5.5) and Bravo (5.0)" in found.reason
    assert "Less than 1.0 counts as no difference" in found.reason


def test_spread_as_large_as_the_gap_cannot_separate():
    found = of_walls(0.36, 0.30, u=0.03)
    assert (found.kind, found.winners, found.behind) == (AwardKind.CANNOT_SEPARATE, (), ())
    assert "cannot tell these apart" in found.reason


def test_one_pair_left_open_is_enough_in_any_order():
    """Equal gaps, one reading far less sure: the order of the bench must not decide the word."""
    sure = {"a": 0.002, "b": 0.002, "c": 0.03}
    findings = [number("can_wall", 0.30, "mm", u, key) for key, u in sure.items()]
    for order in permutations(first(3)):
        found = award(judged(findings, CAN, order), Component.CAN)
        assert found.kind is AwardKind.CANNOT_SEPARATE


def test_nobody_who_is_unbeaten_is_left_out():
    """A and B tie, B and C tie, yet A beats C: the tie does not chain."""
    found = of_walls(0.330, 0.315, 0.300)
    assert found.kind is AwardKind.JOINT_WINNERS
    assert (found.winners, found.behind) == (("a", "b"), ("c",))
    assert found.reason.startswith("Nobody is clearly ahead of Alpha and Bravo. Alpha is ahead of")


def test_winner_of_three_leaves_two_behind():
    found = of_walls(0.30, 0.40, 0.31)
    assert (found.kind, found.winners, found.behind) == (AwardKind.WINNER, ("b",), ("a", "c"))


def test_gap_in_score_needs_an_attribute_that_differs():
    """Ten small gaps, none of which means anything, do not add up to a win."""
    loose = rules(replace(WALL, meaningful=0.2), score=1.0)
    found = of_walls(0.36, 0.30, by=loose)
    assert found.kind is AwardKind.TIE
    assert "No single value in it differs clearly" in found.reason


def test_gap_beyond_the_last_anchor_wins_nothing():
    assert of_walls(0.6, 0.4).kind is AwardKind.TIE


def test_differing_kinds_are_different_not_better():
    spring = [word("spring_kind", "coil", "a"), word("spring_kind", "leaf", "b")]
    found = award(judged(spring), Component.SPRING)
    assert (found.kind, found.winners, found.behind) == (AwardKind.DIFFERENT, (), ())
    assert "makes none of them better" in found.reason
    assert found.support is Support.OPINION


def test_like_kinds_are_a_tie():
    spring = [word("spring_kind", "coil", "a"), word("spring_kind", "coil", "b")]
    found = award(judged(spring), Component.SPRING)
    assert (found.kind, found.winners) == (AwardKind.TIE, ("a", "b"))
    assert found.reason.startswith("No difference found in what was compared")


def test_scored_values_that_nobody_took_leave_them_different():
    bypass = [word("bypass_place", "dome_end", "a"), word("bypass_place", "thread_end", "b")]
    found = award(judged(bypass), Component.BYPASS)
    assert found.kind is AwardKind.DIFFERENT
    assert found.would_change.startswith("Values for ")


def test_nothing_recorded_is_not_judged():
    for found in judged([]).awards:
        assert (found.kind, found.winners, found.behind) == (AwardKind.NOT_JUDGED, (), ())
        assert found.reason
        assert found.would_change


def test_single_specimen_is_not_judged():
    found = of_walls(0.3)
    assert found.kind is AwardKind.NOT_JUDGED
    assert found.reason.startswith("Only one specimen")


def test_one_of_two_with_values_is_not_judged():
    found = award(judged([number("can_wall", 0.3, "mm")], CAN), Component.CAN)
    assert found.kind is AwardKind.NOT_JUDGED
    assert "Not judged for want of values: Bravo." in found.reason
    assert found.would_change == "Values for can wall thickness (Bravo)."


def test_unjudged_specimen_is_named_beside_the_winner():
    findings = [number("can_wall", s, "mm", 0.001, i) for i, s in (("a", 0.4), ("b", 0.3))]
    found = award(judged(findings, CAN, first(3)), Component.CAN)
    assert (found.kind, found.winners, found.behind) == (AwardKind.WINNER, ("a",), ("b",))
    assert found.reason.endswith("Not judged for want of values: Charlie.")


def test_pair_is_compared_on_what_both_have():
    """Bravo's missing dents neither help nor harm it: only the walls are set side by side."""
    both = rules(replace(WALL, weight=3.0), DENTS, score=1.0)
    findings = [
        number("can_wall", 0.30, "mm", 0.001, "a"),
        word("dents", "deep", "a"),
        number("can_wall", 0.31, "mm", 0.001, "b"),
    ]
    verdict = judged(findings, both)
    found = award(verdict, Component.CAN)
    assert verdict.score(Component.CAN, "b").value - verdict.score(Component.CAN, "a").value > 1
    assert found.kind is AwardKind.TIE
    assert "on the 1 of 2 values that both have" in found.reason


def media(one_kind, other_kind, tears=(0, 0), lengths=(1500, 800)):
    findings = []
    for s, kind, torn, length in zip("ab", (one_kind, other_kind), tears, lengths, strict=True):
        findings += [
            number("media_length", length, "mm", 1.0, s),
            number("media_width", 62, "mm", 0.1, s),
            number("media_hidden", 7, "mm", 0.1, s),
            number("media_tears", torn, "count", specimen=s),
            *([word("media_kind", kind, s)] if kind else []),
        ]
    return findings


def test_like_media_are_compared_by_area():
    found = award(judged(media("blend", "blend")), Component.MEDIA)
    assert (found.kind, found.winners) == (AwardKind.WINNER, ("a",))
    assert "exposed media area" in found.reason


@pytest.mark.parametrize("kinds", [("blend", "glass"), (None, "blend"), (None, None)])
def test_unlike_media_leave_the_area_out(kinds):
    found = award(judged(media(*kinds)), Component.MEDIA)
    assert found.kind is AwardKind.TIE
    assert "Exposed media area was left out of the comparison: the kind of media" in found.reason


def test_unlike_media_alone_are_not_judged():
    area = rules(*(e for e in SHIPPED.entries if e.subject == "exposed_area"))
    found = award(judged(media("blend", "glass"), area), Component.MEDIA)
    assert found.kind is AwardKind.NOT_JUDGED
    assert "cannot be compared" in found.reason


def test_scores_stand_though_the_comparison_does_not():
    alike, unlike = judged(media("blend", "blend")), judged(media("blend", "glass"))
    assert alike.scores == unlike.scores


def test_support_is_the_weakest_of_what_decided():
    strong = replace(WALL, support=Support.STANDARD)
    weak = replace(DENTS, support=Support.OPINION)
    walls = [number("can_wall", s, "mm", 0.001, i) for i, s in (("a", 0.4), ("b", 0.2))]
    dents = [word("dents", "none", "a"), word("dents", "none", "b")]
    by = rules(strong, weak)
    assert award(judged([*walls, *dents], by), Component.CAN).support is Support.STANDARD
    dents[1] = word("dents", "deep", "b")
    assert award(judged([*walls, *dents], by), Component.CAN).support is Support.OPINION


def test_estimate_cannot_win_a_close_call():
    threads = rules(piecewise("full_threads", (2, 0), (7, 10), meaningful=0.2), score=0.5)
    exact = [number("full_threads", n, "count", specimen=s) for s, n in (("a", 5), ("b", 4.5))]
    assert award(judged(exact, threads), Component.THREAD).kind is AwardKind.WINNER
    about = number("full_threads", 5, "count", low=4.5, high=5.5, state=State.ESTIMATE)
    found = award(judged([about, exact[1]], threads), Component.THREAD)
    assert found.kind is AwardKind.CANNOT_SEPARATE


def test_rubber_is_ranked_and_colour_is_no_proof():
    """Silicone over HNBR over nitrile (for heat); an untested coloured rubber has no rank."""
    findings = [
        word("adbv_material", kind, s)
        for s, kind in (("a", "nbr"), ("b", "vmq"), ("c", "hnbr"), ("d", "coloured_rubber"))
    ]
    verdict = judged(findings, specimens=first(4))
    found = award(verdict, Component.ADBV)
    assert (found.kind, found.winners, found.behind) == (AwardKind.WINNER, ("b",), ("a", "c"))
    assert verdict.score(Component.ADBV, "d").value is None


def test_unscored_differences_are_told_beside_a_tie():
    findings = [
        finding
        for s, kind in (("a", "metal"), ("b", "fibre"))
        for finding in (word("cap_bond", "sound", s), word("cap_kind", kind, s))
    ]
    found = award(judged(findings), Component.END_CAPS)
    assert found.kind is AwardKind.TIE
    assert "They differ in" in found.reason


def test_leads_that_go_round_in_a_ring_judge_nobody():
    """With values missing, each can be ahead of the next on what the two have in common."""
    by = rules(
        piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.02),
        piecewise("can_dome_wall", (0.2, 0), (0.4, 10), meaningful=0.02),
        DENTS,
        coverage=0.3,
        score=1.0,
    )
    findings = [
        number("can_wall", 0.38, "mm", 0.001, "a"),
        number("can_wall", 0.30, "mm", 0.001, "b"),
        number("can_dome_wall", 0.38, "mm", 0.001, "b"),
        number("can_dome_wall", 0.30, "mm", 0.001, "c"),
        word("dents", "none", "c"),
        word("dents", "deep", "a"),
    ]
    for order in permutations(first(3)):
        found = award(judged(findings, by, order), Component.CAN)
        assert found.kind is AwardKind.NOT_JUDGED
        assert (found.winners, found.behind) == ((), ())
        assert "clearly behind another" in found.reason


def test_level_ones_are_not_nought_apart():
    assert of_walls(0.30, 0.30).reason.startswith(
        "Less than 0.1 points of 10 lie between Alpha (5.0) and Bravo (5.0)"
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["a"], "a"),
        (["a", "b"], "a and b"),
        (["a", "b", "c"], "a, b and c"),
        (["a, b", "c"], "a, b; and c"),
        (["a, b", "c", "d"], "a, b; c; and d"),
        (["a, b"], "a, b"),
        ([], ""),
    ],
)
def test_comma_within_a_name_splits_no_list(words, said):
    assert listed(words) == said


def test_full_points_that_cannot_be_separated_say_why():
    """Beyond the last anchor more is worth no more, and the readings reach back below it."""
    wall = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.02)
    findings = [number("can_wall", size, "mm", 0.03, s) for s, size in (("a", 0.42), ("b", 0.43))]
    found = award(judged(findings, rules(wall, score=0.5)), Component.CAN)
    assert found.kind is AwardKind.CANNOT_SEPARATE
    assert (
        "In can wall thickness both have full points, because a little more or less changes "
        "nothing there; within what the readings leave open it does." in found.reason
    )


def test_level_points_on_a_flat_piece_say_why():
    band = piecewise("can_wall", (0.2, 0), (0.28, 5), (0.32, 5), (0.4, 10), meaningful=0.02)
    findings = [number("can_wall", size, "mm", 0.03, s) for s, size in (("a", 0.30), ("b", 0.31))]
    found = award(judged(findings, rules(band, score=0.5)), Component.CAN)
    assert "In can wall thickness both have the same points, because" in found.reason


def test_slope_needs_no_word_about_flatness():
    wall = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.02)
    findings = [number("can_wall", size, "mm", 0.03, s) for s, size in (("a", 0.30), ("b", 0.31))]
    found = award(judged(findings, rules(wall, score=0.5)), Component.CAN)
    assert found.kind is AwardKind.CANNOT_SEPARATE
    assert "changes nothing there" not in found.reason
