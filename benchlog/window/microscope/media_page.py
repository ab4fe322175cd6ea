"""The media side by side: openings and fibres by medium, and what may be said of every pair."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchlog.measure.micrograph import Side
from benchlog.tasks.media_seen import MediaView, SideSeen
from benchlog.tasks.media_view import media_view
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen
from benchlog.window.desk import Desk
from benchlog.window.microscope.media_dots import DotRow, MediaDots
from benchlog.window.microscope.media_table import MediaTable
from benchlog.window.microscope.pair_list import PairList
from benchlog.window.microscope.width_strips import StripRow, WidthStrips
from benchlog.window.theme import px, sized
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.record_watch import RecordWatch

NOTHING = "No picture of the media was measured yet."
OPENINGS = "Openings, D50: a ring a field, a diamond the mean, the bar its 95 % interval"
DIAMETERS = "Fibre diameter by share of fibre length, the line at the median"


class MediaPage(QWidget):
    """Shows what the record says of the media; `sum_wanted` carries record, attribute, specimen."""

    sum_wanted = Signal(object, str, str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.watch = RecordWatch(desk)
        self._record: Record | None = None
        self._view: MediaView | None = None
        self.sides = {side: QPushButton(side.value.capitalize()) for side in Side}
        self._group = QButtonGroup(self)
        self.side = Side.IN
        self.told = QLabel(wordWrap=True)
        self.table, self.pairs = MediaTable(), PairList()
        self.dots, self.strips = MediaDots(OPENINGS), WidthStrips(DIAMETERS)
        self.beside, self.refused = QLabel(wordWrap=True), QLabel(wordWrap=True)
        self.sum = QPushButton(f"Sum  {SUM_KEY}")
        self._lay_out()
        for side, button in self.sides.items():
            button.clicked.connect(lambda _=False, s=side: self.choose(s))
        self.watch.worked_out.connect(self._show_record)
        self.watch.working.connect(self._working)
        self.table.opened.connect(lambda _row, _column: self.open_sum())
        self.table.sum_wanted.connect(lambda _row, _column: self.open_sum())
        self.sum.clicked.connect(self.open_sum)

    @property
    def first(self) -> QWidget:
        """What has the keys first."""
        return self.table

    def key_takers(self) -> list[QWidget]:
        """Return what can have the focus."""
        return [*self.sides.values(), self.table, self.pairs, self.sum]

    def choose(self, side: Side) -> None:
        """Show one side of the media."""
        self.side = side
        self._show()

    def rescaled(self) -> None:
        """Follow the window's size."""
        for part in (self.table, self.pairs):
            part.rescaled()
        self.pairs.setFixedWidth(px(420))
        self.updateGeometry()

    def open_sum(self) -> None:
        """Ask for the sum behind the figure that is chosen."""
        here = self.table.number_here()
        if self._record is not None and here is not None:
            self.sum_wanted.emit(self._record, *here)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.watch.look()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.watch.look_away()

    # --- inside ------------------------------------------------------------------------------

    def _working(self, on: bool) -> None:
        if on and self._view is None:
            self.told.setText("Working it out…")

    def _show_record(self, record: Record) -> None:
        self._record, self._view = record, media_view(record)
        there = [one.side for one in self._view.sides]
        if there and self.side not in there:
            self.side = there[0]
        self._show()

    def _show(self) -> None:
        record, view = self._record, self._view
        if record is None or view is None:
            return
        for side, button in self.sides.items():
            button.setChecked(side is self.side)
            button.setEnabled(any(one.side is side for one in view.sides))
        seen = next((one for one in view.sides if one.side is self.side), None)
        who = {specimen.id: specimen for specimen in record.lineup.specimens}
        self.told.setText("" if seen else NOTHING)
        self._whole.setVisible(seen is not None)
        if seen is not None:
            self.table.show_side(seen, who)
            self.pairs.show_pairs(seen.pairs, {one.key: one.label for one in seen.figures})
            self.dots.show_rows(dot_rows(seen, who))
            self.strips.show_rows(strip_rows(seen, who))
        self.beside.setText(view.beside)
        self.refused.setText("\n".join(_refusals(view, who, self.side)))
        self.refused.setVisible(bool(self.refused.text()))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(px(6))
        for button in self.sides.values():
            button.setCheckable(True)
            button.setAutoDefault(True)
            button.setAccessibleName(button.text())
            sized(button, 15)
            self._group.addButton(button)
            head.addWidget(button)
        sized(self.told, 18)
        sized(self.sum, 14)
        self.sum.setAccessibleName("Show the sum behind the chosen figure")
        self.sum.setAutoDefault(True)
        head.addWidget(self.told, 1)
        head.addWidget(self.sum)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, px(6), 0)
        column.setSpacing(px(6))
        column.addWidget(self.table)
        for words, drawing in ((OPENINGS, self.dots), (DIAMETERS, self.strips)):
            label = QLabel(words, wordWrap=True)
            label.setProperty("tone", "dim")
            sized(label, 14)
            column.addWidget(label)
            column.addWidget(drawing)
        column.addStretch(1)
        drawn = QScrollArea(widgetResizable=True)
        drawn.setFrameShape(QScrollArea.Shape.NoFrame)
        drawn.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        drawn.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        drawn.setWidget(left)
        right = QVBoxLayout()
        right.addWidget(self.pairs, 1)
        sized(self.beside, 15, bold=True)
        sized(self.refused, 14)
        self.refused.setProperty("tone", "dim")
        for label in (self.refused, self.beside):
            right.addWidget(label)
        self._whole = QWidget()
        row = QHBoxLayout(self._whole)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(px(8))
        row.addWidget(drawn, 1)
        row.addLayout(right)
        self._whole.hide()
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.addLayout(head)
        page.addWidget(self._whole, 1)
        page.addStretch(0)


def dot_rows(seen: SideSeen, who: dict[str, Specimen]) -> list[DotRow]:
    """Return the openings of one side, a row a medium."""
    return [
        DotRow(who[one.specimen_id], one.values, one.mean, one.low, one.high)
        for one in seen.figures
        if one.key == "D50"
    ]


def strip_rows(seen: SideSeen, who: dict[str, Specimen]) -> list[StripRow]:
    """Return the fibre diameters of one side, a strip a medium."""
    medians = {one.specimen_id: one.mean for one in seen.figures if one.key == "fibre median"}
    return [
        StripRow(
            who[one.specimen_id], one.edges_um, one.shares, medians.get(one.specimen_id), one.few
        )
        for one in seen.strips
    ]


def _refusals(view: MediaView, who: dict[str, Specimen], side: Side) -> list[str]:
    return [
        f"{who[one.specimen_id].nickname}, field {one.field}: refused"
        f"{', taken again' if one.replaced else ''}. {' '.join(one.reasons)}"
        for one in view.refusals
        if one.side is side
    ]
