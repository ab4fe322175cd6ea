"""Chapters and subtitles as WebVTT (W3C, WebVTT: The Web Video Text Tracks Format).

A file is UTF-8 and begins with WEBVTT and an empty line. A cue is an identifier, a line of times
with one space on each side of the arrow, and its text. Hours have two digits or more, seconds
three decimals; a cue ends after it starts, and starts never decrease.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from benchlog.errors import OurFault, PublishRefused
from benchlog.tasks.chapters import SHORTEST_S, Chapter
from benchlog.tasks.subtitles import Subtitle

_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", "\0": "\ufffd"}
"""Escaped in cue text; without a bare > no text can hold an arrow."""


def chapters_webvtt(chapters: tuple[Chapter, ...], length_s: float) -> str:
    """Return a chapter track: one cue after another, none overlapping, the last to the end."""
    ends = [one.seconds for one in chapters[1:]]
    if chapters:
        ends.append(max(length_s, chapters[-1].seconds + SHORTEST_S))
    cues = [Subtitle(one.seconds, end, one.title) for one, end in zip(chapters, ends, strict=True)]
    return _file("chapter", cues)


def subtitles_webvtt(subtitles: Iterable[Subtitle]) -> str:
    """Return a subtitle track of the numbers."""
    return _file("number", subtitles)


def write_webvtt(text: str, path: Path) -> Path:
    """Write a track and return its path; raises PublishRefused when that cannot be done."""
    try:
        path.write_bytes(text.encode())
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"{path.name} cannot be written ({why}).", "Choose another place."
        ) from fault
    return path


def timestamp(seconds: float) -> str:
    """Return a time as WebVTT writes it: 00:01:02.500; raises OurFault for one before 0."""
    milliseconds = round(seconds * 1000)
    if milliseconds < 0:
        raise OurFault(f"a track cannot begin before 0 ({seconds} s)")
    minutes, rest = divmod(milliseconds, 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}.{rest % 1000:03}"


def cue_text(text: str) -> str:
    """Return text as one line of a cue, with what the format reads as markup escaped."""
    line = " ".join(text.split())
    return "".join(_ESCAPES.get(sign, sign) for sign in line)


def _file(kind: str, cues: Iterable[Subtitle]) -> str:
    blocks, before = ["WEBVTT"], 0.0
    for number, cue in enumerate(cues, start=1):
        start, end = timestamp(cue.start_s), timestamp(cue.end_s)
        if cue.start_s < before or start == end or cue.end_s < cue.start_s:
            raise OurFault(f"cue {number} ({start} to {end}) is out of order or has no length")
        before = cue.start_s
        blocks.append(f"{kind}-{number}\n{start} --> {end}\n{cue_text(cue.text) or '–'}")
    return "\n\n".join(blocks) + "\n"
