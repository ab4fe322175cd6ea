"""A figure's sum, laid open: what each input adds to its uncertainty."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot

from benchlog.derive.figure import Figure
from benchlog.measure.finding import Finding


@dataclass(frozen=True)
class Share:
    """What one source of uncertainty adds to a figure.

    `source` is an input's attribute key, or several joined by " + " when one source (such as an
    instrument's zero) stands behind them together. `contribution` is its part of the standard
    uncertainty, in the figure's unit; `share` its part of the variance, 0 to 1.
    """

    source: str
    contribution: float
    share: float


def budget(figure: Figure, findings: Mapping[str, Finding]) -> tuple[Share, ...]:
    """Return the uncertainty budget of a figure (JCGM 100, 5.1), the largest share first.

    `findings` are those of the figure's specimen by attribute key. Empty when the figure has no
    value or no uncertainty.
    """
    if figure.quantity is None or not hasattr(figure.quantity.magnitude, "error_components"):
        return ()
    by_source: dict[str, float] = {}
    for variable, part in figure.quantity.magnitude.error_components().items():
        source = _source(variable, figure, findings)
        by_source[source] = hypot(by_source.get(source, 0.0), part)
    total = sum(part**2 for part in by_source.values())
    if not total:
        return ()
    shares = [Share(source, part, part**2 / total) for source, part in by_source.items() if part]
    return tuple(sorted(shares, key=lambda share: (-share.share, share.source)))


def _source(variable: object, figure: Figure, findings: Mapping[str, Finding]) -> str:
    """Name the inputs in which a variable of the figure occurs."""
    keys = [key for key in figure.kind.inputs if _occurs(variable, findings.get(key))]
    return " + ".join(keys) or str(getattr(variable, "tag", None) or "other")


def _occurs(variable: object, finding: Finding | None) -> bool:
    if finding is None or finding.quantity is None:
        return False
    return variable in getattr(finding.quantity.magnitude, "derivatives", {})
