"""Instruments, their checks, and which readings each pair of checks brackets."""

from __future__ import annotations

from collections import Counter

from reportlab.platypus import Flowable

from benchlog.measure.bracket import Bracket, BracketState, brackets
from benchlog.measure.check import Check
from benchlog.measure.checking import result_of
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.permissible import is_verified
from benchlog.measure.rounding import as_is
from benchlog.sheet.flow import Cell, part, shares, table
from benchlog.sheet.numbers import symbol
from benchlog.sheet.paragraph import Text
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import STYLES, WHITE, Page
from benchlog.sheet.words import subject_label
from benchlog.tasks.record import Record

STATES = {
    BracketState.OPEN: "not closed: no check after them",
    BracketState.PASSED: "closed, and every check passed",
    BracketState.OPENING_FAILED: "the opening check failed",
    BracketState.CLOSING_FAILED: "the closing check failed",
    BracketState.NOT_CHECKED: "never checked",
}

LEAD = (
    "A check reads something known. Allowed is the permissible error and what the known thing may "
    "be off, added; the readings between two checks are as good as both."
)


def instruments_part(record: Record, page: Page) -> list[Flowable]:
    """Return the instruments with what they are good for."""
    parts: list[Flowable] = part("Instruments")
    if not record.instruments:
        return [*parts, para("No instrument is recorded; every value was entered without one.")]
    rows: list[list[Cell]] = [
        ["Instrument", "Kind", "Resolution", "Permissible error", "Foot", "Note"]
    ]
    rows += [_instrument_row(instrument) for instrument in record.instruments]
    return [*parts, table(rows, shares(page, 26, 15, 11, 12, 10, 26), small=True)]


def _instrument_row(instrument: Instrument) -> list[Cell]:
    unit = symbol(instrument.unit)
    pressure = instrument.contact_pressure_kpa
    error = f"± {instrument.permissible_error:g} {unit}".strip()
    if is_verified(instrument):
        step = f"{as_is(instrument.verification_interval)} {unit}".strip()
        error = f"class {instrument.accuracy_class}, e = {step}"
    if instrument.kind is InstrumentKind.MICROSCOPE:
        error = "in each figure"
    return [
        instrument.name, instrument.kind.value,
        f"{instrument.resolution:g} {unit}".strip(), error,
        "none" if pressure is None else f"{pressure:g} kPa",
        instrument.note or "none",
    ]  # fmt: skip


def checks_part(record: Record, page: Page) -> list[Flowable]:
    """Return every check with what it came to, and the readings that it brackets."""
    found = brackets(record.readings, record.checks, record.corrections, record.instruments)
    names = {i.id: i for i in record.instruments}
    if not found:
        return []
    parts: list[Flowable] = [*part("Checks of the instruments", 140), para(LEAD, "note")]
    checked = [b for b in found if b.openings or b.closings]
    if checked:
        rows: list[list[Cell]] = [
            ["Instrument", "Put on", "Allowed", "Opening: shown, off", "Closing: shown, off"]
        ]
        style: list[tuple[object, ...]] = []
        for bracket in checked:
            _bracket_rows(record, bracket, names[bracket.instrument_id], rows, style)
        widths = shares(page, 20, 21, 11, 24, 24)
        parts.append(table(rows, widths, small=True, more=style))
    # A microscope's set-up is checked by its stage picture, once for good.
    never = [
        b
        for b in found
        if not (b.openings or b.closings)
        and names[b.instrument_id].kind is not InstrumentKind.MICROSCOPE
    ]
    if never:
        said = "; ".join(
            f"{names[b.instrument_id].name} ({_count(len(b.readings), 'reading')})" for b in never
        )
        parts.append(para(f"Never checked in this session: {said}.", "note"))
    return parts


def _bracket_rows(
    record: Record,
    bracket: Bracket,
    instrument: Instrument,
    rows: list[list[Cell]],
    style: list[tuple[object, ...]],
) -> None:
    """Add a bracket: a row for each thing that was put on, then what was read between."""
    first = len(rows)
    ends = (bracket.openings, bracket.closings)
    put_on = dict.fromkeys((c.known, c.standard) for checks in ends for c in checks)
    for known, standard in put_on:
        each = [[c for c in end if (c.known, c.standard) == (known, standard)] for end in ends]
        limit = result_of((each[0] or each[1])[0], instrument).limit
        name = instrument.name if len(rows) == first else ""
        allowed = f"{limit:.6g} {symbol(instrument.unit)}".strip()
        rows.append([para(name, "cell_small"), standard or "zero", allowed,
                     *(_checks(checks, instrument) for checks in each)])  # fmt: skip
    at = len(rows)
    rows.append([para(_bracketed(record, bracket), "cell_muted"), *[""] * 4])
    style += [
        ("SPAN", (0, at), (-1, at)),
        ("TOPPADDING", (0, at), (-1, at), 0),
        ("LINEBELOW", (0, first), (-1, at - 1), 0.5, WHITE),
        ("NOSPLIT", (0, first), (-1, at)),
    ]


def _checks(checks: list[Check], instrument: Instrument) -> Cell:
    """Return what the checks of one end showed, failed ones in bold."""
    if not checks:
        return "none"
    said = []
    for check in checks:
        result = result_of(check, instrument)
        shown = f"{check.said.value:f} {symbol(check.said.unit)}".strip()
        text = markup(_signed(f"{shown}, {result.deviation:+f}:")).replace(" ", "\u00a0")
        said.append(f"{text} " + ("passed" if result.passed else "<b>failed</b>"))
    return Text("<br/>".join(said), STYLES["cell_small"])


def _bracketed(record: Record, bracket: Bracket) -> str:
    times = [c.session_s for c in (*bracket.openings, *bracket.closings)]
    span = " to ".join(dict.fromkeys(clock(end) for end in (min(times), max(times))))
    state = STATES[bracket.state]
    if not bracket.readings:
        return f"{span}: no reading between these checks; {state}"
    said = ", ".join(
        f"{subject_label(record, key)} ({count})"
        for key, count in Counter(r.attribute for r in bracket.readings).items()
    )
    words = [f"{span}, {_count(len(bracket.readings), 'reading')}, {state}: {said}."]
    if bracket.in_doubt:
        words.append(f"{_count(len(bracket.in_doubt), 'reading')} in doubt.")
    elif bracket.failed and any(r.group for r in bracket.readings):
        words.append("Put right by a group correction.")
    return " ".join(words)


def doubted_line(record: Record) -> str:
    """Return one line that says how many readings are in doubt, "" where none are."""
    if not record.in_doubt:
        return ""
    names = {i.id: i.name for i in record.instruments}
    doubted = [r for r in record.readings if r.id in record.in_doubt]
    tools = dict.fromkeys(names.get(r.instrument_id or "", "an instrument") for r in doubted)
    verb = "is" if len(doubted) == 1 else "are"
    return (
        f"{_count(len(record.in_doubt), 'reading')} {verb} in doubt: a check of "
        f"{' and of '.join(tools) or 'an instrument'} failed, and nothing was put right."
    )


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _signed(text: str) -> str:
    return text.replace("-", "−")


def clock(seconds: float) -> str:
    """Return session seconds as h:mm:ss."""
    whole = max(0, int(seconds))
    return f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"
