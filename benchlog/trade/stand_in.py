"""What is looked at before one filter is put in another's place; read from resources/trade."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path

from benchlog.measure.units import canonical
from benchlog.trade.attribute import Kind, Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource
from benchlog.trade.sequence_file import load_sequence, sequence_keys

STAND_IN_FILE = "trade/stand_in.toml"
FORBIDDEN = ("fits", "fit", "fitting")
"""What no bench can find out, and no line may say."""


class Compare(StrEnum):
    """How candidate and specified filter are held against each other."""

    SAME = "same"
    WITHIN = "within"
    AT_LEAST = "at least"
    AT_MOST = "at most"
    KEPT = "kept"
    ONE_OF = "one of"
    BY_HAND = "by hand"

    @property
    def of_numbers(self) -> bool:
        """Whether it compares numbers."""
        return self in (Compare.WITHIN, Compare.AT_LEAST, Compare.AT_MOST)


class Weight(StrEnum):
    """What a difference in a line comes to."""

    STOPS = "stops"
    ASK = "ask"


@dataclass(frozen=True)
class StandInSubject:
    """One attribute of a line; a subject by hand is no attribute.

    `band` is in `unit`. Answers in `unsure` tell nothing even when both give them; each group in
    `alike` counts as one answer. For "one of" the candidate's answer must be in `cleared`, which
    itself speaks of the specified filter.
    """

    key: str
    compare: Compare
    band: float = 0.0
    unit: str = ""
    unsure: tuple[str, ...] = ()
    alike: tuple[tuple[str, ...], ...] = ()
    cleared: tuple[str, ...] = ()


@dataclass(frozen=True)
class StandInLine:
    """One line of the check: its rule, the caution shown with it, and what a difference is."""

    key: str
    label: str
    rule: str
    caution: str
    words: str
    differs: Weight
    support: Support
    source: str
    sequences: tuple[str, ...]
    subjects: tuple[StandInSubject, ...]


@cache
def load_stand_in(sequence: str, root: Path | None = None) -> tuple[StandInLine, ...]:
    """Return the lines for a kind of filter, in the order of the file; raises ResourceFault."""
    file = read_resource(STAND_IN_FILE, root)
    file.only("line")
    lines = tuple(_line(file, entry) for entry in file.entries("line"))
    return tuple(line for line in lines if sequence in line.sequences)


def _line(file: ResourceFile, entry: Entry) -> StandInLine:
    line = file.convert(entry, StandInLine)
    for field in ("label", "rule", "caution", "words", "source"):
        text = str(getattr(line, field))
        if not text.strip():
            raise file.fault(entry, field, "wants a text")
        for word in text.lower().replace(",", " ").replace(".", " ").split():
            if word in FORBIDDEN:
                raise file.fault(entry, field, f"says '{word}', which no bench can find out")
    if not line.subjects or not line.sequences:
        raise file.fault(entry, "subjects", "wants at least one subject and one sequence")
    for sequence in line.sequences:
        if sequence not in sequence_keys():
            raise file.fault(entry, "sequences", f"there is no sequence '{sequence}'")
        for subject in line.subjects:
            _check(file, entry, sequence, subject)
    for subject in line.subjects:
        _check_answers(file, entry, line, subject)
    return line


def _check(file: ResourceFile, entry: Entry, sequence: str, subject: StandInSubject) -> None:
    asked = {attribute.key: attribute for attribute in load_sequence(sequence).attributes}
    if subject.compare is Compare.BY_HAND:
        if subject.key in asked:
            raise file.fault(entry, "subjects", f"'{subject.key}' is asked at the bench")
        return
    if subject.key not in asked:
        raise file.fault(entry, "subjects", f"'{subject.key}' is not asked of {sequence}")
    attribute = asked[subject.key]
    if attribute.is_number is not subject.compare.of_numbers:
        wanted = "a number" if subject.compare.of_numbers else "words"
        raise file.fault(entry, "subjects", f"'{subject.key}' is not {wanted}")
    if subject.compare is Compare.KEPT and attribute.kind is not Kind.PRESENCE:
        raise file.fault(entry, "subjects", f"'{subject.key}' is neither there nor missing")
    if subject.compare.of_numbers and not subject.unit:
        raise file.fault(entry, "subjects", f"'{subject.key}' wants the unit of its band")
    if subject.unit:
        canonical(subject.unit)
    if subject.band < 0:
        raise file.fault(entry, "subjects", f"'{subject.key}' wants a band of 0 or more")


def _check_answers(
    file: ResourceFile, entry: Entry, line: StandInLine, subject: StandInSubject
) -> None:
    """Refuse an answer that the attribute has in none of the line's sequences."""
    asked = (a for name in line.sequences for a in load_sequence(name).attributes)
    known = {
        c.key for attribute in asked if attribute.key == subject.key for c in attribute.choices
    }
    alike = (word for group in subject.alike for word in group)
    for word in (*subject.unsure, *subject.cleared, *alike):
        if word not in known:
            raise file.fault(entry, "subjects", f"'{subject.key}' has no answer '{word}'")
    if (subject.compare is Compare.ONE_OF) is not bool(subject.cleared):
        raise file.fault(entry, "subjects", f"'{subject.key}': 'cleared' goes with 'one of' alone")
