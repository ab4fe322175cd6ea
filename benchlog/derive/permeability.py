"""How open the sheet is: by air at the bench, and by an estimate from its fibres."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.derive.media import thickness
from benchlog.derive.number import Number
from benchlog.derive.solidity import best_solidity, solidity
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

AIR_PA_S = (1.79e-5, 1.85e-5)
"""Viscosity of air from 15 to 25 °C, Pa·s.

Published tables for 1 atm give 1.802e-5 at 15 °C and 1.849e-5 at 25 °C; the standard atmosphere has
1.789e-5 at 15 °C (from memory).
"""
DAVIES_HOLDS = (0.06, 0.30)
"""Solidity for which Davies' equation was found to hold."""
WIDTH_SHARE = (0.5, 1.0)
"""Effective width of the fibres as a share of the width seen.

Flat fibres, the finest ones and resin all make a sheet tighter than its picture. Calculated, for
a sheet of 0.64 mm and solidity 0.173 in which fibres of 20 µm are seen: one that passes
500 L/(m²·s) of air at 200 Pa behaves like fibres of 13 µm, one that passes 300 like 10 µm.
"""

PERMEABILITY = FigureKind(
    key="permeability",
    label="Permeability, by air flow",
    component=Component.MEDIA,
    formula=(
        "k = μₐ × t × qₐ ÷ Δpₐ: viscosity of air × thickness × air flow per area ÷ pressure "
        "across the sheet"
    ),
    inputs=("media_thickness", "media_air_flow", "media_air_pressure"),
    unit="micrometer**2",
    inch_unit="micrometer**2",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="Darcy's law; the test as in ISO 9237, from memory",
    note="Says how open the dry sheet is, not what it holds back; holds for slow flow.",
    comparable_when=("contact_pressure", "media_state"),
)

PERMEABILITY_ESTIMATED = FigureKind(
    key="permeability_estimated",
    label="Permeability, estimated from the fibres",
    component=Component.MEDIA,
    formula=(
        "k = (s × w)² ÷ (64 × α^1.5 × (1 + 56 × α³)): width of the fibres seen × the share that "
        "counts, α the solidity = g ÷ (t × ρf)"
    ),
    inputs=(
        "fibre_width",
        "media_mass",
        "media_length",
        "media_width",
        "media_thickness",
        "media_kind",
    ),
    unit="micrometer**2",
    inch_unit="micrometer**2",
    judged=Judged.INPUT,
    support=Support.OPINION,
    source="Davies, Proc. Inst. Mech. Eng. B1 (1952) 185; the share that counts is calculated",
    note="Only for want of an air flow test.",
    comparable_when=("contact_pressure", "media_state", "media_kind"),
    bounded=True,
    beside="An estimate from a picture of the surface: flat fibres, fines and resin can put it out "
    "by several times. Nothing to publish as the sheet's permeability without a flow test.",
)


def permeability(inputs: Inputs) -> Number:
    """Permeability from the air flow test, m²; raises CannotWork."""
    return thickness(inputs) / air_resistance(inputs)


def air_resistance(inputs: Inputs) -> Number:
    """Pressure for each unit of viscosity and face velocity: t ÷ k, 1/m; raises CannotWork.

    The thickness is not in it: what the sheet resists was measured as a whole.
    """
    flow = inputs.above_zero("media_air_flow")
    pressure = inputs.above_zero("media_air_pressure")
    return pressure / (_air_viscosity(inputs) * flow)


def permeability_estimated(inputs: Inputs) -> Number:
    """Permeability by Davies from solidity and fibre width, m²; raises CannotWork.

    Warns where the solidity lies outside the range for which the equation was found to hold.
    """
    seen = inputs.above_zero("fibre_width")
    filled = solidity(inputs)
    low, high = DAVIES_HOLDS
    if not low <= best_solidity(inputs) <= high:
        inputs.warn(
            f"The solidity lies outside {low:g} to {high:.2f}, for which Davies' equation was "
            "found to hold."
        )
    return davies(_share_of_width(inputs) * seen, filled)


def davies(width: Number, filled: Number) -> Number:
    """Permeability of a mat of fibres of one width: Davies 1952; `filled` is its solidity."""
    return width**2 / (64 * filled**1.5 * (1 + 56 * filled**3))


def _air_viscosity(inputs: Inputs) -> Number:
    low, high = AIR_PA_S
    said = f"Air of 15 to 25 °C has {low * 1e6:.1f} to {high * 1e6:.1f} µPa·s, by published tables."
    ends = low * 1e6, high * 1e6
    return inputs.between("air_viscosity", *ends, "micropascal*second", said, shared=True)


def _share_of_width(inputs: Inputs) -> Number:
    low, high = WIDTH_SHARE
    said = (
        "Half to all of the fibre width seen counts: flat fibres, the finest ones and resin make "
        "a sheet tighter than its picture."
    )
    return inputs.between("fibre_width_share", low, high, "dimensionless", said)


FIGURES = ((PERMEABILITY, permeability), (PERMEABILITY_ESTIMATED, permeability_estimated))
