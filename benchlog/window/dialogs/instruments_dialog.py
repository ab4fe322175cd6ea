"""The instruments on the shelf: add one, change one, take one in hand."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
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
from benchlog.window.desk import Desk
from benchlog.window.dialogs.instrument_fields import InstrumentFields, units_of
from benchlog.window.theme import sized

INSTRUMENT = Qt.ItemDataRole.UserRole
WIDEST_LIST = 380


class InstrumentsDialog(QDialog):
    """Left the instruments, right the one chosen; `taken` carries the id of one taken in hand."""

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

    def _fill(self, wanted: str = "") -> None:
        self.list.clear()
        instruments = self._desk.workshop.shelf.instruments()
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
            self.fields.show_instrument(self._shown)

    def _begin_new(self) -> None:
        self._shown = None
        kind = InstrumentKind(self._kind) if self._kind else InstrumentKind.CALLIPER
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
