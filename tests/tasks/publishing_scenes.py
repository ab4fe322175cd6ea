"""Writers of small files, and a line-up with two readings that are to be published."""

from __future__ import annotations

import errno
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from benchlog.measure.reading import standing
from benchlog.shelf import SqlShelf
from benchlog.tasks.correct import correct
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.ports import OutputWriter, Progress, Shelf
from benchlog.tasks.publication import Publication
from benchlog.tasks.publish_revision import publish_revision
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.tasks.walk import Teardown
from tests.small_trade import SMALL, HandClock


@dataclass(frozen=True)
class WordsWriter:
    """Writes which revision it is and every reading into as many files as wanted."""

    name: str = "sheet"
    kind: str = "sheet"
    files: tuple[str, ...] = ("sheet.txt",)
    padding: int = 0

    def write(
        self, record: Record, shelf: Shelf, folder: Path, progress: Progress
    ) -> tuple[str, ...]:
        assert shelf.lineup(record.lineup.id) == record.lineup
        words = [revision_words(record), *(r.text for r in standing(list(record.readings)))]
        for done, name in enumerate(self.files):
            progress.step(done, len(self.files), name)
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_text("\n".join(words) + " " * self.padding, encoding="utf-8")
        return self.files


@dataclass(frozen=True)
class FailingWriter:
    """Writes half of its file, then the disk is full or whatever else is wanted."""

    fault: Exception = field(default_factory=lambda: OSError(errno.ENOSPC, "No space left"))
    name: str = "data"
    kind: str = "data"

    def write(
        self,
        record: Record,  # noqa: ARG002 - as every writer
        shelf: Shelf,  # noqa: ARG002
        folder: Path,
        progress: Progress,  # noqa: ARG002
    ) -> tuple[str, ...]:
        (folder / "data.txt").write_text("half")
        raise self.fault


class Steps:
    """Progress that is stopped at its `stop`th step; counts what it is told."""

    def __init__(self, stop: int | None = None) -> None:
        self.told: list[tuple[int, int, str]] = []
        self._stop = stop

    def step(self, done: int, total: int, what: str) -> None:
        self.told.append((done, total, what))
        if len(self.told) == self._stop:
            raise StopAskedError


class StopAskedError(Exception):
    """Somebody wants it to end here."""


SHEET = WordsWriter()
CARDS = WordsWriter("cards", "cards", ("cards/one.txt", "cards/two.txt"))


def read_two(shelf: SqlShelf, clock: HandClock) -> None:
    """Answer the first specimen's weight and strip at the bench."""
    bench = Teardown(shelf, clock, SMALL, "l-1")
    bench.go_to("whole_mass", "s-a")
    bench.accept("287.4")
    bench.go_to_station("media")
    if bench.slot is None:
        bench.say_yes()
    bench.go_to("media_length", "s-a")
    bench.accept("1204")


def put_right(
    shelf: SqlShelf, clock: HandClock, text: str = "1240 mm", reason: str = "read a mark too low"
) -> None:
    """Correct the strip's length."""
    now = [r for r in standing(shelf.readings("l-1")) if r.attribute == "media_length"]
    correct(shelf, clock, SMALL, "l-1", now[0].id, text, reason, sure=True)


def record_now(shelf: SqlShelf) -> Record:
    return draw_up(shelf, "l-1", SMALL)


def publish(
    shelf: SqlShelf,
    clock: HandClock,
    *,
    writers: Iterable[OutputWriter] = (SHEET, CARDS),
    folder: Path | None = None,
    progress: Progress | None = None,
    reason: str = "",
) -> Publication:
    """Publish the line-up as it stands."""
    told = progress or Steps()
    return publish_revision(shelf, clock, record_now(shelf), tuple(writers), folder, told, reason)
