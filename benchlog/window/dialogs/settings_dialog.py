"""What the reviewer chooses for this machine."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.window.desk import Desk

THEMES = {"system": "as the desktop", "dark": "dark", "light": "light"}
UNITS = {False: "metric: mm, g, kPa", True: "inch: in, oz, psi"}
SHOWN = {METRIC: "metric", INCH: "inch", BOTH: "metric and inch side by side"}
PAPERS = ("A4", "Letter")


class SettingsDialog(QDialog):
    """Theme, units, paper, reviewer, sounds; kept when the dialog is accepted."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Settings")
        self._desk = desk
        kept = desk.settings
        self.theme = _choice("Theme", tuple(THEMES.values()), THEMES[kept.theme])
        self.units = _choice("Units of a bare number", tuple(UNITS.values()), UNITS[kept.inch])
        self.shown = _choice(
            "Units in which values are shown", tuple(SHOWN.values()), SHOWN[kept.units]
        )
        self.paper = _choice("Paper of the sheet", PAPERS, kept.paper)
        self.reviewer = QLineEdit(kept.reviewer)
        self.reviewer.setAccessibleName("Reviewer's name")
        self.currency = QLineEdit(kept.currency)
        self.currency.setAccessibleName("Currency of prices")
        self.sounds = QCheckBox("a sound for accepted, refused and caught")
        self.sounds.setAccessibleName("Sounds")
        self.sounds.setChecked(kept.sounds)
        form = QFormLayout()
        form.addRow("Theme", self.theme)
        form.addRow("A bare number is", self.units)
        form.addRow("Values are shown in", self.shown)
        form.addRow("Paper", self.paper)
        form.addRow("Reviewer", self.reviewer)
        form.addRow("Currency", self.currency)
        form.addRow("Sounds", self.sounds)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        for button in buttons.buttons():
            button.setAccessibleName(button.text().replace("&", ""))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(buttons)

    def accept(self) -> None:
        """Keep what was chosen."""
        self._desk.change_settings(
            theme=list(THEMES)[self.theme.currentIndex()],
            inch=list(UNITS)[self.units.currentIndex()],
            units=list(SHOWN)[self.shown.currentIndex()],
            paper=self.paper.currentText(),
            reviewer=self.reviewer.text().strip(),
            currency=self.currency.text().strip(),
            sounds=self.sounds.isChecked(),
        )
        super().accept()


def _choice(name: str, labels: tuple[str, ...], here: str) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    box.addItems(labels)
    box.setCurrentIndex(max(0, labels.index(here) if here in labels else 0))
    return box
