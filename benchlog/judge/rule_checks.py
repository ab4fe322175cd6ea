"""What makes a judging rule unsound, in plain words."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import TypeAlias

from benchlog.derive.figure import FigureKind
from benchlog.errors import OurFault
from benchlog.judge.rules import AttributeRule, Rules, ValueKind
from benchlog.judge.support import is_stronger
from benchlog.measure.units import same_dimension
from benchlog.trade.attribute import Attribute, Judged, Kind

UNRANKED = (Judged.DIFFERENT, Judged.IDENTITY, Judged.INPUT)
"""How subjects are judged that no rule may score."""

Fault: TypeAlias = "tuple[str, str] | None"
"""The field that is wrong and what is wrong in it."""


def fault_in_set(rules: Rules, subjects: Mapping[str, tuple[Attribute | FigureKind, ...]]) -> str:
    """Return the first fault of a whole set of rules in a sentence, "" when it is sound.

    `subjects` are all attributes and figures that rules may speak of, by key: several where kinds
    of filter keep one under another component, of which a rule need suit one only. Of each of
    their components a rule must speak.
    """
    if not rules.label.strip():
        return "The set of rules has no name."
    if not 0 < rules.smallest_coverage <= 1:
        return "The smallest coverage wants a share above 0, up to 1."
    if not 0 < rules.meaningful_score < 10:
        return "The meaningful difference of two scores wants points above 0 and below 10."
    seen: set[str] = set()
    for rule in rules.entries:
        meant = subjects.get(rule.subject, ())
        if not meant:
            return f"'{rule.subject}' is neither an attribute nor a figure."
        if rule.subject in seen:
            return f"{meant[0].label} has two rules."
        seen.add(rule.subject)
        faults = [fault_in(rule, subject) for subject in meant]
        if all(faults):
            field, what = faults[0] or ("", "")
            return f"{meant[0].label}, {field}: {what}."
    held = {rule.component for rule in rules.entries}
    known = (subject.component for meant in subjects.values() for subject in meant)
    forgotten = next((component for component in known if component not in held), None)
    return f"No rule speaks of the {forgotten}." if forgotten else ""


def fault_in(rule: AttributeRule, subject: Attribute | FigureKind) -> Fault:
    """Return the first fault of a rule about that subject, None when it is sound."""
    if rule.component != subject.component:
        return "component", f"belongs to the {subject.component}"
    if rule.kind is not ValueKind.NONE and subject.judged in UNRANKED:
        return "kind", f"is '{subject.judged}', which is never scored"
    if rule.kind is not ValueKind.NONE and isinstance(subject, FigureKind) and subject.bounded:
        return "kind", "is an estimate between bounds, which informs and is never scored"
    if is_stronger(rule.support, subject.support):
        return "support", f"claims more than '{subject.support}', which the subject itself has"
    return _fault_in_numbers(rule, subject) or _fault_in_values(rule, subject)


def _fault_in_numbers(rule: AttributeRule, subject: Attribute | FigureKind) -> Fault:
    scored = rule.kind is not ValueKind.NONE
    if rule.weight < 0 or scored != (rule.weight > 0):
        return "weight", "wants more than 0 where it is scored, and 0 where it is not"
    if rule.meaningful < 0:
        return "meaningful", "wants 0 or more"
    if not (math.isfinite(rule.weight) and math.isfinite(rule.meaningful)):
        return "weight or meaningful", "wants a number with an end"
    for field in ("reason", "source"):
        if not getattr(rule, field).strip():
            return field, "wants words"
    if not _alike(rule.unit, subject.unit):
        return "unit", f"'{rule.unit}' does not measure what '{subject.unit}' measures"
    return None


def _fault_in_values(rule: AttributeRule, subject: Attribute | FigureKind) -> Fault:
    """Check anchors and ranks, each of which belongs to its own kinds only."""
    piecewise = rule.kind is ValueKind.PIECEWISE
    ranked = rule.kind in (ValueKind.RANK, ValueKind.PRESENCE)
    if rule.anchors and not piecewise:
        return "anchors", f"do not belong to the kind '{rule.kind}'"
    if rule.ranks and not ranked:
        return "ranks", f"do not belong to the kind '{rule.kind}'"
    if piecewise:
        return _fault_in_anchors(rule, subject)
    return _fault_in_ranks(rule, subject) if ranked else None


def _fault_in_anchors(rule: AttributeRule, subject: Attribute | FigureKind) -> Fault:
    if isinstance(subject, Attribute) and not subject.is_number:
        return "kind", "is not a number"
    if len(rule.anchors) < 2:
        return "anchors", "wants two or more"
    if not all(left.at < right.at for left, right in pairwise(rule.anchors)):
        return "anchors", "wants places that ascend"
    if not all(math.isfinite(anchor.at) for anchor in rule.anchors):
        return "anchors", "wants places with an end"
    if not all(0 <= anchor.value <= 10 for anchor in rule.anchors):
        return "anchors", "wants worths from 0 to 10"
    return None


def _fault_in_ranks(rule: AttributeRule, subject: Attribute | FigureKind) -> Fault:
    known = _words(rule, subject)
    if not known:
        return "kind", "has no such words to rank"
    if len(rule.ranks) < 2:
        return "ranks", "wants two or more"
    for rank in rule.ranks:
        if rank.key not in known:
            return "ranks", f"'{rank.key}' is not one of: {', '.join(known)}"
        if not 0 <= rank.value <= 10:
            return "ranks", "wants worths from 0 to 10"
    return None


def _words(rule: AttributeRule, subject: Attribute | FigureKind) -> tuple[str, ...]:
    if not isinstance(subject, Attribute):
        return ()
    if rule.kind is ValueKind.PRESENCE:
        return ("yes", "no") if subject.kind is Kind.PRESENCE else ()
    return tuple(choice.key for choice in subject.choices)


def _alike(unit: str, other: str) -> bool:
    if not unit or not other:
        return unit == other
    try:
        return same_dimension(unit, other)
    except OurFault:  # the registry does not know a name that a person wrote into the file
        return False
