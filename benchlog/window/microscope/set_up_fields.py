"""What a set-up of the microscope is called, and how the light falls."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.measure.micrograph import MicroscopeSetUp
from benchlog.window.lineup.field import Field, show_text
from benchlog.window.theme import px, sized

LIGHTS = {
    "above": ("From &above", "fibres bright on a dark ground"),
    "below": ("From &below", "fibres dark on a bright ground"),
    "automatic": ("Told by the pict&ure", "each picture for itself"),
}


class SetUpFields(QWidget):
    """Name, microscope, objective, light, and a reference fibre where there is one."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.name, self.microscope = QLineEdit(), QLineEdit()
        self.objective = QLineEdit()
        self.fibre, self.offset = QLineEdit(), QLineEdit()
        self.fields = {
            "name": Field("Name of the set-up", self.name, "to tell it by"),
            "microscope": Field("Microscope and camera", self.microscope),
            "objective": Field("Objective and zoom", self.objective),
            "reference_fibre": Field("Reference fibre, if any", self.fibre, "its name"),
            "edge_offset_px": Field("which reads too wide by, px", self.offset, "− if thin"),
        }
        self.lights = {key: QRadioButton(name) for key, (name, _why) in LIGHTS.items()}
        self._group = QButtonGroup(self)
        for key, button in self.lights.items():
            button.setAccessibleName(f"Light {LIGHTS[key][0].replace('&', '')}, {LIGHTS[key][1]}")
            button.setToolTip(LIGHTS[key][1])
            sized(button, 15)
            self._group.addButton(button)
            button.toggled.connect(lambda _on: self.changed.emit())
        self.lights["above"].setChecked(True)
        self._lay_out()
        for field in self.fields.values():
            field.editor.textEdited.connect(lambda _text: self.changed.emit())

    @property
    def light(self) -> str:
        """The light that is chosen."""
        return next(key for key, button in self.lights.items() if button.isChecked())

    def show_set_up(self, set_up: MicroscopeSetUp | None) -> None:
        """Fill the fields from a set-up, or empty them."""
        show_text(self.name, set_up.name if set_up else "")
        show_text(self.microscope, set_up.microscope if set_up else "")
        show_text(self.objective, set_up.objective if set_up else "")
        show_text(self.fibre, set_up.reference_fibre if set_up else "")
        offset = set_up.edge_offset_px if set_up else None
        show_text(self.offset, "" if offset is None else f"{offset:g}")
        self.lights[set_up.light if set_up else "above"].setChecked(True)
        for field in self.fields.values():
            field.show_fault("")

    def _lay_out(self) -> None:
        light = QLabel("Light")
        light.setProperty("tone", "dim")
        sized(light, 13)
        row = QHBoxLayout()
        row.setSpacing(px(14))
        for button in self.lights.values():
            row.addWidget(button)
        row.addStretch(1)
        falls = QVBoxLayout()
        falls.setSpacing(1)
        falls.addWidget(light)
        falls.addLayout(row)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(px(12))
        grid.setVerticalSpacing(px(4))
        for column, key in enumerate(("name", "microscope", "objective")):
            grid.addWidget(self.fields[key], 0, column)
        grid.addLayout(falls, 1, 0)
        grid.addWidget(self.fields["reference_fibre"], 1, 1)
        grid.addWidget(self.fields["edge_offset_px"], 1, 2)
        for column in range(3):
            grid.setColumnStretch(column, 1)
