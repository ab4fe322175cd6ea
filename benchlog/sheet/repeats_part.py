"""The raw repeats: every single number behind a value that was read more than once."""

from __future__ import annotations

from xml.sax.saxutils import escape

from reportlab.platypus import Flowable

from benchlog.measure.reading import Reading, standing
from benchlog.sheet.flow import Cell, columns, part, specimen_head, table
from benchlog.sheet.numbers import symbol
from benchlog.sheet.paragraph import Text
from benchlog.sheet.said_text import said_number
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import STYLES, Page
from benchlog.sheet.values_table import IN_DOUBT
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Attribute

LABELS = 170.0

LEAD = "As they were said, in the order in which they were taken; corrected ones as they now stand."


def repeats_part(record: Record, page: Page) -> list[Flowable]:
    """Return the repeats as a table, an attribute a row; nothing where nothing was repeated."""
    taken: dict[tuple[str, str], list[Reading]] = {}
    for reading in standing(list(record.readings)):
        taken.setdefault((reading.attribute, reading.specimen_id), []).append(reading)
    specimens = record.lineup.specimens
    rows: list[list[Cell]] = []
    widths = columns(page.content, LABELS, len(specimens))
    for attribute in record.sequence.attributes:
        each = [taken.get((attribute.key, s.id), []) for s in specimens]
        if attribute.is_number and any(len(readings) > 1 for readings in each):
            label = ", ".join(filter(None, (attribute.label, symbol(attribute.unit))))
            rows.append([label, *(_numbers(readings, attribute, record) for readings in each)])
    if not rows:
        return []
    heads = [specimen_head(s, w, 1) for s, w in zip(specimens, widths[1:], strict=True)]
    opening = [*part("Raw repeats", 120), para(LEAD, "note")]
    return [*opening, table([["", *heads], *rows], widths, small=True)]


def _numbers(readings: list[Reading], attribute: Attribute, record: Record) -> Text | str:
    texts = [_number(r, attribute, doubted=r.id in record.in_doubt) for r in readings]
    return Text(", ".join(texts), STYLES["cell_small"]) if texts else "none"


def _number(reading: Reading, attribute: Attribute, *, doubted: bool) -> str:
    """Return one reading as markup: bare in the attribute's unit, with its own in any other."""
    text = said_number(reading, attribute.unit)
    kept = markup(text).replace(" ", "\u00a0") if len(text) < 20 else markup(text)
    return f"{kept} <b>{escape(IN_DOUBT)}</b>" if doubted else kept
