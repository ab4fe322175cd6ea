"""Two sets of rules side by side: what differs, in sentences."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.judge.rules import Rules
from benchlog.tasks.own_sets import compare_sets
from benchlog.tasks.sets_view import SetOffer
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import font_of, px, sized

ALIKE = "They say the same."


class CompareDialog(QDialog):
    """Shows how the rules in hand differ from the set that is chosen."""

    def __init__(self, rules: Rules, offers: tuple[SetOffer, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Compare two sets of rules")
        self._rules, self._offers = rules, offers
        self.sets = QComboBox()
        self.sets.setAccessibleName("Set to compare with")
        self.sets.addItems([offer.label for offer in offers])
        self.head = QLabel("From this set to the rules in hand:", wordWrap=True)
        self.head.setBuddy(self.sets)
        self.changes = QListWidget()
        self.changes.setAccessibleName("What differs")
        self.changes.setItemDelegate(CalmDelegate(self.changes))
        self.changes.setWordWrap(True)
        self.changes.setFont(font_of(15))
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        for button in buttons.buttons():
            button.setAccessibleName("Close")
        buttons.rejected.connect(self.reject)
        for part in (self.head, self.sets):
            sized(part, 16)
        column = QVBoxLayout(self)
        for part in (self.head, self.sets, self.changes, buttons):
            column.addWidget(part)
        self.sets.currentIndexChanged.connect(lambda _place: self._show())
        self.resize(px(760), px(460))
        self._show()
        self.sets.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        self.changes.clear()
        place = self.sets.currentIndex()
        if place < 0:
            return
        told = [change.sentence for change in compare_sets(self._offers[place].rules, self._rules)]
        self.changes.addItems(told or [ALIKE])
        self.changes.setCurrentRow(0)
