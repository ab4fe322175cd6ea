"""Which rows of values and which photos stand in which part of the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.sheet.value_rows import Row
from benchlog.trade.bench_tests import BenchTest, load_bench_tests
from benchlog.trade.component import Component


class Part(StrEnum):
    """A part of the sheet that holds values, by its title."""

    MOUNT = "Fit card"
    OUTSIDE = "Outside"
    INSIDE = "Inside"
    MEDIA = "Media"
    TESTS = "Bench tests"


MOUNT_KEYS = (
    "thread_code", "thread_candidates", "thread_pitch", "thread_plug", "full_threads",
    "thread_engagement", "gasket_outside", "gasket_inside", "gasket_proud", "gasket_section",
    "recess_depth", "can_diameter", "can_height", "bypass_place", "bypass_marked",
    "adbv_present", "element_outside", "element_height", "bore_top", "bore_bottom",
    "o_ring_count", "o_ring_inside", "o_ring_section",
)  # fmt: skip
"""What decides whether a filter goes on a mount at all, as far as it can be read from the part."""

WITHIN = (
    Component.CAN, Component.ADBV, Component.BYPASS, Component.SPRING, Component.CENTRE_TUBE,
    Component.END_CAPS, Component.PLEATS, Component.O_RINGS,
)  # fmt: skip

STATIONS = {
    "paper": Part.OUTSIDE, "outside": Part.OUTSIDE, "gasket": Part.OUTSIDE, "base": Part.OUTSIDE,
    "seals": Part.OUTSIDE, "before_cut": Part.OUTSIDE, "unfold": Part.MEDIA, "media": Part.MEDIA,
    "microscope": Part.MEDIA, "cut": Part.INSIDE, "can": Part.INSIDE, "valves": Part.INSIDE,
    "element": Part.INSIDE,
}  # fmt: skip
"""Where rows and photos of a station stand; rows of any other go by their component."""

MOUNT_ASKED = (
    "thread_code", "gasket_outside", "gasket_inside", "can_diameter", "can_height",
    "bypass_place", "bypass_marked", "adbv_present",
)  # fmt: skip
"""Lines that stand on the fit card even where nobody asked for them, as unknown."""

SPIN_ON_ONLY = ("element_outside", "element_height")
"""Outer sizes of a bare element; inside a can they say nothing of the mount."""


@dataclass(frozen=True)
class Parts:
    """All rows of a record, sorted into the parts of the sheet; no row stands twice."""

    claims: tuple[Row, ...]
    mount: tuple[Row, ...]
    outside: tuple[Row, ...]
    inside: tuple[Row, ...]
    media: tuple[Row, ...]
    tests: tuple[tuple[BenchTest, tuple[Row, ...]], ...]
    stated: tuple[Row, ...]
    wanting: tuple[Row, ...]

    @property
    def printed(self) -> tuple[Row, ...]:
        """The rows that stand in some table of values, in the order in which they stand."""
        tested = tuple(row for _, rows in self.tests for row in rows)
        return (*self.mount, *self.outside, *self.inside, *self.media, *tested)


def part_of_station(station: str) -> Part:
    """Return the part in which a station's photos stand."""
    return STATIONS.get(station, Part.INSIDE)


def parts_of(rows: list[Row]) -> Parts:
    """Sort rows into the parts of the sheet."""
    there = [row for row in rows if not row.wanting and not row.stated]
    claims = tuple(row for row in there if row.is_claim)
    by_key = {row.key: row for row in there if not row.is_claim}
    canned = any(row.component is Component.CAN for row in there)
    mount_keys = [k for k in MOUNT_KEYS if not (canned and k in SPIN_ON_ONLY)]
    mount = tuple(by_key.pop(key) for key in mount_keys if key in by_key)
    tests = []
    for test in load_bench_tests():
        tested = tuple(by_key.pop(key) for key in test.subjects if key in by_key)
        if tested:
            tests.append((test, tested))
    return Parts(
        claims,
        mount,
        tuple(row for row in by_key.values() if _part(row) is Part.OUTSIDE),
        tuple(row for row in by_key.values() if _part(row) is Part.INSIDE),
        tuple(row for row in by_key.values() if _part(row) is Part.MEDIA),
        tuple(tests),
        tuple(row for row in rows if row.stated),
        tuple(row for row in rows if row.wanting),
    )


def _part(row: Row) -> Part:
    if row.component is Component.MEDIA:
        return Part.MEDIA
    if row.station:
        return STATIONS.get(row.station, _of_component(row))
    return _of_component(row)


def _of_component(row: Row) -> Part:
    return Part.INSIDE if row.component in WITHIN else Part.OUTSIDE
