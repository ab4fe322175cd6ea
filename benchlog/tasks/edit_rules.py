"""Edit a set of rules: each verb takes one and returns another, so that any step can be undone.

A verb checks what it is told against the subject it is about and raises PlanRefused, naming the
field; a set that a verb returns is as sound as the one it was given.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from benchlog.errors import EntryRefused, PlanRefused
from benchlog.judge.rule_checks import fault_in
from benchlog.judge.rules import Anchor, AttributeRule, RankValue, Rules, ValueKind
from benchlog.judge.rules_changes import number_text, subject_label
from benchlog.judge.rules_file import Subject, every_subject
from benchlog.measure.entry import parse_entry
from benchlog.measure.units import convert, dimension_of, unit_symbol
from benchlog.trade.attribute import Attribute


def rule_about(rules: Rules, subject: str) -> AttributeRule:
    """Return the rule about a subject; raises PlanRefused when there is none."""
    for rule in rules.entries:
        if rule.subject == subject:
            return rule
    raise PlanRefused(
        f"These rules say nothing of {subject_label(subject)}.", "Choose one that they speak of."
    )


def set_weight(rules: Rules, subject: str, text: str) -> Rules:
    """Weigh a scored subject within its component; a bare number above 0."""
    return _with(rules, replace(rule_about(rules, subject), weight=_number(text, "weight")))


def set_meaningful(rules: Rules, subject: str, text: str) -> Rules:
    """Say what difference is meaningful: "0.05 mm", "2 thou", "5 %".

    A bare number is in the rule's unit. A percentage is a share of the smaller value, except for
    a subject that is itself a ratio: there it is the difference of two ratios.
    """
    rule = rule_about(rules, subject)
    _needs_text(text, "meaningful")
    dimension = _dimension(rule)
    share = "%" in text and dimension != "ratio"
    try:
        said = parse_entry(text, "percent" if share else rule.unit, "ratio" if share else dimension)
    except EntryRefused as fault:
        raise PlanRefused(fault.what, fault.do, field="meaningful") from fault
    if said.low is not None or said.approximate:
        raise PlanRefused("A limit is one plain number.", "Type it alone.", field="meaningful")
    if share:
        value = float(said.value / 100) if said.unit == "percent" else float(said.value)
    else:
        value = convert(float(said.value), said.unit, rule.unit) if rule.unit else float(said.value)
    return _with(rules, replace(rule, meaningful=value, meaningful_is_share=share))


def set_anchors(rules: Rules, subject: str, pairs: Iterable[tuple[str, str]]) -> Rules:
    """Set the corners of a value function: pairs of a value, with its unit if need be, and worth.

    They may come in any order; between them the worth runs straight, outside it is flat.
    """
    rule = rule_about(rules, subject)
    anchors = (Anchor(_in_unit(at, rule), _number(worth, "anchors")) for at, worth in pairs)
    return _with(rules, replace(rule, anchors=tuple(sorted(anchors, key=lambda one: one.at))))


def set_worths(rules: Rules, subject: str, worths: Mapping[str, str]) -> Rules:
    """Set what each word is worth, 0 to 10, by its key; one with an empty text has no worth."""
    rule = rule_about(rules, subject)
    ranks = tuple(
        RankValue(key, _number(text, "ranks")) for key, text in worths.items() if text.strip()
    )
    return _with(rules, replace(rule, ranks=ranks))


def compare(rules: Rules, subject: str, *, wanted: bool) -> Rules:
    """Let a subject be compared or not; one that is not has no gap, and no part in any outcome.

    What it weighs and is worth waits, for when it is compared again.
    """
    return _with(rules, replace(rule_about(rules, subject), compared=wanted))


def leave_out(rules: Rules, subject: str) -> Rules:
    """Let a subject count no longer: it is compared and shown, and never scored."""
    rule = rule_about(rules, subject)
    return _with(rules, replace(rule, kind=ValueKind.NONE, weight=0.0, anchors=(), ranks=()))


def count(rules: Rules, subject: str, like: Rules) -> Rules:
    """Let a subject count again as it does in another set, the shipped one or an earlier draft."""
    model = rule_about(like, subject)
    if model.kind is ValueKind.NONE:
        raise PlanRefused(
            f"{subject_label(subject)} is not scored in “{like.label}” either.",
            "Take a set in which it counts.",
            field="kind",
        )
    rule = rule_about(rules, subject)
    model = replace(model, compared=True)  # what counts is compared
    kept = replace(model, meaningful=rule.meaningful, meaningful_is_share=rule.meaningful_is_share)
    return _with(rules, kept if kept.unit == rule.unit else model)


def set_smallest_coverage(rules: Rules, text: str) -> Rules:
    """Set below what share of a component's weight there is no score: "50 %" or "0.5"."""
    try:
        said = parse_entry(text, "percent", "ratio")
    except EntryRefused as fault:
        raise PlanRefused(fault.what, fault.do, field="smallest_coverage") from fault
    share = convert(float(said.value), said.unit, "dimensionless")
    if said.low is not None or not 0 < share <= 1:
        raise PlanRefused(
            f"'{text.strip()}' is no share between 0 and 100 %.",
            "Type for example 50 %.",
            field="smallest_coverage",
        )
    return replace(rules, smallest_coverage=share)


