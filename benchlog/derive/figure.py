"""A number made from numbers, that can show its sum."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from benchlog.measure.units import Quantity
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component


@dataclass(frozen=True)
class FigureKind:
    """What a derived figure is, apart from any specimen.

    `formula` is in words and symbols; `inputs` are attribute keys; `unit`/`inch_unit` are
    registry names, both "" for a figure that is a word (threads that cannot be excluded, a claim
    that is incomplete). `source` is where the formula stands. `bounded` marks an estimate between
    bounds that rests on assumptions: it is printed as an interval, never with a ±. `beside` holds
    the sentence that must stand beside the figure wherever it is printed, "" for none.
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
    bounded: bool = False
    beside: str = ""


@dataclass(frozen=True)
class Term:
    """One number that went into a figure, in the SI unit of its dimension.

    `key` is an attribute's, or that of an assumption or stated condition; those two say in
    `assumed` what was taken and why. `number` is an `uncertainties` number or a plain one;
    `sensitivity` is how much the figure moves, in its own unit, for one `unit` of this number
    (∂f/∂x, JCGM 100 5.1.3). `said_in` is the unit in which it was read or stated, for showing it.
    """

    key: str
    number: Any
    unit: str
    sensitivity: float
    assumed: str = ""
    said_in: str = ""


@dataclass(frozen=True)
class Figure:
    """One derived figure of one specimen: a quantity, a word, or a plain reason for neither.

    `readings` are the ids of all readings in it; `estimate` tells that at least one input was
    an estimate. Exactly one of `quantity`, `word` and `refusal` is set. A bounded estimate has its
    ends in `low` and `high`, in the kind's unit. `terms` are what its sum is made of, `assumed`
    what was taken without a reading, in sentences, and `warnings` what the reviewer should do or
    bear in mind. `methods` says of each attribute behind it with what kinds of instrument it was
    taken (see `Finding.taken_with`).
    """

    kind: FigureKind
    specimen_id: str
    quantity: Quantity | None
    refusal: str
    readings: tuple[str, ...]
    estimate: bool = False
    contact_pressure_kpa: float | None = None
    word: str | None = None
    low: float | None = None
    high: float | None = None
    terms: tuple[Term, ...] = ()
    assumed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    methods: tuple[tuple[str, tuple[str, ...]], ...] = ()
