"""What the can's wall comes to: its thickness two ways, and its stress as a thin cylinder."""

from __future__ import annotations

from benchlog.derive.agreement import normalised_error, uncertain
from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.steel import load_steels, yield_span

THIN_FROM = 20.0
"""Diameters over walls from which a cylinder counts as thin: Shigley, Roark (from memory)."""

WALL_INPUTS = ("can_diameter", "can_wall", "can_inside")

WALL_FROM_DIAMETERS = FigureKind(
    key="can_wall_from_diameters",
    label="Can wall from outside and inside",
    component=Component.CAN,
    formula="t = (Do − Di) ÷ 2: half of outside − inside diameter, both with one calliper",
    inputs=("can_diameter", "can_inside"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry; a zero error common to both readings cancels (JCGM 100 F.1.2.3)",
    note="A check on the micrometer; paint is in it, and a cut can may be out of round.",
)

DIAMETER_OVER_WALL = FigureKind(
    key="can_diameter_over_wall",
    label="Can diameter over wall",
    component=Component.CAN,
    formula="Do ÷ t: outside diameter ÷ wall; thin above 20",
    inputs=WALL_INPUTS,
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="thin-wall cylinder (Shigley, Roark; from memory)",
    note="Tells whether the sums for a thin wall hold; neither more nor less is better.",
)

HOOP_STRESS = FigureKind(
    key="can_hoop_stress",
    label="Hoop stress in the can wall",
    component=Component.CAN,
    formula="σ = p × Do ÷ (2 × t): stated pressure × outside diameter ÷ twice the wall",
    inputs=WALL_INPUTS,
    unit="megapascal",
    inch_unit="psi",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="Barlow's formula for a thin cylinder (Shigley, Roark; from memory)",
    note="In the straight wall only; seam, dome and base plate carry other stresses.",
)

YIELD_PRESSURE = FigureKind(
    key="can_yield_pressure",
    label="Nominal wall yield pressure",
    component=Component.CAN,
    formula="p = 2 × Re × t ÷ Do: twice the yield strength × wall ÷ outside diameter, "
    "for every drawing steel it may be",
    inputs=WALL_INPUTS,
    unit="kilopascal",
    inch_unit="psi",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="Barlow's formula (from memory); yield strengths of EN 10130 drawing steels",
    note="Steel and shape count as much as thickness.",
    bounded=True,
    beside="An estimate for the straight wall, not a burst test: seam, dome and base plate "
    "give way first.",
)


def wall_from_diameters(inputs: Inputs) -> Number:
    """Half of what the outside has over the inside; raises CannotWork."""
    wall = _half_of_difference(inputs)
    if inputs.has("can_wall") and not inputs.given:
        _compare_with_micrometer(inputs)
    return wall


def diameter_over_wall(inputs: Inputs) -> Number:
    """Outside diameter in walls; warns where the wall is not thin; raises CannotWork."""
    return _thin_cylinder(inputs)


def hoop_stress(inputs: Inputs) -> Number:
    """Stress round the wall at the stated pressure; raises CannotWork."""
    kpa = inputs.conditions.can_pressure_kpa
    said = f"The pressure in the can is stated as {kpa:g} kPa; it was not measured."
    return inputs.stated("can_pressure", kpa, "kilopascal", said) * _thin_cylinder(inputs) / 2


def yield_pressure(inputs: Inputs) -> Number:
    """Pressure at which the straight wall would begin to yield; raises CannotWork."""
    low, high = yield_span()
    names = ", ".join(steel.label for steel in load_steels())
    said = (
        f"The steel is not known: yield strength {low:g} to {high:g} MPa, drawing sheet {names} "
        "(EN 10130, as delivered; drawing hardens it)."
    )
    strength = inputs.between("yield_strength", low, high, "megapascal", said)
    return 2 * strength / _thin_cylinder(inputs)


def _thin_cylinder(inputs: Inputs) -> Number:
    """Outside diameter over wall, with the warning where thin-wall sums do not hold."""
    ratio = inputs.above_zero("can_diameter") / _wall(inputs)
    if "can_wall" in inputs.used:
        wall = inputs.best("can_wall")
    else:
        wall = (inputs.best("can_diameter") - inputs.best("can_inside")) / 2
    if 2 * wall >= inputs.best("can_diameter"):
        raise CannotWork("The wall would be thicker than the can is wide; read both again.")
    if inputs.best("can_diameter") / wall <= THIN_FROM:
        inputs.warn("The can is not over 20 walls wide: the sums for a thin wall do not hold.")
    return ratio


def _wall(inputs: Inputs) -> Number:
    """Wall by micrometer; otherwise from outside and inside."""
    if inputs.has("can_wall"):
        return inputs.above_zero("can_wall")
    if inputs.has("can_inside"):
        return _half_of_difference(inputs)
    raise CannotWork(inputs.missing("can_wall"))


def _half_of_difference(inputs: Inputs) -> Number:
    outside, inside = inputs.above_zero("can_diameter"), inputs.above_zero("can_inside")
    if inputs.best("can_inside") >= inputs.best("can_diameter"):
        raise CannotWork("The can would be as wide inside as outside; read both diameters again.")
    return (outside - inside) / 2


def _compare_with_micrometer(inputs: Inputs) -> None:
    """Warn where two ways to one wall disagree by more than both uncertainties."""
    ours = uncertain(_half_of_difference, inputs)
    theirs = uncertain(lambda other: other.above_zero("can_wall"), inputs)
    if ours is None or theirs is None:
        return
    if normalised_error(ours, theirs) > 1.0:
        inputs.warn(
            "Outside and inside give another wall than the micrometer does, by more than their "
            "uncertainties: look for paint, burrs and a can out of round."
        )


FIGURES = (
    (WALL_FROM_DIAMETERS, wall_from_diameters),
    (DIAMETER_OVER_WALL, diameter_over_wall),
    (HOOP_STRESS, hoop_stress),
    (YIELD_PRESSURE, yield_pressure),
)
