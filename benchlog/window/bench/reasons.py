"""Whether what was given as a reason is one."""

from __future__ import annotations

from benchlog.errors import EntryRefused
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.entry import parse_entry


def is_a_value(said: str) -> bool:
    """Whether a reason is really a value, such as "287.4", "~290 g" or "8 to 11 psi".

    Someone who types one there meant to correct the entry; taken for a reason, it would let the
    wrong value stand.
    """
    if not said.strip():
        return False
    if not any(sign.isalpha() for sign in said):
        return True
    return any(_reads_as(said, dimension.si_unit, name) for name, dimension in DIMENSIONS.items())


def _reads_as(said: str, unit: str, dimension: str) -> bool:
    try:
        parse_entry(said, unit, dimension)
    except EntryRefused:
        return False
    return True
