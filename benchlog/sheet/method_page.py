"""How it was done: rules, instruments, corrections, flagged moments and the words used."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.judge.verdict import AwardKind
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.measure.state import MEANING
from benchlog.sheet.flow import Cell, gap, part, section, shares, table
from benchlog.sheet.marks import AwardMark
from benchlog.sheet.numbers import symbol
from benchlog.sheet.rules_part import rules_part
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import Page
from benchlog.sheet.words import OUTCOME, subject_label
from benchlog.tasks.record import Record

MOST_MOMENTS = 60

LEAD = "Enough to repeat the work, and to hold this sheet against its record."


def _record_facts(record: Record) -> list[Flowable]:
    rules = record.rules
    return [
        para(f"{rules.label}, version {rules.version}", "gutter", "Rules"),
        para(f"{record.sequence.label}, version {record.sequence.version}", "gutter", "Sequence"),
        para(
            f"A component is scored when its attributes with a value hold at least "
            f"{rules.smallest_coverage * 100:.0f} % of the weight. Scores closer than "
            f"{rules.meaningful_score:g} are not told apart.",
            "gutter", "Scoring",
        ),
        para(record.digest, "gutter", "Digest"),
        para(
            "SHA-256 over readings, line-up and rules: the same record has the same digest "
            "wherever it is worked out.", "gutter", "",
        ),
        para(str(record.revision), "gutter", "Revision"),
        para(record.lineup.reviewer or "not named", "gutter", "Reviewer"),
    ]  # fmt: skip


def _instrument_row(instrument: Instrument) -> list[Cell]:
    unit = symbol(instrument.unit)
    pressure = instrument.contact_pressure_kpa
    return [
        instrument.name, instrument.kind.value,
        f"{instrument.resolution:g} {unit}".strip(),
        f"± {instrument.permissible_error:g} {unit}".strip(),
        "none" if pressure is None else f"{pressure:g} kPa",
        instrument.note or "none",
    ]  # fmt: skip


def _instruments(record: Record, page: Page) -> list[Flowable]:
    parts: list[Flowable] = part("Instruments")
    if not record.instruments:
        return [*parts, para("No instrument is recorded; every value was entered without one.")]
    rows: list[list[Cell]] = [
        ["Instrument", "Kind", "Resolution", "Permissible error", "Foot pressure", "Note"]
    ]
    rows += [_instrument_row(instrument) for instrument in record.instruments]
    return [*parts, table(rows, shares(page, 26, 16, 14, 15, 13, 22))]


def _said(reading: Reading) -> str:
    return reading.text or reading.state.value


def _corrections(record: Record, page: Page) -> list[Flowable]:
    by_id = {reading.id: reading for reading in record.readings}
    names = {s.id: s.nickname for s in record.lineup.specimens}
    rows: list[list[Cell]] = [["When (UTC)", "Specimen", "Attribute", "Was", "Now", "Why"]]
    for new in record.readings:
        old = by_id.get(new.supersedes or "")
        if new.supersedes is None:
            continue
        rows.append([
            new.at.strftime("%Y-%m-%d %H:%M"),
            shortened(names.get(new.specimen_id, "not in this line-up"), 40),
            subject_label(record, new.attribute),
            _said(old) if old else "not in this record",
            "taken back" if new.withdrawn else _said(new),
            new.reason or "no reason given",
        ])  # fmt: skip
    parts: list[Flowable] = part("Corrections")
    if len(rows) == 1:
        return [*parts, para("None.")]
    return [*parts, table(rows, shares(page, 17, 15, 20, 13, 13, 24))]


def _clock(seconds: float) -> str:
    whole = max(0, int(seconds))
    return f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"


def _moments(record: Record, page: Page) -> list[Flowable]:
    if not record.moments:
        return []
    rows: list[list[Cell]] = [["Session time", "Flagged moment"]]
    rows += [[_clock(m.session_s), m.label or "no label"] for m in record.moments[:MOST_MOMENTS]]
    left_off = len(record.moments) - MOST_MOMENTS
    parts = [*part("Flagged moments"), table(rows, shares(page, 18, 82))]
    return [*parts, para(f"and {left_off} more in the record", "note")] if left_off > 0 else parts


def _glossary(page: Page) -> list[Flowable]:
    states: list[list[Cell]] = [["State of a value", "Meaning"]]
    states += [[para(state.value, "label"), meaning] for state, meaning in MEANING.items()]
    marks: list[list[Cell]] = [["", "Outcome", "Meaning"]]
    marks += [[AwardMark(kind, 4.6), para(kind.value, "label"), OUTCOME[kind]]
              for kind in AwardKind]  # fmt: skip
    return [
        *part("Words and marks", 200),
        table(states, shares(page, 22, 78)),
        gap(10),
        table(marks, shares(page, 6, 24, 70)),
    ]


def method_page(record: Record, page: Page) -> list[Flowable]:
    """Return the section on method, with the full digest and every correction."""
    return [
        *section("Method", LEAD),
        *_record_facts(record),
        *_instruments(record, page),
        *rules_part(record, page),
        *_corrections(record, page),
        *_moments(record, page),
        *_glossary(page),
    ]
