"""The fields that describe how a serial scale is reached."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QComboBox,
    QDoubleSpinBox,
    QFormLayout,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QWidget,
)

from benchlog.instruments.port_settings import BAUDS, FASTEST_BAUD, list_ports
from benchlog.instruments.template import MASS_UNITS
from benchlog.instruments.template_file import load_templates
from benchlog.settings import ScaleSettings

PARITIES = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}
FLOWS = {"none": "none", "xonxoff": "by signs (xon/xoff)", "rtscts": "by wires (rts/cts)"}
MODES = {
    "continuous": "it sends all the time",
    "on demand": "it sends when its print key is pressed",
    "polled": "it answers when asked",
}


class ScaleFields(QWidget):
    """Reads and shows ScaleSettings."""

    def __init__(self, settings: ScaleSettings) -> None:
        super().__init__()
        self._before = settings
        self.port = QComboBox(editable=True)
        self.refresh = QPushButton("Look again for ports")
        self.refresh.setAccessibleName(self.refresh.text())
        self.refresh.setAutoDefault(False)
        self.refresh.clicked.connect(self.list_ports)
        self.baud = QComboBox(editable=True)
        self.baud.addItems([str(baud) for baud in BAUDS])
        self.data_bits = _choice({"8": "8", "7": "7", "6": "6", "5": "5"})
        self.parity = _choice(PARITIES)
        self.stop_bits = _choice({"1.0": "1", "1.5": "1.5", "2.0": "2"})
        self.flow = _choice(FLOWS)
        self.mode = _choice(MODES)
        self.poll_text = QLineEdit()
        self.poll_seconds = _seconds(0.0, 60.0)
        self.template = _choice(_templates())
        self.unit = _choice({name: name for name in MASS_UNITS})
        self.steady_lines = QSpinBox(minimum=1, maximum=50)
        self.steady_seconds = _seconds(0.1, 60.0)
        self._lay_out()
        self.mode.currentIndexChanged.connect(self._show_polling)
        self._show(settings)
        self.list_ports()

    def list_ports(self) -> None:
        """List the system's ports; what is typed stays."""
        typed = self.port.currentText()
        self.port.clear()
        for found in list_ports():
            self.port.addItem(found.path)
            self.port.setItemData(self.port.count() - 1, found.description, 3)
        self.port.setEditText(typed)

    def read(self) -> ScaleSettings | str:
        """Return the settings, or what is wrong in plain words."""
        port = self.port.currentText().strip()
        if not port:
            return "Pick a port, or type its path."
        baud = self.baud.currentText().strip()
        if not baud.isdigit() or not 0 < int(baud) <= FASTEST_BAUD:
            return f"'{baud}' is not a speed. 9600 is usual."
        return ScaleSettings(
            port=port,
            baud=int(baud),
            data_bits=int(self.data_bits.currentData()),
            parity=self.parity.currentData(),
            stop_bits=float(self.stop_bits.currentData()),
            flow=self.flow.currentData(),
            mode=self.mode.currentData(),
            poll_text=self.poll_text.text(),
            poll_seconds=self.poll_seconds.value(),
            template=self.template.currentData(),
            unit=self.unit.currentData(),
            steady_lines=self.steady_lines.value(),
            steady_seconds=self.steady_seconds.value(),
        )

    def _show(self, kept: ScaleSettings) -> None:
        self.port.setEditText(kept.port)
        self.baud.setCurrentText(str(kept.baud))
        for box, value in (
            (self.data_bits, str(kept.data_bits)),
            (self.parity, kept.parity),
            (self.stop_bits, str(kept.stop_bits)),
            (self.flow, kept.flow),
            (self.mode, kept.mode),
            (self.template, kept.template),
            (self.unit, kept.unit),
        ):
            box.setCurrentIndex(max(0, box.findData(value)))
        self.poll_text.setText(kept.poll_text)
        self.poll_seconds.setValue(kept.poll_seconds)
        self.steady_lines.setValue(kept.steady_lines)
        self.steady_seconds.setValue(kept.steady_seconds)
        self._show_polling()

    def _show_polling(self) -> None:
        polled = self.mode.currentData() == "polled"
        self.poll_text.setEnabled(polled)
        self.poll_seconds.setEnabled(polled)

    def _lay_out(self) -> None:
        form = QFormLayout(self)
        form.setVerticalSpacing(3)
        for label, field in (
            ("Port, listed or typed", self.port),
            ("", self.refresh),
            ("Speed, baud", self.baud),
            ("Data bits", self.data_bits),
            ("Parity", self.parity),
            ("Stop bits", self.stop_bits),
            ("Flow control", self.flow),
            ("When it sends", self.mode),
            ("Text to ask with", self.poll_text),
            ("Ask every, seconds", self.poll_seconds),
            ("Shape of its lines", self.template),
            ("Unit of lines without one", self.unit),
            ("Steady: equal lines", self.steady_lines),
            ("Steady: within, seconds", self.steady_seconds),
        ):
            if label:
                field.setAccessibleName(label)
            form.addRow(label, field)


def _templates() -> dict[str, str]:
    found = {"automatic": "recognised by itself"}
    for shape in load_templates().shapes:
        found[shape.key] = f"like  {shape.examples[0].line.strip()}"
    return found


def _choice(labels: dict[str, str]) -> QComboBox:
    box = QComboBox()
    for value, label in labels.items():
        box.addItem(label, value)
    return box


def _seconds(least: float, most: float) -> QDoubleSpinBox:
    return QDoubleSpinBox(minimum=least, maximum=most, singleStep=0.1, decimals=1)
