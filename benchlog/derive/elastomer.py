"""What a rubber is, on what that rests, and the temperatures its family usually bears.

A family is established by the maker's statement or data sheet, or by an ash test where that can
tell it; by nothing else. Rubbers are different, and none is put above another here.
"""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.working import Formula
from benchlog.measure.units import convert
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.material import Elastomer, load_materials

SOURCE = "rubber makers' tables of families; the ash test and its limits: a trade source"

BESIDE = "By family; a compound of its own may bear more or less."


def rubber(inputs: Inputs, material: str) -> str:
    """Say what a part's rubber is and on what that rests; raises CannotWork without an answer."""
    answer = inputs.word(material)
    if answer is None:
        raise CannotWork(inputs.missing(material))
    family = _family(answer)
    if family is None:
        untested = {choice.key: choice.label for choice in load_materials().untested}
        return f"family not established: {untested.get(answer, answer).lower()}"
    name = _name(family)
    by = inputs.word(f"{material}_by")
    if by == "data_sheet":
        return f"{name}, by the maker's statement or data sheet"
    if by == "ash" and family.ash_shows:
        return f"{name}, by an ash test"
    return f"family not established: {name} by {_weak(by)}"


def service(inputs: Inputs, material: str) -> str:
    """Say the usual service temperatures of an established family; raises CannotWork."""
    answer = inputs.word(material)
    if answer is None:
        raise CannotWork(inputs.missing(material))
    family = _family(answer)
    by = inputs.word(f"{material}_by")
    if family is None:
        raise CannotWork("The rubber was not established, and an unknown family has no limits.")
    if by != "data_sheet" and not (by == "ash" and family.ash_shows):
        raise CannotWork(f"The family rests on {_weak(by)}, and that establishes none.")
    low, high = family.service_c
    return (
        f"{_degrees(family.cold_c)} °C up to {_span(low, high)} °C "
        f"({_degrees(_fahrenheit(family.cold_c))} °F up to "
        f"{_span(_fahrenheit(low), _fahrenheit(high))} °F); {family.source}"
    )


def _weak(by: str | None) -> str:
    """Say on what a name rests that establishes no family."""
    if by == "look":
        return "look only"
    if by == "ash":
        return "an ash test, which tells silicone and no other family"
    return "an answer that does not say how it was established"


def _family(answer: str) -> Elastomer | None:
    return next((e for e in load_materials().elastomers if e.key == answer), None)


def _name(family: Elastomer) -> str:
    return family.label.partition(",")[0]


def _span(low: float, high: float) -> str:
    return _degrees(low) if low == high else f"{_degrees(low)} to {_degrees(high)}"


def _degrees(value: float) -> str:
    return f"{value:.0f}".replace("-", "−")


def _fahrenheit(celsius: float) -> float:
    return convert(celsius, "degree_Celsius", "degree_Fahrenheit")


def _figures(
    part: str, label: str, component: Component
) -> tuple[tuple[FigureKind, Formula], tuple[FigureKind, Formula]]:
    """Return the two figures of one part's rubber."""
    material = f"{part}_material"
    inputs = (material, f"{material}_by")

    def kind(key: str, what: str, formula: str, beside: str = "") -> FigureKind:
        return FigureKind(
            key=f"{part}_{key}",
            label=f"{label}: {what}",
            component=component,
            formula=formula,
            inputs=inputs,
            unit="",
            inch_unit="",
            judged=Judged.DIFFERENT,
            support=Support.ENGINEERING,
            source=SOURCE,
            note="Neither colour nor hardness proves a rubber.",
            beside=beside,
        )

    return (
        (
            kind("rubber", "rubber and on what it rests", "the answer, and how it was established"),
            lambda given: rubber(given, material),
        ),
        (
            kind("service", "usual temperatures", "those of the established family", BESIDE),
            lambda given: service(given, material),
        ),
    )


FIGURES = (
    *_figures("gasket", "Gasket", Component.GASKET),
    *_figures("adbv", "Drain-back valve", Component.ADBV),
    *_figures("o_ring", "O-rings", Component.O_RINGS),
)
