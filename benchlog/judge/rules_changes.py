"""What differs between two sets of rules, in words that viewers can read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from benchlog.errors import OurFault
from benchlog.judge.rules import AttributeRule, Rules, ValueKind
from benchlog.judge.rules_file import every_subject
from benchlog.measure.units import unit_symbol


@dataclass(frozen=True)
class RuleChange:
    """What changed in one rule, or in the set's own numbers and name when `subject` is "".

    `old` is None for a rule that came in and `new` for one that went; of the set itself both are
    the set without its rules.
    """

    subject: str
    label: str
    words: tuple[str, ...]
    old: AttributeRule | Rules | None
    new: AttributeRule | Rules | None

    @property
    def sentence(self) -> str:
        """Return the change as one line: "Can wall: weight 3 → 2; reason reworded"."""
        return f"{self.label}: {'; '.join(self.words)}"


def changes_between(old: Rules, new: Rules) -> tuple[RuleChange, ...]:
    """Return every difference, the set's own first, then rule by rule; empty for equal digests."""
    found = []
    bare, fresh = replace(old, entries=()), replace(new, entries=())
    if bare != fresh:
        found.append(RuleChange("", "The set of rules", _of_set(bare, fresh), bare, fresh))
    before = {rule.subject: rule for rule in old.entries}
    after = {rule.subject: rule for rule in new.entries}
    for subject in (*before, *(s for s in after if s not in before)):
        words = _of_rule(before.get(subject), after.get(subject))
        if words:
            one = (before.get(subject), after.get(subject))
            found.append(RuleChange(subject, subject_label(subject), words, *one))
    return tuple(found)


def with_changes(rules: Rules, changes: Iterable[RuleChange]) -> Rules:
    """Return rules with some changes made in them; what is not spoken of stays as it is."""
    entries = {rule.subject: rule for rule in rules.entries}
    for change in changes:
        if isinstance(change.new, Rules):
            rules = replace(change.new, entries=rules.entries)
        elif change.new is None:
            entries.pop(change.subject, None)
        else:
            entries[change.subject] = change.new
    return replace(rules, entries=tuple(entries.values()))


def subject_label(subject: str) -> str:
    """Return what an attribute or figure is called, in each kind of filter where that differs.

    One that is asked no longer goes by its key.
    """
    labels = dict.fromkeys(meant.label for meant in every_subject().get(subject, ()))
    return " / ".join(labels) or subject.replace("_", " ").capitalize()


def meaningful_text(rule: AttributeRule) -> str:
    """Return the meaningful difference as it is printed: "5 % of the value", "0.05 mm"."""
    if rule.meaningful_is_share:
        return f"{number_text(rule.meaningful, 100)} % of the value"
    return f"{number_text(rule.meaningful)} {_symbol(rule.unit)}".strip()


def number_text(value: float, times: int = 1) -> str:
    """Return a number with the fewest digits that tell it from every other: 3, 0.05, 1e+22."""
    number = (Decimal(repr(float(value))) * times).normalize() or Decimal(0)
    return f"{number:f}" if -9 <= number.adjusted() < 15 else str(number)


def _of_set(old: Rules, new: Rules) -> tuple[str, ...]:
    found = [
        f"{name} “{getattr(old, field)}” → “{getattr(new, field)}”"
        for field, name in (("key", "key"), ("label", "name"), ("version", "version"))
        if getattr(old, field) != getattr(new, field)
    ]
    if old.smallest_coverage != new.smallest_coverage:
        was, now = (number_text(one.smallest_coverage, 100) for one in (old, new))
        found.append(f"smallest coverage {was} % → {now} %")
    if old.meaningful_score != new.meaningful_score:
        was, now = (number_text(one.meaningful_score) for one in (old, new))
        found.append(f"meaningful difference of two scores {was} → {now} points")
    return tuple(found)


def _of_rule(old: AttributeRule | None, new: AttributeRule | None) -> tuple[str, ...]:
    """Return what changed in one rule, none when the two are the same rule."""
    if old is None or new is None:
        rule = old or new
        assert rule is not None
        scored = rule.kind is not ValueKind.NONE
        what = f"weight {number_text(rule.weight)}" if scored else "compared and never scored"
        what = what if rule.compared else "not compared"
        return (f"a new rule, {what}" if old is None else f"the rule was taken out, {what}",)
    if _ranked(old) == _ranked(new):
        return ()
    return (*_switched(old, new), *_worth(old, new), *_limits(old, new), *_plain_fields(old, new))


def _switched(old: AttributeRule, new: AttributeRule) -> list[str]:
    if old.compared == new.compared:
        return []
    return ["compared again" if new.compared else "no longer compared"]


def _worth(old: AttributeRule, new: AttributeRule) -> list[str]:
    """Say how the way from a value to points changed, and the weight."""
    if old.kind is not ValueKind.NONE and new.kind is ValueKind.NONE:
        return [f"no longer counts (weight was {number_text(old.weight)})"]
    found = []
    if old.kind is ValueKind.NONE and new.kind is not ValueKind.NONE:
        found.append(f"counts now, weight {number_text(new.weight)}")
    elif old.weight != new.weight:
        found.append(f"weight {number_text(old.weight)} → {number_text(new.weight)}")
    if old.kind is not new.kind and old.kind is not ValueKind.NONE:
        found.append(f"kind of value function {old.kind} → {new.kind}")
    if old.anchors != new.anchors:
        found.append(f"anchors {_anchors(old)} → {_anchors(new)}")
    if _ranked(old).ranks != _ranked(new).ranks:
        found.append(f"worths {_ranks(old)} → {_ranks(new)}")
    return found


def _limits(old: AttributeRule, new: AttributeRule) -> list[str]:
    before, after = ((one.meaningful, one.meaningful_is_share, one.unit) for one in (old, new))
    if before == after:
        return []
    if before[:2] == after[:2]:
        return [f"unit “{old.unit}” → “{new.unit}”"]
    return [f"meaningful difference {meaningful_text(old)} → {meaningful_text(new)}"]


def _plain_fields(old: AttributeRule, new: AttributeRule) -> list[str]:
    found = [
        f"{field} {getattr(old, field)} → {getattr(new, field)}"
        for field in ("component", "support")
        if getattr(old, field) != getattr(new, field)
    ]
    return found + [
        f"{field} “{getattr(old, field)}” → “{getattr(new, field)}”"
        for field in ("source", "reason")
        if getattr(old, field) != getattr(new, field)
    ]


def _ranked(rule: AttributeRule) -> AttributeRule:
    """Return a rule with its ranks by key: in what order they stand says nothing."""
    return replace(rule, ranks=tuple(sorted(rule.ranks, key=lambda r: (r.key, r.value))))


def _anchors(rule: AttributeRule) -> str:
    symbol = _symbol(rule.unit)
    pairs = (
        f"{f'{number_text(one.at)} {symbol}'.strip()}: {number_text(one.value)}"
        for one in rule.anchors
    )
    return ", ".join(pairs) or "none"


def _ranks(rule: AttributeRule) -> str:
    return ", ".join(f"{one.key} {number_text(one.value)}" for one in rule.ranks) or "none"


def _symbol(unit: str) -> str:
    if not unit:
        return ""
    try:
        return unit_symbol(unit)
    except OurFault:  # a unit of an older set that the registry knows no longer
        return unit
