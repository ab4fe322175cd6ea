"""Markers for the editor: as an OpenTimelineIO timeline, and as plain CSV.

OpenTimelineIO (Apache-2.0, an open interchange format with adapters to the common editing
programs) writes the .otio file. Its wheel is small (2.4 MB installed), yet there is none for the
newest Pythons; the CSV needs nothing and holds the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

from benchlog.errors import PublishRefused
from benchlog.sheet.data.csv_text import rows_as_csv
from benchlog.tasks.chapters import Chapter
from benchlog.tasks.subtitles import Marker

HEADER = ("seconds", "timecode", "name", "note")


def chapter_markers(chapters: Iterable[Chapter]) -> tuple[Marker, ...]:
    """Return a marker at the beginning of each chapter."""
    return tuple(Marker(one.seconds, one.title, "chapter") for one in chapters)


def frame_of(seconds: float, rate: Fraction) -> int:
    """Return the frame that is on screen at a second; `rate` is in frames a second."""
    # The millionth keeps a frame's own beginning from falling into the one before.
    return int((Fraction(seconds) + Fraction(1, 1_000_000)) * rate)


def timecode(seconds: float, rate: Fraction) -> str:
    """Return hh:mm:ss:ff, counted without dropping numbers at the nearest whole rate."""
    whole = round(rate)
    rest, frame = divmod(frame_of(seconds, rate), whole)
    minutes, second = divmod(rest, 60)
    return f"{minutes // 60:02}:{minutes % 60:02}:{second:02}:{frame:02}"


def markers_csv(markers: Iterable[Marker], rate: Fraction = Fraction(25)) -> str:
    """Return markers as CSV (RFC 4180): seconds with three decimals, timecode, name, note."""
    rows = ((f"{m.seconds:.3f}", timecode(m.seconds, rate), m.name, m.note) for m in markers)
    return rows_as_csv(HEADER, rows)


def write_otio(
    markers: Iterable[Marker],
    path: Path,
    *,
    name: str,
    length_s: float,
    rate: Fraction = Fraction(25),
) -> Path:
    """Write a timeline with one empty track of the video's length that carries the markers.

    Raises PublishRefused where the library is not installed, or when the file cannot be written.
    """
    try:
        import opentimelineio as otio  # noqa: PLC0415 - slow to load, and missing on some Pythons
    except ImportError as fault:
        raise PublishRefused(
            "The library that writes timelines does not run on this Python.",
            "Take the list of markers as CSV; it holds the same.",
        ) from fault
    frames = float(rate)

    def span(start: int, length: int) -> otio.opentime.TimeRange:
        time = otio.opentime.RationalTime
        return otio.opentime.TimeRange(time(start, frames), time(length, frames))

    gap = otio.schema.Gap(source_range=span(0, max(1, frame_of(length_s, rate))))
    for marker in markers:
        gap.markers.append(
            otio.schema.Marker(
                name=_plain(marker.name),
                marked_range=span(frame_of(marker.seconds, rate), 1),
                metadata={"benchlog": {"note": _plain(marker.note), "seconds": marker.seconds}},
            )
        )
    timeline = otio.schema.Timeline(name=_plain(name))
    timeline.tracks.append(otio.schema.Track(name="numbers", children=[gap]))
    try:
        path.write_text(otio.adapters.write_to_string(timeline, "otio_json"), encoding="utf-8")
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"{path.name} cannot be written ({why}).", "Choose another place."
        ) from fault
    return path


def _plain(text: str) -> str:
    """Return text on one line without control characters, which the library cannot hold."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
