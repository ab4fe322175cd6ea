"""The stations at the left: number, name, how much is still missing, and which are one-way."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListWidget,
    QListWidgetItem,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from benchlog.tasks.bench_view import StationRow
from benchlog.window import icons
from benchlog.window.theme import colours, font_of, px

ROW = Qt.ItemDataRole.UserRole
WARNING = "cannot be undone"


class StationList(QListWidget):
    """Lists the stations; a click or Enter on one asks to go there."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Stations")
        self.setItemDelegate(_StationDelegate(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.itemClicked.connect(self._chosen)

    def show_rows(self, rows: tuple[StationRow, ...]) -> None:
        """Show the stations as they stand now."""
        while self.count() > len(rows):
            self.takeItem(self.count() - 1)
        for position, row in enumerate(rows):
            item = self.item(position)
            if item is None:
                item = QListWidgetItem()
                self.addItem(item)
            item.setData(ROW, row)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, told(position + 1, row))
            item.setToolTip(told(position + 1, row))
            if row.here:
                self.setCurrentItem(item)
                self.scrollToItem(item)

    def rescaled(self) -> None:
        """Lay the rows out again for another letter size."""
        self.setFixedWidth(px(236))
        self.scheduleDelayedItemsLayout()

    def _chosen(self, item: QListWidgetItem) -> None:
        self.wanted.emit(item.data(ROW).key)


def told(number: int, row: StationRow) -> str:
    """Return a station's row in words."""
    parts = [f"{number} {row.label}", missing_words(row)]
    if row.one_way:
        parts.append("done, cannot be undone" if row.passed else WARNING)
    return ", ".join(parts)


def missing_words(row: StationRow) -> str:
    """Return how much is missing at a station, in words."""
    if row.asked == 0:
        return "nothing asked"
    return f"{row.missing} of {row.asked} missing" if row.missing else "complete"


class _StationDelegate(QStyledItemDelegate):
    """Paints one station on one or two lines."""

    def sizeHint(self, _option: QStyleOptionViewItem, index: QModelIndex) -> QSize:
        row: StationRow = index.data(ROW)
        return QSize(px(200), px(48 if row.one_way else 33))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        row: StationRow = index.data(ROW)
        shown = colours()
        box: QRect = option.rect
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if row.here:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(shown.raised))
            painter.drawRect(box)
            painter.setBrush(QColor(shown.accent))
            painter.drawRect(box.left(), box.top(), px(5), box.height())
        first = QRect(box.left() + px(10), box.top(), box.width() - px(16), px(33))
        self._first_line(painter, first, index.row() + 1, row)
        if row.one_way:
            second = QRect(first.left() + px(24), box.top() + px(27), first.width(), px(20))
            self._warning(painter, second, row)
        painter.restore()

    def _first_line(self, painter: QPainter, line: QRect, number: int, row: StationRow) -> None:
        shown = colours()
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(font_of(14, numeral=True))
        painter.setPen(QColor(shown.dim))
        painter.drawText(line, middle, str(number))
        self._missing(painter, line, row)
        painter.setPen(QColor(shown.text))
        name = line.adjusted(px(24), 0, -px(28), 0)
        for size in (15, 14, 13, 12):
            painter.setFont(font_of(size, bold=row.here))
            if painter.fontMetrics().horizontalAdvance(row.label) <= name.width() - px(4):
                break
        words = painter.fontMetrics().elidedText(
            row.label, Qt.TextElideMode.ElideRight, name.width()
        )
        painter.drawText(name, middle, words)

    def _missing(self, painter: QPainter, line: QRect, row: StationRow) -> None:
        shown = colours()
        if row.asked == 0:
            return
        if row.missing == 0:
            side = px(18)
            painter.save()
            painter.translate(line.right() - side, line.center().y() - side / 2)
            painter.scale(side / icons.GRID, side / icons.GRID)
            icons.draw(painter, "tick", QColor(shown.good))
            painter.restore()
            return
        painter.setFont(font_of(15, bold=True, numeral=True))
        painter.setPen(QColor(shown.text if row.here else shown.dim))
        painter.drawText(
            line, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, str(row.missing)
        )

    def _warning(self, painter: QPainter, line: QRect, row: StationRow) -> None:
        shown = colours()
        ink = QColor(shown.dim if row.passed else shown.on_warn)
        if not row.passed:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(shown.warn))
            wide = px(150)
            painter.drawRoundedRect(
                QRectF(line.left() - px(4), line.top() - px(1), wide, px(19)), px(5), px(5)
            )
        side = px(15)
        painter.save()
        painter.translate(line.left(), line.center().y() - side / 2)
        painter.scale(side / icons.GRID, side / icons.GRID)
        icons.draw(painter, "one way", ink)
        painter.restore()
        painter.setFont(font_of(13))
        painter.setPen(ink)
        words = "done for good" if row.passed else WARNING
        painter.drawText(line.adjusted(side + px(6), 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, words)
