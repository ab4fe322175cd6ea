"""What a formula asks for, and the plain reason when it cannot be had."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from benchlog.derive.number import Number
from benchlog.derive.trace import Trace
from benchlog.errors import BenchlogError
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.quantities import si_number, unit_of
from benchlog.measure.repeats import values_of
from benchlog.measure.state import State
from benchlog.measure.uncertainty import of_half_width
from benchlog.measure.units import convert, si_unit
from benchlog.trade.conditions import Conditions
from benchlog.trade.specimen import Specimen

INPUT_WORDS = {
    "media_length": "strip length",
    "media_width": "full width of the strip",
    "media_hidden": "width hidden by the end caps",
    "media_exposed_width": "exposed width of the strip",
    "media_mass": "dry weight of the strip",
    "media_thickness": "media thickness",
    "media_kind": "media kind",
    "media_thickness_tips": "media thickness at the folds",
    "media_air_flow": "air flow through the media",
    "media_air_pressure": "pressure in the air flow test",
    "fibre_width": "mean fibre width",
    "bubble_point": "bubble point of the disc",
    "bubble_depth": "depth of alcohol above the disc",
    "whole_bubble_point": "bubble point of the element",
    "whole_bubble_depth": "depth of alcohol above the stream",
    "pleat_count": "pleat count",
    "pleat_depth_gauge": "pleat depth by gauge",
    "tube_outside": "outside diameter of the tube",
    "element_outside": "outside diameter of the element",
    "full_threads": "number of full threads",
    "thread_pitch": "thread pitch",
    "thread_code": "thread",
    "outlet_bore": "bore of the outlet",
    "inlet_hole_count": "number of inlet holes",
    "inlet_hole_diameter": "diameter of the inlet holes",
    "can_diameter": "outside diameter of the can",
    "can_inside": "inside diameter of the can",
    "can_wall": "can wall",
    "bypass_force": "opening force of the bypass",
    "bypass_seat": "seat diameter of the bypass",
    "bypass_air": "opening of the bypass by air",
    "bypass_marked": "marked setting of the bypass",
    "spring_free_length": "free length of the spring",
    "spring_height": "installed height of the spring",
    "spring_load": "hold-down load",
    "spring_second_length": "second length of the spring",
    "spring_second_load": "load at the second length",
    "spring_wire": "wire diameter of the spring",
    "spring_coil": "outside diameter of the coil",
    "spring_active_coils": "number of active coils",
    "tube_open_area": "open area of the tube",
    "tube_hole_count": "number of holes in the tube",
    "tube_hole_diameter": "diameter of the holes in the tube",
    "claim_size": "claimed particle size",
    "claim_size_scale": "scale of the claimed size",
    "claim_percent": "claimed percentage",
    "claim_ratio": "claimed filtration ratio",
    "claim_standard": "standard of the claim",
    "claim_grams": "claimed capacity",
    "claim_end_pressure": "end pressure of the claimed capacity",
    "claim_distance": "claimed distance",
    "claim_months": "claimed time",
    "gasket_material": "gasket material",
    "adbv_material": "material of the drain-back valve",
    "o_ring_material": "material of the O-rings",
}
"""What each input is called in a reason, by attribute key."""


class CannotWork(BenchlogError):
    """A figure has no value; the message is the reason, in plain words.

    Never leaves this room: `figures_of` turns it into the figure's refusal.
    """


class Common:
    """The assumptions that the figures of one record share.

    A density assumed for two specimens is one unknown, not two: it is one variable here, and
    cancels where the two are compared, as a shared instrument does.
    """

    def __init__(self) -> None:
        self._variables: dict[tuple[str, float, float], Any] = {}
        self._used: dict[tuple[str, float, float, str, str], Used] = {}

    def number(self, key: str, low: float, high: float) -> Any:
        """Return the middle of an assumed interval, rectangular over it (JCGM 100 4.3.7)."""
        middle, half = (low + high) / 2, (high - low) / 2
        if half <= 0.0:
            return middle
        found = self._variables.get((key, low, high))
        if found is None:
            part = Part(f"assumed/{key}", Spread.RECTANGULAR)
            found = self._variables[key, low, high] = variable(of_half_width(half), part) + middle
        return found

    def used(self, key: str, low: float, high: float, unit: str, said: str) -> Used:
        """Return an assumed number in SI, from an interval in `unit`; the same one every time."""
        asked = key, low, high, unit, said
        found = self._used.get(asked)
        if found is None:
            (start, target), (end, _) = _in_si(low, unit), _in_si(high, unit)
            number = self.number(key, start, end)
            found = self._used[asked] = Used(number, target, said, (start, end), unit)
        return found


@dataclass(frozen=True)
class Used:
    """One number that a formula has asked for, in SI; `ends` are those of an assumed interval.

    `said_in` is the unit in which it was read or stated, `best` the number without uncertainty.
    """

    number: Any
    unit: str
    assumed: str = ""
    ends: tuple[float, float] | None = None
    said_in: str = ""
    best: float = field(init=False)

    def __post_init__(self) -> None:
        best = float(getattr(self.number, "nominal_value", self.number))
        object.__setattr__(self, "best", best)


@dataclass
class Inputs:
    """The findings of one specimen, and a memory of what a formula has used.

    Every number comes in the SI unit of its dimension. `given` holds other numbers to hand out
    in place of the best values: draws and quantities come in that way. With a `trace`, what is
    handed out remembers its use. What is asked of a number (above zero?) is asked of its best
    value. `known` holds the readings in SI, worked out once for all formulas of one specimen.
    """

    findings: Mapping[str, Finding]
    specimen: Specimen
    conditions: Conditions
    common: Common
    given: Mapping[str, Number] = field(default_factory=dict)
    used: dict[str, Used] = field(default_factory=dict)
    looked_at: dict[str, Finding] = field(default_factory=dict)
    assumed: list[str] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)
    known: dict[str, Used] = field(default_factory=dict)
    trace: Trace | None = None

    def afresh(self, given: Mapping[str, Number] | None = None) -> Inputs:
        """Return the same inputs without a memory of use, and with other numbers to hand out."""
        return Inputs(
            self.findings,
            self.specimen,
            self.conditions,
            self.common,
            given or {},
            known=self.known,
        )

    def has(self, key: str) -> bool:
        """Whether the input has a number."""
        finding = self.findings.get(key)
        return finding is not None and finding.quantity is not None

    def word(self, key: str) -> str | None:
        """Return the chosen word, None where there is none, and remember its use."""
        finding = self.findings.get(key)
        if finding is None or finding.word is None:
            return None
        self.looked_at[key] = finding
        return finding.word

    def finding(self, key: str) -> Finding:
        """Return a finding that has a number, and remember it; raises CannotWork."""
        finding = self.findings.get(key)
        if finding is None or finding.quantity is None:
            raise CannotWork(self.missing(key))
        self.looked_at[key] = finding
        return finding

    def number(self, key: str) -> Number:
        """Return a number in SI and remember its use; raises CannotWork naming what is missing."""
        if key not in self.used:
            quantity = self.finding(key).quantity
            assert quantity is not None
            if key not in self.known:
                said_in = unit_of(quantity)
                self.known[key] = Used(si_number(quantity), si_unit(said_in), said_in=said_in)
            self.used[key] = self.known[key]
        return self._handed_out(key)

    def above_zero(self, key: str) -> Number:
        """Return a number in SI that must be above zero; raises CannotWork otherwise."""
        number = self.number(key)
        if self.best(key) <= 0:
            raise CannotWork(f"The {words_of(key)} is not above zero; read it again.")
        return number

    def best(self, key: str) -> float:
        """Return the best value in SI of an input that was used; for questions, not for sums."""
        return self.used[key].best

    def repeats(self, key: str) -> tuple[float, ...]:
        """Return the single readings of an input in its own unit; for questions, not for sums."""
        return tuple(values_of(self.finding(key)))

    def between(
        self, key: str, low: float, high: float, unit: str, said: str, *, shared: bool = False
    ) -> Number:
        """Return an assumed number that lies anywhere between `low` and `high`, given in `unit`.

        `said` is the sentence that names the assumption and its source. A `shared` one is the
        same unknown for every specimen of the record, such as the oil; else each has its own.
        """
        name = key if shared else f"{key}/{self.specimen.id}"
        return self._assume(key, self.common.used(name, low, high, unit, said))

    def stated(self, key: str, value: float, unit: str, said: str) -> Number:
        """Return a stated condition or constant, exact, given in `unit`."""
        return self._assume(key, _stated(value, unit, said))

    def warn(self, sentence: str) -> None:
        """Say what the reviewer should do or bear in mind."""
        if sentence not in self.warnings:
            self.warnings.append(sentence)

    def missing(self, key: str) -> str:
        """Return the sentence that says which input is missing, with its state's word."""
        return f"No {words_of(key)}: {self.state(key).value}."

    def state(self, key: str) -> State:
        """Return the state of an input; nobody looked when nothing was recorded."""
        finding = self.findings.get(key)
        return State.NOT_MEASURED if finding is None else finding.state

    def _assume(self, key: str, used: Used) -> Number:
        self.used.setdefault(key, used)
        if used.assumed and used.assumed not in self.assumed:
            self.assumed.append(used.assumed)
        return self._handed_out(key)

    def _handed_out(self, key: str) -> Number:
        if key in self.given:
            return self.given[key]
        best = self.used[key].best
        return best if self.trace is None else self.trace.input(key, best)


@lru_cache(maxsize=1024)
def _in_si(value: float, unit: str) -> tuple[float, str]:
    """Return an assumed or stated number in SI, and that unit."""
    target = si_unit(unit)
    return convert(value, unit, target), target


@lru_cache(maxsize=1024)
def _stated(value: float, unit: str, said: str) -> Used:
    """Return a stated number; specimen after specimen states the same."""
    number, target = _in_si(value, unit)
    return Used(number, target, said, said_in=unit)


def words_of(key: str) -> str:
    """Return what an input is called in a sentence."""
    return INPUT_WORDS.get(key, key.replace("_", " "))
