"""Readings and instruments back from rows of CSV, so that what stands there is what is worked on.

A row that says what the record says gives the record's own object; one that was changed is read
as it stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Protocol, TypeVar

import msgspec

from benchlog.errors import PlanRefused
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.sheet.data.csv_text import cell_text, read_cell
from benchlog.sheet.data.read_package import Rows
from benchlog.sheet.data.table import Cell, Field


class _Named(Protocol):
    @property
    def id(self) -> str: ...


T = TypeVar("T", bound=_Named)


def objects_of(
    name: str,
    rows: Rows,
    fields: tuple[Field, ...],
    known: Iterable[T],
    as_row: Callable[[T], tuple[Cell, ...]],
    made: Callable[[dict[str, Any]], T],
) -> tuple[T, ...]:
    """Return one object for each row; raises PlanRefused naming table and row."""
    same = {
        one.id: (one, dict(zip([f.name for f in fields], map(cell_text, as_row(one)), strict=True)))
        for one in known
    }
    found = []
    for row in rows:
        one, said = same.get(row.get("id", ""), (None, None))
        if one is not None and said == row:
            found.append(one)
            continue
        try:
            cells = {f.name: read_cell(f.kind, row[f.name]) for f in fields}
            found.append(made(cells))
        except (KeyError, ValueError, TypeError, msgspec.ValidationError) as fault:
            raise PlanRefused(
                f"{name}.csv cannot be read: row '{row.get('id', '')}': {fault}.",
                "Put that row right, or take another copy of the package.",
            ) from fault
    return tuple(found)


def reading_from(cells: dict[str, Any], lineup_id: str) -> Reading:
    """Return the reading that a row's cells tell of."""
    said = None
    if cells["said_value"] is not None:
        said = {
            "text": cells["said"] or "",
            "value": cells["said_value"],
            "unit": cells["said_unit"] or "",
            "low": cells["said_low"],
            "high": cells["said_high"],
            "approximate": bool(cells["said_about"]),
        }
    fields = {
        **{name: cells[name] for name in ("id", "specimen_id", "attribute", "ordinal", "state")},
        **{name: cells[name] or "" for name in ("text", "si_unit", "reason", "group")},
        **{name: cells[name] for name in ("at", "source", "word", "instrument_id", "supersedes")},
        **{name: _float(cells[name]) for name in ("session_s", "si_value", "si_low", "si_high")},
        **{name: bool(cells[name]) for name in ("withdrawn", "blind")},
        "lineup_id": lineup_id,
        "said": said,
        "raw": bytes.fromhex(cells["raw"]) if cells["raw"] else None,
    }
    return msgspec.convert(fields, Reading)


def instrument_from(cells: dict[str, Any]) -> Instrument:
    """Return the instrument that a row's cells tell of."""
    numbers = ("resolution", "permissible_error", "contact_pressure_kpa", "verification_interval")
    fields = {
        **{name: cells[name] for name in ("id", "kind")},
        **{name: cells[name] or "" for name in ("name", "unit", "note", "accuracy_class")},
        **{name: _float(cells[name]) for name in numbers},
    }
    return msgspec.convert(fields, Instrument)


def _float(number: Any) -> float | None:
    return None if number is None else float(number)
