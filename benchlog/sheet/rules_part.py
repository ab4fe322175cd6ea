"""The rules that bear on this line-up: what is scored, and what is only shown."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.sheet.flow import Cell, part, shares, table
from benchlog.sheet.numbers import symbol
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.sheet.words import subject_label
from benchlog.tasks.record import Record
from benchlog.trade.component import Component

SHOWN_LEAD = (
    "Shown and compared, never scored; in brackets the smallest difference that the rules call "
    "meaningful, where they name one."
)


def difference(rule: AttributeRule) -> str:
    """Return the meaningful difference of a rule in words, "" when it names none."""
    if rule.meaningful <= 0:
        return ""
    if rule.meaningful_is_share:
        return f"{rule.meaningful * 100:g} %"
    return f"{rule.meaningful:g} {symbol(rule.unit)}".strip()


def _bearing(record: Record) -> list[AttributeRule]:
    """Return the rules whose subject was asked, found or worked out in this line-up."""
    subjects = {key for key, _ in (*record.findings, *record.figures)}
    subjects.update(record.lineup.attributes)
    return [rule for rule in record.rules.entries if rule.subject in subjects]


def _is_scored(rule: AttributeRule) -> bool:
    return rule.kind is not ValueKind.NONE and rule.weight > 0


def _scored(record: Record, rules: list[AttributeRule], page: Page) -> list[Flowable]:
    rows: list[list[Cell]] = [
        ["Component", "Attribute", "Weight", "Meaningful difference", "Support", "Reason"]
    ]
    rows += [
        [
            rule.component.value.capitalize(), subject_label(record, rule.subject),
            f"{rule.weight:g}", difference(rule) or "none set", rule.support.value,
            rule.reason or rule.source or "none given",
        ]
        for rule in rules
    ]  # fmt: skip
    heading = part("What counts, and what difference is meaningful")
    return [*heading, table(rows, shares(page, 16, 22, 9, 14, 14, 34))] if rules else []


def _shown(record: Record, rules: list[AttributeRule]) -> list[Flowable]:
    if not rules:
        return []
    parts = [*part("What is shown and not scored"), para(SHOWN_LEAD, "note")]
    for component in Component:
        said = [
            subject_label(record, rule.subject)
            + (f" ({difference(rule)})" if difference(rule) else "")
            for rule in rules
            if rule.component is component
        ]
        if said:
            parts.append(para("; ".join(said), "gutter", component.value.capitalize()))
    return parts


def rules_part(record: Record, page: Page) -> list[Flowable]:
    """Return the rules of this line-up: the scored as a table, the others as lists."""
    rules = _bearing(record)
    scored = [rule for rule in rules if _is_scored(rule)]
    shown = [rule for rule in rules if not _is_scored(rule)]
    return [*_scored(record, scored, page), *_shown(record, shown)]
