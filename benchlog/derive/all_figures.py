"""Every derived figure of one specimen, worked out or refused with a reason."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from benchlog.derive import holes, media, money, pleats, thread
from benchlog.derive.figure import Figure, FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.measure.finding import Finding
from benchlog.measure.state import State
from benchlog.measure.units import Quantity
from benchlog.trade.specimen import Specimen

Formula = Callable[[Inputs], Quantity]

FORMULAS: tuple[tuple[FigureKind, Formula], ...] = (
    *holes.FIGURES,
    *thread.FIGURES,
    *pleats.FIGURES,
    *media.FIGURES,
    *money.FIGURES,
)

FIGURE_KINDS: tuple[FigureKind, ...] = tuple(kind for kind, _ in FORMULAS)
"""Every figure that can be worked out, from the outside of the filter to its media and price."""


def figures_of(findings: Mapping[str, Finding], specimen: Specimen) -> dict[str, Figure]:
    """Return every figure of one specimen by its key; `findings` are keyed by attribute key.

    Each is in its kind's unit. A figure that cannot be worked out carries the reason instead.
    """
    return {
        kind.key: _figure(kind, formula, Inputs(findings, specimen)) for kind, formula in FORMULAS
    }


def _figure(kind: FigureKind, formula: Formula, inputs: Inputs) -> Figure:
    try:
        quantity, refusal = formula(inputs).to(kind.unit), ""
    except CannotWork as reason:
        quantity, refusal = None, str(reason)
    used = inputs.used.values()
    ids = dict.fromkeys(reading.id for finding in used for reading in finding.readings)
    return Figure(
        kind=kind,
        specimen_id=inputs.specimen.id,
        quantity=quantity,
        refusal=refusal,
        readings=tuple(ids),
        estimate=any(finding.state is State.ESTIMATE for finding in used),
        contact_pressure_kpa=_pressure(kind, inputs),
    )


def _pressure(kind: FigureKind, inputs: Inputs) -> float | None:
    """Return the foot pressure of the one input for which it matters, if it matters here."""
    thickness = inputs.used.get("media_thickness")
    if thickness is None or "contact_pressure" not in kind.comparable_when:
        return None
    return thickness.contact_pressure_kpa
