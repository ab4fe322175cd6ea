"""One rule in full: whether it counts, its weight, what differs, its value function, and why."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Signal, SignalInstance
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QCheckBox, QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from benchlog.judge.rules import AttributeRule
from benchlog.tasks.rules_view import RuleRow
from benchlog.window.lineup.field import Field, line, show_text
from benchlog.window.lineup.value_curve import ValueCurve
from benchlog.window.theme import px, sized


class RuleForm(QWidget):
    """`typed` carries subject, field and text; `counting` subject and whether it is to count.

    `comparing` carries a subject and whether it is to be compared at all.
    """

    typed = Signal(str, str, str)
    counting = Signal(str, bool)
    comparing = Signal(str, bool)

    def __init__(self) -> None:
        super().__init__()
        self._row: RuleRow | None = None
        self.label = QLabel(wordWrap=True)
        self.compared = QCheckBox("Compared")
        self.compared.setAccessibleName("Compared")
        self.counts = QCheckBox("Counts in the score")
        self.counts.setAccessibleName("Counts in the score")
        self.worth = _Lines("What values are worth")
        self.fields = {
            "weight": Field("Weight in its component", line()),
            "meaningful": Field(
                "A difference counts from", line(), "a value with its unit, or a share in %"
            ),
            "worth": Field("What values are worth", self.worth),
        }
        self.how = QLabel(wordWrap=True)
        self.curve = ValueCurve()
        self.about = QLabel(wordWrap=True)
        sized(self.label, 18, bold=True)
        for box in (self.compared, self.counts):
            sized(box, 16)
        sized(self.worth, 15)
        for part in (self.how, self.about):
            part.setProperty("tone", "dim")
            sized(part, 13)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        boxes = (self.compared, self.counts)
        for part in (self.label, *boxes, *self.fields.values(), self.how, self.curve):
            column.addWidget(part)
        column.addWidget(self.about)
        column.addStretch(1)
        self.compared.toggled.connect(lambda wanted: self._toggle(self.comparing, wanted))
        self.counts.toggled.connect(lambda wanted: self._toggle(self.counting, wanted))
        for key in ("weight", "meaningful"):
            editor = self.fields[key].editor
            editor.editingFinished.connect(lambda key=key, e=editor: self._tell(key, e.text()))
        self.worth.left.connect(lambda: self._tell("worth", self.worth.toPlainText()))

    def show_rule(self, row: RuleRow, rule: AttributeRule) -> None:
        """Show one rule as it stands now."""
        self._row = row
        self.label.setText(row.label)
        for box, wanted in ((self.compared, row.compared), (self.counts, row.counts)):
            with QSignalBlocker(box):
                box.setChecked(wanted)
        show_text(self.fields["weight"].editor, row.weight)
        show_text(self.fields["meaningful"].editor, row.meaningful)
        if self.worth.toPlainText() != row.worth:
            self.worth.setPlainText(row.worth)
        self.fields["weight"].setVisible(row.counts)
        self.fields["meaningful"].setVisible(bool(row.meaningful) and row.compared)
        self.fields["worth"].setVisible(row.counts)
        self.how.setText(row.how)
        self.curve.show_rule(rule if row.compared else None)
        when = (
            f"\nCompared only when this agrees: {row.compared_when}." if row.compared_when else ""
        )
        self.about.setText(f"{row.reason}\n{row.support}; {row.source}.{when}")
        for field in self.fields.values():
            field.show_fault("")

    def show_fault(self, field: str, words: str) -> None:
        """Show why what was typed into a field cannot stand; what was typed stays."""
        there = self.fields.get(field)
        if there is not None:
            there.show_fault(words)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.worth.setFixedHeight(px(128))

    def _toggle(self, signal: SignalInstance, wanted: bool) -> None:
        if self._row is not None:
            signal.emit(self._row.subject, wanted)

    def _tell(self, field: str, text: str) -> None:
        was = {} if self._row is None else vars(self._row)
        if self._row is not None and text.strip() != was[field]:
            self.typed.emit(self._row.subject, field, text)
        else:
            self.fields[field].show_fault("")


class _Lines(QPlainTextEdit):
    """A box of lines; Tab leads on, leaving tells."""

    left = Signal()

    def __init__(self, spoken: str) -> None:
        super().__init__()
        self.setAccessibleName(spoken)
        self.setTabChangesFocus(True)
        self.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.left.emit()
