"""How thick the fibres of each medium are, as one strip a medium on one axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.trade.specimen import Specimen
from benchlog.window.microscope.media_axis import Axis
from benchlog.window.theme import colours, font_of, px

ROW_HIGH = 46


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


class WidthStrips(QWidget):
    """Draws the strips; each is as high as its fullest class, and areas are shares of length."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.rows: tuple[StripRow, ...] = ()

    def show_rows(self, rows: Sequence[StripRow]) -> None:
        """Draw these."""
        self.rows = tuple(row for row in rows if row.shares)
        self.setAccessibleDescription(". ".join(spoken(row) for row in self.rows))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(px(500), px(30) + px(ROW_HIGH) * max(1, len(self.rows)))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = colours()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not self.rows:
            painter.setPen(QColor(shown.dim))
            painter.setFont(font_of(15))
            words = "No fibre was measured yet."
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, words)
            return
        room = QRectF(self.rect()).adjusted(0, px(4), 0, -px(2))
        axis = Axis(room, max(row.edges[-1] for row in self.rows))
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
