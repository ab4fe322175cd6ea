"""One check: which end, what is put on, and what the instrument shows for it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.measure.check import CheckMoment
from benchlog.measure.units import unit_symbol
from benchlog.tasks.checks_view import ToolView
from benchlog.tasks.ports import Weight
from benchlog.window.bench.bench_scale import weight_words
from benchlog.window.bench.entry_row import EntryField
from benchlog.window.dialogs.checks_result import CheckStrip
from benchlog.window.dialogs.checks_standard import StandardChoice
from benchlog.window.keys import key_name, plain_key
from benchlog.window.theme import px, sized

SHOWN_LARGE = 58


class CheckForm(QFrame):
    """`recorded` asks to put the check on the shelf: with what is typed, or a caught weight.

    `weigh_wanted` asks the scale for a weight. Enter records; with nothing typed it takes the
    weight that was caught.
    """

    recorded = Signal(object)
    weigh_wanted = Signal()

    def __init__(self, weigh_keys: tuple[str, ...]) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self._weigh_keys = weigh_keys
        self._weighs = False
        self.caught: Weight | None = None
        self.title = QLabel()
        sized(self.title, 20, bold=True)
        self.ends = {moment: _end(moment) for moment in CheckMoment}
        self._group = QButtonGroup(self)
        for button in self.ends.values():
            self._group.addButton(button)
        self.standard = StandardChoice()
        self.shown = EntryField()
        self.shown.setProperty("bare", "false")
        self.shown.setAccessibleName("It shows")
        self.shown.let_letters_stand(SHOWN_LARGE)
        self.unit = QLabel()
        self.unit.setProperty("tone", "dim")
        sized(self.unit, 24, bold=True)
        self.record = _button("&Record it")
        cap = plain_key(weigh_keys[0]) if weigh_keys else "no key"
        self.weigh = _button("Take the &weight")
        self.weigh.setText(f"Take the &weight  ({cap})")
        self.strip = CheckStrip()
        self._lay_out()
        self.record.clicked.connect(self.take_typed)
        self.weigh.clicked.connect(self.take_weight)
        self.standard.changed.connect(self._caption)
        self._group.buttonToggled.connect(lambda _button, _on: self._caption())

    @property
    def moment(self) -> CheckMoment:
        """The end of the bracket that is chosen."""
        return next(m for m, button in self.ends.items() if button.isChecked())

    def show_tool(self, view: ToolView, *, attached: bool) -> None:
        """Begin a check of an instrument, with what is due chosen; a weight only for a scale."""
        self.title.setText(view.instrument.name)
        self.ends[view.moment].setChecked(True)
        self.standard.show_tool(view)
        self.unit.setText(unit_symbol(view.instrument.unit))
        self._weighs = view.instrument.kind.value == "scale"
        self.weigh.setVisible(self._weighs and attached)
        self.shown.clear()
        self.caught = None
        self._caption()

    def take_focus(self) -> None:
        """Put the focus where the next key belongs."""
        (self.standard.first_empty or self.shown).setFocus()

    def weight_caught(self, weight: Weight) -> None:
        """Hold a weight that came from the scale until it is taken; only a scale is told of it."""
        if not self._weighs:
            return
        self.caught = weight
        words = weight_words(weight, unit_symbol)
        self.strip.plain(f"{words} was caught. Enter takes it.")

    def take_typed(self) -> None:
        """Record what is typed; with nothing typed, the weight that was caught."""
        if not self.shown.text().strip() and self.caught is not None and self._weighs:
            self.recorded.emit(self.caught)
        else:
            self.recorded.emit(self.shown.text())

    def take_weight(self) -> None:
        """Record the weight that was caught, or ask the scale for one."""
        if self.caught is not None:
            self.recorded.emit(self.caught)
        else:
            self.weigh_wanted.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        field = self.shown.hasFocus() or self.standard.isAncestorOf(self.focusWidget() or self)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and field:
            self.take_typed()
        elif key_name(event) in self._weigh_keys and not self.weigh.isHidden():
            self.take_weight()
        else:
            super().keyPressEvent(event)

    def _caption(self) -> None:
        kind = self.standard.chosen
        if kind is not None:
            self.shown.setAccessibleDescription(f"{self.moment} {kind.label}")

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.title, 1)
        for button in self.ends.values():
            top.addWidget(button)
        shows = QLabel("It &shows")
        shows.setBuddy(self.shown)
        sized(shows, 18)
        number = QHBoxLayout()
        number.setSpacing(px(10))
        number.addWidget(shows)
        number.addWidget(self.shown, 1)
        number.addWidget(self.unit)
        number.addWidget(self.record)
        number.addWidget(self.weigh)
        column = QVBoxLayout(self)
        column.setContentsMargins(px(12), px(8), px(12), px(8))
        column.setSpacing(px(6))
        column.addLayout(top)
        column.addWidget(self.standard)
        column.addLayout(number)
        column.addWidget(self.strip)


def _end(moment: CheckMoment) -> QPushButton:
    label = {CheckMoment.OPENING: "&Opening", CheckMoment.CLOSING: "C&losing"}[moment]
    button = QPushButton(f"{label} check", checkable=True)
    button.setAccessibleName(f"{moment} check")
    button.setAutoDefault(False)
    sized(button, 16)
    return button


def _button(label: str) -> QPushButton:
    button = QPushButton(label)
    button.setAccessibleName(label.replace("&", ""))
    button.setAutoDefault(False)
    sized(button, 16)
    return button


def tab_stops(form: CheckForm) -> list[QWidget]:
    """Return what Tab goes through, in order."""
    standard = form.standard
    return [
        *form.ends.values(), standard.kind, standard.weight_class, standard.nominal,
        standard.length, standard.tolerance, form.shown, form.record, form.weigh,
    ]  # fmt: skip
