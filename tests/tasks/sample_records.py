"""The sample line-up's record, worked out once."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache, partial
from pathlib import Path

from benchlog.judge.declared import Declaration
from benchlog.judge.purposes import Purpose
from benchlog.tasks.contents import contents_of
from benchlog.tasks.record import Record
from benchlog.tasks.rehearse import rehearse
from benchlog.tasks.sample import load_sample
from benchlog.tasks.work_out import worked_out
from benchlog.trade.sequence_file import load_sequence
from benchlog.wiring import open_workshop, picture_measurer, record_of, rehearsal_scale
from tests.made_shelves import copy_of

WHY = "viewers with old cars asked"


class _NoProgress:
    def step(self, _done: int, _total: int, _what: str) -> None:
        return


@cache
def sample_record() -> Record:
    """Return the record of the sample line-up as it comes off the bench, put right."""
    return _record_on("sample", _walk_sample)


@cache
def doubted_record() -> Record:
    """Return that record as it is while the failed check has put nothing right."""
    return _record_on("sample in doubt", partial(_walk_sample, put_right=False))


@cache
def pictured_record() -> Record:
    """Return that record with the media looked at through the microscope."""
    return _record_on(*PICTURED)


def pictured_shelf(folder: Path) -> Path:
    """Copy the closed shelf of that record to a folder of its own."""
    return copy_of(*PICTURED, folder)


def _record_on(name: str, make: Callable[[Path], None]) -> Record:
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as place:
        workshop = open_workshop(copy_of(name, make, Path(place) / "shelf"))
        (brief,) = workshop.shelf.lineups()
        record = record_of(workshop, brief.id)
        workshop.close()
    return record


def _walk_sample(folder: Path, *, put_right: bool = True, pictures: bool = False) -> None:
    sample = load_sample()
    sequence = load_sequence(sample.lineup.sequence)
    workshop = open_workshop(folder)
    rehearse(
        workshop.shelf, workshop.clock, sequence, sample, rehearsal_scale, _NoProgress(),
        put_right=put_right, measurer=picture_measurer(here=True) if pictures else None,
    )  # fmt: skip
    workshop.close()


PICTURED = ("sample with micrographs", partial(_walk_sample, pictures=True))


@cache
def sample_for(*purposes: Purpose | None) -> Record:
    """The sample's record, as if these had been declared one after another before the cut."""
    at = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
    contents = contents_of(sample_record())
    made = tuple(
        Declaration(f"d-{n}", contents.lineup.id, purpose, at + timedelta(hours=n), WHY)
        for n, purpose in enumerate(purposes)
    )
    return worked_out(replace(contents, declarations=made))
