"""What each input of the sums is made of, told once: scatter, last digit, permissible error."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.sheet.flow import Cell, part, shares, table
from benchlog.sheet.paragraph import Text
from benchlog.sheet.text import markup, para, shortened
from benchlog.sheet.typography import STYLES, Page
from benchlog.sheet.words import LONGEST_NICKNAME
from benchlog.tasks.budget_view import BudgetRow
from benchlog.tasks.figure_view import Sum, sum_of
from benchlog.tasks.record import Record

LEAD = "Each source with its standard uncertainty, distribution and degrees of freedom ν."


def sum_inputs(record: Record, page: Page, units: str) -> list[Flowable]:
    """Return every reading that went into a figure with what its uncertainty is made of."""
    used = {term.key for figure in record.figures.values() for term in figure.terms}
    rows: list[list[Cell]] = [["Input", "Value, and what its u is made of"]]
    for attribute in record.sequence.attributes:
        made: dict[str, list[str]] = {}
        for specimen in record.lineup.specimens:
            finding = record.findings.get((attribute.key, specimen.id))
            if attribute.key in used and finding is not None and finding.quantity is not None:
                one = sum_of(record, attribute.key, specimen.id, units)
                nickname = shortened(specimen.nickname, LONGEST_NICKNAME)
                made.setdefault(_made_of(one), []).append(f"{nickname} {one.result}")
        said = [f"<b>{markup(', '.join(who))}:</b> {markup(how)}." for how, who in made.items()]
        if said:
            label = para(attribute.label, "cell_small")
            rows.append([label, Text("<br/>".join(said), STYLES["cell_small"])])
    if len(rows) == 1:
        return []
    opening = [*part("The inputs of the sums", 120), para(LEAD, "note")]
    return [*opening, table(rows, shares(page, 24, 76), small=True)]


def _made_of(one: Sum) -> str:
    sources = "; ".join(_source(row) for row in _finest(one.rows))
    note = one.inputs[0].note.rstrip(".") if one.inputs else ""
    foot = "" if one.coverage.startswith("Exact") else one.coverage
    return ". ".join(filter(None, [sources or "exact", foot, note]))


def _finest(rows: tuple[BudgetRow, ...]) -> list[BudgetRow]:
    """Return the sources themselves: inset lines where a line has some, else the line."""
    inset = [row for row in rows if row.inset]
    return inset or [row for row in rows if row.spread != "exact"]


def _source(row: BudgetRow) -> str:
    name = row.label if row.inset else row.note or row.label
    return f"{name} {row.contribution}, {row.spread}, ν {row.freedom}"
