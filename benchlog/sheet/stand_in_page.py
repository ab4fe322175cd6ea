"""The stand-in check on a page of its own: line by line, with its cautions."""

from __future__ import annotations

from collections import Counter

from reportlab.platypus import CondPageBreak, Flowable

from benchlog.sheet.flow import Cell, boxed, gap, section, shares, table
from benchlog.sheet.paragraph import Text
from benchlog.sheet.stand_in_text import NOT_A_PROMISE
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import STYLES, WHITE, Page
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import (
    LineOutcome,
    LineResult,
    StandInCheck,
    StandInWord,
    SubjectResult,
)
from benchlog.tasks.stand_in_wish import StandInWish, stand_in_of

MARKS = {LineOutcome.MATCH: "=", LineOutcome.DIFFERS: "≠", LineOutcome.UNKNOWN: "?"}
"""Signs that are told apart without colour, before the word."""

TALLY = {
    LineOutcome.MATCH: "match",
    LineOutcome.DIFFERS: "differ",
    LineOutcome.UNKNOWN: "unknown, not cleared",
}

LEAD = (
    "One filter held against the one that is specified, line by line. A difference is told with "
    "what it can do; what is unknown is not cleared."
)

CLOSING = {
    StandInWord.STOPS: "a line differs that nothing makes up for",
    StandInWord.ASK: "a line differs that depends on the engine, or a line is not cleared",
    StandInWord.NO_DIFFERENCE: "every line was looked at and matches, which promises nothing more",
}


def stand_in_page(record: Record, page: Page, wish: StandInWish) -> list[Flowable]:
    """Return the check on a new page; raises PlanRefused where its specimens are gone."""
    check = stand_in_of(record, wish)
    return [
        CondPageBreak(page.height - page.top - page.bottom - 1),
        *section("Stand-in check", LEAD),
        boxed(_head(check), page.content),
        gap(8),
        _lines(check, page),
        gap(8),
        para(_closing_words(), "note"),
        para(NOT_A_PROMISE),
    ]


def _head(check: StandInCheck) -> list[Flowable]:
    """Return what all lines come to, with the handbook's part number beside it."""
    counts = Counter(line.outcome for line in check.lines)
    tally = " · ".join(f"{MARKS[one]} {counts[one]} {TALLY[one]}" for one in LineOutcome)
    beside = f"{check.candidate} beside {check.specified}, the specified filter"
    return [
        Text(markup(check.word.value), STYLES["section"]),
        para(beside),
        Text(f"<b>{markup(check.handbook)}</b>", STYLES["body"]),
        para(f"Lines: {tally}.", "note"),
    ]


def _closing_words() -> str:
    said = "; ".join(f"“{word.value}”: {means}" for word, means in CLOSING.items())
    return f"A check comes to one of three words. {said}."


def _lines(check: StandInCheck, page: Page) -> Flowable:
    rows: list[list[Cell]] = [["Line", "Comes to", check.candidate, check.specified, "Why"]]
    style: list[tuple[object, ...]] = []
    for line in check.lines:
        first = len(rows)
        rows += [_subject(line, one, first=n == 0) for n, one in enumerate(line.subjects)]
        if line.words:
            rows.append([para(line.words, "cell_small"), "", "", "", ""])
            at = len(rows) - 1
            style += [
                ("SPAN", (0, at), (-1, at)),
                ("LINEBELOW", (0, at - 1), (-1, at - 1), 0.5, WHITE),
                ("LEFTPADDING", (0, at), (0, at), 12),
            ]
        style.append(("NOSPLIT", (0, first), (-1, len(rows) - 1)))
    return table(rows, shares(page, 23, 20, 16, 16, 30), more=style)


def _subject(line: LineResult, one: SubjectResult, *, first: bool) -> list[Cell]:
    """Return one row; the line's name stands at its first subject alone."""
    names = [f"<b>{markup(line.line.label)}</b>"] if first else []
    names += [markup(one.label)] if one.label != line.line.label or not first else []
    name = "<br/>".join(names)
    outcome = f"<b>{MARKS[one.outcome]}</b> {markup(one.outcome.value)}"
    return [
        Text(name, STYLES["cell_small"]),
        Text(outcome, STYLES["cell_small"]),
        para(one.candidate, "cell_small"),
        para(one.specified, "cell_small"),
        para(one.why, "cell_small"),
    ]
