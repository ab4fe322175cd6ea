"""What came in at this station: attributes down, specimens across, states as words."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QAction, QColor, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
)

from benchlog.measure.state import WITHOUT_VALUE
from benchlog.tasks.bench_view import BenchView, Cell
from benchlog.window import icons
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.theme import colours, font_of, px

CELL = Qt.ItemDataRole.UserRole
IN_DOUBT = ", in doubt: its instrument failed its check"
_WITHOUT = frozenset(state.value for state in WITHOUT_VALUE)


class StationTable(QTableWidget):
    """Shows the cells of one station; a click on one asks to go there, a second for its sum."""

    wanted = Signal(str, str)
    sum_wanted = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("What came in at this station")
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setItemDelegate(_CellDelegate(self))
        self.setWordWrap(False)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        for header, name in (
            (self.horizontalHeader(), "Specimens"),
            (self.verticalHeader(), "Attributes"),
        ):
            header.setAccessibleName(name)
            header.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._heads: tuple[object, ...] = ()
        self.cellClicked.connect(self._chosen)
        self.cellDoubleClicked.connect(lambda _row, _column: self._ask_sum())
        action = QAction("Show the sum", self)
        action.triggered.connect(self._ask_sum)
        self.addAction(action)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def show_view(self, view: BenchView) -> None:
        """Show the table of the view's station, with the asked cell in sight."""
        heads = (view.lineup.specimens, tuple(row.attribute.key for row in view.table))
        if heads != self._heads:
            self._show_heads(view)
            self._heads = heads
        for r, row in enumerate(view.table):
            for c, cell in enumerate(row.cells):
                item = self.item(r, c)
                item.setData(CELL, (row.attribute.key, cell))
                item.setText(cell_words(cell))
                doubt = IN_DOUBT if cell.in_doubt else ""
                item.setToolTip(f"{cell_words(cell)}{doubt}")
                nickname = view.lineup.specimens[c].nickname
                spoken = f"{row.attribute.label}, {nickname}: {cell_words(cell) or 'missing'}"
                item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{spoken}{doubt}")
                if cell.here:
                    self.scrollToItem(item)
        self.viewport().update()

    def _show_heads(self, view: BenchView) -> None:
        self.clear()
        self.setRowCount(len(view.table))
        self.setColumnCount(len(view.lineup.specimens))
        for c, specimen in enumerate(view.lineup.specimens):
            self.setHorizontalHeaderItem(c, QTableWidgetItem(tag_icon(specimen), specimen.nickname))
        for r, row in enumerate(view.table):
            head = QTableWidgetItem(row.attribute.label)
            head.setToolTip(row.attribute.label)
            self.setVerticalHeaderItem(r, head)
            for c in range(len(row.cells)):
                self.setItem(r, c, QTableWidgetItem())
        self.rescaled()

    def rescaled(self) -> None:
        """Set row heights and header widths to the letters' size."""
        self.setFont(font_of(16))
        self.verticalHeader().setFont(font_of(15))
        self.horizontalHeader().setFont(font_of(15, bold=True))
        self.verticalHeader().setDefaultSectionSize(px(28))
        for row in range(self.rowCount()):
            self.setRowHeight(row, px(28))
        self.verticalHeader().setFixedWidth(px(300))

    def cell_here(self) -> tuple[str, str] | None:
        """Return attribute and specimen of the current cell, None where nothing came in."""
        item = self.currentItem()
        if item is None or item.data(CELL) is None:
            return None
        key, cell = item.data(CELL)
        return (key, cell.specimen_id) if cell.taken else None

    def _ask_sum(self) -> None:
        here = self.cell_here()
        if here is not None:
            self.sum_wanted.emit(*here)

    def _chosen(self, row: int, column: int) -> None:
        item = self.item(row, column)
        if item is not None and item.data(CELL) is not None:
            key, cell = item.data(CELL)
            self.wanted.emit(key, cell.specimen_id)


def cell_words(cell: Cell) -> str:
    """Return a cell in words: what came in, and how many of how many where more are wanted."""
    more = f"  ({cell.taken} of {cell.wanted})" if 0 < cell.taken < cell.wanted else ""
    return f"{cell.text}{more}"


class _CellDelegate(QStyledItemDelegate):
    """Paints a cell: values upright, states in italics, the asked one in a frame."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: object) -> None:
        kept = index.data(CELL)
        if kept is None:
            return
        cell: Cell = kept[1]
        shown = colours()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if cell.here:
            painter.setBrush(QColor(shown.raised))
            painter.setPen(QPen(QColor(shown.accent), 2))
            painter.drawRoundedRect(QRectF(option.rect).adjusted(2, 2, -2, -2), 4, 4)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(shown.text), 1, Qt.PenStyle.DotLine))
            painter.drawRect(QRectF(option.rect).adjusted(4, 4, -4, -4))
        without = cell.state in _WITHOUT
        font = font_of(16, numeral=True)
        font.setItalic(without)
        painter.setFont(font)
        painter.setPen(QColor(shown.dim if without or not cell.text else shown.text))
        room = option.rect.adjusted(px(9), 0, -px(6), 0)
        if cell.in_doubt:
            sign = QRect(room.left(), room.center().y() - px(8), px(17), px(17))
            icons.icon("caution", shown.on_warn).paint(painter, sign)
            room.adjust(px(23), 0, 0, 0)
        words = cell_words(cell) or ("asked now" if cell.here else "·")
        words = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)
        painter.restore()
