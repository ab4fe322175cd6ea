"""Before judging blind: what is to be judged, and the list for whoever lays the parts out."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.judge.blind import BlindRun
from benchlog.tasks.blind_view import BlindOffer, codes_by_owner
from benchlog.trade.specimen import Lineup
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import font_of, px, sized

HOW = (
    "The parts are judged by their codes alone, in an order in which nobody is always first. "
    "Somebody else lays each part out behind its code. Answers cannot be told apart from any "
    "other until the codes are opened; then the record says “judged blind”."
)
LAY_OUT = (
    "Reviewer: look away. Whoever lays the parts out: put each part behind its code, and cover "
    "whatever tells them apart. Then hide this list."
)


class ChoosePage(QWidget):
    """Asks what is to be judged; `begun` carries the chosen keys."""

    begun = Signal(object)
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.title = QLabel("Judge by eye, blind")
        self.how = QLabel(HOW, wordWrap=True)
        self.list = QListWidget()
        self.list.setAccessibleName("What is judged by eye; Space ticks")
        self.list.setItemDelegate(CalmDelegate(self.list))
        self.go = QPushButton("&Begin: draw the codes")
        self.not_now = QPushButton("Not now")
        self.told = QLabel(wordWrap=True)
        self.told.setProperty("tone", "warn")
        _dress(self.title, self.how, self.told)
        self.list.itemChanged.connect(lambda _item: self._tell())
        self.go.clicked.connect(lambda: self.begun.emit(self.chosen))
        self.not_now.clicked.connect(self.left)
        column = QVBoxLayout(self)
        for part in (self.title, self.how):
            column.addWidget(part)
        column.addWidget(self.list, 1)
        column.addWidget(self.told)
        column.addLayout(_in_line(self.go, self.not_now))

    @property
    def chosen(self) -> tuple[str, ...]:
        """The keys of what is ticked."""
        every = (self.list.item(n) for n in range(self.list.count()))
        return tuple(
            item.data(Qt.ItemDataRole.UserRole)
            for item in every
            if item.checkState() is Qt.CheckState.Checked
        )

    def show_offers(self, offers: tuple[BlindOffer, ...]) -> None:
        """Offer these; what the rules score is ticked."""
        self.list.blockSignals(True)
        self.list.clear()
        for offer in offers:
            kept = "" if offer.counts else " (shown, never scored)"
            item = QListWidgetItem(f"{offer.component.value}: {offer.label}{kept}")
            item.setData(Qt.ItemDataRole.UserRole, offer.key)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            ticked = Qt.CheckState.Checked if offer.counts else Qt.CheckState.Unchecked
            item.setCheckState(ticked)
            self.list.addItem(item)
        self.list.blockSignals(False)
        self.list.setCurrentRow(0)
        self._tell()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.list.setFont(font_of(17))

    def _tell(self) -> None:
        many = len(self.chosen)
        self.told.setText("" if many else "Nothing is ticked: tick what the eye is to judge.")
        self.go.setEnabled(bool(many))


class CodesPage(QWidget):
    """The list of codes for whoever lays out: hidden till asked for, and hidden again after."""

    hidden = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.title = QLabel("Lay the parts out")
        self.how = QLabel(LAY_OUT, wordWrap=True)
        self.list = QListWidget()
        self.list.setAccessibleName("Codes and whose they are")
        self.list.setItemDelegate(CalmDelegate(self.list))
        self.show_list = QPushButton("&Show the list")
        self.hide_list = QPushButton("&Laid out: hide the list and judge")
        _dress(self.title, self.how)
        self._rows: tuple[tuple[str, object], ...] = ()
        self._shown: tuple[BlindRun, Lineup] | None = None
        self.show_list.clicked.connect(self._show)
        self.hide_list.clicked.connect(self._hide)
        column = QVBoxLayout(self)
        for part in (self.title, self.how):
            column.addWidget(part)
        column.addWidget(self.list, 1)
        column.addLayout(_in_line(self.show_list, self.hide_list))

    def take_run(self, run: BlindRun, lineup: Lineup) -> None:
        """Stand ready to show a run's list; nothing of it is in the window yet."""
        self._shown = (run, lineup)
        self.list.clear()
        self.list.hide()
        self.show_list.show()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.list.setFont(font_of(30, bold=True))
        self.list.setIconSize(QSize(px(34), px(34)))

    def _show(self) -> None:
        if self._shown is None:
            return
        for code, specimen in codes_by_owner(*self._shown):
            item = QListWidgetItem(f"{code}    {specimen.nickname}")
            item.setIcon(tag_icon(specimen, px(34) * 2))
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self.list.show()
        self.show_list.hide()
        self.hide_list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _hide(self) -> None:
        self.list.clear()
        self._shown = None
        self.hidden.emit()


def _dress(title: QLabel, *rest: QLabel) -> None:
    sized(title, 30, bold=True)
    for label in rest:
        sized(label, 18)


def _in_line(*buttons: QPushButton) -> QHBoxLayout:
    line = QHBoxLayout()
    for button in buttons:
        button.setAccessibleName(button.text().replace("&", ""))
        sized(button, 20)
        line.addWidget(button)
    line.addStretch(1)
    return line
