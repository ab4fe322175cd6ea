"""All files for the video of one record, in one folder."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from benchlog.errors import PublishRefused
from benchlog.sheet.video.markers import chapter_markers, markers_csv, write_otio
from benchlog.sheet.video.webvtt import chapters_webvtt, subtitles_webvtt
from benchlog.tasks.chapters import chapter_lines, chapters_of
from benchlog.tasks.description import LIMIT, Links, describe
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.footage import Timeline
from benchlog.tasks.record import Record
from benchlog.tasks.subtitles import markers_of, subtitles_of


def write_video_files(
    record: Record,
    timeline: Timeline,
    folder: Path,
    *,
    links: Links | None = None,
    ask: str = "",
    limit: int = LIMIT,
    rate: Fraction = Fraction(25),
    otio: bool = True,
) -> tuple[Path, ...]:
    """Write chapters, subtitles, markers, description and disclosure; return their paths.

    `rate` is in frames a second, `otio` asks for the timeline beside the CSV of markers. Raises
    PublishRefused while it is not answered who paid, when the disclosure does not fit into
    `limit` characters, and when a file cannot be written.
    """
    paid = disclosure_of(record.lineup)
    chapters = chapters_of(record, timeline)
    told = describe(record, chapters, links, ask=ask, limit=limit)
    markers = sorted(
        (*markers_of(record, timeline), *chapter_markers(chapters)), key=lambda one: one.seconds
    )
    texts = {
        "disclosure.txt": f"Spoken: {paid.spoken}\nOn screen: {paid.on_screen}\n{paid.elsewhere}\n",
        "description.txt": told.plain,
        "description.md": told.markdown,
        "chapters.txt": chapter_lines(chapters) + "\n",
        "chapters.vtt": chapters_webvtt(chapters, timeline.length_s),
        "numbers.vtt": subtitles_webvtt(subtitles_of(record, timeline)),
        "markers.csv": markers_csv(markers, rate),
    }
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in texts.items():
            (folder / name).write_bytes(text.encode())
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"{folder.name} cannot be written ({why}).", "Choose another place."
        ) from fault
    paths = tuple(folder / name for name in texts)
    if not otio:
        return paths
    name = record.lineup.name or "Teardown"
    whole = folder / "markers.otio"
    length = timeline.length_s
    return (*paths, write_otio(markers, whole, name=name, length_s=length, rate=rate))
