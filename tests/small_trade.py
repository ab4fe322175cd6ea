"""A filter with few parts: a short sequence and three invented specimens, for tests."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.trade.attribute import (
    Attribute,
    Choice,
    Judged,
    Kind,
    Range,
    Sequence,
    Station,
    Support,
)
from benchlog.trade.component import Component
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen


class HandClock:
    """A clock that a test moves by hand; every look at the wall moves it one second."""

    def __init__(self) -> None:
        self.wall = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
        self.steady = 100.0

    def now(self) -> datetime:
        self.wall += timedelta(seconds=1)
        return self.wall

    def seconds(self) -> float:
        self.steady += 1.0
        return self.steady


def attribute(key: str, station: str, kind: Kind, **more: object) -> Attribute:
    """Build an attribute with everything that a test does not care about filled in."""
    settled: dict[str, object] = {
        "label": key.replace("_", " ").capitalize(),
        "help": f"Look at the {key}.",
        "component": Component.MEDIA,
        "judged": Judged.IDENTITY,
        "support": Support.ENGINEERING,
        "source": "common practice",
        "method": "by hand",
    }
    return Attribute(key=key, station=station, kind=kind, **(settled | more))  # type: ignore[arg-type]


WEIGHT = attribute(
    "whole_mass",
    "outside",
    Kind.QUANTITY,
    label="Whole weight",
    dimension="mass",
    unit="gram",
    inch_unit="ounce",
    soft=Range(150, 900),
    hard=Range(60, 3000),
    instrument="scale",
)
LABEL = attribute(
    "label_kind",
    "outside",
    Kind.CHOICE,
    choices=(Choice("printed", "printed on"), Choice("stuck", "stuck on")),
)
RATTLE = attribute("rattle", "before", Kind.PRESENCE)
LENGTH = attribute(
    "media_length",
    "media",
    Kind.QUANTITY,
    label="Strip length",
    dimension="length",
    unit="millimeter",
    inch_unit="inch",
    soft=Range(600, 2500),
    hard=Range(150, 8000),
    instrument="tape",
)
PLEATS = attribute(
    "pleat_count",
    "media",
    Kind.COUNT,
    dimension="count",
    unit="count",
    soft=Range(30, 75),
    hard=Range(8, 200),
    repeats=2,
)
REMARK = attribute("remark_media", "media", Kind.TEXT)
LOT = attribute("lot", "outside", Kind.TEXT, specimen_field="lot")

SMALL = Sequence(
    key="small",
    label="A short bench",
    version="1",
    stations=(
        Station("outside", "Outside", "The filter as it came."),
        Station("before", "Before the cut", "What the cut destroys."),
        Station(
            "cut",
            "Cut",
            "Open the can.",
            one_way=True,
            lost_after=("the rattle can no longer be heard",),
            cautions=("Cut edges are sharp.",),
        ),
        Station("media", "Media", "The unfolded strip."),
    ),
    attributes=(WEIGHT, LABEL, LOT, RATTLE, LENGTH, PLEATS, REMARK),
)

SCALE = Instrument("scale-1", "Bench scale", InstrumentKind.SCALE, "gram", 0.1, 0.2)
TAPE = Instrument("tape-1", "Steel tape", InstrumentKind.TAPE, "millimeter", 1.0, 0.5)
TAPE_2 = Instrument("tape-2", "Cloth tape", InstrumentKind.TAPE, "millimeter", 1.0, 2.0)


def specimens() -> tuple[Specimen, ...]:
    """Return three invented specimens, two bought and one given."""
    return (
        Specimen(
            "s-a", "Amber", Shape.CIRCLE, "#b35c00", "Tallowbay", "TB-44", "L1",
            paid=Paid.BOUGHT, price=Decimal("8.90"), currency="EUR",
        ),
        Specimen(
            "s-b", "Cobalt", Shape.SQUARE, "#0060a8", "Quillmark", "QM 30", "L2",
            paid=Paid.GIVEN_BY_MAKER, giver="Quillmark", price=Decimal("12.50"), currency="EUR",
        ),
        Specimen(
            "s-c", "Moss", Shape.TRIANGLE, "#00795a", "Brindle", "BR-9", "L3",
            paid=Paid.BOUGHT, price=Decimal("6.20"), currency="EUR",
        ),
    )  # fmt: skip


def small_lineup(**more: object) -> Lineup:
    """Return a line-up of the three specimens that asks for everything of the short bench."""
    settled: dict[str, object] = {
        "id": "l-1",
        "name": "Three for one mount",
        "question": "Which of these for the same mount?",
        "sequence": "small",
        "rules": "bench_rules",
        "created_at": datetime(2026, 5, 1, 12, 0, tzinfo=UTC),
        "specimens": specimens(),
        "attributes": tuple(a.key for a in SMALL.attributes),
    }
    return Lineup(**(settled | more))  # type: ignore[arg-type]
