"""A bench with a calliper that drifts: the verbs of a reviewer, shortened for tests."""

from __future__ import annotations

from dataclasses import replace

from benchlog.measure.check import Check, CheckMoment
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, standing
from benchlog.shelf import SqlShelf
from benchlog.tasks.checks import check_instrument
from benchlog.tasks.walk import Teardown
from benchlog.trade.check_standard import ZERO, Standard
from tests.small_trade import LENGTH, SMALL, HandClock

CALLIPER = Instrument("cal-1", "Calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.03)
MEASURED = replace(
    SMALL,
    attributes=tuple(
        replace(a, instrument="calliper", soft=None, hard=None, repeats=9) if a is LENGTH else a
        for a in SMALL.attributes
    ),
)
"""The short bench, whose length is taken with the calliper, as often as one likes."""


class DriftingBench:
    """Reads lengths and weights, and checks what they were read with."""

    def __init__(self, shelf: SqlShelf, clock: HandClock) -> None:
        self.shelf, self.clock = shelf, clock
        shelf.save_instrument(CALLIPER)
        self.walk = Teardown(shelf, clock, MEASURED, "l-1")
        self.walk.say_yes()

    def read(self, text: str, attribute: str = "media_length", specimen: str = "s-a") -> Reading:
        self.walk.reload()
        if self.walk.yes_wanted:
            self.walk.go_to_station("cut")
            self.walk.say_yes()
        self.walk.go_to(attribute, specimen)
        return self.walk.accept(text, sure=True, reason="as shown").reading

    def check(
        self,
        shown: str,
        moment: CheckMoment = CheckMoment.CLOSING,
        tool: Instrument = CALLIPER,
        standard: Standard = ZERO,
    ) -> Check:
        return check_instrument(
            self.shelf, self.clock, "l-1", tool.id, moment, shown, standard, sure=True
        )

    def standing(self) -> list[Reading]:
        return standing(self.shelf.readings("l-1"))

    def values(self) -> list[str]:
        """The numbers that stand, in the order of attribute, specimen and repeat."""
        there = sorted(self.standing(), key=lambda r: (r.attribute, r.specimen_id, r.ordinal))
        return [str(r.said.value) if r.said else r.state.value for r in there]
