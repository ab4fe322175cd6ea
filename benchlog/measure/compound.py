"""Lengths and weights said in two units: 4 ft 2 1/2 in, 1 lb 3.5 oz."""

from __future__ import annotations

import re
from decimal import Decimal

from benchlog.measure.said_number import NUMBER, number_said
from benchlog.measure.unit_words import unit_said

_PARTS = {("foot", "inch"): 12, ("pound", "ounce"): 16}
_TWO_UNITS = re.compile(
    rf"(?P<sign>-?)(?P<large>\d+)\s*(?P<large_unit>ft|feet|foot|'|lbs?|pounds?)\s*"
    rf"(?P<small>{NUMBER})\s*(?P<small_unit>in|inch|inches|\"|oz|ounces?)",
    re.ASCII | re.IGNORECASE,
)


def compound_said(text: str) -> tuple[Decimal, str] | None:
    """Return the number in the smaller unit and that unit's word; None when it is no such entry.

    Raises EntryRefused for a number that cannot stand.
    """
    match = _TWO_UNITS.fullmatch(text)
    if match is None:
        return None
    large, small = unit_said(match["large_unit"]), unit_said(match["small_unit"])
    number = number_said(match["small"])
    if large is None or small is None or number is None or match["small"][0] in "+-":
        return None
    parts = _PARTS.get((large[0], small[0]))
    if parts is None or number[0] >= parts:
        return None
    value = int(match["large"]) * parts + number[0]
    return (-value if match["sign"] else value), match["small_unit"]
