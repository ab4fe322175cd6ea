"""What of a component was judged by eye without knowing whose part it was, in words."""

from __future__ import annotations

from enum import Enum

from benchlog.sheet.words import names, subject_label
from benchlog.tasks.judge_blind import judged_by_eye
from benchlog.tasks.record import Record
from benchlog.trade.component import Component


class Eyes(Enum):
    """How a value that an eye gave was judged."""

    BLIND = "blind"
    OPEN = "open"


def blind_mark(record: Record, component: Component) -> str:
    """Return the mark of a component: "judged blind", "partly judged blind", or "" for open."""
    ways = {way for _, by_specimen in _judged(record, component) for way in by_specimen.values()}
    if Eyes.BLIND not in ways:
        return ""
    return "partly judged blind" if Eyes.OPEN in ways else "judged blind"


def blind_line(record: Record, component: Component) -> str:
    """Return what was judged blind and what knowing whose part it was; "" where nothing was."""
    judged = _judged(record, component)
    blind = [_told(record, key, ways, Eyes.BLIND) for key, ways in judged]
    known = [_told(record, key, ways, Eyes.OPEN) for key, ways in judged]
    if not any(blind):
        return ""
    words = f"By eye and under codes: {', '.join(filter(None, blind))}."
    if any(known):
        words += f" By eye, knowing whose part it was: {', '.join(filter(None, known))}."
    return words


def _judged(record: Record, component: Component) -> list[tuple[str, dict[str, Eyes]]]:
    """Return what an eye judged of a component, and how for each specimen that has a value.

    The reading that gives a word its value is the last one of its finding.
    """
    counted = {rule.subject: rule.component for rule in record.rules.entries}
    found = []
    for attribute in judged_by_eye(record.lineup, record.sequence):
        if counted.get(attribute.key, attribute.component) is not component:
            continue
        ways = {}
        for specimen in record.lineup.specimens:
            finding = record.findings.get((attribute.key, specimen.id))
            if finding is not None and finding.word is not None and finding.readings:
                ways[specimen.id] = Eyes.BLIND if finding.readings[-1].blind else Eyes.OPEN
        found.append((attribute.key, ways))
    return found


def _told(record: Record, key: str, ways: dict[str, Eyes], which: Eyes) -> str:
    """Return an attribute that was judged that way, with whose where not all were; "" for none."""
    these = tuple(one for one, way in ways.items() if way is which)
    if not these:
        return ""
    label = subject_label(record, key)
    return label if len(these) == len(ways) else f"{label} ({names(record, these)})"
