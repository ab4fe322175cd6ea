"""What a revision is made of: each output, written into the folder that is to be published."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from benchlog.settings import METRIC
from benchlog.tasks.chapters import chapter_lines, chapters_of
from benchlog.tasks.description import LIMIT, Links, describe
from benchlog.tasks.footage import Timeline, timeline_of
from benchlog.tasks.ports import Progress, Shelf
from benchlog.tasks.publish import write_sheet
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.tasks.stand_in_wish import StandInWish, sides_of, stand_in_of
from benchlog.tasks.subtitles import markers_of, subtitles_of

TimelineOf = Callable[[Record], Timeline]
"""Gives the finished video's clock; the usual one lays the sessions end to end, uncut."""


@dataclass(frozen=True)
class SheetOutput:
    """The viewers' sheet as sheet.pdf, and where it is wished the one page in large print."""

    paper: str = "A4"
    wishes: SheetWishes = USUAL
    name: str = "sheet"
    kind: str = "sheet"

    def write(
        self, record: Record, shelf: Shelf, folder: Path, progress: Progress
    ) -> tuple[str, ...]:
        """Write the sheet; raises PublishRefused as `write_sheet` does."""
        from benchlog.sheet.pdf_sheet import PdfSheet  # noqa: PLC0415 - ReportLab is slow to import

        path = folder / "sheet.pdf"
        write_sheet(shelf, record, PdfSheet(), path, self.paper, progress, self.wishes)
        if not self.wishes.large_print:
            return (path.name,)
        from benchlog.sheet.large_print import (  # noqa: PLC0415 - only where it is wished
            LARGE_PRINT,
            write_large_print,
        )

        write_large_print(record, folder / LARGE_PRINT, self.paper, self.wishes.address)
        return (path.name, LARGE_PRINT)


@dataclass(frozen=True)
class DataOutput:
    """The open data as one zip file, data.zip, with the photos in it."""

    licence: str
    name: str = "data package"
    kind: str = "data"

    def write(
        self, record: Record, shelf: Shelf, folder: Path, progress: Progress
    ) -> tuple[str, ...]:
        """Write the package; raises PublishRefused as `write_package` does."""
        from benchlog.sheet.data.write_package import (  # noqa: PLC0415 - only when publishing
            write_package,
            zip_package,
        )

        package = folder / "data"
        scales = shelf.scale_picture if record.set_ups else None
        write_package(record, package, self.licence, shelf.photo_bytes, scale_bytes=scales)
        progress.step(1, 2, "packing")
        zip_package(package, folder / "data.zip")
        shutil.rmtree(package)
        return ("data.zip",)


@dataclass(frozen=True)
class CardsOutput:
    """The cards, each as PNG and SVG, in the folder cards.

    `heights` are the sizes wanted; a `stand_in` check has its cards among them.
    """

    units: str = METRIC
    name: str = "cards"
    kind: str = "cards"
    heights: tuple[int, ...] = (1080, 2160)
    stand_in: StandInWish | None = None

    def write(
        self, record: Record, shelf: Shelf, folder: Path, progress: Progress
    ) -> tuple[str, ...]:
        """Write the cards; raises PublishRefused as `write_cards` does.

        PlanRefused for a stand-in check whose specimens are gone.
        """
        from benchlog.sheet.cards.all_cards import (  # noqa: PLC0415 - only for cards
            CardWishes,
            StandIn,
        )
        from benchlog.sheet.cards.write_cards import write_cards  # noqa: PLC0415

        asked = self.stand_in
        checks = (StandIn(stand_in_of(record, asked), *sides_of(record, asked)),) if asked else ()
        wishes = CardWishes(units=self.units, stand_ins=checks)
        place = folder / "cards"
        made = write_cards(record, place, shelf.photo_bytes, progress, wishes, self.heights)
        return tuple(path.relative_to(folder).as_posix() for path in made.files)


@dataclass(frozen=True)
class VideoOutput:
    """Chapters, subtitles and markers for the video; none when nothing was read at the bench."""

    timeline: TimelineOf = field(default=timeline_of)
    name: str = "chapters and subtitles"
    kind: str = "chapters"

    def write(
        self,
        record: Record,
        shelf: Shelf,  # noqa: ARG002 - every output is offered the shelf
        folder: Path,
        progress: Progress,
    ) -> tuple[str, ...]:
        """Write the files; the timeline for editors is left out where its library is missing."""
        from benchlog.sheet.video.markers import (  # noqa: PLC0415 - only when publishing
            chapter_markers,
            markers_csv,
            write_otio,
        )
        from benchlog.sheet.video.webvtt import (  # noqa: PLC0415
            chapters_webvtt,
            subtitles_webvtt,
            write_webvtt,
        )

        timeline = self.timeline(record)
        chapters = chapters_of(record, timeline)
        if not chapters:
            return ()
        place = folder / "video"
        place.mkdir()
        (place / "chapters.txt").write_bytes(f"{chapter_lines(chapters)}\n".encode())
        write_webvtt(chapters_webvtt(chapters, timeline.length_s), place / "chapters.vtt")
        write_webvtt(subtitles_webvtt(subtitles_of(record, timeline)), place / "subtitles.vtt")
        progress.step(1, 2, "markers")
        both = (*chapter_markers(chapters), *markers_of(record, timeline))
        markers = sorted(both, key=lambda one: one.seconds)
        (place / "markers.csv").write_bytes(markers_csv(markers).encode())
        names = ["chapters.txt", "chapters.vtt", "subtitles.vtt", "markers.csv"]
        title = record.lineup.name or "Teardown"
        if can_write_otio():
            length = timeline.length_s
            write_otio(markers, place / "markers.otio", name=title, length_s=length)
            names.append("markers.otio")
        return tuple(f"video/{name}" for name in names)


@dataclass(frozen=True)
class DescriptionOutput:
    """The video's description, as plain text and as Markdown."""

    links: Links = field(default_factory=Links)
    ask: str = ""
    limit: int = LIMIT
    timeline: TimelineOf = field(default=timeline_of)
    name: str = "description"
    kind: str = "description"

    def write(
        self,
        record: Record,
        shelf: Shelf,  # noqa: ARG002 - every output is offered the shelf
        folder: Path,
        progress: Progress,  # noqa: ARG002 - done at once
    ) -> tuple[str, ...]:
        """Write both; raises PublishRefused as `describe` does."""
        chapters = chapters_of(record, self.timeline(record))
        told = describe(record, chapters, self.links, ask=self.ask, limit=self.limit)
        (folder / "description.txt").write_bytes(told.plain.encode())
        (folder / "description.md").write_bytes(told.markdown.encode())
        return ("description.txt", "description.md")


def can_write_otio() -> bool:
    """Whether the library that writes timelines for editors runs on this Python."""
    try:
        import opentimelineio  # noqa: PLC0415, F401 - slow to load, and missing on some Pythons
    except ImportError:
        return False
    return True
