"""What a price buys."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.media import exposed_area
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

AREA_PER_PRICE = FigureKind(
    key="area_per_price",
    label="Exposed media area per unit of price",
    component=Component.WHOLE,
    formula="A ÷ p: exposed media area ÷ price stated, for one unit of its currency",
    inputs=("media_length", "media_width", "media_hidden", "media_exposed_width"),
    unit="centimeter**2/money",
    inch_unit="inch**2/money",
    judged=Judged.DIFFERENT,
    support=Support.OPINION,
    source="common practice, no source",
    note="The price stated with the specimen: what was paid, or for a gift the price asked that "
    "day. Compared within one currency and media kind.",
    comparable_when=("media_kind", "currency"),
)


def area_per_price(inputs: Inputs) -> Number:
    """Exposed area for one unit of the price stated; the price is exact; raises CannotWork."""
    price = inputs.specimen.price
    if price is None:
        raise CannotWork("No price stated: not answered.")
    if price <= 0:
        raise CannotWork("The price stated is nothing, so there is none to set the area against.")
    paid = inputs.stated("price", float(price), "money", "The price is the one stated.")
    return exposed_area(inputs) / paid


FIGURES = ((AREA_PER_PRICE, area_per_price),)
