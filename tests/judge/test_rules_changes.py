"""What differs between two sets of rules, said in words and made again."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from benchlog.judge.rules import Anchor, AttributeRule, RankValue, Rules, ValueKind
from benchlog.judge.rules_changes import (
    changes_between,
    meaningful_text,
    number_text,
    with_changes,
)
from benchlog.judge.rules_file import digest, load_rules
from benchlog.trade.attribute import Support
from tests import rules_strategies

SHIPPED = load_rules()


def other(subject: str, **fields: object) -> Rules:
    """The shipped rules with one rule put otherwise."""
    entries = tuple(replace(e, **fields) if e.subject == subject else e for e in SHIPPED.entries)
    return replace(SHIPPED, entries=entries)


def told(new: Rules, old: Rules = SHIPPED) -> list[str]:
    return [change.sentence for change in changes_between(old, new)]


@given(rules_strategies.rules)
def test_same_rules_have_no_changes(rules: Rules) -> None:
    assert changes_between(rules, rules) == ()


@given(rules_strategies.rules, rules_strategies.rules)
def test_changes_are_told_when_digests_differ(old: Rules, new: Rules) -> None:
    changes = changes_between(old, new)
    assert bool(changes) == (digest(old) != digest(new))
    assert all(change.words and change.sentence for change in changes)


@given(rules_strategies.rules, rules_strategies.rules)
def test_applied_changes_give_the_new_rules(old: Rules, new: Rules) -> None:
    assert digest(with_changes(old, changes_between(old, new))) == digest(new)
    assert digest(with_changes(new, changes_between(new, old))) == digest(old)


def test_changed_rule_is_told_in_words() -> None:
    assert told(other("tube_closed_louvres", weight=3.0, meaningful=2.0)) == [
        "Closed louvres: weight 2 → 3; meaningful difference 1 → 2"
    ]
    assert told(other("whole_mass", meaningful=0.08)) == [
        "Weight, dry, as received / Whole weight, as received: "
        "meaningful difference 5 % of the value → 8 % of the value"
    ]


def test_left_out_subject_counts_no_longer() -> None:
    gone = other("tube_closed_louvres", kind=ValueKind.NONE, weight=0.0, anchors=())
    assert told(gone) == ["Closed louvres: no longer counts (weight was 2)"]
    back = told(SHIPPED, gone)
    assert back == ["Closed louvres: counts now, weight 2; anchors none → 0: 10, 1: 7, 5: 0"]


def test_new_anchors_and_worths_are_told() -> None:
    anchors = (Anchor(0.3, 2.0), Anchor(1.0, 10.0))
    assert told(other("tube_to_outlet", anchors=anchors))[0].endswith(
        "anchors 0.4: 2, 1: 10 → 0.3: 2, 1: 10"
    )
    ranks = (RankValue("yes", 10.0), RankValue("no", 4.0))
    assert told(other("sealed", ranks=ranks))[0].endswith("worths yes 10, no 6 → yes 10, no 4")


def test_order_of_worths_is_no_change() -> None:
    rule = next(e for e in SHIPPED.entries if e.subject == "sealed")
    assert told(other("sealed", ranks=rule.ranks[::-1])) == []


def test_reworded_rule_is_told() -> None:
    sentences = told(other("whole_mass", reason="Because.", support=Support.OPINION))
    assert len(sentences) == 1
    assert "reason “" in sentences[0]
    assert "→ “Because.”" in sentences[0]


def test_rules_that_come_and_go_are_told() -> None:
    fewer = replace(SHIPPED, entries=SHIPPED.entries[1:])
    first = SHIPPED.entries[0]
    assert "the rule was taken out, weight" in told(fewer)[0]
    assert "a new rule, weight" in told(SHIPPED, fewer)[0]
    assert changes_between(SHIPPED, fewer)[0].old == first


def test_numbers_of_the_set_are_told() -> None:
    new = replace(SHIPPED, smallest_coverage=0.6, meaningful_score=1.0, version="9")
    assert told(new) == [
        f"The set of rules: version “{SHIPPED.version}” → “9”; smallest coverage 50 % → 60 %;"
        " meaningful difference of two scores 0.5 → 1 points"
    ]


def test_unknown_subject_goes_by_its_key() -> None:
    strange = AttributeRule(
        "old_thing", SHIPPED.entries[0].component, ValueKind.NONE, 0.0, Support.OPINION, "s", "r",
        unit="furlongs of tin", meaningful=2.0,
    )  # fmt: skip
    new = replace(SHIPPED, entries=(*SHIPPED.entries, strange))
    assert told(new) == ["Old thing: a new rule, compared and never scored"]
    assert meaningful_text(strange) == "2 furlongs of tin"


@pytest.mark.parametrize(
    ("value", "times", "text"),
    [
        (0.07, 100, "7"),
        (3.0, 1, "3"),
        (100.0, 1, "100"),
        (-0.0, 1, "0"),
        (0.05, 1, "0.05"),
        (1e22, 1, "1E+22"),
        (0.1 + 0.2, 1, "0.30000000000000004"),
    ],
)
def test_number_keeps_every_digit(value: float, times: int, text: str) -> None:
    assert number_text(value, times) == text
