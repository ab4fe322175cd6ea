"""Writing the viewers' sheet as PDF: from a plain record, rounded and laid out, nothing else."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path
from typing import BinaryIO

from reportlab.platypus import CondPageBreak, Flowable, NextPageTemplate

from benchlog.errors import PublishRefused
from benchlog.sheet.cautions_page import cautions_page
from benchlog.sheet.front_page import FrontPage
from benchlog.sheet.identity_page import identity_page
from benchlog.sheet.layout import SheetDocument
from benchlog.sheet.method_page import method_page
from benchlog.sheet.micrograph_pages import micrographs_part
from benchlog.sheet.numbered import PlacesMet
from benchlog.sheet.panels import panels
from benchlog.sheet.photos_pages import SHAPE, frame_width
from benchlog.sheet.pictures import Pictures, Shrunk, prepare
from benchlog.sheet.ranks_part import ranks_part
from benchlog.sheet.sheet_parts import Part, parts_of
from benchlog.sheet.stand_in_page import stand_in_page
from benchlog.sheet.sums_pages import sums_pages
from benchlog.sheet.typography import PAPERS, Page, use_fonts
from benchlog.sheet.value_rows import all_rows
from benchlog.sheet.values_pages import mount_pages, nothing_recorded, part_pages, tests_pages
from benchlog.sheet.verdict_pages import verdict_pages
from benchlog.tasks.frozen_pictures import picture_photos
from benchlog.tasks.ports import Progress, Shelf
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_places import save_places
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes

STEPS_BESIDE_PICTURES = 2

ROOM_TO_BEGIN = 140.0
"""Points that a section wants on a page; with less it begins on the next one."""


class PdfSheet:
    """Writes sheets; the same record on the same paper gives the same bytes.

    A writer that writes again makes no photo small twice.
    """

    def __init__(self) -> None:
        self._shrunk = Shrunk()

    def write(
        self,
        record: Record,
        shelf: Shelf,
        path: Path,
        paper: str,
        progress: Progress,
        wishes: SheetWishes = USUAL,
    ) -> None:
        """Write the sheet to `path`, replacing what stands there only once it is whole.

        `paper` is "A4" or "Letter"; `wishes` say in which units, and whether with the sums.
        Raises PublishRefused when the paper is not known or the place cannot be written to. A
        picture that cannot be read leaves a labelled frame.
        """
        page = PAPERS.get(paper)
        if page is None:
            raise PublishRefused(
                f"There is no paper called '{paper}' for the sheet.", "Choose A4 or Letter."
            )
        use_fonts()
        steps = len(record.photos) + STEPS_BESIDE_PICTURES
        width = frame_width(page, len(record.lineup.specimens))
        box = (width, width * SHAPE)
        pictures = prepare(record, shelf, box, progress, steps, self._shrunk)
        try:
            _write_whole(path, record, page, pictures, progress, wishes)
        except OSError as error:
            raise _cannot_write(path, error) from error
        progress.step(steps, steps, "sheet written")


def _write_whole(
    path: Path,
    record: Record,
    page: Page,
    pictures: Pictures,
    progress: Progress,
    wishes: SheetWishes,
) -> None:
    """Build into a file beside `path`, then let it take the place of `path` in one step."""
    handle, name = tempfile.mkstemp(prefix=".sheet-", suffix=".part", dir=path.parent)
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            places = _build(out, record, page, pictures, progress, wishes)
            out.flush()
            os.fsync(out.fileno())
        if wishes.mapped:
            save_places(path, places.known((*record.findings, *record.figures)))
        part.chmod(0o644)
        part.replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            part.unlink()
        raise


def _build(
    out: BinaryIO,
    record: Record,
    page: Page,
    pictures: Pictures,
    progress: Progress,
    wishes: SheetWishes,
) -> PlacesMet:
    """Build the sheet into `out`; return where its values stand."""
    done = len(record.photos)

    def at_page(number: int) -> None:
        progress.step(done, done + STEPS_BESIDE_PICTURES, f"page {number}")

    document = SheetDocument(out, record, page, at_page)
    document.build(_story(record, page, pictures, wishes))
    return document.places


def _story(record: Record, page: Page, pictures: Pictures, wishes: SheetWishes) -> list[Flowable]:
    """Return the whole sheet in order; a section begins where a good part of it has room."""
    rows = parts_of(all_rows(record, wishes.units))
    fields, pictures = pictures, pictures.without(picture_photos(record))
    sections = [
        identity_page(record, page, rows.claims),
        mount_pages(record, page, rows, wishes.units),
        part_pages(record, page, Part.OUTSIDE, rows.outside, pictures),
        part_pages(record, page, Part.INSIDE, rows.inside, pictures),
        part_pages(record, page, Part.MEDIA, rows.media, pictures),
        micrographs_part(record, page, fields),
        tests_pages(record, page, rows),
        nothing_recorded(rows),
        panels(page, rows.printed),
        verdict_pages(record, page),
        ranks_part(record, page),
        stand_in_page(record, page, wishes.stand_in) if wishes.stand_in else [],
        method_page(record, page, rows.stated, wishes.units),
        cautions_page(record, page),
    ]
    if wishes.sums:
        sections.append(sums_pages(record, page, wishes.units))
    front = FrontPage(record, page, pictures, wishes.address)
    story: list[Flowable] = [NextPageTemplate("text"), front]
    for parts in sections:
        story += [CondPageBreak(ROOM_TO_BEGIN), *parts] if parts else []
    return story


def _cannot_write(path: Path, error: OSError) -> PublishRefused:
    why = error.strerror or str(error)
    return PublishRefused(
        f"The sheet could not be written to {path}: {why}.",
        "Close it in other programs, or choose another folder with room, and write it again.",
    )
