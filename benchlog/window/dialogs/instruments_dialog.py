"""The instruments on the shelf: add one, change one, take one in hand."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.tasks.set_ups import instruments_listed
from benchlog.window.desk import Desk
from benchlog.window.dialogs.instrument_fields import SET_UP_KINDS, InstrumentFields, units_of
from benchlog.window.theme import px, sized

INSTRUMENT = Qt.ItemDataRole.UserRole
WIDEST_LIST = 380
WHERE_SET_UPS = (
    "A set-up of the microscope stays as it was calibrated. To calibrate it anew or make another, "
    "go to the pictures of the media at the station of the microscope, and press Set-up there."
)


class InstrumentsDialog(QDialog):
    """Left the instruments, right the one chosen; `taken` carries the id of one taken in hand.

    Set-ups of a microscope are told and not changed: their pictures bring them along.
    """

    taken = Signal(str)

    def __init__(self, desk: Desk, kind: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Instruments")
        self._desk = desk
        self._shown: Instrument | None = None
        self._kind = kind
        self.list = QListWidget()
        self.list.setAccessibleName("Instruments on the shelf")
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setWordWrap(True)
        self.fields = InstrumentFields()
        self.set_up = QLabel(wordWrap=True)
        self.set_up.setMinimumWidth(px(380))
        self.set_up.hide()
        self.words = QLabel(wordWrap=True)
        self.words.setProperty("tone", "warn")
        self.new = _button("New instrument")
        self.save = _button("Save")
        self.take = _button("Take in hand")
        self.close_button = _button("Close")
        self._lay_out(f"The answer asked is taken with a {kind}." if kind else "")
        self.list.currentItemChanged.connect(self._chosen)
        self.new.clicked.connect(self._begin_new)
        self.save.clicked.connect(self._save)
        self.take.clicked.connect(self._take)
        self.close_button.clicked.connect(self.accept)
        self._fill()

    def showEvent(self, event: QShowEvent) -> None:
        """Give words that fold their room, which a first size leaves out."""
        super().showEvent(event)
        self._grow()

    def _fill(self, wanted: str = "") -> None:
        self.list.clear()
        instruments = instruments_listed(self._desk.workshop.shelf)
        for instrument in sorted(instruments, key=lambda i: i.kind.value != self._kind):
            item = QListWidgetItem(f"{instrument.name}  ·  {instrument.kind}")
            item.setData(INSTRUMENT, instrument)
            item.setToolTip(item.text())
            self.list.addItem(item)
            if instrument.id == wanted or self.list.currentItem() is None:
                self.list.setCurrentItem(item)
        self._widen()
        if not instruments:
            self._begin_new()

    def _widen(self) -> None:
        """Give the names their room; longer ones than the widest list go on below."""
        bar = self.list.verticalScrollBar().sizeHint().width()
        names = self.list.sizeHintForColumn(0) + bar + 2 * self.list.frameWidth() + 8
        self.list.setMinimumWidth(min(max(names, 220), WIDEST_LIST))

    def _chosen(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self._shown = item.data(INSTRUMENT)
            set_up = self._shown.kind in SET_UP_KINDS
            self._show_set_up(self._shown if set_up else None)
            if not set_up:
                self.fields.show_instrument(self._shown)

    def _show_set_up(self, set_up: Instrument | None) -> None:
        """Tell a set-up in place of the fields, which would change it."""
        if set_up is not None:
            told = f"{set_up.name}: {set_up.note}." if set_up.note else f"{set_up.name}."
            self.set_up.setText(f"{told}\n\n{WHERE_SET_UPS}")
        self.words.clear()
        self.set_up.setVisible(set_up is not None)
        self.fields.setVisible(set_up is None)
        for button in (self.save, self.take):
            button.setEnabled(set_up is None)
        if self.isVisible():
            self._grow()

    def _begin_new(self) -> None:
        self._shown = None
        self._show_set_up(None)
        wanted = InstrumentKind(self._kind) if self._kind else InstrumentKind.CALLIPER
        kind = InstrumentKind.CALLIPER if wanted in SET_UP_KINDS else wanted
        self.fields.show_instrument(Instrument("", "", kind, units_of(kind)[0], 0.0, 0.0))
        self.fields.name.setFocus()

    def _save(self) -> Instrument | None:
        read = self.fields.read(self._shown)
        if isinstance(read, str):
            self.words.setText(read)
            self._grow()
            return None
        self.words.clear()
        saved: Instrument | None = None
        with self._desk.faults.guarded():
            self._desk.workshop.shelf.save_instrument(read)
            saved = read
            self._shown = read
            self._fill(read.id)
        return saved

    def _grow(self) -> None:
        """Give words that fold their room."""
        self.layout().activate()
        wanted = self.layout().totalHeightForWidth(self.width())
        self.resize(self.width(), max(self.height(), wanted))

    def _take(self) -> None:
        saved = self._save()
        if saved is not None:
            self.taken.emit(saved.id)
            self.accept()

    def _lay_out(self, about: str) -> None:
        left = QVBoxLayout()
        left.addWidget(self.list, 1)
        left.addWidget(self.new)
        right = QVBoxLayout()
        right.addWidget(QLabel(about, wordWrap=True))
        right.addWidget(self.set_up)
        right.addWidget(self.fields)
        right.addWidget(self.words)
        right.addStretch()
        buttons = QHBoxLayout()
        for button in (self.save, self.take, self.close_button):
            buttons.addWidget(button)
        right.addLayout(buttons)
        row = QHBoxLayout(self)
        row.addLayout(left, 1)
        row.addLayout(right, 1)


def _button(label: str) -> QPushButton:
    button = QPushButton(label)
    button.setAccessibleName(label)
    button.setAutoDefault(False)
    sized(button, 15)
    return button
