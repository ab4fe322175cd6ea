"""How far readings of one filter may stand from one another before they contradict each other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

from benchlog.errors import OurFault
from benchlog.measure.units import convert, si_unit
from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

PLAUSIBILITY_FILE = "trade/plausibility.toml"


@dataclass(frozen=True)
class Threshold:
    """The limits of one rule, inclusive, in `unit`; None sets none.

    What the rule works out of the readings stands with the rule; `reason` says why the limits
    are where they are.
    """

    key: str
    reason: str
    support: Support
    source: str
    least: float | None = None
    most: float | None = None
    unit: str = "dimensionless"

    @cached_property
    def ends_si(self) -> tuple[float | None, float | None]:
        """The limits in the SI unit of their dimension."""
        target = si_unit(self.unit)
        least, most = (
            None if end is None else convert(end, self.unit, target)
            for end in (self.least, self.most)
        )
        return least, most


@cache
def load_thresholds(root: Path | None = None) -> dict[str, Threshold]:
    """Return the limits of trade/plausibility.toml by the rule's key; raises ResourceFault."""
    file = read_resource(PLAUSIBILITY_FILE, root)
    file.only("rule")
    return {entry.key: _threshold(file, entry) for entry in file.entries("rule")}


def _threshold(file: ResourceFile, entry: Entry) -> Threshold:
    threshold = file.convert(entry, Threshold)
    if threshold.least is None and threshold.most is None:
        raise file.fault(entry, "most", "a rule wants a least or a most")
    try:
        least, most = threshold.ends_si
    except OurFault as error:
        raise file.fault(entry, "unit", f"'{threshold.unit}' is not a unit") from error
    if least is not None and most is not None and least >= most:
        raise file.fault(entry, "least", "wants less than the most")
    for field in ("reason", "source"):
        if not getattr(threshold, field).strip():
            raise file.fault(entry, field, "is empty")
    return threshold
