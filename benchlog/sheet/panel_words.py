"""A panel told in words, for those who do not see it: names, numbers, intervals, and the band."""

from __future__ import annotations

from decimal import Decimal

from benchlog.measure.rounding import MINUS, as_is, bounds_text, rounded
from benchlog.sheet.dots import Dot, Panel
from benchlog.sheet.numbers import Spread, number, symbol


def panel_words(panel: Panel) -> str:
    """Return the panel in words, specimens in bench order."""
    unit = symbol(panel.unit)
    said = [f"{panel.label}, {unit}" if unit else panel.label]
    said += [panel.note] if panel.note else []
    said += [f"{dot.specimen.nickname or 'no nickname'}: {_dot_words(dot)}" for dot in panel.dots]
    band = panel.band()
    if band and panel.meaningful:
        width = as_is(float(f"{panel.meaningful:.3g}"))
        said.append(f"Too close to call: a difference of less than {f'{width} {unit}'.rstrip()}")
    return ". ".join(part.rstrip(".") for part in said) + "."


def _dot_words(dot: Dot) -> str:
    shown = dot.shown
    if shown is None:
        return dot.word or "no value"
    if dot.bounded:
        return f"{bounds_text(shown.low, shown.high, '')}, an interval without a best value"
    ends = "" if shown.low == shown.high else f", from {_ends(shown)}"
    if dot.estimate:
        return f"about {dot.text.removeprefix('~')}{ends}, an estimate"
    return number(shown).replace("±", "plus or minus") + ends


def _ends(shown: Spread) -> str:
    """Return the interval's ends with as many decimals as the value is printed with."""
    half = (shown.high - shown.low) / 2
    if abs((shown.low + shown.high) / 2 - shown.value) > 1e-6 * half:
        return bounds_text(shown.low, shown.high, "")
    value, width = (Decimal(part.replace(MINUS, "-")) for part in rounded(shown.value, half))
    low, high = (f"{end:f}".replace("-", MINUS) for end in (value - width, value + width))
    return f"{low} to {high}"
