"""The fields of one instrument, and what is wrong with them in plain words."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtWidgets import QComboBox, QFormLayout, QLabel, QLineEdit, QWidget

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.permissible import ACCURACY_CLASSES
from benchlog.measure.units import unit_symbol
from benchlog.tasks.plan import new_id
from benchlog.window.theme import px, sized

UNITS = {
    InstrumentKind.SCALE: ("gram", "kilogram", "ounce", "pound"),
    InstrumentKind.DUROMETER: ("dimensionless",),
    InstrumentKind.PRESSURE_GAUGE: ("kilopascal", "pound_force_per_square_inch", "bar"),
}
LENGTHS = ("millimeter", "inch", "thou")
OTHERS = (*LENGTHS, "gram", "kilopascal", "newton", "milliliter", "second", "dimensionless")
SET_UP_KINDS = (InstrumentKind.MICROSCOPE,)
"""Made with a scale of their own, at the pictures of the media."""
NOT_VERIFIED = "not verified"
FOLLOWS = "Both stand on its plate. The permissible error then follows from the load."


class InstrumentFields(QWidget):
    """The fields of one instrument; those of a verified scale only where it is a scale."""

    def __init__(self) -> None:
        super().__init__()
        self.name = QLineEdit()
        self.kind = QComboBox()
        self.kind.addItems([k.value for k in InstrumentKind if k not in SET_UP_KINDS])
        self.unit = QComboBox()
        self.resolution = QLineEdit()
        self.error = QLineEdit()
        self.accuracy = QComboBox()
        self.accuracy.addItem(NOT_VERIFIED, "")
        for name in ACCURACY_CLASSES:
            self.accuracy.addItem(f"class {name}", name)
        self.interval = QLineEdit()
        self.pressure = QLineEdit(placeholderText="only for soft parts, such as media")
        self.about = QLabel(FOLLOWS, wordWrap=True)
        self.about.setProperty("tone", "dim")
        sized(self.about, 13)
        self.form = QFormLayout(self)
        for label, field in (
            ("Name", self.name),
            ("Kind", self.kind),
            ("Unit", self.unit),
            ("Resolution", self.resolution),
            ("Accuracy class", self.accuracy),
            ("Verification interval e", self.interval),
            ("Permissible error, ±", self.error),
            ("Foot pressure, kPa", self.pressure),
        ):
            field.setAccessibleName(label)
            field.setMinimumWidth(px(300))
            self.form.addRow(label, field)
            if field is self.interval:
                self.form.addRow(self.about)
        self.kind.currentTextChanged.connect(self._follow_kind)
        self.accuracy.currentIndexChanged.connect(lambda _n: self._follow_class())
        self._follow_kind(self.kind.currentText())

    def show_instrument(self, instrument: Instrument) -> None:
        """Fill the fields."""
        self.name.setText(instrument.name)
        self.kind.setCurrentText(instrument.kind.value)
        self._follow_kind(instrument.kind.value)
        if self.unit.findData(instrument.unit) < 0:
            self.unit.addItem(unit_symbol(instrument.unit), instrument.unit)
        self.unit.setCurrentIndex(self.unit.findData(instrument.unit))
        self.resolution.setText(_number(instrument.resolution))
        self.error.setText(_number(instrument.permissible_error))
        self.accuracy.setCurrentIndex(max(0, self.accuracy.findData(instrument.accuracy_class)))
        self.interval.setText(_number(instrument.verification_interval))
        pressure = instrument.contact_pressure_kpa
        self.pressure.setText("" if pressure is None else _number(pressure))

    @property
    def verified(self) -> bool:
        """Whether an accuracy class is chosen, for a scale."""
        scale = self.kind.currentText() == InstrumentKind.SCALE.value
        return scale and bool(self.accuracy.currentData())

    def read(self, before: Instrument | None) -> Instrument | str:
        """Return the instrument that the fields describe, or what is wrong in plain words."""
        if not self.name.text().strip():
            return "Give the instrument a name to tell it by."
        resolution = read_number(self.resolution.text())
        error = read_number(self.error.text())
        pressure = read_number(self.pressure.text())
        if not resolution:
            return "The resolution wants a number above zero, such as 0.01."
        if self.verified:
            error = error or 0.0
        interval = self._interval(resolution)
        if isinstance(interval, str):
            return interval
        if error is None:
            return "The permissible error wants a number above zero, such as 0.02."
        if pressure is None and self.pressure.text().strip():
            return "The foot pressure wants a number above zero, such as 20."
        fresh = Instrument(
            id=before.id if before else new_id(),
            name=self.name.text().strip(),
            kind=InstrumentKind(self.kind.currentText()),
            unit=self.unit.currentData(),
            resolution=resolution,
            permissible_error=error,
            contact_pressure_kpa=pressure,
            accuracy_class=self.accuracy.currentData() if self.verified else "",
            verification_interval=interval,
        )
        return replace(fresh, note=before.note) if before else fresh

    def _interval(self, resolution: float) -> float | str:
        """Return the verification interval, 0 without a class, or what is wrong with it."""
        if not self.verified:
            return 0.0
        interval = read_number(self.interval.text())
        if not interval:
            return (
                "The verification interval e wants a number above zero, such as 0.1: it stands on "
                "the scale's plate, beside its class."
            )
        if interval < resolution:
            return (
                "The verification interval e cannot be finer than the resolution. Look at the "
                "plate again: d is the step of the display, e is as large or larger."
            )
        return interval

    def _follow_kind(self, kind: str) -> None:
        self.unit.clear()
        for name in units_of(InstrumentKind(kind)):
            self.unit.addItem(unit_symbol(name) or "points", name)
        scale = kind == InstrumentKind.SCALE.value
        for part in (self.accuracy, self.interval, self.about):
            self.form.setRowVisible(part, scale)
        self._follow_class()

    def _follow_class(self) -> None:
        self.interval.setEnabled(self.verified)
        self.error.setEnabled(not self.verified)
        self.error.setPlaceholderText("follows from the load" if self.verified else "")


def units_of(kind: InstrumentKind) -> tuple[str, ...]:
    """Return the units that an instrument of a kind may read in."""
    if kind is InstrumentKind.OTHER:
        return OTHERS
    return UNITS.get(kind, LENGTHS)


def _number(value: float) -> str:
    return f"{value:g}" if value else ""


def read_number(text: str) -> float | None:
    """Return a number that is not below zero, with a point or a comma; None for anything else."""
    try:
        value = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return value if 0 <= value < 1e9 else None
