"""What a price buys."""

from __future__ import annotations

import math

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.media import exposed_area
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

UP_AT_ONCE = 0.005
"""Two claims whose times differ by no more, as a share, are up at once; no source."""

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


PRICE_PER_AREA = FigureKind(
    key="price_per_area",
    label="Price of exposed media area",
    component=Component.WHOLE,
    formula="p ÷ A: price stated ÷ exposed media area; 100 cm² are the unit of area",
    inputs=("media_length", "media_width", "media_hidden", "media_exposed_width"),
    unit="money/decimeter**2",
    inch_unit="money/foot**2",
    judged=Judged.DIFFERENT,
    support=Support.OPINION,
    source="common practice, no source",
    note="The price stated with the specimen. Compared within one currency and media kind.",
    comparable_when=("media_kind", "currency"),
)

PRICE_PER_YEAR = FigureKind(
    key="price_per_year",
    label="Price per year of the claimed interval",
    component=Component.WHOLE,
    formula="p ÷ T: price stated ÷ claimed time, or ÷ (claimed distance ÷ distance a year) where "
    "that is up earlier",
    inputs=("claim_months", "claim_distance"),
    unit="money/year",
    inch_unit="money/year",
    judged=Judged.DIFFERENT,
    support=Support.OPINION,
    source="common practice, no source",
    note="The distance a year is that of the line-up's conditions; a year is 365.25 days.",
    comparable_when=("currency",),
    beside="The claimed interval is the maker's; it was not tested, and the vehicle maker's "
    "handbook decides.",
)


def area_per_price(inputs: Inputs) -> Number:
    """Exposed area for one unit of the price stated; the price is exact; raises CannotWork."""
    price = _price(inputs)
    return exposed_area(inputs) / price


def price_per_area(inputs: Inputs) -> Number:
    """Price stated for one unit of exposed area; the price is exact; raises CannotWork."""
    price = _price(inputs)
    return price / exposed_area(inputs)


def price_per_year(inputs: Inputs) -> Number:
    """Price stated over the claimed interval; of time and distance the earlier counts.

    Raises CannotWork without a price, or without both time and distance.
    """
    price = _price(inputs)
    spans = [*_by_time(inputs), *_by_distance(inputs)]
    if not spans:
        missing = f"{inputs.missing('claim_months')} {inputs.missing('claim_distance')}"
        raise CannotWork(f"{missing} One is needed.")
    _, claimed = min(spans, key=lambda span: span[0])
    if len(spans) > 1:
        inputs.warn(f"Time and distance are both claimed; {_up_first(inputs, spans)}.")
    return price / claimed


def _up_first(inputs: Inputs, spans: list[tuple[float, Number]]) -> str:
    """Say which of a claimed time and a claimed distance is up first, at the distance stated."""
    (by_time, _), (by_distance, _) = spans
    yearly = f"at {inputs.conditions.km_per_year:g} km a year, as stated,"
    if math.isclose(by_time, by_distance, rel_tol=UP_AT_ONCE):
        return f"{yearly} both are up at once"
    first = "time" if by_time < by_distance else "distance"
    return f"{yearly} the {first} is up earlier and counts"


def _by_time(inputs: Inputs) -> list[tuple[float, Number]]:
    """Claimed time in seconds: its best value, and the number itself."""
    if not inputs.has("claim_months"):
        return []
    months = inputs.above_zero("claim_months")
    return [(inputs.best("claim_months"), months)]


def _by_distance(inputs: Inputs) -> list[tuple[float, Number]]:
    """Time in seconds that the claimed distance lasts: its best value, and the number itself."""
    if not inputs.has("claim_distance"):
        return []
    yearly = inputs.conditions.km_per_year
    if yearly <= 0:
        raise CannotWork("No distance a year is stated; state one in the conditions.")
    said = f"{yearly:g} km are driven in a year, as stated."
    distance = inputs.above_zero("claim_distance")
    speed = inputs.stated("km_per_year", yearly, "kilometer/year", said)
    return [(inputs.best("claim_distance") / inputs.best("km_per_year"), distance / speed)]


def _price(inputs: Inputs) -> Number:
    """Price stated with the specimen, above nothing; raises CannotWork."""
    price = inputs.specimen.price
    if price is None:
        raise CannotWork("No price stated: not answered.")
    if price <= 0:
        raise CannotWork("The price stated is nothing, so there is none to work with.")
    return inputs.stated("price", float(price), "money", "The price is the one stated.")


FIGURES = (
    (AREA_PER_PRICE, area_per_price),
    (PRICE_PER_AREA, price_per_area),
    (PRICE_PER_YEAR, price_per_year),
)
