"""Values that were taken unalike, or whose instrument failed, are never compared silently."""

from dataclasses import replace

import pytest

from benchlog.judge.differences import attribute_differences
from benchlog.judge.evidence import Evidence
from benchlog.judge.methods import doubt_in, unlike_methods
from benchlog.judge.verdict import AwardKind
from benchlog.judge.verdict_of import judge
from benchlog.trade.component import Component
from tests.derive.found import number
from tests.judge.bench_of import (
    SHIPPED,
    SPIN_ON,
    award,
    evidence,
    first,
    judged,
    keyed,
    piecewise,
    rules,
    worked_out,
)

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.02)
CAN = rules(WALL, score=1.0)


def walls(one, other):
    """Two walls far apart, with what each was taken with."""
    return [
        number("can_wall", 0.38, "mm", 0.001, "a", taken_with=one),
        number("can_wall", 0.25, "mm", 0.001, "b", taken_with=other),
    ]


def reason(one, other):
    return unlike_methods("can_wall", "a", "b", evidence(walls(one, other)))


@pytest.mark.parametrize(
    "taken_with", [(), ("",), ("calliper",), ("calliper", "micrometer"), ("", "calliper")]
)
def test_like_methods_are_compared(taken_with):
    assert reason(taken_with, taken_with) == ""


def test_nothing_named_is_like_nothing_named():
    assert reason((), ("",)) == ""


def test_unlike_methods_are_refused():
    assert reason(("calliper",), ("micrometer",)) == (
        "the can wall thickness was taken with a calliper for Alpha and a micrometer for Bravo"
    )


@pytest.mark.parametrize(
    ("one", "other", "names"), [(("calliper",), (), "AB"), (("",), ("calliper",), "BA")]
)
def test_one_method_unknown_is_refused(one, other, names):
    told, untold = ({"A": "Alpha", "B": "Bravo"}[n] for n in names)
    assert reason(one, other) == (
        f"the can wall thickness was taken with a calliper for {told}, and with what for {untold} "
        "is not recorded"
    )


def test_mix_is_like_the_same_mix_only():
    mixed = ("calliper", "micrometer")
    assert reason(mixed, ("calliper",)).endswith(
        "with a calliper and a micrometer for Alpha and a calliper for Bravo"
    )
    assert "something not recorded" in reason(("", "calliper"), ("calliper",))
    assert "another kind of instrument" in reason(("other",), ("calliper",))


def test_unlike_methods_win_nothing():
    assert award(judged(walls(("rule",), ("rule",)), CAN), Component.CAN).winners == ("a",)
    found = award(judged(walls(("rule",), ("tape",)), CAN), Component.CAN)
    assert found.kind is AwardKind.NOT_JUDGED
    assert "was left out of the comparison: the can wall thickness was taken with" in found.reason


def test_methods_never_move_a_score():
    assert judged(walls((), ()), CAN).scores == judged(walls(("rule",), ("tape",)), CAN).scores


def strips(length_with):
    """Two strips, the second's length taken with something else."""
    return [
        finding
        for s, kinds, length in (("a", ("tape",), 1500), ("b", length_with, 800))
        for finding in (
            number("media_length", length, "mm", 1.0, s, taken_with=kinds),
            number("media_width", 62, "mm", 0.1, s, taken_with=("calliper",)),
            number("media_hidden", 7, "mm", 0.1, s, taken_with=("calliper",)),
        )
    ]


def test_figures_inherit_the_methods_of_their_inputs():
    (figure,) = [f for k, f in worked_out(strips(("rule",)), first(2)).items()
                 if k == ("exposed_area", "b")]  # fmt: skip
    assert dict(figure.methods) == {
        "media_length": ("rule",), "media_width": ("calliper",), "media_hidden": ("calliper",)
    }  # fmt: skip


def test_figures_of_unlike_inputs_are_refused():
    alike, unlike = evidence(strips(("tape",))), evidence(strips(("rule",)))
    assert unlike_methods("exposed_area", "a", "b", alike) == ""
    found = unlike_methods("exposed_area", "a", "b", unlike)
    assert found.endswith("was taken with a tape for Alpha and a rule for Bravo")


def with_doubt(findings, *ids):
    bench = evidence(findings)
    return replace(bench, in_doubt=frozenset(ids))


def test_failed_check_puts_a_value_in_doubt():
    bench = with_doubt(walls(("calliper",), ("calliper",)), "can_wall-a")
    assert doubt_in("can_wall", "a", bench) == (
        "Alpha's reading is in doubt: the closing check of its calliper failed"
    )
    assert doubt_in("can_wall", "b", bench) == ""
    nameless = with_doubt(walls((), ()), "can_wall-b")
    assert doubt_in("can_wall", "b", nameless).endswith(
        "the closing check of its instrument failed"
    )
    odd = with_doubt(walls(("other",), ()), "can_wall-a")
    assert doubt_in("can_wall", "a", odd).endswith("the closing check of its instrument failed")


def test_doubt_passes_into_figures():
    bench = with_doubt(strips(("tape",)), "media_width-b")
    assert doubt_in("exposed_area", "b", bench).endswith("the closing check of its calliper failed")
    assert doubt_in("exposed_area", "a", bench) == ""


def test_reading_in_doubt_cannot_win():
    findings = walls(("calliper",), ("calliper",))
    specimens = first(2)
    figures = worked_out(findings, specimens)
    sure = judge(specimens, keyed(findings), figures, CAN, SPIN_ON)
    unsure = judge(specimens, keyed(findings), figures, CAN, SPIN_ON, frozenset({"can_wall-a"}))
    assert award(sure, Component.CAN).winners == ("a",)
    found = award(unsure, Component.CAN)
    assert found.kind is AwardKind.NOT_JUDGED
    assert "the closing check of its calliper failed" in found.reason
    assert sure.scores == unsure.scores


def test_listing_refuses_what_is_in_doubt():
    findings, specimens = walls(("rule",), ("rule",)), first(2)
    figures = worked_out(findings, specimens)
    doubtful = frozenset({"can_wall-b"})
    (standing,) = attribute_differences(specimens, keyed(findings), figures, CAN, SPIN_ON, doubtful)
    assert standing.clear == ()
    assert standing.pairs[0].refused.startswith("Bravo's reading is in doubt")


def test_shipped_rules_meet_evidence_without_doubt():
    bench = Evidence({}, {}, SPIN_ON, first(2))
    assert bench.in_doubt == frozenset()
    assert all(doubt_in(entry.subject, "a", bench) == "" for entry in SHIPPED.entries)
