"""A number made from numbers, that can show its sum."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.units import Quantity
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component


@dataclass(frozen=True)
class FigureKind:
    """What a derived figure is, apart from any specimen.

    `formula` is in words and symbols; `inputs` are attribute keys (or keys of other figures);
    `unit`/`inch_unit` are registry names; `source` is where the formula stands.
    """

    key: str
    label: str
    component: Component
    formula: str
    inputs: tuple[str, ...]
    unit: str
    inch_unit: str
    judged: Judged
    support: Support
    source: str
    note: str = ""
    comparable_when: tuple[str, ...] = ()


@dataclass(frozen=True)
class Figure:
    """One derived figure of one specimen: a quantity, or a plain reason why there is none.

    `readings` are the ids of all readings in it; `estimate` tells that at least one input was
    an estimate. Exactly one of `quantity` and `refusal` is set.
    """

    kind: FigureKind
    specimen_id: str
    quantity: Quantity | None
    refusal: str
    readings: tuple[str, ...]
    estimate: bool = False
    contact_pressure_kpa: float | None = None
