"""Drawing steels by name, with the yield strength of the sheet as delivered."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.resource_file import read_resource

STEELS_FILE = "trade/steels.toml"


@dataclass(frozen=True)
class Steel:
    """One steel sheet; `yield_mpa` are the ends of its yield strength in MPa."""

    key: str
    label: str
    yield_mpa: tuple[float, float]
    standard: str
    source: str


@cache
def load_steels(root: Path | None = None) -> tuple[Steel, ...]:
    """Return every steel of trade/steels.toml, in the file's order; raises ResourceFault."""
    file = read_resource(STEELS_FILE, root)
    file.only("steel")
    steels = []
    for entry in file.entries("steel"):
        steel = file.convert(entry, Steel)
        low, high = steel.yield_mpa
        if not 0 < low <= high:
            raise file.fault(entry, "yield_mpa", "wants two strengths above 0, the lower first")
        for field in ("label", "standard", "source"):
            if not getattr(steel, field).strip():
                raise file.fault(entry, field, "is empty")
        steels.append(steel)
    if not steels:
        raise file.fault(file.single("steel"), "", "wants at least one steel")
    return tuple(steels)


def yield_span(root: Path | None = None) -> tuple[float, float]:
    """Return the lowest and the highest yield strength among all steels, in MPa."""
    spans = [steel.yield_mpa for steel in load_steels(root)]
    return min(low for low, _ in spans), max(high for _, high in spans)
