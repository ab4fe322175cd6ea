"""An address as a square code that phones read (ISO/IEC 18004)."""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby

from reportlab.graphics.barcode.qr import QrCodeWidget
from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.tags import figure
from benchlog.sheet.typography import INK

LONGEST = 300
"""Signs of an address beyond which a code would be too fine for a phone."""

LEAST_MODULE = 1.6
"""Points of one square of the code: 0.56 mm, which phones read at reading distance. Common
practice, no source."""

QUIET = 4
"""Squares that must stay empty around the code (ISO/IEC 18004)."""


def code_size(address: str, least: float) -> float:
    """Return the side of an address' code in points, at least `least`; 0 where there is none."""
    if not address or len(address) > LONGEST:
        return 0.0
    return max(least, LEAST_MODULE * _squares(address))


def draw_code(canvas: Canvas, address: str, x: float, y: float, size: float) -> None:
    """Draw the code with its lower left corner at (x, y), its empty edge included."""
    with figure(canvas, f"Square code for phones: {address}", (x, y, x + size, y + size)):
        _squares_at(canvas, address, x, y, size)


def _squares_at(canvas: Canvas, address: str, x: float, y: float, size: float) -> None:
    rows = _rows(address)
    step = size / (len(rows) + 2 * QUIET)
    top = y + size - QUIET * step
    canvas.saveState()
    canvas.setFillColor(INK)
    path = canvas.beginPath()
    for number, row in enumerate(rows):
        at = QUIET
        for dark, run in groupby(row):
            length = len(list(run))
            if dark:
                path.rect(x + at * step, top - (number + 1) * step, length * step, step)
            at += length
    canvas.drawPath(path, fill=1, stroke=0)
    canvas.restoreState()


@lru_cache(maxsize=8)
def _rows(address: str) -> tuple[tuple[bool, ...], ...]:
    """Return the code's squares, row by row, True for dark."""
    # Level M mends 15 % of the squares: paper is creased, and filters are oily.
    code = QrCodeWidget(address, barLevel="M").qr
    code.make()
    count = range(code.getModuleCount())
    return tuple(tuple(bool(code.isDark(row, column)) for column in count) for row in count)


def _squares(address: str) -> int:
    return len(_rows(address)) + 2 * QUIET
