"""Writing a sheet into a folder and reading it back, for tests."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from pypdf import PdfReader

from benchlog.sheet.pdf_sheet import PdfSheet
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from tests.sheet.sample_record import PictureShelf, Told, photos


def write(
    record: Record,
    folder: Path,
    paper: str = "A4",
    shelf: PictureShelf | None = None,
    wishes: SheetWishes = USUAL,
) -> Path:
    """Write a sheet, by default without pictures; return where it stands."""
    path = folder / "sheet.pdf"
    PdfSheet().write(record, shelf or PictureShelf({}), path, paper, Told(), wishes)  # type: ignore[arg-type]
    return path


def with_photos(record: Record) -> tuple[Record, PictureShelf]:
    """Return the record with a picture at every station, and the shelf that holds them."""
    made, shelf = photos(record.lineup.specimens)
    return replace(record, photos=made), shelf


def plain(text: str) -> str:
    """Return text on one line with ordinary spaces, as a person would search it."""
    return " ".join(text.replace("\u00a0", " ").split())


def pages(path: Path) -> list[str]:
    """Return the words of every page."""
    return [plain(page.extract_text()) for page in PdfReader(path).pages]


def words(path: Path) -> str:
    """Return the words of the whole sheet."""
    return " ".join(pages(path))


def outline(path: Path) -> list[tuple[int, str, int]]:
    """Return the outline as (level, title, page index), in order."""
    reader = PdfReader(path)
    found: list[tuple[int, str, int]] = []

    def walk(entries: list[object], level: int) -> None:
        for entry in entries:
            if isinstance(entry, list):
                walk(entry, level + 1)
            else:
                page = reader.get_destination_page_number(entry)  # type: ignore[arg-type]
                found.append((level, str(entry.title), page or 0))  # type: ignore[attr-defined]

    walk(list(reader.outline), 0)
    return found
