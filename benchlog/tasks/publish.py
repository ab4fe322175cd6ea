"""Hand the record to viewers: who paid comes first, then the sheet."""

from __future__ import annotations

from pathlib import Path

from benchlog.errors import PublishRefused
from benchlog.settings import UNITS_SHOWN
from benchlog.tasks.ports import Progress, SheetWriter, Shelf
from benchlog.tasks.record import Record
from benchlog.tasks.sealed import open_run
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.trade.specimen import Lineup, Paid

PAPERS = ("A4", "Letter")


def check_disclosure(lineup: Lineup) -> None:
    """Raise PublishRefused while it is not said of every specimen who paid for it."""
    unanswered = [s.nickname for s in lineup.specimens if s.paid is Paid.UNANSWERED]
    if unanswered:
        raise PublishRefused(
            f"Nobody said who paid for {', '.join(unanswered)}.",
            "Answer 'who paid' in the line-up; viewers are owed that first.",
        )


def check_ready(record: Record) -> None:
    """Raise PublishRefused while something has to come first: who paid, or the codes' opening."""
    check_disclosure(record.lineup)
    if open_run(record.blind_runs, record.reveals):
        raise PublishRefused(
            "Parts are still being judged blind.",
            "Open the codes in the verdict first; until then their answers are under seal.",
        )


def write_sheet(
    shelf: Shelf,
    record: Record,
    writer: SheetWriter,
    path: Path,
    paper: str,
    progress: Progress,
    wishes: SheetWishes = USUAL,
) -> Path:
    """Write the PDF sheet of a record to `path` and return it.

    Raises PublishRefused while something has to come first and for an unknown paper or units, and
    what the writer raises when the file cannot be written.
    """
    check_ready(record)
    if paper not in PAPERS:
        raise PublishRefused(f"'{paper}' is no paper size here.", "Choose A4 or Letter.")
    if wishes.units not in UNITS_SHOWN:
        raise PublishRefused(
            f"Values cannot be shown in '{wishes.units}' units.", "Choose metric, inch or both."
        )
    writer.write(record, shelf, path, paper, progress, wishes)
    return path


def sheet_name(lineup: Lineup) -> str:
    """Return a plain file name for a line-up's sheet, safe on every system."""
    return f"{plain_name(lineup)}-sheet.pdf"


def plain_name(lineup: Lineup) -> str:
    """Return a line-up's name as a plain name of a file or folder, safe on every system."""
    kept = "".join(c if c.isalnum() and c.isascii() else "-" for c in lineup.name.casefold())
    return "-".join(filter(None, kept.split("-")))[:60] or "line-up"
