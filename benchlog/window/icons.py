"""Icons drawn for this program, in the colour of the text around them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPainterPath, QPen, QPixmap, QPolygonF

Drawer = Callable[[QPainter], None]
GRID = 24.0


def icon(name: str, colour: str | QColor, size: int = 48) -> QIcon:
    """Return an icon by name, in a colour; raises KeyError for a name that was never drawn."""
    picture = QPixmap(size, size)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.scale(size / GRID, size / GRID)
    draw(painter, name, QColor(colour))
    painter.end()
    return QIcon(picture)


def draw(painter: QPainter, name: str, colour: QColor) -> None:
    """Draw an icon on a painter whose coordinates run from 0 to 24."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(colour, 1.8)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _DRAWERS[name](painter)


def _one_way(p: QPainter) -> None:
    """An arrow through a gate that has a bar behind it."""
    p.drawLine(QPointF(3, 12), QPointF(15, 12))
    p.drawPolyline(QPolygonF([QPointF(10.5, 7), QPointF(15.5, 12), QPointF(10.5, 17)]))
    p.drawLine(QPointF(20, 4), QPointF(20, 20))


def _caution(p: QPainter) -> None:
    p.drawPolygon(QPolygonF([QPointF(12, 3), QPointF(22, 20.5), QPointF(2, 20.5)]))
    p.drawLine(QPointF(12, 9.5), QPointF(12, 14.5))
    p.drawPoint(QPointF(12, 17.5))


def _tick(p: QPainter) -> None:
    pen = p.pen()
    pen.setWidthF(2.8)
    p.setPen(pen)
    p.drawPolyline(QPolygonF([QPointF(4, 13), QPointF(9.5, 18.5), QPointF(20, 6)]))


def _question(p: QPainter) -> None:
    p.drawEllipse(QRectF(2.5, 2.5, 19, 19))
    path = QPainterPath(QPointF(9, 9.5))
    path.cubicTo(9, 5.5, 15.5, 5.5, 15.2, 9.6)
    path.cubicTo(15, 12, 12, 11.6, 12, 14.4)
    p.drawPath(path)
    p.drawPoint(QPointF(12, 17.6))


def _stop(p: QPainter) -> None:
    p.drawEllipse(QRectF(2.5, 2.5, 19, 19))
    p.drawLine(QPointF(7.5, 7.5), QPointF(16.5, 16.5))
    p.drawLine(QPointF(16.5, 7.5), QPointF(7.5, 16.5))


def _tool(p: QPainter) -> None:
    """A calliper: a beam with two jaws."""
    p.drawLine(QPointF(3, 6), QPointF(21, 6))
    p.drawPolyline(QPolygonF([QPointF(5, 6), QPointF(5, 19), QPointF(8, 14), QPointF(8, 6)]))
    p.drawPolyline(QPolygonF([QPointF(16, 6), QPointF(16, 19), QPointF(13, 14), QPointF(13, 6)]))


def _photo(p: QPainter) -> None:
    p.drawRoundedRect(QRectF(2.5, 6.5, 19, 13.5), 2, 2)
    p.drawEllipse(QPointF(12, 13.2), 4, 4)
    p.drawLine(QPointF(8, 4), QPointF(16, 4))


def _weight(p: QPainter) -> None:
    """A mass that comes down on the entry."""
    p.drawLine(QPointF(12, 3), QPointF(12, 12))
    p.drawPolyline(QPolygonF([QPointF(8, 8.5), QPointF(12, 12.5), QPointF(16, 8.5)]))
    p.drawLine(QPointF(4, 19), QPointF(20, 19))


def _ring(p: QPainter) -> None:
    p.drawEllipse(QRectF(3.5, 3.5, 17, 17))


def _half_ring(p: QPainter) -> None:
    """A ring whose first half is full."""
    _ring(p)
    p.setBrush(p.pen().color())
    p.drawChord(QRectF(3.5, 3.5, 17, 17), 90 * 16, 180 * 16)


def _mended(p: QPainter) -> None:
    """A tick in a frame."""
    p.drawRoundedRect(QRectF(2.5, 2.5, 19, 19), 3, 3)
    p.drawPolyline(QPolygonF([QPointF(7, 12.5), QPointF(10.5, 16), QPointF(17, 8)]))


def _checks(p: QPainter) -> None:
    """A tick between the two ends of a bracket."""
    for edge, end in ((2.5, 6.0), (21.5, 18.0)):
        p.drawPolyline(
            QPolygonF([QPointF(end, 3), QPointF(edge, 3), QPointF(edge, 21), QPointF(end, 21)])
        )
    p.drawPolyline(QPolygonF([QPointF(7, 12.5), QPointF(10.5, 16), QPointF(17, 8)]))


_DRAWERS: dict[str, Drawer] = {
    "one way": _one_way,
    "caution": _caution,
    "tick": _tick,
    "question": _question,
    "stop": _stop,
    "tool": _tool,
    "photo": _photo,
    "weight": _weight,
    "ring": _ring,
    "half ring": _half_ring,
    "mended": _mended,
    "checks": _checks,
}
NAMES = tuple(_DRAWERS)
