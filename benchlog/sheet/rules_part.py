"""The rules that bear on this line-up: what is scored, and what is only shown."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.judge.rules import NOT_COMPARED, AttributeRule, ValueKind
from benchlog.settings import METRIC
from benchlog.sheet.flow import Cell, part, shares, table
from benchlog.sheet.glossary_part import LETTERS
from benchlog.sheet.paragraph import Text
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import STYLES, Page
from benchlog.sheet.values_table import GREY
from benchlog.sheet.words import subject_label
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import inch_unit_of, meaningful_text
from benchlog.trade.component import Component

SCORED_LEAD = (
    "Difference: the smallest one that the rules call meaningful. Support: S, E or O, as told "
    "under words and marks."
)

SHOWN_LEAD = (
    "Shown and compared, never scored; in brackets the smallest difference that the rules call "
    "meaningful, where they name one."
)


NOT_COMPARED_LEAD = "Shown where it was found; no gap, no score and no part in an award or a rank."


def difference(record: Record, rule: AttributeRule, units: str = METRIC) -> str:
    """Return the meaningful difference of a rule in words, "" when it names none."""
    if rule.meaningful <= 0:
        return ""
    return meaningful_text(rule, inch_unit_of(record, rule.subject, units))


def _bearing(record: Record) -> list[AttributeRule]:
    """Return the rules whose subject was asked, found or worked out in this line-up."""
    subjects = {key for key, _ in (*record.findings, *record.figures)}
    subjects.update(record.lineup.attributes)
    return [rule for rule in record.rules.entries if rule.subject in subjects]


def _is_scored(rule: AttributeRule) -> bool:
    return rule.kind is not ValueKind.NONE and rule.weight > 0


def _scored(record: Record, rules: list[AttributeRule], page: Page, units: str) -> list[Flowable]:
    rows: list[list[Cell]] = [["Attribute", "Weight", "Difference", "Support", "Reason"]]
    rows += [
        [
            Text(
                f"{markup(subject_label(record, rule.subject))} "
                f'<font color="{GREY}">{markup(rule.component.value)}</font>',
                STYLES["cell_small"],
            ),
            f"{rule.weight:g}",
            difference(record, rule, units) or "none set",
            LETTERS[rule.support],
            rule.reason or rule.source or "none given",
        ]
        for rule in rules
    ]
    heading = [*part("What counts, and what difference is meaningful"), para(SCORED_LEAD, "note")]
    return [*heading, table(rows, shares(page, 30, 8.5, 11, 9, 41.5), small=True)] if rows else []


def _shown(record: Record, rules: list[AttributeRule], units: str) -> list[Flowable]:
    if not rules:
        return []
    runs = []
    for component in Component:
        said = [
            subject_label(record, rule.subject) + _in_brackets(difference(record, rule, units))
            for rule in rules
            if rule.component is component
        ]
        if said:
            runs.append(f"<b>{component.value.capitalize()}:</b> {markup('; '.join(said))}.")
    run = Text(" ".join(runs), STYLES["run"])
    return [*part("What is shown and not scored", 90), para(SHOWN_LEAD, "note"), run]


def _not_compared(record: Record, rules: list[AttributeRule]) -> list[Flowable]:
    if not rules:
        return []
    said = "; ".join(subject_label(record, rule.subject) for rule in rules)
    run = Text(f"{markup(said)}.", STYLES["run"])
    return [*part(NOT_COMPARED.capitalize(), 90), para(NOT_COMPARED_LEAD, "note"), run]


def _in_brackets(said: str) -> str:
    return f" ({said})" if said else ""


def rules_part(record: Record, page: Page, units: str = METRIC) -> list[Flowable]:
    """Return the rules of this line-up: the scored as a table, the others as lists."""
    bearing = _bearing(record)
    rules = [rule for rule in bearing if rule.compared]
    kept_out = [rule for rule in bearing if not rule.compared]
    scored = [rule for rule in rules if _is_scored(rule)]
    shown = [rule for rule in rules if not _is_scored(rule)]
    compared = [*_scored(record, scored, page, units), *_shown(record, shown, units)]
    return [*compared, *_not_compared(record, kept_out)]
