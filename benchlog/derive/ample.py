"""Whether the ways in and the tube are ample for the outlet, in words."""

from __future__ import annotations

from dataclasses import replace

from benchlog.derive.agreement import uncertain
from benchlog.derive.figure import FigureKind
from benchlog.derive.holes import INLET_TO_OUTLET, inlet_to_outlet
from benchlog.derive.inputs import Inputs
from benchlog.derive.number import plain
from benchlog.derive.tube import TUBE_TO_OUTLET, tube_to_outlet
from benchlog.derive.working import Formula
from benchlog.measure.coverage import expanded
from benchlog.trade.attribute import Judged


def _in_words(ratio: FigureKind, key: str, label: str) -> FigureKind:
    return replace(
        ratio,
        key=key,
        label=label,
        formula="ample where the ratio of areas is 1 or more, by more than its expanded "
        "uncertainty; less where it is below by as much",
        unit="",
        inch_unit="",
        judged=Judged.IDENTITY,
    )


INLET_AMPLE = _in_words(INLET_TO_OUTLET, "inlet_ample", "Inlet holes for the outlet")

TUBE_AMPLE = _in_words(TUBE_TO_OUTLET, "tube_ample", "Centre tube for the outlet")


def inlet_ample(inputs: Inputs) -> str:
    """Say whether the inlet holes are ample for the outlet; raises CannotWork."""
    return _ample(inlet_to_outlet, inputs)


def tube_ample(inputs: Inputs) -> str:
    """Say whether the tube's openings are ample for the outlet; raises CannotWork."""
    return _ample(tube_to_outlet, inputs)


def _ample(ratio: Formula, inputs: Inputs) -> str:
    """Return the word for a ratio of areas, with its uncertainty in mind."""
    best = plain(ratio(inputs))
    if abs(best - 1.0) < expanded(uncertain(ratio, inputs)):
        return "Too near the outlet's area to tell"
    return "Ample" if best >= 1.0 else "Less than the outlet's area"


FIGURES = (
    (INLET_AMPLE, inlet_ample),
    (TUBE_AMPLE, tube_ample),
)
