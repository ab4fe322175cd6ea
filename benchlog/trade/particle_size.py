"""Particle sizes on older scales, and what the same particle is by ISO 11171 today."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

SIZES_FILE = "trade/particle_sizes.toml"

Pair = tuple[float, float]


@dataclass(frozen=True)
class SizeScale:
    """An older scale of particle sizes: `rows` pair a size on it with that in µm(c), rising.

    `rounded_to` is the last place, in µm, to which the sizes in µm(c) are given.
    """

    key: str
    label: str
    rows: tuple[Pair, ...]
    rounded_to: float
    support: Support
    source: str

    @property
    def reach(self) -> Pair:
        """The smallest and the largest size that the table holds, in µm."""
        return self.rows[0][0], self.rows[-1][0]

    def around(self, size_um: float) -> tuple[Pair, Pair] | None:
        """Return the two rows between which a size lies, None outside the table."""
        for low, high in pairwise(self.rows):
            if low[0] <= size_um <= high[0]:
                return low, high
        return None


@cache
def load_size_scales(root: Path | None = None) -> dict[str, SizeScale]:
    """Return the scales of trade/particle_sizes.toml by key; raises ResourceFault."""
    file = read_resource(SIZES_FILE, root)
    file.only("scale")
    return {entry.key: _scale(file, entry) for entry in file.entries("scale")}


def _scale(file: ResourceFile, entry: Entry) -> SizeScale:
    scale = file.convert(entry, SizeScale)
    if len(scale.rows) < 2:
        raise file.fault(entry, "rows", "wants two pairs or more")
    for low, high in pairwise(scale.rows):
        if low[0] >= high[0] or low[1] >= high[1]:
            raise file.fault(entry, "rows", f"wants rising sizes, not {list(low)}, {list(high)}")
    if scale.rows[0][0] <= 0 or scale.rows[0][1] <= 0:
        raise file.fault(entry, "rows", "wants sizes above 0")
    if scale.rounded_to < 0:
        raise file.fault(entry, "rounded_to", "wants 0 or more")
    if not scale.source.strip():
        raise file.fault(entry, "source", "is empty")
    return scale
