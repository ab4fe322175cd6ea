"""Whether a value is usual, or unlikely, or was perhaps only said in another unit."""

from __future__ import annotations

from benchlog.errors import AskAgain
from benchlog.measure.reading import Said
from benchlog.measure.units import canonical, convert, dimension_of, same_dimension, unit_symbol

Limits = tuple[float, float]

_ALSO_SAID = {
    "length": ("millimeter", "inch", "thou", "centimeter", "micrometer", "foot", "meter"),
    "mass": ("gram", "ounce", "kilogram", "pound", "grain", "milligram"),
    "pressure": ("pound_force_per_square_inch", "kilopascal", "bar", "millimeter_H2O", "inch_H2O"),
    "force": ("newton", "force_pound", "force_kilogram", "force_gram"),
    "area": ("centimeter ** 2", "inch ** 2", "millimeter ** 2"),
    "time": ("second", "minute", "hour", "day"),
    "temperature": ("degree_Celsius", "degree_Fahrenheit"),
    "turn": ("turn", "degree"),
}
"""Units that are easily taken for one another, the likelier first."""


def check_range(
    value: float,
    unit: str,
    soft: Limits | None,
    hard: Limits | None,
    label: str,
    *,
    said: Said | None = None,
    sure: bool = False,
    reason: str = "",
) -> None:
    """Raise AskAgain when `value`, in `unit`, lies outside its usual or believable limits.

    Limits are inclusive and in `unit`; None sets none. Outside `hard` a typed `reason` is wanted
    (`reason_wanted`), outside `soft` one more yes (`sure`). `said` is the entry itself: with it
    the question shows what was said, checks both ends of an interval, and asks about another
    unit when the same number would be usual there.
    """
    for each in _ends(value, unit, said):
        shown = f"{label}: {_shown(each, unit, said)}, outside"
        if hard and not _within(each, hard):
            if not reason.strip():
                raise AskAgain(
                    f"{shown} anything expected, {_span(hard, unit)}."
                    + _other_unit(unit, soft or hard, said),
                    "Correct it, or type the reason why it is right.",
                    reason_wanted=True,
                )
        elif soft and not _within(each, soft) and not (sure or reason.strip()):
            raise AskAgain(
                f"{shown} the usual {_span(soft, unit)}." + _other_unit(unit, soft, said),
                "Correct it, or accept once more if it is right.",
            )


def _within(value: float, limits: Limits) -> bool:
    """Whether a value lies inside; a conversion's last digit does not put it out."""
    slack = 1e-9 * max(abs(limits[0]), abs(limits[1]))
    return limits[0] - slack <= value <= limits[1] + slack


def _ends(value: float, unit: str, said: Said | None) -> tuple[float, ...]:
    if said is None or said.low is None or said.high is None:
        return (value,)
    return tuple(convert(float(end), said.unit, unit) for end in (said.low, said.high))


def _shown(value: float, unit: str, said: Said | None) -> str:
    shown = _with_unit(value, unit)
    if said is not None and canonical(said.unit) != canonical(unit):
        return f"{said.text.strip()} is {shown}"
    return shown


def likely_units(unit: str, limits: Limits, said: Said) -> tuple[str, ...]:
    """Return the units, likelier ones first, in which the number said would lie inside `limits`.

    `limits` are in `unit`. The unit that was said is not among them; an interval has none.
    """
    if said.low is not None:
        return ()
    number = float(said.value)
    others = (unit, *_ALSO_SAID.get(dimension_of(unit), ()))
    return tuple(
        other
        for other in dict.fromkeys(canonical(name) for name in others)
        if other != canonical(said.unit)
        and same_dimension(other, unit)
        and _within(convert(number, other, unit), limits)
    )


def _other_unit(unit: str, limits: Limits, said: Said | None) -> str:
    """Return a question about the likeliest units in which the number would lie inside, or ""."""
    if said is None:
        return ""
    likely = likely_units(unit, limits, said)[:2]
    meant = " or ".join(f"{said.value} {unit_symbol(other)}" for other in likely)
    return f" Did you mean {meant}?" if meant else ""


def _span(limits: Limits, unit: str) -> str:
    return f"{_short(limits[0])} to {_with_unit(limits[1], unit)}"


def _with_unit(value: float, unit: str) -> str:
    return f"{_short(value)} {unit_symbol(unit)}".rstrip()


def _short(value: float) -> str:
    """Return three significant digits, all digits of larger whole parts, no power of ten."""
    if abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}" if abs(value) >= 1e-4 or value == 0 else f"{value:.6f}"
