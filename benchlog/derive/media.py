"""What the unfolded strip of media comes to: areas, basis weight, thickness, density."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs, words_of
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

EXPOSED_AREA = FigureKind(
    key="exposed_area",
    label="Exposed media area",
    component=Component.MEDIA,
    formula=(
        "A = L × (W − h): strip length × (full width − width hidden by both end caps together); "
        "or strip length × exposed width where only that was read"
    ),
    inputs=("media_length", "media_width", "media_hidden", "media_exposed_width"),
    unit="centimeter**2",
    inch_unit="inch**2",
    judged=Judged.MORE,
    support=Support.ENGINEERING,
    source="geometry; the hidden width is common practice, no source",
    note="An area, not a capacity and not an efficiency; compared within one kind of media only.",
    comparable_when=("media_kind",),
)

WHOLE_AREA = FigureKind(
    key="whole_area",
    label="Whole sheet area",
    component=Component.MEDIA,
    formula="A₀ = L × W: strip length × full width, glued edges included",
    inputs=("media_length", "media_width"),
    unit="centimeter**2",
    inch_unit="inch**2",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry",
)

BASIS_WEIGHT = FigureKind(
    key="basis_weight",
    label="Basis weight",
    component=Component.MEDIA,
    formula="g = m ÷ (L × W): dry weight of the whole strip ÷ whole sheet area",
    inputs=("media_mass", "media_length", "media_width"),
    unit="gram/meter**2",
    inch_unit="ounce/yard**2",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="ISO 536 (grammage as mass over area); from memory",
    note="Over the whole strip: dividing by the exposed area would overstate it.",
    comparable_when=("media_state",),
)

SHEET_DENSITY = FigureKind(
    key="sheet_density",
    label="Sheet density",
    component=Component.MEDIA,
    formula="ρ = g ÷ t: basis weight ÷ thickness at the gauge's foot pressure",
    inputs=("media_mass", "media_length", "media_width", "media_thickness"),
    unit="gram/centimeter**3",
    inch_unit="pound/foot**3",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="ISO 534:2011 (apparent density as grammage over thickness)",
    note="Depends on the foot pressure of the gauge; compared at one pressure only.",
    comparable_when=("contact_pressure", "media_state"),
)

TIPS_TO_FLAT = FigureKind(
    key="tips_to_flat",
    label="Thickness at the folds against flat",
    component=Component.MEDIA,
    formula="tₜ ÷ t: thickness at the tips of the pleats ÷ thickness on a flat place",
    inputs=("media_thickness_tips", "media_thickness"),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.DIFFERENT,
    support=Support.OPINION,
    source="common practice, no source",
    note="Below 1 the folds are pressed thinner; what that does in service is not shown.",
    comparable_when=("contact_pressure", "media_state"),
)


def exposed_area(inputs: Inputs) -> Number:
    """Area of the strip that oil can reach: length × (full width − hidden width in all).

    Raises CannotWork when an input is missing, or as much is hidden as there is.
    """
    length = inputs.above_zero("media_length")
    return length * exposed_width(inputs)


def exposed_width(inputs: Inputs) -> Number:
    """Width between the end caps, or as read on its own where the two widths were not.

    Raises CannotWork as `exposed_area` does.
    """
    if inputs.has("media_width") and inputs.has("media_hidden"):
        return _between_caps(inputs)
    if inputs.has("media_exposed_width"):
        return inputs.above_zero("media_exposed_width")
    if inputs.has("media_width"):
        raise CannotWork(inputs.missing("media_hidden"))
    raise CannotWork(
        f"{inputs.missing('media_width')} {inputs.missing('media_exposed_width')} One is needed."
    )


def _between_caps(inputs: Inputs) -> Number:
    """Full width less what both end caps hide."""
    width, hidden = inputs.above_zero("media_width"), inputs.number("media_hidden")
    if inputs.best("media_hidden") < 0:
        raise CannotWork("The width hidden by the end caps is below zero; read it again.")
    if inputs.best("media_hidden") >= inputs.best("media_width"):
        raise CannotWork(
            "The end caps would hide the whole width of the strip; read both widths again."
        )
    return width - hidden


def whole_area(inputs: Inputs) -> Number:
    """Area of the whole strip, glued edges included; raises CannotWork."""
    return inputs.above_zero("media_length") * inputs.above_zero("media_width")


def basis_weight(inputs: Inputs) -> Number:
    """Dry mass over the whole sheet's area (ISO 536); raises CannotWork."""
    return inputs.above_zero("media_mass") / whole_area(inputs)


def thickness(inputs: Inputs) -> Number:
    """Thickness of the sheet under one foot pressure; raises CannotWork for a mix of them.

    A pressure that nobody recorded leaves a number, which holds for that gauge alone.
    """
    return _under_one_pressure(inputs, "media_thickness")


def _under_one_pressure(inputs: Inputs, key: str) -> Number:
    thick = inputs.above_zero(key)
    finding = inputs.finding(key)
    if finding.mixed_pressure:
        raise CannotWork(
            f"The readings of the {words_of(key)} were taken under more than one foot pressure; "
            "keep those of one gauge."
        )
    if finding.contact_pressure_kpa is None:
        inputs.warn(
            f"No foot pressure is recorded for the {words_of(key)}: soft media reads thinner "
            "under a harder foot, so the figure holds for that gauge alone."
        )
    return thick


def sheet_density(inputs: Inputs) -> Number:
    """Basis weight over thickness (ISO 534); raises CannotWork."""
    return basis_weight(inputs) / thickness(inputs)


def tips_to_flat(inputs: Inputs) -> Number:
    """How thick the sheet is at the folds, as a share of a flat place; raises CannotWork."""
    tips, flat = _under_one_pressure(inputs, "media_thickness_tips"), thickness(inputs)
    pressures = {inputs.looked_at[k].contact_pressure_kpa for k in TIPS_TO_FLAT.inputs} - {None}
    if len(pressures) > 1:
        raise CannotWork(
            "The folds and the flat places were read under different foot pressures; "
            "read both with one gauge."
        )
    return tips / flat


FIGURES = (
    (EXPOSED_AREA, exposed_area),
    (WHOLE_AREA, whole_area),
    (BASIS_WEIGHT, basis_weight),
    (SHEET_DENSITY, sheet_density),
    (TIPS_TO_FLAT, tips_to_flat),
)
