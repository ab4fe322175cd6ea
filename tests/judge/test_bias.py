"""Whether past awards lean is told with its interval, or that there are too few to say."""

import random
from dataclasses import replace

import pytest

from benchlog.judge.bias import (
    EACH,
    FAMILY,
    FEWEST,
    LIMITS,
    PastAward,
    PastLineup,
    PastSpecimen,
    bias_check,
)  # fmt: skip
from benchlog.judge.proportions import wilson

FIRST = PastSpecimen("a", given=True, first=True)
LAST = PastSpecimen("b", given=False, last=True)
TO_FIRST = PastAward(("a",), ("b",))
TO_LAST = PastAward(("b",), ("a",))
NOBODY = PastAward((), ())


def lineup(*awards, specimens=(FIRST, LAST), name="l"):
    return PastLineup(name, specimens, awards)


def lean(check, key):
    (found,) = [one for one in check.leans if one.key == key]
    return found


def test_rates_and_gap_are_those_of_the_awards():
    past = [lineup(TO_FIRST, TO_FIRST, TO_LAST, NOBODY)] * 6 + [lineup(TO_LAST)] * 6
    found = lean(bias_check(past), "given")
    assert found.one.share == wilson((6 * 2 / 3) / 12, 12)
    assert found.other.share.value == pytest.approx(1 - found.one.share.value)
    assert found.gap.value == pytest.approx(2 * found.one.share.value - 1)
    assert found.gap.cases == 12


def test_strong_lean_is_told():
    check = bias_check([lineup(TO_FIRST, TO_FIRST)] * 15)
    found = lean(check, "given")
    assert found.leans
    assert found.sentence.startswith("Awards lean: given won ")
    assert found.sentence.endswith("than bought. Over 15 line-ups in which both stood.")
    assert lean(check, "order").leans


def test_lean_the_other_way_names_the_other():
    found = lean(bias_check([lineup(TO_LAST)] * 15), "order")
    assert found.gap.high < 0
    assert "last won" in found.sentence


def test_even_awards_do_not_lean():
    found = lean(bias_check([lineup(TO_FIRST, TO_LAST)] * 15), "given")
    assert not found.leans
    assert found.sentence.startswith("No lean is seen: the difference may be −")


@pytest.mark.parametrize(("count", "enough"), [(FEWEST - 1, False), (FEWEST, True)])
def test_too_few_say_nothing(count, enough):
    found = lean(bias_check([lineup(TO_FIRST)] * count), "given")
    assert found.enough is enough
    assert found.sentence.startswith("Too few to say") is not enough
    assert found.leans is enough


def test_empty_shelf_is_too_few():
    check = bias_check([])
    assert check.lineups == 0
    assert all(one.gap is None and not one.enough for one in check.leans)
    assert check.limits == f"{FAMILY} {LIMITS}"


def test_undecided_awards_count_for_nobody():
    check = bias_check([lineup(NOBODY)] * 20)
    assert check.lineups == 0
    assert lean(check, "given").one.share is None


def test_joint_win_is_a_win_of_each():
    third = PastSpecimen("c", given=False)
    joint = PastAward(("a", "b"), ("c",))
    found = lean(bias_check([lineup(joint, specimens=(FIRST, LAST, third))] * 10), "given")
    assert found.one.share.value == 1
    assert found.other.share.value == pytest.approx(0.5)
    assert found.gap.value == pytest.approx(0.5)


def test_lineup_with_one_side_only_is_no_pair():
    bought = replace(FIRST, given=False)
    found = lean(bias_check([lineup(TO_FIRST, specimens=(bought, LAST))] * 12), "given")
    assert found.one.share is None
    assert found.other.share.cases == 24
    assert found.gap is None


def test_balanced_order_has_no_first():
    plain = (replace(FIRST, first=False), replace(LAST, last=False))
    found = lean(bias_check([lineup(TO_FIRST, specimens=plain)] * 12), "order")
    assert found.one.share is None
    assert found.other.share is None


def test_blind_and_open_are_told_apart():
    blind = [lineup(replace(NOBODY, blind=True), replace(TO_FIRST, blind=True))] * 12
    seen = [lineup(replace(TO_FIRST, blind=False))] * 12
    found = lean(bias_check([*blind, *seen, lineup(TO_FIRST)]), "blind")
    assert (found.one.share.value, found.other.share.value) == (0.5, 1.0)
    assert found.leans
    assert "open eyes found" in found.sentence


def fair_shelf(chance):
    """Twenty line-ups won by lot, each alike in all its awards, half of them judged blind."""
    past = []
    for n in range(20):
        # Given and first fall on either side by lot, so that the comparisons are three.
        given, first = chance.random() < 0.5, chance.random() < 0.5
        one = PastSpecimen("a", given=given, first=first, last=not first)
        other = PastSpecimen("b", given=not given, first=not first, last=first)
        award = TO_FIRST if chance.random() < 0.5 else TO_LAST
        eye = PastAward(*((("a",), ("b",)) if chance.random() < 0.5 else ((), ())), blind=n % 2 > 0)
        past.append(lineup(*[award] * 5, eye, specimens=(one, other)))
    return past


def test_fair_shelves_seldom_lean_anywhere():
    """Over simulated shelves, one of three comparisons or more leans at the family's level."""
    chance = random.Random(5)
    leant = sum(any(one.leans for one in bias_check(fair_shelf(chance)).leans) for _ in range(400))
    assert leant / 400 <= 0.05 + 2 * (0.05 * 0.95 / 400) ** 0.5


def test_level_of_each_is_shared_out():
    """Three at a third of 5 % each: 98.33 %, and the normal factor of that is 2.394."""
    assert pytest.approx(1 - 0.05 / 3) == EACH
    found = lean(bias_check([lineup(TO_FIRST, TO_LAST, TO_FIRST)] * 30), "given")
    mean, n, z = (1 / 3 + 1) / 2, 30, 2.39398
    half = z / (1 + z**2 / n) * (mean * (1 - mean) / n + z**2 / (4 * n**2)) ** 0.5
    assert (found.gap.high - found.gap.low) / 2 == pytest.approx(2 * half, rel=1e-4)
    assert found.one.share == wilson(2 / 3, 30)
    assert "Bonferroni" in found.method


def test_what_the_level_means_is_said():
    check = bias_check([lineup(TO_FIRST)])
    assert check.limits.startswith("3 comparisons are made, so each difference has an interval for")
    assert "98.3 %" in check.limits
    assert "5 of 100 shelves (Bonferroni)" in check.limits
