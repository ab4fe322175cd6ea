"""What is put on an instrument to check it: nothing, a weight of a class, a block or a pin."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QWidget

from benchlog.measure.units import unit_symbol
from benchlog.tasks.checks_view import ToolView
from benchlog.tasks.usual_checks import last_length, last_weight, put_on
from benchlog.trade.check_standard import (
    Standard,
    StandardKind,
    Tolerance,
    WeightClass,
    load_check_standards,
)
from benchlog.window.lineup.field import Field
from benchlog.window.theme import px


class StandardChoice(QWidget):
    """A kind of standard and, beside it, only the fields that this kind wants."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._view: ToolView | None = None
        self.kind = QComboBox()
        self.weight_class = QComboBox()
        self.nominal = QComboBox()
        self.length = QLineEdit()
        self.tolerance = QLineEdit()
        self.fields = {
            name: Field(label, editor)
            for name, label, editor in (
                ("kind", "Put on", self.kind),
                ("class", "Class of the weight", self.weight_class),
                ("nominal", "Its mass, g", self.nominal),
                ("length", "Its length", self.length),
                ("tolerance", "Known within, ±", self.tolerance),
            )
        }
        for made in load_check_standards().weight_classes:
            self.weight_class.addItem(made.label, made)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(px(10))
        for name, field in self.fields.items():
            row.addWidget(field, 2 if name == "kind" else 1)
        self.weight_class.currentIndexChanged.connect(lambda _n: self._offer_masses())
        self.kind.currentIndexChanged.connect(lambda _n: self._follow_kind())

    def show_tool(self, view: ToolView) -> None:
        """Offer the standards for an instrument, with the one that is due chosen."""
        self._view = view
        self.kind.blockSignals(True)
        self.kind.clear()
        for step in view.steps:
            for kind in step:
                self.kind.addItem(kind.label, kind)
        due = view.steps[view.step][0]
        self.kind.setCurrentIndex(self.kind.findText(due.label))
        self.kind.blockSignals(False)
        self._follow_kind()

    @property
    def chosen(self) -> StandardKind | None:
        """The kind of standard that is chosen; None before any instrument was shown."""
        return self.kind.currentData()

    def read(self) -> Standard:
        """Return what is put on; raises EntryRefused for what cannot be."""
        assert self._view is not None
        assert self.chosen is not None
        made: WeightClass | None = self.weight_class.currentData()
        return put_on(
            self.chosen,
            self._view.instrument,
            weight_class=made.key if made else "",
            nominal_g=self.nominal.currentText(),
            length=self.length.text(),
            tolerance=self.tolerance.text(),
        )

    @property
    def first_empty(self) -> QWidget | None:
        """The field that has to be typed first; None when all are filled."""
        if self.chosen is None or self.chosen.tolerance is not Tolerance.TYPED:
            return None
        typed = (self.length, self.tolerance)
        return next((field for field in typed if not field.text().strip()), None)

    def _follow_kind(self) -> None:
        if self._view is None or self.chosen is None:
            return
        kind, checks = self.chosen, self._view.checks
        weighed = kind.tolerance is Tolerance.CLASS
        typed = kind.tolerance is Tolerance.TYPED
        for names, shown in ((("class", "nominal"), weighed), (("length", "tolerance"), typed)):
            for name in names:
                self.fields[name].setVisible(shown)
        if weighed:
            self._choose_weight(*last_weight(checks))
        if typed:
            unit = unit_symbol(self._view.instrument.unit)
            length, tolerance = last_length(checks, kind)
            self.length.setText(length)
            self.tolerance.setText(tolerance)
            self.fields["length"].show_note(f"in {unit}")
            self.fields["tolerance"].show_note(f"in {unit}, off its box")
        self.changed.emit()

    def _choose_weight(self, key: str, nominal: str) -> None:
        keys = [c.key for c in load_check_standards().weight_classes]
        self.weight_class.setCurrentIndex(keys.index(key))
        self._offer_masses()
        self.nominal.setCurrentText(nominal)

    def _offer_masses(self) -> None:
        before = self.nominal.currentText()
        made: WeightClass | None = self.weight_class.currentData()
        self.nominal.clear()
        if made is not None:
            self.nominal.addItems([f"{grams:g}" for grams, _error in made.errors])
            self.nominal.setCurrentText(before)
