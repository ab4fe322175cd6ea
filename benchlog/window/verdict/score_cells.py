"""Drawing the cells of the verdict: the outcome's mark, and a score as a dot with its bar."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from benchlog.tasks.verdict_view import ComponentRow, ScoreCell
from benchlog.window.theme import colours, font_of, px
from benchlog.window.verdict.award_marks import draw_award

NARROW = 100
"""Below this design width a score's particulars are drawn smaller."""

CELL = Qt.ItemDataRole.UserRole
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class ScoreDelegate(QStyledItemDelegate):
    """Paints a ComponentRow: name, outcome with its mark and support, and the scores."""

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex) -> QSize:
        return QSize(px(80), px(50))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        row: ComponentRow | None = index.data(CELL)
        if row is None:
            return
        room = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(room, QColor(colours().raised))
        if chosen and index.column() == 0:
            bar = QRectF(room.left(), room.top(), px(4), room.height())
            painter.fillRect(bar, QColor(colours().accent))
        painter.setPen(QPen(QColor(colours().line), 1))
        painter.drawLine(room.bottomLeft(), room.bottomRight())
        inside = room.adjusted(px(7), px(3), -px(6), -px(3))
        if index.column() == 0:
            _name(painter, row, inside)
        elif index.column() == 1:
            _outcome(painter, row, inside)
        else:
            _score(painter, row.cells[index.column() - 2], inside)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours().accent), 2))
            painter.drawRoundedRect(room.adjusted(2, 2, -2, -2), 4, 4)
        painter.restore()


def _name(painter: QPainter, row: ComponentRow, room: QRectF) -> None:
    painter.setFont(font_of(16, bold=True))
    painter.setPen(QColor(colours().text))
    words = Qt.TextFlag.TextWordWrap | LEFT
    painter.drawText(room, int(words), row.component.value)


def _outcome(painter: QPainter, row: ComponentRow, room: QRectF) -> None:
    radius = float(px(9))
    draw_award(
        painter, row.award.kind, QPointF(room.left() + radius * 1.3, room.center().y()), radius
    )
    words = room.adjusted(radius * 3.2, 0, 0, 0)
    top, low = _halves(words)
    painter.setFont(font_of(14, bold=True))
    painter.setPen(QColor(colours().text))
    painter.drawText(top, LEFT | Qt.AlignmentFlag.AlignBottom, _fitted(painter, row.outcome, top))
    painter.setFont(font_of(12, bold=row.overruled is not None))
    below, ink = row.support, colours().dim
    if row.overruled is not None:
        side = float(px(6))
        draw_award(
            painter, row.overruled.kind, QPointF(low.left() + side * 1.2, low.center().y()), side
        )
        low = low.adjusted(side * 3, 0, 0, 0)
        below, ink = row.overruled.short, colours().text
    painter.setPen(QColor(ink))
    painter.drawText(low, LEFT, _fitted(painter, below, low))


def _score(painter: QPainter, cell: ScoreCell, room: QRectF) -> None:
    top, low = _halves(room)
    if cell.value is None or cell.low is None or cell.high is None:
        painter.setFont(font_of(14))
        painter.setPen(QColor(colours().dim))
        painter.drawText(top, LEFT, "no score" if cell.counted else "–")
        _counted(painter, cell, top)
        _scale(painter, low)
        return
    narrow = room.width() < px(NARROW)
    painter.setFont(font_of(17 if narrow else 19, bold=True, numeral=True))
    painter.setPen(QColor(colours().text))
    painter.drawText(top, LEFT, cell.points)
    wide = painter.fontMetrics().horizontalAdvance("10.0")
    if cell.mark is not None:
        radius = float(px(6 if narrow else 7))
        centre = QPointF(top.left() + wide + radius * 1.6, top.center().y())
        draw_award(painter, cell.mark, centre, radius)
    _counted(painter, cell, top)
    _scale(painter, low)
    _dot(painter, cell.value, cell.low, cell.high, low)


def _counted(painter: QPainter, cell: ScoreCell, room: QRectF) -> None:
    """Say how many of how many attributes the score rests on."""
    narrow = room.width() < px(NARROW)
    words = cell.counted.replace(" of ", "/") if narrow else cell.counted
    painter.setFont(font_of(11 if narrow else 12))
    painter.setPen(QColor(colours().dim))
    where = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
    painter.drawText(room, where, words)


def _scale(painter: QPainter, room: QRectF) -> None:
    """Draw the scale from 0 to 10 that every cell shares, with its ends and its middle."""
    line = _line(room)
    painter.setPen(QPen(QColor(colours().line), max(1.0, px(2))))
    painter.drawLine(line[0], line[1])
    for share in (0.0, 0.5, 1.0):
        x = line[0].x() + share * (line[1].x() - line[0].x())
        painter.drawLine(QPointF(x, line[0].y() - px(3)), QPointF(x, line[0].y() + px(3)))


def _dot(painter: QPainter, value: float, low: float, high: float, room: QRectF) -> None:
    start, end = _line(room)
    long = end.x() - start.x()
    ink = QColor(colours().accent)
    painter.setPen(QPen(ink, px(4), Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    ends = [QPointF(start.x() + long * at / 10, start.y()) for at in (low, high)]
    painter.drawLine(ends[0], ends[1])
    painter.setPen(QPen(QColor(colours().panel), 1))
    painter.setBrush(ink)
    painter.drawEllipse(QPointF(start.x() + long * value / 10, start.y()), px(5), px(5))


def _line(room: QRectF) -> tuple[QPointF, QPointF]:
    height = room.center().y() - px(1)
    return QPointF(room.left() + px(6), height), QPointF(room.right() - px(6), height)


def _halves(room: QRectF) -> tuple[QRectF, QRectF]:
    cut = room.height() * 0.56
    return (
        QRectF(room.left(), room.top(), room.width(), cut),
        QRectF(room.left(), room.top() + cut, room.width(), room.height() - cut),
    )


def _fitted(painter: QPainter, words: str, room: QRectF) -> str:
    return painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, round(room.width()))
