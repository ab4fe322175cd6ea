"""Awards go to parts where several specimens of one stand in the line-up."""

from dataclasses import replace

import pytest

from benchlog.judge.comparisons import ring_of
from benchlog.judge.differences import attribute_differences, difference
from benchlog.judge.parties import origin_of, part_name, parties_of, within
from benchlog.judge.verdict import AwardKind
from benchlog.measure.state import State
from benchlog.trade.component import Component
from tests.derive.found import number, without, word
from tests.judge.bench_of import (
    SPIN_ON,
    award,
    evidence,
    first,
    judged,
    keyed,
    piecewise,
    ranked,
    rules,
    unscored,
)
from tests.judge.test_verdict_properties import NUMBERS

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.01)


def parts(*numbers, maker="Larkfield"):
    """So many specimens with these part numbers."""
    return tuple(
        replace(s, maker=maker, part_number=n)
        for s, n in zip(first(len(numbers)), numbers, strict=True)
    )


SIX = parts("LF-1", "LF-2", "LF-1", "LF-2", "LF-1", "LF-2")
"""Alpha, Charlie and Echo are one part; Bravo, Delta and Foxtrot another."""


def walls(*sizes, u=0.001):
    return [number("can_wall", x, "mm", u, s.id) for x, s in zip(sizes, first(6), strict=False)]


def can(findings, specimens=SIX, by=None):
    return award(judged(findings, by or rules(WALL), specimens), Component.CAN)


APART = walls(0.40, 0.30, 0.39, 0.31, 0.38, 0.29)


def test_same_maker_and_number_is_one_part():
    assert parties_of(SIX) == (("a", "c", "e"), ("b", "d", "f"))
    written = parts(" lf-1", "LF-2", "LF-1 ")
    assert parties_of(written) == (("a", "c"), ("b",))


def test_same_number_of_another_maker_is_another():
    one, other = parts("LF-1", "LF-1")
    assert parties_of((one, replace(other, maker="Quarry"))) == (("a",), ("b",))


@pytest.mark.parametrize(("maker", "part"), [("Larkfield", " "), ("", "LF-1"), ("", "")])
def test_blank_says_nothing(maker, part):
    blank = parts(part, part, "LF-2", maker=maker)
    assert parties_of(blank) == (("a",), ("b",), ("c",))


def test_one_part_alone_is_compared_piece_by_piece():
    assert parties_of(parts("LF-1", "LF-1", "LF-1")) == (("a",), ("b",), ("c",))


def test_party_keeps_who_stands():
    assert within((("a", "c"), ("b",)), ("c", "a")) == (("a", "c"),)


def from_where(*origins, number="LF-1"):
    """As many specimens of one part number, as the cans say from there."""
    several = parts(*[number] * len(origins))
    return tuple(replace(s, origin_can=o) for s, o in zip(several, origins, strict=True))


def test_same_number_from_elsewhere_is_another():
    three = from_where("Poland", "Norway", " made in poland")
    assert parties_of(three) == (("a", "c"), ("b",))
    assert part_name(("a", "c"), three) == "these two Larkfield LF-1 parts from Poland"


@pytest.mark.parametrize("silent", ["", "not marked", " Unknown "])
def test_unknown_origin_is_not_a_known_one(silent):
    four = from_where("Poland", silent, "", "Poland")
    assert parties_of(four) == (("a", "d"), ("b", "c"))
    assert part_name(("b", "c"), four) == "these two Larkfield LF-1 parts of unknown origin"


def test_can_speaks_before_box_and_guess():
    said = from_where("not marked", "")[0]
    assert origin_of(replace(said, origin_inferred="Norway")) == "Norway"
    boxed = replace(said, origin_box="Poland", origin_inferred="Norway")
    assert origin_of(boxed) == "Poland"
    assert origin_of(replace(boxed, origin_can="Spain")) == "Spain"
    assert origin_of(said) == ""


def test_lot_makes_no_other_part():
    one, other, third = from_where("Poland", "Poland", "Norway")
    lots = (replace(one, lot="1"), replace(other, lot="2"), third)
    assert parties_of(lots) == (("a", "b"), ("c",))


def test_part_is_called_by_count_maker_and_number():
    assert part_name(("a", "c", "e"), SIX) == "these three Larkfield LF-1 parts"


def test_part_wins_with_all_its_specimens():
    found = can(APART)
    assert found.kind is AwardKind.WINNER
    assert found.winners == ("a", "c", "e")
    assert found.behind == ("b", "d", "f")
    assert found.reason.startswith(
        "These three Larkfield LF-1 parts are ahead of these three Larkfield LF-2 parts by 4.5 "
        "points of 10 (9.5 against 5.0)"
    )
    assert "(Alpha, Charlie and Echo; n = 3)" in found.reason
    assert "Bravo" in found.reason
    assert found.reason.count("as sure as the scatter within each leaves them") == 1
    assert found.would_change.endswith(
        "points more for these three Larkfield LF-2 parts would make these three Larkfield LF-1 "
        "parts and these three Larkfield LF-2 parts too close to call."
    )


