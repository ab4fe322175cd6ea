"""Tell a record as plain values for JSON: every reading and every figure."""

from __future__ import annotations

from typing import Any

from benchlog.derive.figure import Figure
from benchlog.measure.finding import Finding
from benchlog.measure.reading import standing
from benchlog.measure.units import unit_symbol
from benchlog.tasks.digest import plain
from benchlog.tasks.record import Record


def tell(record: Record) -> dict[str, Any]:
    """Return the whole record in JSON's own kinds.

    Values are plain numbers in the named unit; `standard_uncertainty` is one standard deviation.
    """
    lineup = record.lineup
    stands = {r.id for r in standing(list(record.readings))}
    return {
        "lineup": {
            "id": lineup.id,
            "name": lineup.name,
            "question": lineup.question,
            "created_at": plain(lineup.created_at),
            "rules": {"key": record.rules.key, "version": record.rules.version},
            "revision": record.revision,
            "digest": record.digest,
        },
        "specimens": [plain(s) for s in lineup.specimens],
        "instruments": [plain(i) for i in record.instruments],
        "readings": [{**plain(r), "stands": r.id in stands} for r in record.readings],
        "findings": [_finding(f) for f in record.findings.values()],
        "figures": [_figure(f) for f in record.figures.values()],
        "scores": [plain(s) for s in record.verdict.scores],
        "awards": [plain(a) for a in record.verdict.awards],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "attribute": finding.attribute,
        "specimen_id": finding.specimen_id,
        "state": finding.state.value,
        **_number(finding.quantity),
        "word": finding.word,
        "low": finding.low,
        "high": finding.high,
        "contact_pressure_kpa": finding.contact_pressure_kpa,
        "readings": [r.id for r in finding.readings],
    }


def _figure(figure: Figure) -> dict[str, Any]:
    return {
        "figure": figure.kind.key,
        "label": figure.kind.label,
        "specimen_id": figure.specimen_id,
        "formula": figure.kind.formula,
        **_number(figure.quantity),
        "estimate": figure.estimate,
        "refusal": figure.refusal,
        "readings": list(figure.readings),
    }


def _number(quantity: Any) -> dict[str, Any]:
    if quantity is None:
        return {"value": None, "standard_uncertainty": None, "unit": "", "symbol": ""}
    magnitude = quantity.magnitude
    return {
        "value": float(getattr(magnitude, "nominal_value", magnitude)),
        "standard_uncertainty": float(getattr(magnitude, "std_dev", 0.0)),
        "unit": str(quantity.units),
        "symbol": unit_symbol(str(quantity.units)),
    }
