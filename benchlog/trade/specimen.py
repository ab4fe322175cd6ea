"""One physical filter, and the line-up it stands in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum

from benchlog.trade.conditions import Conditions


class Shape(StrEnum):
    """Tag shapes; with the colour they tell specimens apart in grey print too."""

    CIRCLE = "circle"
    SQUARE = "square"
    TRIANGLE = "triangle"
    DIAMOND = "diamond"
    CROSS = "cross"
    STAR = "star"


class Paid(StrEnum):
    """Who paid for a specimen; UNANSWERED blocks publishing."""

    UNANSWERED = "not answered"
    BOUGHT = "bought by the reviewer"
    GIVEN_BY_MAKER = "given by the maker"
    GIVEN_BY_SELLER = "given by a seller"
    GIVEN_BY_VIEWER = "given by a viewer"
    LENT = "lent"


@dataclass(frozen=True)
class Specimen:
    """One physical filter: part number + lot/date code + origin, never the part number alone.

    `colour` is "#rrggbb". Origin is kept three times: what the box says, what the can says and
    what the reviewer infers; "" means not answered. `giver` names who gave it or sold it.
    """

    id: str
    nickname: str
    shape: Shape
    colour: str
    maker: str = ""
    part_number: str = ""
    lot: str = ""
    origin_box: str = ""
    origin_can: str = ""
    origin_inferred: str = ""
    paid: Paid = Paid.UNANSWERED
    giver: str = ""
    price: Decimal | None = None
    currency: str = ""
    bought_on: str = ""
    note: str = ""


@dataclass(frozen=True)
class Lineup:
    """One to six specimens compared in one teardown.

    `attributes` are the keys asked in this line-up, in the sequence's order; `rules` names the
    judging rules file; `specimens` stand in bench order. `conditions` are None while the usual
    ones are meant. `balanced` asks for an order of specimens that differs from station to station,
    so that nobody is always first.
    """

    id: str
    name: str
    question: str
    sequence: str
    rules: str
    created_at: datetime
    specimens: tuple[Specimen, ...]
    attributes: tuple[str, ...]
    reviewer: str = ""
    rehearsal: bool = False
    conditions: Conditions | None = None
    balanced: bool = False
