"""Tell the sum behind one number as plain values for JSON."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.sum_shown import Budget, budget_of, budget_of_finding
from benchlog.measure.finding import Finding
from benchlog.measure.units import convert
from benchlog.settings import INCH
from benchlog.tasks.budget_view import source_words
from benchlog.tasks.check_sum import check_sum
from benchlog.tasks.digest import plain
from benchlog.tasks.figure_view import sum_of
from benchlog.tasks.look import shown
from benchlog.tasks.ports import Progress
from benchlog.tasks.record import Record
from benchlog.tasks.tell import told_figure, told_finding
from benchlog.tasks.tell_number import told_budget, told_number
from benchlog.tasks.value_text import label_of, value_text


def tell_sum(
    record: Record, key: str, specimen_id: str, check: Progress | None = None
) -> dict[str, Any]:
    """Return the sum of one figure or attribute of one specimen; raises KeyError.

    The result as text and as numbers in metric and inch units, formula, inputs with every
    reading and its instrument, assumptions, warnings, and the uncertainty budget; with a progress
    in `check`, what a million draws give instead.
    """
    words = sum_of(record, key, specimen_id)
    specimen = next(s for s in record.lineup.specimens if s.id == specimen_id)
    told = {
        "specimen": specimen.nickname,
        "label": label_of(record, key),
        "result": words.result,
        "result_inch": value_text(record, key, specimen_id, INCH),
        **_numbers(record, key, specimen_id),
        "formula": words.formula,
        "source": words.source,
        "note": words.note,
        "inputs": [
            {
                "key": one.key,
                "label": one.label,
                "text": one.text,
                "note": one.note,
                "readings": _readings(record, record.findings.get((one.key, specimen_id))),
            }
            for one in words.inputs
        ],
        "coverage": words.coverage,
        "budget": _budget(record, key, specimen_id),
    }
    if check is not None:
        told["cross_check"] = _finite(plain(check_sum(record, key, specimen_id, check)))
    return told


def _finite(told: Any) -> Any:
    """Return what a check told with None for infinite numbers, which JSON does not know."""
    if not isinstance(told, dict):
        return told
    return {k: None if isinstance(v, float) and math.isinf(v) else v for k, v in told.items()}


def _numbers(record: Record, key: str, specimen_id: str) -> dict[str, Any]:
    figure = record.figures.get((key, specimen_id))
    if figure is not None:
        told = told_figure(figure)
        quantity, inch_unit = figure.quantity, figure.kind.inch_unit
    else:
        finding = record.findings[key, specimen_id]
        told = told_finding(finding)
        quantity, inch_unit = finding.quantity, record.sequence.attribute(key).inch_unit
    bounded = figure is not None and figure.low is not None
    told["inch"] = told_number(quantity, inch_unit, bounded=bounded)
    for end in ("low", "high"):
        value = told[end]
        known = value is not None and quantity is not None
        told["inch"][end] = convert(value, told["unit"], told["inch"]["unit"]) if known else None
    for repeated in ("terms", "label", "formula"):
        told.pop(repeated, None)
    return told


def _readings(record: Record, finding: Finding | None) -> list[dict[str, Any]]:
    if finding is None:
        return []
    tools = {i.id: i for i in record.instruments}
    attribute = record.sequence.attribute(finding.attribute)
    return [
        {
            "id": reading.id,
            "ordinal": reading.ordinal,
            "text": shown(reading, attribute),
            "said": plain(reading.said),
            "at": plain(reading.at),
            "source": reading.source.value,
            "instrument": plain(tools.get(reading.instrument_id or "")),
        }
        for reading in finding.readings
    ]


def _budget(record: Record, key: str, specimen_id: str) -> dict[str, Any] | None:
    figure = record.figures.get((key, specimen_id))
    budget: Budget | None
    if figure is not None:
        budget = budget_of(figure)
    else:
        budget = budget_of_finding(record.findings[key, specimen_id])
    if budget is None:
        return None
    words = {source.name: source_words(record, source) for source in budget.sources}
    return told_budget(budget, words, bounded=figure is not None and figure.low is not None)