def test_level_is_that_of_the_parts():
    assert can(APART).judged_by.startswith("Level: 5 % for the one pair")


def test_scatter_between_specimens_holds_a_win_back():
    """The same means, and readings as sure, but specimens that lie far apart."""
    wide = walls(0.44, 0.38, 0.39, 0.22, 0.34, 0.30)
    found = can(wide)
    assert found.kind is AwardKind.CANNOT_SEPARATE
    assert not found.winners
    assert found.would_change.startswith("More specimens of the part, or surer readings")
    singles = can(wide, parts(*"123456"))
    assert singles.kind is not AwardKind.CANNOT_SEPARATE


def test_alike_parts_tie_with_all_specimens():
    found = can(walls(0.30, 0.30, 0.301, 0.301, 0.299, 0.299))
    assert found.kind is AwardKind.TIE
    assert found.winners == ("a", "c", "e", "b", "d", "f")


def test_single_beside_a_part_stands_for_itself():
    mixed = parts("LF-1", "LF-2", "LF-1")
    found = can(walls(0.30, 0.40, 0.31), mixed)
    assert found.winners == ("b",)
    assert found.reason.startswith("Bravo is ahead of these two Larkfield LF-1 parts by")
    assert found.reason.endswith("Bravo (n = 1) stands for itself alone.")


def test_specimen_without_values_leaves_its_part_smaller():
    missing = [*walls(0.40, 0.30, 0.39, 0.31), without("can_wall", State.SPOILED, "e")]
    found = can([*missing, number("can_wall", 0.29, "mm", 0.001, "f")])
    assert found.winners == ("a", "c")
    assert "These two Larkfield LF-1 parts (Alpha and Charlie; n = 2)" in found.reason
    assert "Not judged for want of values: Echo." in found.reason


def test_no_score_moves_for_company():
    alone = judged(APART, rules(WALL), parts(*"123456")).scores
    assert judged(APART, rules(WALL), SIX).scores == alone


def test_value_lacking_in_one_leaves_the_comparison():
    dents = ranked("dents", none=10, light=5, deep=0)
    words = [word("dents", "none" if s.id in "ace" else "deep", s.id) for s in first(5)]
    bench = evidence([*APART, *words], SIX)
    ring = ring_of(Component.CAN, tuple("abcdef"), rules(WALL, dents), bench)
    assert [entry.subject for entry in ring.pairs[0].basis] == ["can_wall"]


def test_difference_is_that_of_the_means():
    found = difference(WALL, "c", "b", evidence(APART, SIX))
    assert found.gap == pytest.approx(0.09)
    # Two scatters of 0.01 between three specimens each: t of 4 degrees of freedom, 2.776.
    assert found.expanded == pytest.approx(2.7764 * 0.01 * (2 / 3) ** 0.5, rel=1e-4)
    assert found.differs


def test_words_differ_when_none_is_shared():
    kind = unscored("spring_kind")
    coil = [word("spring_kind", "coil", s) for s in "ace"]
    leaf = [word("spring_kind", "leaf", s) for s in "bdf"]
    mixed = [word("spring_kind", "leaf", s) for s in "bd"] + [word("spring_kind", "coil", "f")]
    assert difference(kind, "a", "b", evidence([*coil, *leaf], SIX)).differs
    assert not difference(kind, "a", "b", evidence([*coil, *mixed], SIX)).differs


def test_same_part_is_never_set_against_itself():
    assert difference(WALL, "a", "e", evidence(APART, SIX)).refused == "both are the same part"


def test_standing_is_clear_for_the_whole_part():
    (found,) = attribute_differences(SIX, keyed(APART), {}, rules(WALL), SPIN_ON)
    assert len(found.pairs) == 1
    assert found.clear == ("a", "c", "e", "b", "d", "f")


def test_unlike_readings_within_a_part_are_not_compared():
    doubted = evidence(APART, SIX)
    doubted = replace(doubted, in_doubt=frozenset({"can_wall-e"}))
    assert "in doubt" in difference(WALL, "a", "b", doubted).refused


def test_distinct_part_numbers_change_nothing():
    """Six specimens of six parts are judged word for word as six without any part number."""
    found = [
        number(key, low + (n + 1) * (high - low) / 8, unit, 0.02 * (high - low), s.id)
        for key, (unit, low, high, _) in NUMBERS.items()
        for n, s in enumerate(first(6))
    ]
    assert judged(found, specimens=parts(*"123456")) == judged(found, specimens=first(6))
