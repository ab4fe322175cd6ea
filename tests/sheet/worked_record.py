"""The sample line-up as it comes off the bench, put right and with its doubt left standing."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from benchlog.judge.rules_file import load_rules
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.record import Record
from benchlog.tasks.rehearse import rehearse
from benchlog.tasks.sample import load_sample
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.trade.sequence_file import load_sequence
from benchlog.wiring import open_workshop, rehearsal_scale
from tests.sheet.reading_back import pages, write


class _NoProgress:
    def step(self, _done: int, _total: int, _what: str) -> None:
        return


@cache
def worked(*, put_right: bool = True) -> Record:
    """Walk the sample line-up on a shelf of its own; `put_right` corrects the failed bracket."""
    sample = load_sample()
    sequence = load_sequence(sample.lineup.sequence)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as place:
        workshop = open_workshop(Path(place) / "shelf")
        lineup_id = rehearse(
            workshop.shelf, SystemClock(), sequence, sample, rehearsal_scale, _NoProgress(),
            put_right=put_right,
        )  # fmt: skip
        record = draw_up(
            workshop.shelf, lineup_id, sequence, load_rules(workshop.shelf.lineup(lineup_id).rules)
        )
        workshop.close()
    return record


@cache
def worked_pages(wishes: SheetWishes = USUAL, *, put_right: bool = True) -> tuple[str, ...]:
    """Return the words of every page of that line-up's sheet."""
    with tempfile.TemporaryDirectory() as place:
        return tuple(pages(write(worked(put_right=put_right), Path(place), wishes=wishes)))


def worked_words(wishes: SheetWishes = USUAL, *, put_right: bool = True) -> str:
    """Return the words of the whole sheet, without what stands on every page."""
    return " ".join(worked_pages(wishes, put_right=put_right))
