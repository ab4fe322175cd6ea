"""What is about to go out: as which revision, what stands in the way, and what should be known."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from benchlog.errors import PlanRefused, PublishRefused
from benchlog.settings import METRIC
from benchlog.tasks.changed import (
    CARDS,
    CHAPTERS,
    DATA,
    DESCRIPTION,
    SHEET,
    LicenceChange,
    WishChange,
)
from benchlog.tasks.chapters import chapter_notes, chapters_of
from benchlog.tasks.description import describe
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.footage import timeline_of
from benchlog.tasks.ports import Shelf
from benchlog.tasks.publish import check_disclosure, check_ready
from benchlog.tasks.publish_revision import Wanted, chosen_since, next_revision
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_told
from benchlog.tasks.stand_in_wish import stand_in_of
from benchlog.tasks.wanted import wanted_of

NO_LICENCE = "No licence chosen: the data stays out until there is one."
NOT_LOCKED = "The rules were not locked before the cut; the sheet says so."
PUBLISHED = "revision {} is published; nothing changed since"
LICENCE = "revision {} is published; the data would go out under {} now"
CHOSEN = "revision {} is published; the record is the same, but {}"
LINEUP, VERDICT = "lineup", "verdict"


@dataclass(frozen=True)
class RowNote:
    """What should be known of one output; `missing` when it stays out or is refused for it."""

    words: str
    missing: bool = False


@dataclass(frozen=True)
class GoingOut:
    """How things stand before a revision.

    `standing` tells which revision this is. `block` is what has to come first, "" for nothing, and
    `answered_in` the place where it is answered. `notes` block nothing. `rows` hold a note for each
    output. `needs_reason` tells that the reviewer has to say why; `reason` is what corrections
    lend. `changed` is False when exactly this was published already.
    """

    revision: int
    standing: str
    changed: bool
    block: str
    answered_in: str
    notes: tuple[str, ...]
    rows: Mapping[str, RowNote]
    needs_reason: bool
    reason: str


def going_out(
    shelf: Shelf, record: Record, wishes: PublishWishes, paper: str = "A4", units: str = METRIC
) -> GoingOut:
    """Return how things stand before what the wishes ask for is published."""
    block, place = _block(record)
    licence = wishes.licence if wishes.goes_out(DATA) else ""
    wanted = wanted_of(record, wishes, paper, units)
    other = () if record.draft or block else chosen_since(shelf, record, licence, wanted)
    changed = record.draft or bool(other)
    needs_reason, reason = False, ""
    if changed and not block:
        needs_reason, reason = _reason(shelf, record, licence, wanted)
    return GoingOut(
        revision=record.revision + bool(other),
        standing=revision_told(record) if record.draft else _published(record, other),
        changed=changed,
        block=block,
        answered_in=place,
        notes=_notes(record),
        rows={
            SHEET: RowNote("" if block else disclosure_of(record.lineup).on_screen),
            CARDS: _refused(lambda: _cards(record, wishes)),
            DATA: _data(record, wishes),
            CHAPTERS: _refused(lambda: _chapters(record, wishes)),
            DESCRIPTION: RowNote("") if block else _refused(lambda: _description(record, wishes)),
        },
        needs_reason=needs_reason,
        reason=reason,
    )


def _block(record: Record) -> tuple[str, str]:
    try:
        check_disclosure(record.lineup)
    except PublishRefused as refusal:
        return f"{refusal.what} {refusal.do}", LINEUP
    try:
        check_ready(record)
    except PublishRefused as refusal:
        return f"{refusal.what} {refusal.do}", VERDICT
    return "", ""


def _published(record: Record, other: tuple[LicenceChange | WishChange, ...]) -> str:
    """Tell that a record is published, and what would go out otherwise now."""
    licence = next((one.new for one in other if isinstance(one, LicenceChange)), "")
    wishes = "; ".join(one.in_passing for one in other if isinstance(one, WishChange))
    if licence:
        told = LICENCE.format(record.revision, licence)
        return f"{told}; {wishes}" if wishes else told
    return (CHOSEN if wishes else PUBLISHED).format(record.revision, wishes)


def _reason(shelf: Shelf, record: Record, licence: str, wanted: Wanted) -> tuple[bool, str]:
    """Return whether a reason has to be typed, and the one that corrections lend."""
    try:
        return False, next_revision(shelf, record, "", licence, wanted).revision_reason
    except PublishRefused:
        return True, ""


def _notes(record: Record) -> tuple[str, ...]:
    return () if any(not lock.after_cut for lock in record.locks) else (NOT_LOCKED,)


def _refused(made: Callable[[], str]) -> RowNote:
    """Return what is told of an output, or why it would be refused."""
    try:
        return RowNote(made())
    except (PublishRefused, PlanRefused) as refusal:
        return RowNote(f"{refusal.what} {refusal.do}", missing=True)


def _cards(record: Record, wishes: PublishWishes) -> str:
    if wishes.stand_in is None or not wishes.stand_in.on_cards:
        return ""
    check = stand_in_of(record, wishes.stand_in)
    return f"with the stand-in check: {check.candidate} beside {check.specified}"


def _data(record: Record, wishes: PublishWishes) -> RowNote:
    if not wishes.licence:
        return RowNote(NO_LICENCE, missing=DATA in wishes.kinds)
    count = len(record.photos)
    return RowNote(f"with {count} photos" if count != 1 else "with 1 photo")


def _chapters(record: Record, wishes: PublishWishes) -> str:
    chapters = chapters_of(record, timeline_of(record, wishes.footage, wishes.kept))
    notes = chapter_notes(chapters)
    if notes:
        return " ".join(notes)
    known = sum(bool(one.anchors) for one in wishes.footage)
    start = "from the start that you set" if known else "the clip is taken to start with the first"
    return f"{len(chapters)} chapters; {start}{'' if known else ' reading'}"


def _description(record: Record, wishes: PublishWishes) -> str:
    chapters = chapters_of(record, timeline_of(record, wishes.footage, wishes.kept))
    told = describe(record, chapters, wishes.links, ask=wishes.ask, limit=wishes.limit)
    words = f"{max(len(told.plain), len(told.markdown))} of {wishes.limit} characters"
    return f"{words}; left out for length: {', '.join(told.left_out)}" if told.left_out else words
