"""The words of the sheet: what a specimen, a subject or an outcome prints as."""

from __future__ import annotations

from collections import Counter
from datetime import datetime

from benchlog.judge.parties import part_key, parties_of
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.text import shortened
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid, Specimen

LONGEST_NICKNAME = 40
"""Characters of a nickname inside a sentence; its column's head holds more."""

SUPPORT = {
    Support.STANDARD: "a test standard or specification treats it",
    Support.ENGINEERING: "an engineering argument; the size of its effect was not shown here",
    Support.OPINION: "opinion or custom only",
}

OUTCOME = {
    AwardKind.WINNER: "ahead of all others beyond uncertainty and meaningful difference",
    AwardKind.JOINT_WINNERS: "nobody clearly beats these; they are not apart from one another",
    AwardKind.TIE: "too close to call",
    AwardKind.DIFFERENT: "they differ, and neither way is better",
    AwardKind.NOT_JUDGED: "left out of the judging, or too little to go by",
    AwardKind.CANNOT_SEPARATE: "the readings scatter as much as the specimens differ",
}


def moment_of(record: Record) -> datetime:
    """Return when the latest reading was taken, or the line-up made when nothing was read."""
    return max((reading.at for reading in record.readings), default=record.lineup.created_at)


def date_of(record: Record) -> str:
    """Return the day of `moment_of`."""
    return moment_of(record).strftime("%Y-%m-%d")


def short_digest(record: Record) -> str:
    """Return the first twelve characters of the digest."""
    return record.digest[:12]


def revised_line(record: Record) -> str:
    """Return what a published later revision corrects, "" for a first one and for a draft."""
    if record.draft or record.revision < 2 or not record.revision_lines:
        return ""
    return record.revision_lines[-1]


def cut_of_same(record: Record, specimen: Specimen) -> int:
    """Return how many filters of this part stand in the line-up, told as judging tells them."""
    return sum(part_key(s) == part_key(specimen) for s in record.lineup.specimens)


def disclosure(record: Record) -> str:
    """Return one line that says who paid for how many specimens."""
    counts = Counter(specimen.paid for specimen in record.lineup.specimens)
    if len(counts) == 1:
        paid, count = next(iter(counts.items()))
        return f"Who paid: {'all ' if count > 1 else ''}{paid.value}"
    return "Who paid: " + ", ".join(f"{counts[p]} {p.value}" for p in Paid if counts[p])


def who_paid(specimen: Specimen) -> str:
    """Return who paid for one specimen, with the giver's or seller's name where it is known."""
    return f"{specimen.paid.value}: {specimen.giver}" if specimen.giver else specimen.paid.value


def price_of(specimen: Specimen) -> str:
    """Return the price as it was given, or that none was."""
    if specimen.price is None:
        return "no price given"
    return f"{specimen.price} {specimen.currency}".strip()


def names(record: Record, ids: tuple[str, ...]) -> str:
    """Return nicknames in bench order, each short enough for a list."""
    inside = [s.nickname for s in record.lineup.specimens if s.id in ids]
    return ", ".join(shortened(nickname, LONGEST_NICKNAME) for nickname in inside)


def subject_label(record: Record, subject: str) -> str:
    """Return the label of an attribute or figure; its key when the record knows neither."""
    for attribute in record.sequence.attributes:
        if attribute.key == subject:
            return attribute.label
    for figure in record.figures.values():
        if figure.kind.key == subject:
            return figure.kind.label
    return subject.replace("_", " ")


def components_shown(record: Record) -> list[Component]:
    """Return the components that have an outcome, in the order in which parts are shown."""
    awarded = {award.component for award in record.verdict.awards}
    return [component for component in Component if component in awarded]


def judged_by(record: Record) -> list[str]:
    """Return by what level and method gaps were told from chance, each way once."""
    return list(dict.fromkeys(a.judged_by for a in record.verdict.awards if a.judged_by))


def means_of_parts(record: Record) -> list[str]:
    """Return how several specimens of one part are compared, and which; none where none are."""
    together = [party for party in parties_of(record.lineup.specimens) if len(party) > 1]
    if not together:
        return []
    who = "; ".join(names(record, party) for party in together)
    return [
        "Specimens of one part are compared by their mean, with the scatter between them (Welch):"
        f" {who}."
    ]
