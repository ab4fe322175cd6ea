"""How it was done: rules, instruments and checks, doubts, repeats, corrections, words used."""

from __future__ import annotations

from collections.abc import Iterable

from reportlab.platypus import Flowable

from benchlog.judge.rules_file import set_name
from benchlog.settings import METRIC
from benchlog.sheet.checks_part import checks_part, clock, doubted_line, instruments_part
from benchlog.sheet.corrections_part import corrections_part
from benchlog.sheet.fairness_part import fairness_part
from benchlog.sheet.flow import part, section
from benchlog.sheet.glossary_part import glossary_part
from benchlog.sheet.repeats_part import repeats_part
from benchlog.sheet.rules_part import rules_part
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import Page
from benchlog.sheet.value_rows import Row
from benchlog.sheet.words import judged_by, means_of_parts
from benchlog.tasks.doubt import standing_doubts
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_told
from benchlog.tasks.stated import conditions_of, in_words

MOST_MOMENTS = 60

COVERS = (
    "SHA-256 over the plan and what changed in it, every reading, instruments, checks and "
    "corrections, photos and their captions, pictures of the media and what was measured on them, "
    "remarks, the rules with their locks, the reviewer’s own outcomes and purposes, runs under "
    "codes and polls, and the scatter of earlier repeats; not over flagged moments"
)
"""What goes into a record's digest, as `tasks.work_out` puts it together."""

LEAD = "Enough to repeat the work, and to hold this sheet against its record."


def _record_facts(record: Record, stated: Iterable[Row]) -> list[Flowable]:
    rules = record.rules
    facts = [
        ("Rules", set_name(rules)),
        ("Sequence", f"{record.sequence.label}, version {record.sequence.version}"),
        ("Scoring",
         f"A component is scored when its attributes with a value hold at least "
         f"{rules.smallest_coverage * 100:.0f} % of the weight. Scores closer than "
         f"{rules.meaningful_score:g} are not told apart."),
        *(("Telling apart", words) for words in (*judged_by(record), *means_of_parts(record))),
        *(("Stated, not read", words) for words in _stated(record, stated)),
        ("Digest", f"{record.digest} ({COVERS})"),
        ("Revision", f"{revision_told(record)}, reviewer {record.lineup.reviewer or 'not named'}"),
    ]  # fmt: skip
    return [para(words, "gutter", label) for label, words in facts]


def _stated(record: Record, rows: Iterable[Row]) -> list[str]:
    """Return the conditions stated, and what rests on them alone, the same for every specimen."""
    said = [f"{row.label} {row.cells[0].main}" for row in rows if row.cells]
    if not said:
        return []
    conditions = in_words(conditions_of(record.lineup))
    return [f"{conditions[0].upper()}{conditions[1:]}. By these: {'; '.join(said)}."]


def _doubts(record: Record) -> list[Flowable]:
    names = {s.id: s.nickname for s in record.lineup.specimens}
    found = standing_doubts(record)
    line = doubted_line(record)
    if not found and not line:
        return []
    parts: list[Flowable] = part("Doubts that stand", 80)
    parts += [para(line)] if line else []
    for doubt in found:
        name = shortened(names.get(doubt.specimen_id, ""), 16)
        why = "; ".join(doubt.reasons)
        said = doubt.what + (f" Accepted at the bench, saying: {why}" if why else "")
        parts.append(para(said if said.endswith(".") else f"{said}.", "gutter", name))
    return parts


def _moments(record: Record) -> list[Flowable]:
    """Return the flagged moments with their session time, in one run of text."""
    if not record.moments:
        return []
    said = [f"{clock(m.session_s)} {m.label or 'no label'}" for m in record.moments[:MOST_MOMENTS]]
    left_off = len(record.moments) - MOST_MOMENTS
    said += [f"and {left_off} more in the record"] if left_off > 0 else []
    return [*part("Flagged moments", 60), para("; ".join(said) + ".", "cell")]


def method_page(
    record: Record,
    page: Page,
    stated: Iterable[Row] = (),
    units: str = METRIC,
) -> list[Flowable]:
    """Return the section on method, with the full digest and every correction."""
    return [
        *section("Method", LEAD),
        *_record_facts(record, stated),
        *fairness_part(record),
        *_doubts(record),
        *instruments_part(record, page),
        *checks_part(record, page),
        *rules_part(record, page, units),
        *repeats_part(record, page),
        *corrections_part(record, page),
        *_moments(record),
        *glossary_part(page),
    ]
