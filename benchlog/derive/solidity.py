"""How much of the sheet is fibre, and how much is room."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.media import basis_weight, thickness
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.material import FibreDensity, fibre_density_of, load_materials

_INPUTS = ("media_mass", "media_length", "media_width", "media_thickness", "media_kind")
_LIKE_WITH_LIKE = ("contact_pressure", "media_state", "media_kind")
_RESIN = (
    "Worked with the density of bare fibre. Resin is lighter: a quarter of the weight as resin of "
    "1250 kg/m³ would raise the solidity by a twentieth with cellulose, by a quarter with glass."
)

SOLIDITY = FigureKind(
    key="solidity",
    label="Solidity of the media",
    component=Component.MEDIA,
    formula="α = g ÷ (t × ρf): basis weight ÷ (thickness × density of the fibre)",
    inputs=_INPUTS,
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="definition; fibre densities from Morton and Hearle, table 5.1",
    note="The share of the sheet's volume that is fibre, under the foot of the gauge.",
    comparable_when=_LIKE_WITH_LIKE,
    bounded=True,
    beside=_RESIN,
)

POROSITY = FigureKind(
    key="porosity",
    label="Porosity of the media",
    component=Component.MEDIA,
    formula="ε = 1 − α: 1 − solidity, α = g ÷ (t × ρf)",
    inputs=_INPUTS,
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="definition; fibre densities from Morton and Hearle, table 5.1",
    note="The share of the sheet's volume that is room; not the size of its pores.",
    comparable_when=_LIKE_WITH_LIKE,
    bounded=True,
    beside=_RESIN,
)


def solidity(inputs: Inputs) -> Number:
    """Share of the volume that is fibre, 0 to 1; raises CannotWork, also for 1 and more."""
    filled = basis_weight(inputs) / (thickness(inputs) * _fibre_density(inputs))
    if best_solidity(inputs) >= 1:
        raise CannotWork(
            "The sheet would be denser than its fibres; read weight, size and thickness again."
        )
    return filled


def best_solidity(inputs: Inputs) -> float:
    """Return the solidity by the best values; for questions, once `solidity` has used them."""
    volume = 1.0
    for key in ("media_length", "media_width", "media_thickness"):
        volume *= inputs.best(key)
    return inputs.best("media_mass") / (volume * inputs.best("fibre_density"))


def porosity(inputs: Inputs) -> Number:
    """Share of the volume that is room, 0 to 1; raises CannotWork."""
    return 1 - solidity(inputs)


def _fibre_density(inputs: Inputs) -> Number:
    """Density of the bare fibre, anywhere in the interval of the media kind."""
    kind = inputs.word("media_kind")
    if kind is None:
        raise CannotWork(inputs.missing("media_kind"))
    stated = fibre_density_of(kind)
    if stated is None:
        raise CannotWork(f"No fibre density is stated for {_kind_words(kind)} media.")
    return inputs.between(
        "fibre_density", stated.low_kg_m3, stated.high_kg_m3, "kilogram/meter**3", _said(stated)
    )


def _said(stated: FibreDensity) -> str:
    return (
        f"The fibre weighs {stated.low_kg_m3:g} to {stated.high_kg_m3:g} kg/m³, as {stated.fibre}; "
        "resin is left out."
    )


def _kind_words(kind: str) -> str:
    """Return a media kind as it reads inside a sentence."""
    kinds = load_materials().media_kinds
    label = next((choice.label for choice in kinds if choice.key == kind), "undetermined")
    return label[:1].lower() + label[1:]


FIGURES = ((SOLIDITY, solidity), (POROSITY, porosity))
