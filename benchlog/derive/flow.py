"""What the stated flow comes to in the media: face velocity and pressure drop."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.media import exposed_area, thickness
from benchlog.derive.number import Number
from benchlog.derive.permeability import air_resistance, permeability_estimated
from benchlog.derive.viscosity import dynamic
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

_AREA = ("media_length", "media_width", "media_hidden", "media_exposed_width")
_CLEAN = (
    "For a clean, flat sheet alone, with one oil at one temperature. It says nothing about a "
    "loaded filter, a whole filter with its holes and valves, efficiency or the engine."
)

FACE_VELOCITY = FigureKind(
    key="face_velocity",
    label="Face velocity",
    component=Component.MEDIA,
    formula="U = Q ÷ A: stated oil flow ÷ exposed media area",
    inputs=_AREA,
    unit="millimeter/second",
    inch_unit="inch/second",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="continuity of flow",
    note="At the flow stated, spread evenly; what the engine pumps is not known.",
    comparable_when=("media_kind",),
)

PRESSURE_DROP = FigureKind(
    key="pressure_drop",
    label="Pressure drop of the media, by its air flow",
    component=Component.MEDIA,
    formula=(
        "Δp = μ × (Q ÷ A) × Δpₐ ÷ (μₐ × qₐ): viscosity of the oil × face velocity × what the "
        "sheet resists to air; the same as μ × U × t ÷ k"
    ),
    inputs=(*_AREA, "media_air_flow", "media_air_pressure"),
    unit="kilopascal",
    inch_unit="pound_force_per_square_inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="Darcy's law; ASTM D341 or SAE J300 for the oil",
    note="Worked from the air flow that was measured; go by this one where both can be had.",
    comparable_when=("media_state",),
    bounded=True,
    beside=_CLEAN,
)

PRESSURE_DROP_ESTIMATED = FigureKind(
    key="pressure_drop_estimated",
    label="Pressure drop of the media, estimated from its fibres",
    component=Component.MEDIA,
    formula=(
        "Δp = μ × (Q ÷ A) × t ÷ k: viscosity of the oil × face velocity × thickness ÷ "
        "permeability estimated from the fibres"
    ),
    inputs=(*_AREA, "media_thickness", "fibre_width", "media_mass", "media_kind"),
    unit="kilopascal",
    inch_unit="pound_force_per_square_inch",
    judged=Judged.INPUT,
    support=Support.OPINION,
    source="Darcy's law; Davies, Proc. Inst. Mech. Eng. B1 (1952) 185; ASTM D341 or SAE J300",
    note="Only for want of an air flow test.",
    comparable_when=("contact_pressure", "media_state", "media_kind"),
    bounded=True,
    beside=_CLEAN + " The permeability behind it is an estimate from a picture of the surface.",
)


def face_velocity(inputs: Inputs) -> Number:
    """Stated flow over exposed area; raises CannotWork."""
    area = exposed_area(inputs)
    stated = inputs.conditions.flow_l_min
    if stated <= 0:
        raise CannotWork("The oil flow stated is not above zero; state one.")
    said = f"The oil flow is the one stated, {stated:g} L/min, spread evenly over the media."
    return inputs.stated("flow", stated, "liter/minute", said) / area


def pressure_drop(inputs: Inputs) -> Number:
    """Darcy's pressure drop with the resistance that air met; raises CannotWork."""
    resists = air_resistance(inputs)
    inputs.assumed.append("Oil meets the sheet as air did: no fibre swells or shifts in it.")
    return dynamic(inputs) * face_velocity(inputs) * resists


def pressure_drop_estimated(inputs: Inputs) -> Number:
    """Darcy's pressure drop with the permeability by Davies; raises CannotWork."""
    through = thickness(inputs) / permeability_estimated(inputs)
    if inputs.has("media_air_flow") and inputs.has("media_air_pressure"):
        inputs.warn("An air flow was measured: go by the pressure drop that is worked from it.")
    return dynamic(inputs) * face_velocity(inputs) * through


FIGURES = (
    (FACE_VELOCITY, face_velocity),
    (PRESSURE_DROP, pressure_drop),
    (PRESSURE_DROP_ESTIMATED, pressure_drop_estimated),
)
