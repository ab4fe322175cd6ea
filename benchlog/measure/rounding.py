"""Values as they are printed: rounded to what is known of them (JCGM 100 7.2.6).

What follows a ± is the expanded uncertainty at 95 %, U = k·u, with k from the effective degrees
of freedom: 1.96 where nothing limits them, more where few repeats stand behind it (JCGM 100 6.2,
G.4). U keeps two significant digits and the value ends at the same decimal place. Both are rounded
to the nearest, and an exact half to the even digit, so that many roundings do not drift one way:
3.150 prints as 3.2, 3.250 as 3.2. Minus is the true sign; powers of ten are never printed.
"""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal, localcontext

from benchlog.errors import OurFault
from benchlog.measure.quantities import expanded_in, value_in
from benchlog.measure.units import Quantity, unit_symbol

MINUS = "\u2212"
NO_BREAK = "\u00a0"
_KEPT = 2

EXACT_DECIMALS = {"millimeter": 3, "inch": 4}
"""Decimals of an exact length: tables print a thread's basic sizes so (ISO 724, ASME B1.1)."""

EXACT_DIGITS = 5
"""Significant digits of any other exact number that is not whole."""


def rounded(value: float, u: float) -> tuple[str, str]:
    """Return value and uncertainty as text: two significant digits of `u`, `value` to match.

    `u` may be standard or expanded. An exact value (`u` = 0) is printed as it is, with "0".
    Raises OurFault for a negative uncertainty or anything that is not finite.
    """
    if not (math.isfinite(value) and math.isfinite(u)) or u < 0:
        raise OurFault(f"cannot print {value} with uncertainty {u}")
    if u == 0:
        return as_is(value), "0"
    with localcontext() as context:
        context.prec = 400
        width = Decimal(repr(u))
        place = width.adjusted() - (_KEPT - 1)
        if _to_place(width, place).adjusted() > width.adjusted():
            place += 1
        return _text(_to_place(Decimal(repr(value)), place)), _text(_to_place(width, place))


def as_is(value: float) -> str:
    """Return an exact number without trailing noughts: 52, 5.5; ten significant digits at most."""
    return _text(Decimal(f"{value:.10g}").normalize())


def exact_number(value: float, unit: str) -> str:
    """Return a number that nothing makes doubtful, without digits that nobody needs: 18.019.

    Money has two decimals.
    """
    if unit.startswith("money"):
        return f"{value:.2f}"
    if value == round(value):
        return as_is(value)
    decimals = EXACT_DECIMALS.get(unit)
    if decimals is not None and abs(value) >= 10.0**-decimals:
        return as_is(round(value, decimals))
    return as_is(float(f"{value:.{max(EXACT_DIGITS, len(str(int(abs(value)))))}g}"))


def short(quantity: Quantity, unit: str) -> str:
    """Return the value in `unit` as far as it is known, with its symbol: "192.0 in²"."""
    return with_symbol(_rounded_in(quantity, unit)[0], unit)


def with_uncertainty(quantity: Quantity, unit: str) -> str:
    """Return value ± expanded uncertainty (95 %) and symbol: "192.0 ± 1.1 in²".

    An exact value has no ±.
    """
    value, width = _rounded_in(quantity, unit)
    return with_symbol(value if width == "0" else f"{value} ± {width}", unit)


def interval_text(low: float, high: float, unit: str) -> str:
    """Return an interval as one says it: "8 to 11 psi"; four significant digits at most."""
    return with_symbol(f"{_four(low)} to {_four(high)}", unit)


def bounds_text(low: float, high: float, unit: str) -> str:
    """Return what an estimate lies between: "16 to 123 µm²".

    Ends that rest on assumed intervals are known no better than the interval is wide: they keep
    two significant digits of half of it, as the value beside a ± does, the lower rounded down and
    the upper up, so that what is printed is never narrower than what was worked out. An end that
    is small beside the width keeps two digits of its own. Ends that are one print once.
    """
    half = (high - low) / 2
    if half <= 1e-9 * max(abs(low), abs(high)):
        return with_symbol(_four(low), unit)
    ends = (_end(low, half, ROUND_FLOOR), _end(high, half, ROUND_CEILING))
    return with_symbol(" to ".join(ends), unit)


def estimate_text(value: float, low: float, high: float, unit: str) -> str:
    """Return an estimate as one says it: "about 5 turns (4.5 to 5.5)"."""
    return f"about {with_symbol(_four(value), unit)} ({_four(low)} to {_four(high)})"


def unbroken(text: str) -> str:
    """Return `text` so that no line breaks inside it, for renderers that fold lines."""
    return text.replace(" ", NO_BREAK)


def _rounded_in(quantity: Quantity, unit: str) -> tuple[str, str]:
    value, width = value_in(quantity, unit), expanded_in(quantity, unit)
    return rounded(value, width) if width else (exact_number(value, unit), "0")


def _end(end: float, half: float, rounding: str) -> str:
    # Twelve digits: what conversion left in the last ones is no reason to round outwards.
    exact, width = Decimal(f"{end:.12g}"), Decimal(f"{half:.12g}")
    place = width.adjusted() - (_KEPT - 1)
    if exact:
        place = min(place, exact.adjusted() - (_KEPT - 1))
    return _text(exact.quantize(Decimal((0, (1,), place)), rounding=rounding).normalize())


def _to_place(number: Decimal, place: int) -> Decimal:
    return number.quantize(Decimal((0, (1,), place)), rounding=ROUND_HALF_EVEN)


def _four(value: float) -> str:
    digits = 4 if abs(value) < 10_000 else 10
    return _text(Decimal(f"{value:.{digits}g}").normalize())


def _text(number: Decimal) -> str:
    """Return plain digits with a true minus; a nought has no sign."""
    text = f"{abs(number):f}"
    return MINUS + text if number < 0 else text


def with_symbol(number: str, unit: str) -> str:
    """Return digits with the unit's printed symbol, "12 months" where it is a word."""
    symbol = unit_symbol(unit)
    if symbol in ("turn", "month") and not number.startswith("0.") and number != "1":
        symbol += "s"
    gap = "" if symbol == "°" else " "
    return f"{number}{gap}{symbol}".rstrip()
