"""A scratch takes one reading back; a group correction is taken back as a whole, elsewhere."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.errors import EntryRefused
from benchlog.measure.reading import Reading


def refuse_a_group(last: Reading, readings: Sequence[Reading], taken_back: frozenset[str]) -> None:
    """Raise EntryRefused when the reading that would be scratched came of a group correction.

    `readings` are the line-up's, `taken_back` the ids of the corrections that undid another. A
    reading that was scratched and put back by hand since then is the reviewer's own again.
    """
    if not last.group or _put_back(last, readings):
        return
    if last.group in taken_back:
        raise EntryRefused(
            "The last action took the correction of a whole group back.",
            "A single one of its readings is corrected under Verdict.",
        )
    raise EntryRefused(
        "The last action corrected a whole group of readings.",
        "Take it back under Checks; a single one of them is corrected under Verdict.",
    )


def _put_back(last: Reading, readings: Sequence[Reading]) -> bool:
    return any(reading.id == last.supersedes and reading.withdrawn for reading in readings)
