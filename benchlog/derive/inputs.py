"""The findings that a formula asks for, and the plain reason when one cannot be had."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from benchlog.errors import BenchlogError
from benchlog.measure.finding import Finding
from benchlog.measure.quantities import value_in
from benchlog.measure.state import State
from benchlog.measure.units import Quantity, registry
from benchlog.trade.specimen import Specimen

INPUT_WORDS = {
    "media_length": "strip length",
    "media_width": "full width of the strip",
    "media_hidden": "width hidden by the end caps",
    "media_exposed_width": "exposed width of the strip",
    "media_mass": "dry weight of the strip",
    "media_thickness": "media thickness",
    "pleat_count": "pleat count",
    "full_threads": "number of full threads",
    "thread_pitch": "thread pitch",
    "thread_code": "thread",
    "outlet_bore": "bore of the outlet",
    "inlet_hole_count": "number of inlet holes",
    "inlet_hole_diameter": "diameter of the inlet holes",
}
"""What each input is called in a reason, by attribute key."""


class CannotWork(BenchlogError):
    """A figure has no value; the message is the reason, in plain words.

    Never leaves this room: `figures_of` turns it into the figure's refusal.
    """


@dataclass
class Inputs:
    """The findings of one specimen, and a memory of those that a formula has used."""

    findings: Mapping[str, Finding]
    specimen: Specimen
    used: dict[str, Finding] = field(default_factory=dict)

    def has(self, key: str) -> bool:
        """Whether the input has a number."""
        finding = self.findings.get(key)
        return finding is not None and finding.quantity is not None

    def word(self, key: str) -> str | None:
        """Return the chosen word, None where there is none, and remember its use."""
        finding = self.findings.get(key)
        if finding is None or finding.word is None:
            return None
        self.used[key] = finding
        return finding.word

    def quantity(self, key: str) -> Quantity:
        """Return the number and remember its use; raises CannotWork naming what is missing."""
        finding = self.findings.get(key)
        if finding is None or finding.quantity is None:
            raise CannotWork(self.missing(key))
        self.used[key] = finding
        return finding.quantity

    def above_zero(self, key: str) -> Quantity:
        """Return a number that must be above zero; raises CannotWork otherwise."""
        quantity = self.quantity(key)
        if best(quantity) <= 0:
            raise CannotWork(f"The {INPUT_WORDS[key]} is not above zero; read it again.")
        return quantity

    def count(self, key: str) -> Quantity:
        """Return a count above zero as a pure number, whatever counting unit it came in."""
        return registry().Quantity(self.above_zero(key).magnitude, "")

    def missing(self, key: str) -> str:
        """Return the sentence that says which input is missing, with its state's word."""
        return f"No {INPUT_WORDS[key]}: {self.state(key).value}."

    def state(self, key: str) -> State:
        """Return the state of an input; nobody looked when nothing was recorded."""
        finding = self.findings.get(key)
        return State.NOT_MEASURED if finding is None else finding.state


def best(quantity: Quantity) -> float:
    """Return the best value in the quantity's own unit; numbers with uncertainty have no order."""
    return value_in(quantity, str(quantity.units))
