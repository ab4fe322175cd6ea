"""A bench on which every figure can be worked, made from the attributes that figures ask for."""

from __future__ import annotations

from dataclasses import replace

from uncertainties import ufloat

from benchlog.derive.all_figures import FORMULAS
from benchlog.derive.inputs import Common, Inputs
from benchlog.measure.finding import Finding
from benchlog.measure.units import registry
from benchlog.trade.attribute import Attribute, Kind
from benchlog.trade.conditions import Conditions, usual_conditions
from benchlog.trade.sequence_file import load_sequence
from tests.derive.as_said import said
from tests.derive.found import ALPHA, word

ATTRIBUTES = {
    attribute.key: attribute
    for sequence in ("cartridge", "spin_on")
    for attribute in load_sequence(sequence).attributes
}

SIZES = {
    # Sizes that go together, in each attribute's own unit, where the middle of the usual range
    # would contradict another.
    "media_length": 1200.0,
    "media_width": 62.0,
    "media_hidden": 7.0,
    "media_exposed_width": 55.0,
    "media_mass": 12.0,
    "media_thickness": 0.64,
    "pleat_count": 50.0,
    "pleat_depth_gauge": 12.0,
    "can_diameter": 76.2,
    "can_inside": 75.2,
    "can_wall": 0.5,
    "outlet_bore": 18.5,
    "thread_pitch": 1.5,
    "spring_second_load": 50.0,
}

WORDS = {"thread_code": "M20x1.5", "media_kind": "cellulose", "media_state": "as_received"}
"""Answers that go together; any other choice takes its first."""

SHARE = 0.01
"""Standard uncertainty of every size, as a share of it."""


def whole_bench(**sizes: float) -> dict[str, Finding]:
    """A finding for every attribute that any figure asks for; `sizes` put others in place."""
    keys = {key for kind, _ in FORMULAS for key in kind.inputs}
    return {key: _finding(ATTRIBUTES[key], sizes) for key in sorted(keys)}


def inputs_of(
    findings: dict[str, Finding], conditions: Conditions | None = None, **given: object
) -> Inputs:
    """What a formula is handed, `given` in place of the best values."""
    return Inputs(findings, ALPHA, conditions or usual_conditions(), Common(), given)


def _finding(attribute: Attribute, sizes: dict[str, float]) -> Finding:
    if not attribute.is_number:
        first = attribute.choices[0].key if attribute.kind is Kind.CHOICE else "yes"
        return word(attribute.key, WORDS.get(attribute.key, first))
    middle = (attribute.soft.low + attribute.soft.high) / 2
    size = sizes.get(attribute.key, SIZES.get(attribute.key, middle))
    quantity = registry().Quantity(ufloat(size, SHARE * size), attribute.unit)
    typed = said(attribute.key, f"{size:.6g}")
    return replace(typed, quantity=quantity, contact_pressure_kpa=20.0)
