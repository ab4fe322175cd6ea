"""One number as people say it: 3.52, 3,52, 7/16, 3 7/16, 1-1/2, ½."""

from __future__ import annotations

import re
from decimal import Decimal

from benchlog.errors import EntryRefused

NUMBER = r"[+-]?(?:\d+[ -]+\d+/\d+|\d+/\d+|(?:\d+(?:[.,]\d+)*\.?|[.,]\d+)(?:e[+-]?\d+)?)"
"""A pattern for one number; anything it takes still has to pass `number_said`."""

_MIXED = re.compile(r"(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+)/(?P<bottom>\d+)", re.ASCII)
_DECIMAL = re.compile(r"(?P<digits>\d+(?:[.,]\d*)?|[.,]\d+)(?:e(?P<power>[+-]?\d+))?", re.ASCII)
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}", re.ASCII)
_LARGEST = Decimal("1e9")
_SMALLEST = Decimal("1e-9")
_MOST_CHARACTERS = 20
_THIRDS = Decimal("1e-9")


def number_said(text: str) -> tuple[Decimal, Decimal] | None:
    """Return the value and its step, the worth of one in the last place said; None if no number.

    Decimals stay as said (287.40 keeps its nought, step 0.01). A fraction's step is one over its
    bottom figure; a fraction that has no end in decimals is cut at nine places. A comma is a
    decimal comma, except that `1,234` might be meant either way and is refused, as are two marks
    in one number. Raises EntryRefused for those, for a bottom figure of nought, and for sizes
    that no bench meets (beyond 1e9, or under 1e-9 and not nought).
    """
    body = text.lstrip("+-").strip()
    if len(body) > _MOST_CHARACTERS:
        raise EntryRefused(f"'{text[:12]}…' has too many digits.", "Type the number as it reads.")
    found = _fraction(body) or _decimal(body)
    if found is None:
        return None
    value, step = found
    if value and not _SMALLEST <= value <= _LARGEST:
        raise EntryRefused(
            f"{text} is no size that a bench meets.", "Check the digits and the unit."
        )
    return (value.copy_negate() if text.startswith("-") else value), step


def _fraction(body: str) -> tuple[Decimal, Decimal] | None:
    match = _MIXED.fullmatch(body)
    if match is None:
        return None
    whole, top, bottom = int(match["whole"] or 0), int(match["top"]), int(match["bottom"])
    if bottom == 0:
        raise EntryRefused(f"'{body}' divides by nought.", "Type a fraction such as 7/16.")
    if match["whole"] and top >= bottom:
        return None
    return _ratio(whole * bottom + top, bottom), _ratio(1, bottom)


def _ratio(top: int, bottom: int) -> Decimal:
    """Return top/bottom, exactly when nine places are enough, else cut there."""
    exact = Decimal(top) / Decimal(bottom)
    cut = exact.quantize(_THIRDS)
    return exact if exact == cut else cut


def _decimal(body: str) -> tuple[Decimal, Decimal] | None:
    _refuse_thousands(body)
    match = _DECIMAL.fullmatch(body)
    if match is None:
        return None
    power = match["power"] or "0"
    if len(power) > 3:
        raise EntryRefused(f"'{body}' is no size that a bench meets.", "Check the digits.")
    digits = match["digits"].replace(",", ".").removesuffix(".")
    value = Decimal(f"{digits}e{power}") if int(power) else Decimal(digits)
    return value, Decimal((0, (1,), int(value.as_tuple().exponent)))


def _refuse_thousands(body: str) -> None:
    if _THOUSANDS.fullmatch(body):
        raise EntryRefused(
            f"'{body}' can be read two ways.",
            f"Type {body.replace(',', '')} for the large number, "
            f"or {body.replace(',', '.')} for the small one.",
        )
    if body.count(".") + body.count(",") > 1:
        raise EntryRefused(
            f"'{body}' has more than one mark in the number.",
            "Leave thousands unmarked and use one point or comma for decimals: 1234.5.",
        )
