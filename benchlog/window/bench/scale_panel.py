"""The live reading of the scale, large, with what it says of itself."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout

from benchlog.measure.units import unit_symbol
from benchlog.tasks.ports import Capture, ScaleState, Steadiness, Weight
from benchlog.window.bench.entry_row import LARGE, LEAST
from benchlog.window.theme import px, restyle, sized

SMALL = 58
NO_DIGITS = "– – –"


class ScalePanel(QFrame):
    """Shows what the scale says now; knows nothing of readings."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.caption = QLabel("Scale", objectName="scaleCaption")
        self.caption.setProperty("tone", "dim")
        self.digits = _Digits()
        self.unit = QLabel(objectName="scaleUnit")
        self.steadiness = QLabel(objectName="scaleSteadiness")
        self.capture = QLabel(objectName="scaleCapture")
        self.hint = QLabel(objectName="scaleHint")
        self.hint.setProperty("tone", "accent")
        sized(self.caption, 15)
        sized(self.unit, 30, bold=True)
        sized(self.steadiness, 22, bold=True)
        sized(self.capture, 16)
        sized(self.hint, 15, bold=True)
        self._lay_out()
        self.show_state(ScaleState.CLOSED, "")
        self.show_hint(takes_weight=False)

    def show_line(self, weight: Weight, capture: Capture) -> None:
        """Show one line of the scale."""
        if weight.said is None:
            self.digits.setText(weight.steadiness.value)
            self.unit.clear()
        else:
            self.digits.setText(f"{weight.said.value:f}")
            self.unit.setText(unit_symbol(weight.said.unit))
        self.digits.fit()
        self.steadiness.setText(_steady_words(weight))
        tone = "good" if weight.steadiness is Steadiness.STABLE else "dim"
        self.steadiness.setProperty("tone", tone)
        restyle(self.steadiness)
        self.capture.setText(capture.value)
        self._name_all()

    def show_state(self, state: ScaleState, detail: str) -> None:
        """Show whether weights can arrive; a scale that went away loses its digits at once."""
        self._state = state
        lost = state is not ScaleState.CONNECTED
        words = {
            ScaleState.CLOSED: "Scale: none attached",
            ScaleState.CONNECTED: f"Scale: {detail}" if detail else "Scale: connected",
            ScaleState.LOST: "Scale: unplugged, looking for it",
        }[state]
        self.caption.setText(words)
        self.caption.setToolTip(detail)
        self.caption.setProperty("tone", "warn" if state is ScaleState.LOST else "dim")
        restyle(self.caption)
        if lost:
            self.digits.setText(NO_DIGITS)
            self.unit.clear()
            self.steadiness.setText("unplugged" if state is ScaleState.LOST else "")
            self.capture.setText("typing a weight always works")
            self.digits.fit()
        self._name_all()

    def show_garbage(self, why: str) -> None:
        """Say that a line made no sense; the digits stay as they were."""
        self.capture.setText(f"line not understood: {why}")
        self._name_all()

    def show_hint(self, *, takes_weight: bool, large: bool = True) -> None:
        """Say whether a weight answers what is asked; beside choices the digits stand smaller."""
        self.digits.let_digits_stand(LARGE if large else SMALL)
        self.hint.setText("weights go into this answer" if takes_weight else "")
        self.setProperty("live", "true" if takes_weight else "false")
        restyle(self)

    def _name_all(self) -> None:
        parts = [self.caption.text(), self.digits.text(), self.unit.text()]
        parts += [self.steadiness.text(), self.capture.text()]
        self.setAccessibleName(" ".join(part for part in parts if part))

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        self.caption.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        top.addWidget(self.caption, 1)
        top.addWidget(self.hint)
        number = QHBoxLayout()
        number.addWidget(self.digits, 1)
        number.addWidget(self.unit, 0, Qt.AlignmentFlag.AlignBottom)
        bottom = QHBoxLayout()
        self.capture.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.capture.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        bottom.addWidget(self.steadiness)
        bottom.addWidget(self.capture, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 4)
        column.setSpacing(0)
        column.addLayout(top)
        column.addLayout(number, 1)
        column.addLayout(bottom)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)


class _Digits(QLabel):
    """The weight, as large as the panel allows."""

    def __init__(self) -> None:
        super().__init__(NO_DIGITS, objectName="scaleDigits")
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Expanding)
        self._largest = LARGE
        sized(self, LARGE, bold=True, numeral=True)

    def let_digits_stand(self, size: int) -> None:
        self._largest = size
        self.fit()
        self.updateGeometry()

    def fit(self) -> None:
        for size in range(self._largest, LEAST - 1, -6):
            sized(self, size, bold=True, numeral=True)
            if self.fontMetrics().horizontalAdvance(self.text()) <= self.width() - px(4):
                break

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    def minimumSizeHint(self) -> QSize:
        return QSize(px(120), round(px(self._largest) * 1.1))

    sizeHint = minimumSizeHint  # noqa: N815 - Qt's name


def _steady_words(weight: Weight) -> str:
    net = {True: "net", False: "gross", None: ""}[weight.net]
    steady = "" if weight.steadiness is Steadiness.SILENT else weight.steadiness.value
    return " · ".join(part for part in (steady, net) if part)
