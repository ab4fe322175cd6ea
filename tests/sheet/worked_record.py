"""The sample line-up as it comes off the bench, put right and with its doubt left standing."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from tests.sheet.reading_back import pages, write
from tests.tasks.sample_records import doubted_record, sample_record


def worked(*, put_right: bool = True) -> Record:
    """Return the record of the sample line-up; `put_right` corrects the failed bracket."""
    return sample_record() if put_right else doubted_record()


@cache
def worked_pages(wishes: SheetWishes = USUAL, *, put_right: bool = True) -> tuple[str, ...]:
    """Return the words of every page of that line-up's sheet."""
    with tempfile.TemporaryDirectory() as place:
        return tuple(pages(write(worked(put_right=put_right), Path(place), wishes=wishes)))


def worked_words(wishes: SheetWishes = USUAL, *, put_right: bool = True) -> str:
    """Return the words of the whole sheet, without what stands on every page."""
    return " ".join(worked_pages(wishes, put_right=put_right))
