"""The rules of a line-up as they are shown and typed: a row a rule, and what each field says."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.derive.figure import FigureKind
from benchlog.errors import PlanRefused
from benchlog.judge.comparability import CONDITION_WORDS
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules, ValueKind
from benchlog.judge.rules_changes import number_text, subject_label
from benchlog.judge.rules_file import Subject, every_subject
from benchlog.judge.rules_within import asked_in
from benchlog.judge.scores import scoring
from benchlog.measure.rounding import as_is
from benchlog.tasks.answer import choices_of
from benchlog.tasks.edit_rules import anchor_texts
from benchlog.tasks.verdict_view import SUPPORT_WORDS, meaningful_text
from benchlog.trade.attribute import Attribute, Sequence
from benchlog.trade.component import Component

MONEY = "currency"
EQUALS = "="


@dataclass(frozen=True)
class RuleRow:
    """One rule: what it is about, how it weighs, and how well it stands.

    `counts` tells whether it scores; `share` is its part of the component's weight, 0 to 1.
    `worth` are the lines of its value function as they may be typed again, `how` what a line
    means. `compared_when` says under what conditions two values are compared at all, and
    `compared` whether the rules compare them.
    """

    subject: str
    label: str
    component: Component
    counts: bool
    weight: str
    share: float
    meaningful: str
    worth: str
    how: str
    support: str
    source: str
    reason: str
    compared_when: str
    compared: bool = True


def rule_rows(rules: Rules, sequence: Sequence) -> tuple[RuleRow, ...]:
    """Return the rules that a kind of filter answers, component by component, scored ones first."""
    asked = asked_in(rules, sequence)
    labels = {attribute.key: attribute.label for attribute in sequence.attributes}
    found = []
    for component in Component:
        total = sum(rule.weight for rule in scoring(asked, component))
        own = sorted(asked.of(component), key=lambda rule: -rule.weight)
        found += [_row(rule, total, labels) for rule in own]
    return tuple(found)


def worth_pairs(text: str) -> tuple[tuple[str, str], ...]:
    """Return the pairs of typed lines such as "0.5 mm = 6"; raises PlanRefused for other lines."""
    pairs = []
    for line in filter(None, (line.strip() for line in text.splitlines())):
        left, equals, right = line.rpartition(EQUALS)
        if not equals or not left.strip():
            raise PlanRefused(
                f"'{line}' has no worth.", "Type a value, =, and its worth: 0.5 = 6.", field="worth"
            )
        pairs.append((left.strip(), right.strip()))
    return tuple(pairs)


def worth_keys(rule: AttributeRule, pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Return worths by the answers' keys; raises PlanRefused for a word that is no answer."""
    labels = {label.casefold(): key for key, label in _answers(rule).items()}
    found = {}
    for label, worth in pairs:
        key = labels.get(label.casefold())
        if key is None:
            raise PlanRefused(
                f"'{label}' is no answer of {subject_label(rule.subject)}.",
                "Keep the words as they are; change the numbers only.",
                field="worth",
            )
        found[key] = worth
    return found


def _row(rule: AttributeRule, total: float, labels: dict[str, str]) -> RuleRow:
    counts = rule.kind is not ValueKind.NONE and rule.compared
    return RuleRow(
        subject=rule.subject,
        label=labels.get(rule.subject) or subject_label(rule.subject),
        component=rule.component,
        counts=counts,
        weight=number_text(rule.weight) if counts else "",
        share=rule.weight / total if counts and total else 0.0,
        meaningful=_meaningful(rule),
        worth=_worth(rule),
        how=_how(rule),
        support=SUPPORT_WORDS[rule.support],
        source=rule.source,
        reason=rule.reason,
        compared_when=_compared_when(rule.subject),
        compared=rule.compared,
    )


def _meaningful(rule: AttributeRule) -> str:
    """Return the difference that counts as it may be typed again, "" for words."""
    if _is_of_words(rule):
        return ""
    return meaningful_text(rule) if rule.meaningful else as_is(0.0)


def _is_of_words(rule: AttributeRule) -> bool:
    meant = every_subject().get(rule.subject, ())
    return any(isinstance(one, Attribute) and not one.is_number for one in meant)


def _worth(rule: AttributeRule) -> str:
    if rule.kind is ValueKind.PIECEWISE:
        return "\n".join(f"{at} {EQUALS} {worth}" for at, worth in anchor_texts(rule))
    if rule.kind is ValueKind.NONE:
        return ""
    worths = {rank.key: number_text(rank.value) for rank in rule.ranks}
    lines = (
        f"{label} {EQUALS} {worths.get(key, '')}".rstrip() for key, label in _answers(rule).items()
    )
    return "\n".join(lines)


def _how(rule: AttributeRule) -> str:
    if not rule.compared:
        return f"Shown, and {NOT_COMPARED}: no gap, no score, no part in an award."
    if rule.kind is ValueKind.PIECEWISE:
        return "A line a corner: value = worth from 0 to 10; straight between, flat outside."
    if rule.kind is ValueKind.NONE:
        return "Compared and shown, never scored."
    return "A line an answer: its worth from 0 to 10; nothing after = for no worth."


def _answers(rule: AttributeRule) -> dict[str, str]:
    """Return every answer's label by key, of all kinds of filter that keep the attribute."""
    found = {}
    for meant in every_subject().get(rule.subject, ()):
        if isinstance(meant, Attribute):
            found.update({choice.key: choice.label for choice in choices_of(meant)})
    return found


def _compared_when(subject: str) -> str:
    meant = every_subject().get(subject, ())
    conditions = [word for one in meant[:1] for word in _conditions(one)]
    return ", ".join(conditions)


def _conditions(subject: Subject) -> tuple[str, ...]:
    keys = subject.comparable_when
    if isinstance(subject, FigureKind):
        return tuple(CONDITION_WORDS.get(key, subject_label(key)) for key in keys)
    money = (MONEY,) if subject.specimen_field == "price" else ()
    return tuple(CONDITION_WORDS.get(key, subject_label(key)) for key in (*keys, *money))
