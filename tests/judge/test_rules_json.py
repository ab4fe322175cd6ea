"""Rules as JSON: the very same ones come back, and what is no set of rules is told in words."""

from __future__ import annotations

import json
from dataclasses import replace
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.judge.rules import Anchor, Rules, ValueKind
from benchlog.judge.rules_file import digest, load_rules
from benchlog.judge.rules_json import plain_rules, rules_as_json, rules_from, rules_from_json, sound
from benchlog.trade.component import Component
from tests import rules_strategies

SHIPPED = load_rules()


@given(rules_strategies.rules)
def test_json_gives_the_same_rules(rules: Rules) -> None:
    back = rules_from_json(rules_as_json(rules))
    assert back == rules
    assert digest(back) == digest(rules)
    assert rules_as_json(back) == rules_as_json(rules)


def test_shipped_rules_come_back_sound() -> None:
    assert sound(rules_from_json(rules_as_json(SHIPPED))) == SHIPPED


@given(rules_strategies.rules, rules_strategies.rules)
def test_digest_tells_rules_apart(one: Rules, other: Rules) -> None:
    in_order = [
        replace(
            rules,
            entries=tuple(
                replace(e, ranks=tuple(sorted(e.ranks, key=lambda r: r.key)))
                for e in sorted(rules.entries, key=lambda e: e.subject)
            ),
        )
        for rules in (one, other)
    ]
    assert (digest(one) == digest(other)) == (in_order[0] == in_order[1])


@given(rules_strategies.rules, st.randoms(use_true_random=False))
def test_order_in_a_file_changes_no_digest(rules: Rules, random) -> None:
    entries = [replace(e, ranks=tuple(random.sample(e.ranks, len(e.ranks)))) for e in rules.entries]
    random.shuffle(entries)
    assert digest(replace(rules, entries=tuple(entries))) == digest(rules)


SMALL_STEPS = [
    lambda rule: replace(rule, weight=rule.weight + 1e-12),
    lambda rule: replace(rule, meaningful=rule.meaningful + 1e-12),
    lambda rule: replace(rule, meaningful_is_share=not rule.meaningful_is_share),
    lambda rule: replace(rule, reason=f"{rule.reason} "),
    lambda rule: replace(rule, source=f"{rule.source}."),
    lambda rule: replace(rule, anchors=(*rule.anchors, Anchor(1e9, 10.0))),
    lambda rule: replace(rule, component=Component.O_RINGS),
    lambda rule: replace(rule, compared=False),
]


@pytest.mark.parametrize("step", SMALL_STEPS)
@pytest.mark.parametrize("place", [0, 7, len(SHIPPED.entries) - 1])
def test_any_step_of_a_rule_changes_the_digest(step, place: int) -> None:
    entries = list(SHIPPED.entries)
    entries[place] = step(entries[place])
    assert digest(replace(SHIPPED, entries=tuple(entries))) != digest(SHIPPED)


@pytest.mark.parametrize(
    "step",
    [
        {"key": "other"},
        {"label": "Other"},
        {"version": "99"},
        {"smallest_coverage": 0.51},
        {"meaningful_score": 0.51},
        {"entries": SHIPPED.entries[1:]},
    ],
    ids=lambda step: next(iter(step)),
)
def test_any_step_of_a_set_changes_the_digest(step: dict[str, object]) -> None:
    assert digest(replace(SHIPPED, **step)) != digest(SHIPPED)


def altered(**fields: object) -> dict[str, object]:
    """The shipped rules as plain values, one field of the first rule put otherwise."""
    plain = plain_rules(SHIPPED)
    return {**plain, "entries": [{**plain["entries"][0], **fields}, *plain["entries"][1:]]}


@pytest.mark.parametrize(
    ("plain", "told"),
    [
        ({}, "'key' is missing"),
        ([], "wants a table, not a list"),
        ({**plain_rules(SHIPPED), "label": 3}, "label: wants text, not a whole number"),
        (altered(kind="curve"), "not a known word: 'curve'"),
        (altered(weight="much"), "wants a number, not text"),
        (altered(component="roof"), "not a known word: 'roof'"),
        (altered(anchors=[{"at": 1}]), "'value' is missing"),
    ],
)
def test_what_is_no_set_is_told_in_words(plain: object, told: str) -> None:
    with pytest.raises(PlanRefused, match="cannot be read") as refusal:
        rules_from(plain)
    assert told in refusal.value.what
    assert refusal.value.do


def test_broken_text_is_told_in_words() -> None:
    with pytest.raises(PlanRefused, match="not sound JSON"):
        rules_from_json('{"key": ')
    with pytest.raises(PlanRefused, match="not sound JSON"):
        rules_from_json("[" * 100_000)


def test_number_without_end_is_not_written() -> None:
    with pytest.raises(PlanRefused, match="no end"):
        rules_as_json(replace(SHIPPED, meaningful_score=nan))


def test_text_is_canonical() -> None:
    text = rules_as_json(SHIPPED)
    again = json.dumps(json.loads(text), sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    assert text == again
    assert "\n" not in text


def with_first(kind: ValueKind, **fields: object) -> Rules:
    """The shipped rules, its first rule of that kind put otherwise."""
    place = next(n for n, rule in enumerate(SHIPPED.entries) if rule.kind is kind)
    entries = list(SHIPPED.entries)
    entries[place] = replace(entries[place], **fields)
    return replace(SHIPPED, entries=tuple(entries))


@pytest.mark.parametrize(
    ("rules", "told"),
    [
        (replace(SHIPPED, label=" "), "has no name"),
        (replace(SHIPPED, smallest_coverage=0), "smallest coverage wants"),
        (replace(SHIPPED, smallest_coverage=nan), "smallest coverage wants"),
        (replace(SHIPPED, meaningful_score=10), "two scores wants"),
        (with_first(ValueKind.RANK, weight=0.0), "weight: wants more than 0"),
        (with_first(ValueKind.RANK, weight=float("inf")), "a number with an end"),
        (with_first(ValueKind.NONE, meaningful=nan), "a number with an end"),
        (with_first(ValueKind.PIECEWISE, anchors=()), "anchors: wants two or more"),
        (
            with_first(
                ValueKind.PIECEWISE, anchors=(Anchor(float("-inf"), 0.0), Anchor(0.0, 10.0))
            ),
            "places with an end",
        ),
        (with_first(ValueKind.RANK, subject="halo"), "'halo' is neither an attribute nor"),
        (replace(SHIPPED, entries=(*SHIPPED.entries, SHIPPED.entries[0])), "has two rules"),
        (
            replace(
                SHIPPED,
                entries=tuple(e for e in SHIPPED.entries if e.component != Component.THREAD),
            ),
            "No rule speaks of the thread.",
        ),
    ],
)
def test_unsound_set_names_its_fault(rules: Rules, told: str) -> None:
    with pytest.raises(PlanRefused) as refusal:
        sound(rules)
    assert told in refusal.value.what
    assert refusal.value.field == "rules"
