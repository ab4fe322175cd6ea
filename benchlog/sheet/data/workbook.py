"""The tables as a workbook (Office Open XML, ISO/IEC 29500), for those who use a spreadsheet.

No typed text becomes a formula or an error word: every text is written as text, whatever it begins
with. Characters that XML cannot hold are written as _xHHHH_ (ISO/IEC 29500-1, 22.4.2.4), which
spreadsheets read back. A workbook holds 16 significant digits of a number; the CSV holds all.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

from benchlog.sheet.data.csv_text import cell_text
from benchlog.sheet.data.table import Cell, Table

MOST_IN_A_CELL = 32_767
"""Characters that a cell of a workbook may hold."""

CUT = " … (goes on in the CSV)"
_UNWRITABLE = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ufffe\uffff]|_x[0-9A-Fa-f]{4}_|[\ud800-\udfff]"
)
_WIDEST = 60


def write_workbook(tables: Iterable[Table], path: Path) -> None:
    """Write one sheet for each table; raises OSError when the file cannot be written."""
    from openpyxl import Workbook  # noqa: PLC0415 - slow to load
    from openpyxl.styles import Font  # noqa: PLC0415
    from openpyxl.utils import get_column_letter  # noqa: PLC0415

    book = Workbook()
    book.remove(book.active)
    for table in tables:
        sheet = book.create_sheet(table.name)
        for column, field in enumerate(table.fields, start=1):
            _put(sheet.cell(1, column), field.name).font = Font(bold=True)
            widest = max((len(cell_text(row[column - 1])) for row in table.rows), default=0)
            width = min(max(widest, len(field.name)) + 2, _WIDEST)
            sheet.column_dimensions[get_column_letter(column)].width = width
        for line, row in enumerate(table.rows, start=2):
            for column, value in enumerate(row, start=1):
                if value not in (None, ""):
                    _put(sheet.cell(line, column), value)
        sheet.freeze_panes = "A2"
    book.save(path)


def _put(cell: Any, value: Cell) -> Any:
    """Put a value into a cell: numbers and yes/no as they are, all else as text."""
    if isinstance(value, (Decimal, float)):
        number = float(value)
        # A spreadsheet has no infinity; text keeps what was said.
        cell.value = number if math.isfinite(number) else str(value)
    elif isinstance(value, (bool, int)):
        cell.value = value
    else:
        cell.value = writable(cell_text(value) if isinstance(value, datetime) else str(value))
        cell.data_type = "s"
        cell.quotePrefix = True
    return cell


def writable(text: str) -> str:
    """Return text that a workbook can hold, cut and marked as cut where it is too long."""
    escaped = _UNWRITABLE.sub(_escaped, text)
    if len(escaped) <= MOST_IN_A_CELL:
        return escaped
    return escaped[: MOST_IN_A_CELL - len(CUT)] + CUT


def readable(text: str) -> str:
    """Return the text that `writable` was given, as long as that was not cut."""
    return re.sub(r"_x([0-9A-Fa-f]{4})_", lambda found: chr(int(found[1], 16)), text)


def _escaped(found: re.Match[str]) -> str:
    # A text that looks like an escape is kept by escaping its first sign.
    whole = found[0]
    return f"_x005F_{whole[1:]}" if len(whole) > 1 else f"_x{ord(whole):04X}_"
