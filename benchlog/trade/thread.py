"""Threads of base plates: a table by code, and basic sizes from major diameter and pitch."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.resource_file import read_resource

THREADS_FILE = "trade/threads.toml"

MINOR_SHARE = 1.0825318
"""Pitches between basic major and basic minor diameter, 5/8 of √3: ISO 68-1, ASME B1.1."""

PITCH_DIAMETER_SHARE = 0.6495191
"""Pitches between basic major and basic pitch diameter, 3/8 of √3: ISO 68-1, ASME B1.1."""


@dataclass(frozen=True)
class Thread:
    """One standard internal thread, sizes in millimetres.

    `minor_low_mm` and `minor_high_mm` are the limits of the bore in the class that `standard`
    names; `limits_found` is "found" (seen in a published table) or "calculated" (from the
    standard's formulas). `confused_with` are codes of threads that are easily taken for it.
    """

    key: str
    label: str
    major_mm: float
    pitch_mm: float
    minor_low_mm: float
    minor_high_mm: float
    standard: str
    limits_found: str
    confused_with: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        """The code, as a reading keeps it."""
        return self.key

    @property
    def minor_mm(self) -> float:
        """Basic minor diameter, the bore: D1 = D - 1.0825318 P (ISO 724, ASME B1.1)."""
        return self.major_mm - MINOR_SHARE * self.pitch_mm

    @property
    def pitch_diameter_mm(self) -> float:
        """Basic pitch diameter: D2 = D - 0.6495191 P (ISO 724, ASME B1.1)."""
        return self.major_mm - PITCH_DIAMETER_SHARE * self.pitch_mm


@cache
def load_threads(root: Path | None = None) -> tuple[Thread, ...]:
    """Return every thread of trade/threads.toml, in the file's order; raises ResourceFault."""
    file = read_resource(THREADS_FILE, root)
    file.only("thread")
    entries = file.entries("thread")
    codes = {entry.key for entry in entries}
    threads = []
    for entry in entries:
        thread = file.convert(entry, Thread)
        if not 0 < thread.pitch_mm < thread.major_mm:
            raise file.fault(entry, "pitch_mm", "wants a pitch above 0 and below the diameter")
        if not thread.minor_low_mm <= thread.minor_high_mm < thread.major_mm:
            raise file.fault(entry, "minor_low_mm", "wants low ≤ high < major diameter")
        if thread.limits_found not in ("found", "calculated"):
            raise file.fault(entry, "limits_found", "wants 'found' or 'calculated'")
        for other in thread.confused_with:
            if other not in codes:
                raise file.fault(entry, "confused_with", f"there is no thread '{other}'")
        threads.append(thread)
    return tuple(threads)


def thread_of(code: str) -> Thread:
    """Return the shipped thread of that code; raises KeyError."""
    for thread in load_threads():
        if thread.code == code:
            return thread
    raise KeyError(code)
