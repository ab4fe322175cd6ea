"""Every derived figure of one specimen, worked out or refused with a reason."""

from __future__ import annotations

from collections.abc import Mapping

from benchlog.derive import (
    ample,
    bypass,
    can,
    claims,
    elastomer,
    flow,
    holes,
    media,
    media_area,
    money,
    permeability,
    pleats,
    pores,
    solidity,
    spring,
    spring_wire,
    thread,
    thread_basic,
    thread_candidates,
    tube,
    viscosity,
)
from benchlog.derive.figure import Figure, FigureKind
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import Formula, work
from benchlog.measure.finding import Finding
from benchlog.trade.conditions import Conditions, usual_conditions
from benchlog.trade.specimen import Specimen

FORMULAS: tuple[tuple[FigureKind, Formula], ...] = (
    *holes.FIGURES,
    *thread_candidates.FIGURES,
    *thread.FIGURES,
    *thread_basic.FIGURES,
    *can.FIGURES,
    *bypass.FIGURES,
    *spring.FIGURES,
    *spring_wire.FIGURES,
    *tube.FIGURES,
    *ample.FIGURES,
    *pleats.FIGURES,
    *media.FIGURES,
    *media_area.FIGURES,
    *solidity.FIGURES,
    *permeability.FIGURES,
    *viscosity.FIGURES,
    *flow.FIGURES,
    *pores.FIGURES,
    *money.FIGURES,
    *elastomer.FIGURES,
    *claims.FIGURES,
)

FIGURE_KINDS: tuple[FigureKind, ...] = tuple(kind for kind, _ in FORMULAS)
"""Every figure that can be worked out, from the outside of the filter to its media and price."""


def figures_of(
    findings: Mapping[str, Finding],
    specimen: Specimen,
    conditions: Conditions | None = None,
    common: Common | None = None,
) -> dict[str, Figure]:
    """Return every figure of one specimen by its key; `findings` are keyed by attribute key.

    Each is in its kind's unit. A figure that cannot be worked out carries the reason instead.
    `conditions` are the usual ones unless stated. Specimens of one record are given one `common`,
    so that what is assumed for all of them cancels where they are compared.
    """
    inputs = Inputs(findings, specimen, conditions or usual_conditions(), common or Common())
    return {kind.key: work(kind, formula, inputs.afresh()) for kind, formula in FORMULAS}
