"""The list of line-ups: a row each, with its specimens' marks drawn beside their nicknames."""

from __future__ import annotations

from PySide6.QtCore import QAbstractListModel, QModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from benchlog.tasks.browse import readings_said
from benchlog.tasks.ports import LineupBrief
from benchlog.window.bench.tag_marker import draw_shape
from benchlog.window.theme import colours, font_of, px

BRIEF = Qt.ItemDataRole.UserRole
REHEARSAL = "rehearsal · invented"


class LineupModel(QAbstractListModel):
    """The line-ups that are shown."""

    def __init__(self) -> None:
        super().__init__()
        self._briefs: list[LineupBrief] = []

    def show_briefs(self, briefs: list[LineupBrief]) -> None:
        """Show these line-ups, in this order."""
        self.beginResetModel()
        self._briefs = briefs
        self.endResetModel()

    def row_of(self, lineup_id: str) -> int:
        """Return where a line-up stands; the first row when it is not shown."""
        ids = [brief.id for brief in self._briefs]
        return ids.index(lineup_id) if lineup_id in ids else 0

    def rowCount(self, parent: QModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._briefs)

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        brief = self._briefs[index.row()]
        if role == BRIEF:
            return brief
        if role == Qt.ItemDataRole.DisplayRole:
            return brief.name
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return spoken(brief)
        return None


class LineupList(QListView):
    """Shows line-ups; `wanted` carries the id of the one to open, by Enter or double click."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.rows = LineupModel()
        self.setModel(self.rows)
        self.setItemDelegate(_RowDelegate(self))
        self.setAccessibleName("Line-ups on the shelf, newest first")
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSpacing(0)
        self.doubleClicked.connect(lambda _index: self.open_current())

    def show_briefs(self, briefs: list[LineupBrief], current: str) -> None:
        """Show these line-ups with one of them chosen."""
        self.rows.show_briefs(briefs)
        if briefs:
            self.setCurrentIndex(self.rows.index(self.rows.row_of(current)))

    def current(self) -> LineupBrief | None:
        """Return the chosen line-up; None when nothing is shown."""
        return self.currentIndex().data(BRIEF)

    def open_current(self) -> None:
        """Ask for the chosen line-up."""
        brief = self.current()
        if brief is not None:
            self.wanted.emit(brief.id)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.open_current()
            return
        super().keyPressEvent(event)


def spoken(brief: LineupBrief) -> str:
    """Return a row in words."""
    specimens = ", ".join(f"{s.nickname} ({s.shape})" for s in brief.specimens)
    parts = [brief.name, brief.created_at.strftime("%Y-%m-%d"), specimens]
    parts.append(readings_said(brief.readings))
    parts += [REHEARSAL] if brief.rehearsal else []
    return "; ".join(parts)


class _RowDelegate(QStyledItemDelegate):
    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex) -> QSize:
        return QSize(px(500), px(74))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        brief: LineupBrief = index.data(BRIEF)
        shown = colours()
        room = QRectF(option.rect).adjusted(px(6), px(4), -px(6), -px(4))
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        focus = bool(option.state & QStyle.StateFlag.State_HasFocus)
        if chosen:
            painter.setBrush(QColor(shown.raised))
            painter.setPen(QPen(QColor(shown.accent if focus else shown.line), px(2)))
            painter.drawRoundedRect(room, px(8), px(8))
        inside = room.adjusted(px(14), px(6), -px(14), -px(6))
        right = self._facts(painter, brief, inside)
        top = QRectF(inside.left(), inside.top(), right - inside.left(), inside.height() / 2)
        painter.setFont(font_of(19, bold=True))
        painter.setPen(QColor(shown.text))
        name = painter.fontMetrics().elidedText(
            brief.name, Qt.TextElideMode.ElideRight, round(top.width() - px(16))
        )
        painter.drawText(top, Qt.AlignmentFlag.AlignVCenter, name)
        self._specimens(painter, brief, top.translated(0, top.height()))
        painter.restore()

    def _facts(self, painter: QPainter, brief: LineupBrief, room: QRectF) -> float:
        """Write date and count at the right; return where they begin."""
        shown = colours()
        painter.setPen(QColor(shown.dim))
        painter.setFont(font_of(15, numeral=True))
        lines = (brief.created_at.strftime("%Y-%m-%d"), readings_said(brief.readings))
        wide = max(painter.fontMetrics().horizontalAdvance(line) for line in lines)
        half = room.height() / 2
        for n, line in enumerate(lines):
            place = QRectF(room.right() - wide - 2, room.top() + n * half, wide + 2, half)
            painter.drawText(
                place, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, line
            )
        left = room.right() - wide - px(20)
        return self._chip(painter, left, room) if brief.rehearsal else left

    def _chip(self, painter: QPainter, right: float, room: QRectF) -> float:
        shown = colours()
        painter.setFont(font_of(13, bold=True))
        wide = painter.fontMetrics().horizontalAdvance(REHEARSAL) + px(20)
        tall = painter.fontMetrics().height() + px(8)
        box = QRectF(right - wide, room.center().y() - tall / 2, wide, tall)
        painter.setPen(QPen(QColor(shown.on_warn), 1))
        painter.setBrush(QColor(shown.warn))
        painter.drawRoundedRect(box, tall / 2, tall / 2)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, REHEARSAL)
        return box.left() - px(16)

    def _specimens(self, painter: QPainter, brief: LineupBrief, room: QRectF) -> None:
        shown = colours()
        painter.setFont(font_of(15))
        letters = painter.fontMetrics()
        side = float(px(17))
        left = room.left()
        for specimen in brief.specimens:
            wide = side + px(7) + letters.horizontalAdvance(specimen.nickname)
            if left + wide > room.right():
                painter.drawText(
                    QRectF(left, room.top(), side, room.height()),
                    Qt.AlignmentFlag.AlignVCenter,
                    "…",
                )
                return
            painter.setPen(QPen(QColor(shown.text), 1))
            painter.setBrush(QColor(specimen.colour))
            draw_shape(
                painter, specimen.shape, QRectF(left, room.center().y() - side / 2, side, side)
            )
            painter.setPen(QColor(shown.dim))
            words = QRectF(left + side + px(7), room.top(), wide, room.height())
            painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, specimen.nickname)
            left += wide + px(20)
