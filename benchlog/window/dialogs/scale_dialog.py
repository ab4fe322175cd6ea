"""Attach a scale: the port, its settings, and the raw lines as they come."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import ScaleFault
from benchlog.tasks.ports import ScaleState
from benchlog.window.bench.bench_scale import BenchScale
from benchlog.window.desk import Desk
from benchlog.window.dialogs.scale_fields import ScaleFields
from benchlog.wiring import rehearsal_scale

MOST_LINES = 200
REHEARSED_G = Decimal("287.4")


class ScaleDialog(QDialog):
    """Settings left, live lines right. Lines are shown here and never stored."""

    def __init__(self, desk: Desk, scale: BenchScale, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Scale")
        self._desk = desk
        self._scale = scale
        self.fields = ScaleFields(desk.settings.scale)
        self.state = QLabel(wordWrap=True)
        self.lines = QPlainTextEdit()
        self.lines.setReadOnly(True)
        self.lines.setMaximumBlockCount(MOST_LINES)
        self.lines.setAccessibleName("Raw lines of the scale, newest last")
        self.lines.setPlaceholderText("Lines appear here as the scale sends them.")
        self.connect_button = _button("Connect")
        self.let_go = _button("Let go")
        self.rehearse = _button("Rehearse without a scale")
        self.ask = _button("Ask for a weight")
        self.close_button = _button("Close")
        self._lay_out()
        self.connect_button.clicked.connect(self.attach)
        self.let_go.clicked.connect(self._let_go)
        self.rehearse.clicked.connect(self._rehearse)
        self.ask.clicked.connect(scale.poll)
        self.close_button.clicked.connect(self.accept)
        scale.line_told.connect(self.lines.appendPlainText)
        scale.state_changed.connect(self._show_state)
        self._show_state(scale.state)

    def attach(self) -> None:
        """Keep the settings and open their port."""
        read = self.fields.read()
        if isinstance(read, str):
            self.state.setText(read)
            return
        self._desk.change_settings(scale=read)
        self.state.setText(f"Opening {read.port}…")
        self._scale.attach_from(self._desk.settings)

    def _let_go(self) -> None:
        self._scale.detach()
        kept = self._desk.settings.scale
        self._desk.change_settings(scale=replace(kept, port=""))

    def _rehearse(self) -> None:
        try:
            self._scale.attach(rehearsal_scale(REHEARSED_G, "gram"))
        except ScaleFault as fault:
            self.state.setText(f"{fault.what} {fault.do}")
        else:
            self.state.setText(
                "A played scale is attached: 'Ask for a weight' puts one load on its pan."
            )

    def _show_state(self, state: ScaleState) -> None:
        self.state.setText(f"State: {state}")
        self.let_go.setEnabled(self._scale.attached)
        self.ask.setEnabled(self._scale.attached)

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.fields)
        left.addStretch()
        for row in ((self.connect_button, self.let_go), (self.rehearse, self.ask)):
            line = QHBoxLayout()
            for button in row:
                line.addWidget(button, 1)
            left.addLayout(line)
        right = QVBoxLayout()
        right.addWidget(self.state)
        right.addWidget(self.lines, 1)
        right.addWidget(self.close_button)
        row = QHBoxLayout(self)
        row.addLayout(left, 1)
        row.addLayout(right, 1)


def _button(label: str) -> QPushButton:
    button = QPushButton(label)
    button.setAccessibleName(label)
    button.setAutoDefault(False)
    return button
