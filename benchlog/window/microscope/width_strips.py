"""How thick the fibres of each medium are, as one strip a medium on one axis."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from benchlog.trade.specimen import Specimen
from benchlog.window.microscope.media_axis import Axis
from benchlog.window.microscope.media_rows import MediaRows
from benchlog.window.theme import colours, px


@dataclass(frozen=True)
class StripRow:
    """Fibre length by diameter: `edges` in µm, one more than `shares`; the median where told.

    `few` says that it rests on fewer fibres than it should.
    """

    specimen: Specimen
    edges: tuple[float, ...]
    shares: tuple[float, ...]
    median: float | None = None
    few: bool = False


class WidthStrips(MediaRows[StripRow]):
    """Draws the strips; each is as high as its fullest class, and areas are shares of length."""

    row_high = 46
    empty = "No fibre was measured yet."

    def show_rows(self, rows: Iterable[StripRow]) -> None:
        """Draw those that have a strip."""
        super().show_rows(row for row in rows if row.shares)

    def spoken(self, row: StripRow) -> str:
        return spoken(row)

    def reach(self) -> float:
        return max((row.edges[-1] for row in self.rows), default=0.0)

    def draw_rows(self, painter: QPainter, room: QRectF, reach: float) -> None:
        axis = Axis(room, reach)
        axis.draw(painter)
        highest = max(max(densities(row)) for row in self.rows)
        for number, row in enumerate(self.rows):
            band = axis.row(number, len(self.rows))
            few = ", few fibres" if row.few else ""
            axis.name(painter, band, row.specimen, f"{row.specimen.nickname}{few}")
            _draw_row(painter, axis, band.adjusted(0, px(4), 0, -px(1)), row, highest)


def densities(row: StripRow) -> list[float]:
    """Return the share of length per µm in each class."""
    wide = zip(row.edges, row.edges[1:], strict=False)
    return [s / (b - a) for s, (a, b) in zip(row.shares, wide, strict=True)]


def _draw_row(painter: QPainter, axis: Axis, band: QRectF, row: StripRow, highest: float) -> None:
    shown = colours()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(shown.accent))
    for density, left, right in zip(densities(row), row.edges, row.edges[1:], strict=False):
        high = band.height() * density / highest if highest > 0 else 0.0
        x = axis.x(left)
        bar = QRectF(x, band.bottom() - high, max(1.0, axis.x(right) - x - 1), high)
        painter.drawRect(bar)
    if row.median is not None:
        painter.setPen(QPen(QColor(shown.text), px(2)))
        x = axis.x(row.median)
        painter.drawLine(QPointF(x, band.top()), QPointF(x, band.bottom()))


def spoken(row: StripRow) -> str:
    """Return a strip in words."""
    middle = f"median {row.median:.1f} micrometres" if row.median is not None else "no median told"
    few = ", few fibres" if row.few else ""
    fullest = max(range(len(row.shares)), key=lambda n: row.shares[n])
    return (
        f"{row.specimen.nickname}{few}: {middle}, most fibre length between "
        f"{row.edges[fullest]:.1f} and {row.edges[fullest + 1]:.1f}"
    )
