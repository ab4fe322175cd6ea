"""The table of a bias check: each side's share with its interval drawn, and their difference."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyleOptionViewItem, QTableWidgetItem

from benchlog.judge.bias import EACH, BiasCheck, Lean
from benchlog.judge.proportions import Share
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, px
from benchlog.window.verdict.plain_table import PlainTable

BAR = Qt.ItemDataRole.UserRole
HEADS = ("", "Share", "95 % interval", "Cases", "0 to 100 %")
SHARES = (30, 10, 19, 9, 32)
DIFFERENCE = f"difference, −100 to 100 %; {100 * EACH:.1f} % interval"


class BiasTable(PlainTable):
    """Shows a check; arrow keys walk the cells, and each row can be heard in words."""

    def __init__(self) -> None:
        super().__init__("How awards lean", 15)
        self.setItemDelegateForColumn(len(HEADS) - 1, _BarDelegate(self))
        self.show_heads(HEADS, SHARES)

    def show_check(self, check: BiasCheck) -> None:
        """Show every comparison: its question and what it comes to, both sides, the difference."""
        self.clearSpans()
        self.setRowCount(4 * len(check.leans))
        for n, lean in enumerate(check.leans):
            self._show_lean(4 * n, lean)
        self.setCurrentCell(0, 0)

    def _show_lean(self, row: int, lean: Lean) -> None:
        said = f"{lean.question}: {lean.sentence}"
        self.put(row, 0, said, f"{said} Method: {lean.method}.")
        font = self.font()
        font.setBold(True)
        self.item(row, 0).setFont(font)
        self.setSpan(row, 0, 1, len(HEADS))
        sides = ((lean.one.label, lean.one.share), (lean.other.label, lean.other.share))
        for place, (label, share) in enumerate(sides, row + 1):
            self._show_share(place, label, share, low=0.0)
        self._show_share(row + 3, DIFFERENCE, lean.gap, low=-1.0)

    def _show_share(self, row: int, label: str, share: Share | None, low: float) -> None:
        signed = low < 0
        if share is None:
            words = ("—", "—", "none")
        else:
            value, below, above = (
                _per_cent(x, signed) for x in (share.value, share.low, share.high)
            )
            words = (value, f"{below} to {above}", str(share.cases))
        spoken = f"{label}: {words[0]}, {words[1]}, cases: {words[2]}"
        for column, text in enumerate((label, *words)):
            self.put(row, column, text, spoken if column == 0 else "")
        bar = QTableWidgetItem()
        bar.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
        if share is not None:
            bar.setData(BAR, (low, share.low, share.value, share.high))
        self.setItem(row, len(HEADS) - 1, bar)


class _BarDelegate(CalmDelegate):
    """Paints an interval as a bar and the share as a dot, over a scale with its ends and nought."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex) -> QSize:
        return super().sizeHint(option, index).expandedTo(QSize(px(120), px(30)))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        super().paint(painter, option, index)
        held = index.data(BAR)
        if held is None:
            return
        least, low, value, high = held
        shown = colours()
        room = QRectF(option.rect).adjusted(px(14), px(4), -px(14), -px(4))
        middle = room.center().y()

        def at(share: float) -> float:
            return room.left() + room.width() * (share - least) / (1.0 - least)

        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(shown.line), 1))
        painter.drawLine(QPointF(room.left(), middle), QPointF(room.right(), middle))
        for tick in {least, (least + 1.0) / 2.0, 1.0}:
            painter.drawLine(QPointF(at(tick), room.top()), QPointF(at(tick), room.bottom()))
        painter.setPen(QPen(QColor(shown.accent), px(4)))
        painter.drawLine(QPointF(at(low), middle), QPointF(at(high), middle))
        painter.setPen(QPen(QColor(shown.window), 1))
        painter.setBrush(QColor(shown.text))
        painter.drawEllipse(QPointF(at(value), middle), px(5), px(5))
        painter.restore()


def _per_cent(share: float, signed: bool) -> str:
    rounded = round(100.0 * share)
    sign = "−" if rounded < 0 else "+" if signed and rounded > 0 else ""
    return f"{sign}{abs(rounded)} %"
