"""The instruments on the shelf: add one, change one, take one in hand."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.units import unit_symbol
from benchlog.tasks.plan import new_id
from benchlog.window.desk import Desk
from benchlog.window.theme import sized

INSTRUMENT = Qt.ItemDataRole.UserRole
UNITS = {
    InstrumentKind.SCALE: ("gram", "kilogram", "ounce", "pound"),
    InstrumentKind.DUROMETER: ("dimensionless",),
    InstrumentKind.PRESSURE_GAUGE: ("kilopascal", "pound_force_per_square_inch", "bar"),
}
LENGTHS = ("millimeter", "inch", "thou")
WIDEST_LIST = 380
OTHERS = (*LENGTHS, "gram", "kilopascal", "newton", "milliliter", "second", "dimensionless")


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
        self.fields = _Fields()
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
            return None
        self.words.clear()
        saved: Instrument | None = None
        with self._desk.faults.guarded():
            self._desk.workshop.shelf.save_instrument(read)
            saved = read
            self._shown = read
            self._fill(read.id)
        return saved

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


class _Fields(QWidget):
    """The fields of one instrument."""

    def __init__(self) -> None:
        super().__init__()
        self.name = QLineEdit()
        self.kind = QComboBox()
        self.kind.addItems([kind.value for kind in InstrumentKind])
        self.unit = QComboBox()
        self.resolution = QLineEdit()
        self.error = QLineEdit()
        self.pressure = QLineEdit(placeholderText="only for soft parts, such as media")
        form = QFormLayout(self)
        for label, field in (
            ("Name", self.name),
            ("Kind", self.kind),
            ("Unit", self.unit),
            ("Resolution", self.resolution),
            ("Permissible error, ±", self.error),
            ("Foot pressure, kPa", self.pressure),
        ):
            field.setAccessibleName(label)
            field.setMinimumWidth(300)
            form.addRow(label, field)
        self.kind.currentTextChanged.connect(self._offer_units)

    def show_instrument(self, instrument: Instrument) -> None:
        """Fill the fields."""
        self.name.setText(instrument.name)
        self.kind.setCurrentText(instrument.kind.value)
        self._offer_units(instrument.kind.value)
        if self.unit.findData(instrument.unit) < 0:
            self.unit.addItem(unit_symbol(instrument.unit), instrument.unit)
        self.unit.setCurrentIndex(self.unit.findData(instrument.unit))
        self.resolution.setText(_number(instrument.resolution))
        self.error.setText(_number(instrument.permissible_error))
        pressure = instrument.contact_pressure_kpa
        self.pressure.setText("" if pressure is None else _number(pressure))

    def read(self, before: Instrument | None) -> Instrument | str:
        """Return the instrument that the fields describe, or what is wrong in plain words."""
        if not self.name.text().strip():
            return "Give the instrument a name to tell it by."
        numbers: list[float | None] = []
        for label, field in (
            ("The resolution", self.resolution),
            ("The permissible error", self.error),
            ("The foot pressure", self.pressure),
        ):
            text = field.text().strip().replace(",", ".")
            if not text and field is self.pressure:
                numbers.append(None)
                continue
            value = _read_number(text)
            if value is None or (value <= 0 and field is self.resolution):
                return f"{label} wants a number above zero, such as 0.01."
            numbers.append(value)
        resolution, error, pressure = numbers
        assert resolution is not None
        assert error is not None
        fresh = Instrument(
            id=before.id if before else new_id(),
            name=self.name.text().strip(),
            kind=InstrumentKind(self.kind.currentText()),
            unit=self.unit.currentData(),
            resolution=resolution,
            permissible_error=error,
            contact_pressure_kpa=pressure,
        )
        return replace(fresh, note=before.note) if before else fresh

    def _offer_units(self, kind: str) -> None:
        self.unit.clear()
        for name in units_of(InstrumentKind(kind)):
            self.unit.addItem(unit_symbol(name) or "points", name)


def units_of(kind: InstrumentKind) -> tuple[str, ...]:
    """Return the units that an instrument of a kind may read in."""
    if kind is InstrumentKind.OTHER:
        return OTHERS
    return UNITS.get(kind, LENGTHS)


def _number(value: float) -> str:
    return f"{value:g}" if value else ""


def _read_number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if 0 <= value < 1e9 else None


def _button(label: str) -> QPushButton:
    button = QPushButton(label)
    button.setAccessibleName(label)
    button.setAutoDefault(False)
    sized(button, 15)
    return button
