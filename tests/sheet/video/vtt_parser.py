"""A reader of WebVTT files, strict where the specification is: for tests.

Written from the W3C's text (WebVTT: The Web Video Text Tracks Format, section 4, the syntax that a
file conforms to), not from a player's forgiving parser: signature, blocks set apart by blank lines,
an optional identifier, timings with one or more spaces or tabs about the arrow, then the text.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass
from itertools import pairwise

_TIME = r"(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})"
_TIMINGS = re.compile(rf"{_TIME}[ \t]+-->[ \t]+{_TIME}")
_BARE = re.compile(r"&(?!(?:amp|lt|gt|lrm|rlm|nbsp|#\d+|#x[0-9A-Fa-f]+);)")


class NotWebVtt(Exception):
    """The file does not conform."""


@dataclass(frozen=True)
class Cue:
    """One cue; times in milliseconds."""

    name: str
    start: int
    end: int
    text: str


def parse(data: bytes, *, chapters: bool = False) -> list[Cue]:
    """Return the cues of a file; chapters may besides not overlap and have one line each."""
    text = data.decode("utf-8", errors="strict").removeprefix("\ufeff")
    if "\0" in text:
        raise NotWebVtt("holds a NUL")
    lines = re.split(r"\r\n|\n|\r", text)
    if not re.fullmatch(r"WEBVTT(?:[ \t][^\n]*)?", lines[0]):
        raise NotWebVtt("does not begin with its signature")
    if len(lines) > 1 and lines[1] != "":
        raise NotWebVtt("no blank line after the signature")
    blocks = [b for b in "\n".join(lines[1:]).strip("\n").split("\n\n") if b.strip("\n")]
    cues = [_cue(block.strip("\n").split("\n")) for block in blocks]
    _check_order(cues, chapters=chapters)
    return cues


def _cue(lines: list[str]) -> Cue:
    name = ""
    if "-->" not in lines[0]:
        name, *lines = lines
    if not lines or not (found := _TIMINGS.fullmatch(lines[0])):
        raise NotWebVtt(f"no timings: {lines[:1]}")
    start, end = _milliseconds(*found.groups()[:4]), _milliseconds(*found.groups()[4:])
    if end <= start:
        raise NotWebVtt("a cue that ends before it starts")
    payload = "\n".join(lines[1:])
    if not payload or "-->" in payload or "<" in payload or _BARE.search(payload):
        raise NotWebVtt(f"text that does not conform: {payload!r}")
    return Cue(name, start, end, html.unescape(payload))


def _milliseconds(hours: str | None, minutes: str, seconds: str, parts: str) -> int:
    return ((int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)) * 1000 + int(parts)


def _check_order(cues: list[Cue], *, chapters: bool) -> None:
    names = [cue.name for cue in cues if cue.name]
    if len(set(names)) != len(names):
        raise NotWebVtt("an identifier twice")
    for before, after in pairwise(cues):
        if after.start < before.start:
            raise NotWebVtt("starts decrease")
        if chapters and after.start < before.end:
            raise NotWebVtt("chapters overlap")
    if chapters and any("\n" in cue.text for cue in cues):
        raise NotWebVtt("a chapter title of two lines")