def set_meaningful_score(rules: Rules, text: str) -> Rules:
    """Set how many points two scores must lie apart to make a winner."""
    points = _number(text, "meaningful_score")
    if not 0 < points < 10:
        raise PlanRefused(
            f"'{text.strip()}' is no number of points between 0 and 10.",
            "Type for example 0.5.",
            field="meaningful_score",
        )
    return replace(rules, meaningful_score=points)


def anchor_texts(rule: AttributeRule) -> tuple[tuple[str, str], ...]:
    """Return the corners of a rule as they may be typed again."""
    symbol = unit_symbol(rule.unit) if rule.unit else ""
    return tuple(
        (f"{number_text(one.at)} {symbol}".strip(), number_text(one.value)) for one in rule.anchors
    )


def _with(rules: Rules, rule: AttributeRule) -> Rules:
    """Return the set with one rule in place of that of its subject, when that rule is sound."""
    meant: tuple[Subject, ...] = every_subject().get(rule.subject, ())
    faults = [fault_in(rule, subject) for subject in meant]
    if meant and all(faults):
        field, what = faults[0] or ("", "")
        raise PlanRefused(
            f"{subject_label(rule.subject)}, {field}: {what}.", "Nothing was changed.", field=field
        )
    entries = tuple(rule if old.subject == rule.subject else old for old in rules.entries)
    return replace(rules, entries=entries)


def _dimension(rule: AttributeRule) -> str:
    """Return the plain word for what a rule's limits measure; points of hardness are no ratio."""
    for subject in every_subject().get(rule.subject, ()):
        if isinstance(subject, Attribute) and subject.dimension:
            return subject.dimension
    return dimension_of(rule.unit) if rule.unit else "ratio"


def _in_unit(text: str, rule: AttributeRule) -> float:
    _needs_text(text, "anchors")
    try:
        said = parse_entry(text, rule.unit, _dimension(rule))
    except EntryRefused as fault:
        raise PlanRefused(fault.what, fault.do, field="anchors") from fault
    if said.low is not None or said.approximate:
        raise PlanRefused("A corner is one plain number.", "Type it alone.", field="anchors")
    return convert(float(said.value), said.unit, rule.unit) if rule.unit else float(said.value)


def _number(text: str, field: str) -> float:
    """Return a bare number, as weights, worths and points are."""
    _needs_text(text, field)
    try:
        said = parse_entry(text, "count", "count")
    except EntryRefused as fault:
        raise PlanRefused(fault.what, "Type a bare number, such as 2.5.", field=field) from fault
    if said.low is not None or said.approximate:
        raise PlanRefused("One plain number is wanted.", "Type it alone.", field=field)
    return float(said.value)


def _needs_text(text: str, field: str) -> None:
    if not text.strip():
        raise PlanRefused("Nothing was typed.", "Type a number.", field=field)
