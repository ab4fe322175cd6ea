"""Do repeats of one reading agree? Asked at entry, while the part is still at hand."""

from __future__ import annotations

import statistics
from collections import Counter
from collections.abc import Sequence

from benchlog.measure.critical_range import critical_range, odd_one
from benchlog.measure.instrument import Instrument
from benchlog.measure.permissible import permissible_error_at
from benchlog.measure.pooled import PooledScatter
from benchlog.measure.rounding import as_is
from benchlog.measure.seen import scale_of
from benchlog.measure.units import canonical, convert, same_dimension, unit_symbol

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def disagreement(
    values: Sequence[float],
    unit: str,
    *,
    pooled: PooledScatter | None = None,
    instrument: Instrument | None = None,
    share: float | None = None,
) -> str | None:
    """Return in plain words how repeats disagree, None when they agree or nothing can be said.

    `values` are in `unit`, in the order in which they were read. With the pooled scatter of
    other such sets, in the same unit, they must keep to the critical range for their number
    (ISO 5725-6), yet need not lie closer than one step of the instrument. Without it they must
    keep to what the instrument alone explains: twice its permissible error and one step; with no
    instrument either, to `share` of their mean, where one is given. Of three or more, the one is
    named that stands out by Grubbs' test at 5 % (ISO 5725-2). Counts must be equal; a third
    breaks the tie.
    """
    if len(values) < 2:
        return None
    if canonical(unit) == "count":
        return _counts_disagree(values)
    allowed = _allowed(values, unit, pooled, instrument)
    by_share = allowed is None and share is not None
    if share is not None and by_share:
        allowed = share * abs(statistics.fmean(values))
    apart = max(values) - min(values)
    # The last digits of a difference of floats are no disagreement.
    if allowed is None or apart <= allowed * (1.0 + 1e-9):
        return None
    if pooled is not None:
        measure = f"repeats like these keep within {_said(allowed, unit)} 95 times in 100"
    elif by_share:
        measure = f"that is more than {100 * (share or 0.0):.3g} % of their mean"
    else:
        measure = f"the instrument itself explains no more than {_said(allowed, unit)}"
    return (
        f"These {len(values)} repeats lie {_said(apart, unit)} apart; {measure}."
        f"{_odd(values, unit)} Read it again before the part is put away."
    )


def _allowed(
    values: Sequence[float],
    unit: str,
    pooled: PooledScatter | None,
    instrument: Instrument | None,
) -> float | None:
    """Return the widest range that is no disagreement, None where nothing is known."""
    step = explained = 0.0
    if instrument is not None and same_dimension(instrument.unit, unit):
        scale = scale_of(instrument.unit, unit)
        step = instrument.resolution * scale
        shown = convert(statistics.fmean(values), unit, instrument.unit)
        explained = step + 2.0 * permissible_error_at(instrument, shown) * scale
    if pooled is not None:
        return max(step, critical_range(len(values), pooled.freedom) * pooled.s)
    return explained or None


def _odd(values: Sequence[float], unit: str) -> str:
    place = odd_one(values)
    if place is None:
        return "" if len(values) < 3 else " None of them stands out from the rest."
    name = _ORDINALS[place] if place < len(_ORDINALS) else "latest"
    if place >= len(_ORDINALS) and place != len(values) - 1:
        name = f"{place + 1}th"
    return f" The {name}, {_said(values[place], unit)}, stands out from the rest."


def _counts_disagree(counts: Sequence[float]) -> str | None:
    """Return what to do about counts, None once more than half of them are equal."""
    (_, most), *_ = Counter(counts).most_common(1)
    if 2 * most > len(counts):
        return None
    said = [as_is(count) for count in counts]
    listed = f"{', '.join(said[:-1])} and {said[-1]}"
    return f"The counts are {listed}. Count once more; what more than half of them give stands."


def _said(value: float, unit: str) -> str:
    return f"{as_is(float(f'{value:.4g}'))} {unit_symbol(unit)}".rstrip()
