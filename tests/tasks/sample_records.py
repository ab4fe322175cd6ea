"""The sample line-up's record, worked out once."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

from benchlog.judge.declared import Declaration
from benchlog.judge.purposes import Purpose
from benchlog.tasks.contents import contents_of
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out
from benchlog.wiring import open_workshop, record_of, rehearse_sample

WHY = "viewers with old cars asked"


class _NoProgress:
    def step(self, _done: int, _total: int, _what: str) -> None:
        return


@cache
def sample_record() -> Record:
    """Walk the sample line-up on a shelf of its own and return its record."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as place:
        workshop = open_workshop(Path(place) / "shelf")
        record = record_of(workshop, rehearse_sample(workshop, _NoProgress()))
        workshop.close()
    return record


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
