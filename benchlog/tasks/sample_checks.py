"""The checks of the sample line-up: what its instruments show for something known."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchlog.measure.check import CheckMoment, Remedy
from benchlog.measure.instrument import Instrument
from benchlog.tasks.checks import length_standard
from benchlog.trade.check_standard import ZERO, Standard, check_weight, load_check_standards
from benchlog.trade.resource_file import Entry, ResourceFile


@dataclass(frozen=True)
class SampleCheck:
    """One bracket of an instrument of the sample file.

    It is opened when the station `begins` begins and closed when `ends` ends. `zero` and `known`
    are what is shown at the opening and at the closing; what is known is a weight of a class or
    a block. `remedy` is what is done where the closing fails, `reason` why.
    """

    key: str
    instrument: str
    begins: str
    ends: str
    zero: tuple[str, str]
    known: tuple[str, str] | None = None
    weight_class: str = ""
    nominal_g: float = 0.0
    block: str = ""
    tolerance: str = ""
    remedy: Remedy | None = None
    reason: str = ""

    def steps(self, moment: CheckMoment, instrument: Instrument) -> Iterator[tuple[Standard, str]]:
        """Yield each standard that is put on at one end, and what is shown for it."""
        end = 0 if moment is CheckMoment.OPENING else 1
        yield ZERO, self.zero[end]
        if self.known and self.weight_class:
            yield check_weight(self.weight_class, self.nominal_g), self.known[end]
        elif self.known:
            kind = load_check_standards().kind("block")
            yield length_standard(kind, self.block, self.tolerance, instrument), self.known[end]


def read_check(file: ResourceFile, entry: Entry, tools: set[str]) -> SampleCheck:
    """Return one check of the sample file; raises ResourceFault for one that cannot be made."""
    made = file.convert(entry, SampleCheck)
    if made.instrument not in tools:
        raise file.fault(entry, "instrument", f"'{made.instrument}' is no instrument of this file")
    if made.known and bool(made.weight_class) == bool(made.block):
        raise file.fault(entry, "known", "wants either a weight_class or a block beside it")
    if made.remedy and not made.reason.strip():
        raise file.fault(entry, "remedy", "wants its reason beside it")
    return made
