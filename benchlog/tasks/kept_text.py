"""Reading a pasted list of kept ranges: one a line, "0:12 - 3:40.5"."""

from __future__ import annotations

import re

from benchlog.errors import EntryRefused
from benchlog.tasks.footage import Kept

_STAMP = r"(?:(\d+):)?(\d+):([0-5]?\d(?:[.,]\d+)?)"
_LINE = re.compile(rf"\s*{_STAMP}\s*(?:-->|-|–|to)\s*{_STAMP}\s*")


def kept_from(text: str) -> tuple[Kept, ...]:
    """Return the ranges of a pasted list; empty lines are passed over.

    A stamp is m:ss or h:mm:ss, with parts of a second after a point. Raises EntryRefused naming
    the line that cannot be read.
    """
    found = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        match = _LINE.fullmatch(line)
        if match is None:
            raise EntryRefused(
                f"Line {number} of the kept ranges cannot be read: “{line.strip()}”.",
                "Write each range as 0:12 - 3:40, one on a line.",
            )
        found.append(Kept(_seconds(*match.groups()[:3]), _seconds(*match.groups()[3:])))
    return tuple(found)


def _seconds(hours: str | None, minutes: str, seconds: str) -> float:
    return int(hours or 0) * 3600 + int(minutes) * 60 + float(seconds.replace(",", "."))
