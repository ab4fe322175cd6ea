"""The sample line-up's record, worked out once."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from benchlog.tasks.record import Record
from benchlog.wiring import open_workshop, record_of, rehearse_sample


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
