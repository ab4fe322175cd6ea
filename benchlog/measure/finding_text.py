"""A finding as it is printed beside its label."""

from __future__ import annotations

from benchlog.measure.finding import Finding
from benchlog.measure.quantities import value_in
from benchlog.measure.rounding import estimate_text, interval_text, with_uncertainty
from benchlog.measure.state import State
from benchlog.measure.units import convert


def finding_text(finding: Finding, unit: str) -> str:
    """Return a finding in words and digits, numbers in `unit`.

    A state without a value is its word; an estimate says "about" with its interval; a marked
    range or counts that disagree show their ends; a measured value its ± (95 %). `unit` plays
    no part when there is no number.
    """
    if finding.quantity is None:
        return finding.word if finding.word is not None else finding.state.value
    if finding.low is None or finding.high is None:
        return with_uncertainty(finding.quantity, unit)
    said_in = str(finding.quantity.units)
    low, high = (convert(end, said_in, unit) for end in (finding.low, finding.high))
    if finding.state is State.ESTIMATE:
        return estimate_text(value_in(finding.quantity, unit), low, high, unit)
    return interval_text(low, high, unit)
