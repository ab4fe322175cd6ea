"""What was changed after it was said: corrections of groups, and of single readings."""

from __future__ import annotations

from itertools import groupby

from reportlab.platypus import Flowable

from benchlog.measure.check import GroupCorrection, Remedy
from benchlog.measure.reading import Reading
from benchlog.sheet.flow import Cell, gap, part, shares, table
from benchlog.sheet.said_text import said
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import Page
from benchlog.sheet.words import subject_label
from benchlog.tasks.checks_view import shift_words
from benchlog.tasks.record import Record

LONGEST_NAME = 40


def corrections_part(record: Record, page: Page) -> list[Flowable]:
    """Return what each revision changed, then every correction: of groups, and of single readings.

    A group is one entry, single readings stand in a table.
    """
    parts: list[Flowable] = part("Corrections")
    parts += [para(line) for line in record.revision_lines]
    single = [r for r in record.readings if r.supersedes is not None and not r.group]
    if not single and not record.corrections:
        return [*parts, para("No reading was corrected." if record.revision_lines else "None.")]
    for correction in record.corrections:
        parts += _group(record, correction)
    if single:
        parts += [gap(4), _singles(record, single, page)]
    return parts


def _group(record: Record, correction: GroupCorrection) -> list[Flowable]:
    instrument = next((i for i in record.instruments if i.id == correction.instrument_id), None)
    made = [r for r in record.readings if r.group == correction.id]
    by_id = {reading.id: reading for reading in record.readings}
    count = "1 reading" if len(made) == 1 else f"{len(made)} readings"
    what = f"{count} marked as spoiled"
    if correction.takes_back:
        what = f"an earlier correction of {count} taken back"
    elif correction.remedy is Remedy.SHIFT:
        shift = shift_words(correction.shift, instrument) if instrument else f"{correction.shift:g}"
        what = f"{count} shifted by {shift}"
    name = instrument.name if instrument else "an instrument that is not in this record"
    at = correction.at.strftime("%Y-%m-%d %H:%M")
    head = para(f"{at} UTC, {name}: {what}. {_sentence(correction.reason)}")
    names = {s.id: s.nickname for s in record.lineup.specimens}
    lines = []
    for (key, specimen), readings in groupby(made, key=lambda r: (r.attribute, r.specimen_id)):
        changes = ", ".join(f"{_was(by_id, r)} → {_now(r)}" for r in readings)
        name = shortened(names.get(specimen, "not in this line-up"), LONGEST_NAME)
        lines.append(f"{subject_label(record, key)}, {name}: {changes}")
    return [head, para("; ".join(lines) + "." if lines else "", "note")]


def _singles(record: Record, corrected: list[Reading], page: Page) -> Flowable:
    by_id = {reading.id: reading for reading in record.readings}
    names = {s.id: s.nickname for s in record.lineup.specimens}
    rows: list[list[Cell]] = [["When (UTC)", "Specimen", "Attribute", "Was", "Now", "Why"]]
    for new in corrected:
        rows.append([
            new.at.strftime("%Y-%m-%d %H:%M"),
            shortened(names.get(new.specimen_id, "not in this line-up"), LONGEST_NAME),
            subject_label(record, new.attribute),
            _was(by_id, new), _now(new),
            new.reason or "no reason given",
        ])  # fmt: skip
    return table(rows, shares(page, 17, 15, 20, 13, 13, 24), small=True)


def _was(by_id: dict[str, Reading], new: Reading) -> str:
    old = by_id.get(new.supersedes or "")
    return said(old) if old else "not in this record"


def _now(new: Reading) -> str:
    return "taken back" if new.withdrawn else said(new)


def _sentence(text: str) -> str:
    text = text.strip() or "No reason given"
    return text if text.endswith((".", "!", "?")) else f"{text}."
