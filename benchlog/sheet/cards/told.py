"""What a card says of a record: names, values with their doubt, and how many filters were cut."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace

from benchlog.judge.comparability import unlike_among
from benchlog.judge.evidence import Evidence
from benchlog.judge.verdict import Award
from benchlog.measure.finding import Finding
from benchlog.measure.repeats import counted
from benchlog.settings import METRIC
from benchlog.sheet.cards.folding import cut_to
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.right_to_left import isolated
from benchlog.sheet.value_words import Printed, short_reason
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import SIDE_BY_SIDE, label_of, value_text
from benchlog.trade.specimen import Specimen

NO_NAME = "no nickname"
LONGEST_NAME = 26
"""Characters of a nickname inside a sentence; where it stands alone there is more room."""

DOUBTED = "In doubt: a check of the instrument failed."
COVERAGE = "±\u00a0at\u00a095\u00a0%"
_KEPT = "\ue000"
"""Stands for a nickname while sentences are told apart; private use, so no letter of any text."""


@dataclass(frozen=True)
class Deck:
    """A record, the units in which cards show it ("metric", "inch" or "both"), and the frame."""

    record: Record
    frame: Frame
    units: str = METRIC


@dataclass(frozen=True)
class Seen:
    """One value as it is shown: a line a unit, or the words where there is no number.

    `lines` joined give `value_text`, but for a refusal in several sentences, which is told short.
    `readings` are those that make it, `count` how many; `derived` tells that it was worked out.
    """

    lines: tuple[str, ...]
    is_number: bool
    known: bool
    readings: tuple[str, ...] = ()
    count: int = 0
    derived: bool = False
    beside: str = ""
    foot_kpa: float | None = None
    doubted: bool = False

    @property
    def counted_words(self) -> str:
        """How many readings stand behind it, "" for none."""
        if not self.count:
            return ""
        readings = "1 reading" if self.count == 1 else f"{self.count} readings"
        return f"worked out from {readings}" if self.derived else f"n = {readings}"


def seen(deck: Deck, subject: str, specimen_id: str, units: str = "") -> Seen:
    """Return what is known of a subject of one specimen."""
    record = deck.record
    text = value_text(record, subject, specimen_id, units or deck.units)
    figure = record.figures.get((subject, specimen_id))
    if figure is not None:
        number = figure.quantity is not None
        known = number or figure.word is not None
        shown = text if known else short_reason(Printed(text, is_state=True))
        found = Seen(
            _lines(shown, number),
            number,
            known,
            figure.readings,
            len(figure.readings),
            derived=True,
            beside=figure.kind.beside if known else "",
            foot_kpa=figure.contact_pressure_kpa if number else None,
        )
    else:
        found = _of_finding(record.findings.get((subject, specimen_id)), text)
    return replace(found, doubted=bool(record.in_doubt & set(found.readings)))


def _of_finding(finding: Finding | None, text: str) -> Seen:
    if finding is None:
        return Seen((text,), is_number=False, known=False)
    number = finding.quantity is not None
    return Seen(
        _lines(text, number),
        number,
        finding.state.has_value,
        tuple(r.id for r in finding.readings),
        len(counted(finding.readings)),
        foot_kpa=finding.contact_pressure_kpa if number else None,
    )


def _lines(text: str, number: bool) -> tuple[str, ...]:
    return tuple(text.split(SIDE_BY_SIDE)) if number else (text,)


def unbroken(line: str) -> str:
    """Return a value so that it may break before its unit and after "about", and nowhere else."""
    return line.replace(" ± ", "\u00a0±\u00a0").replace(" to ", "\u00a0to\u00a0")


def foot_words(pressures: list[float | None]) -> str:
    """Return under what foot pressure values were taken, in their order; "" where none matters."""
    known = [p for p in pressures if p is not None]
    if not known:
        return ""
    if len(set(pressures)) == 1:
        return f"foot {known[0]:g}\u00a0kPa"
    told = ["none" if p is None else f"{p:g}" for p in pressures]
    return f"foot {', '.join(told)}\u00a0kPa in this order"


def unlike_words(deck: Deck, subject: str) -> str:
    """Return why values of a subject may not be compared here, "" where they may."""
    record = deck.record
    ids = tuple(s.id for s in record.lineup.specimens if seen(deck, subject, s.id).known)
    evidence = Evidence(
        record.findings, record.figures, record.sequence, record.lineup.specimens, record.in_doubt
    )
    reason = unlike_among(subject, ids, evidence) if len(ids) > 1 else ""
    return f"Not to be compared: {reason.rstrip('.')}." if reason else ""


def cut_words(record: Record, specimens: tuple[Specimen, ...]) -> str:
    """Return how many filters of a part were cut."""
    counts = {_cut(record, one) for one in specimens}
    low, high = min(counts), max(counts)
    number = f"{low}" if low == high else f"{low} to {high}"
    each = " of each part" if len(specimens) > 1 else ""
    return f"{number} filter{'' if high == 1 else 's'}{each} cut"


def _cut(record: Record, specimen: Specimen) -> int:
    part = (specimen.maker.strip(), specimen.part_number.strip())
    if not all(part):
        return 1
    parts = [(s.maker.strip(), s.part_number.strip()) for s in record.lineup.specimens]
    return parts.count(part)


def name_of(specimen: Specimen) -> str:
    """Return a specimen's nickname on one line."""
    return " ".join(specimen.nickname.split()) or NO_NAME


def short_name(specimen: Specimen) -> str:
    """Return a nickname for use inside a sentence, with an ellipsis where it is long."""
    name = name_of(specimen)
    return name if len(name) <= LONGEST_NAME else cut_to(name, LONGEST_NAME - 1)


def label(deck: Deck, subject: str) -> str:
    """Return what a subject is called."""
    return label_of(deck.record, subject)


def with_short_names(text: str, specimens: tuple[Specimen, ...]) -> str:
    """Return a text in which every nickname is short, and set apart when it runs right to left."""
    held = _held(text, specimens)
    return _let_go(held, specimens)


def first_sentence(award: Award, specimens: tuple[Specimen, ...]) -> str:
    """Return the first sentence of an award's reason; a full stop in a nickname ends none."""
    held = _held(award.reason, specimens)
    first = re.split(r"(?<=\.)\s+(?=[A-Z\ue000])", held, maxsplit=1)[0]
    return _let_go(first, specimens)


def _held(text: str, specimens: tuple[Specimen, ...]) -> str:
    text = text.replace(_KEPT, " ")
    order = sorted(enumerate(specimens), key=lambda one: -len(one[1].nickname))
    for n, specimen in order:
        if specimen.nickname.strip():
            name = re.escape(specimen.nickname)
            text = re.sub(rf"(?<!\w){name}(?!\w)", f"{_KEPT}{n}{_KEPT}", text)
    return text


def _let_go(text: str, specimens: tuple[Specimen, ...]) -> str:
    def shown(found: re.Match[str]) -> str:
        name = short_name(specimens[int(found[1])])
        leftward = any(unicodedata.bidirectional(c) in ("R", "AL", "AN") for c in name)
        return isolated(name) if leftward else name

    return re.sub(f"{_KEPT}(\\d){_KEPT}", shown, text)
