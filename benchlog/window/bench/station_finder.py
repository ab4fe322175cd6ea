"""Go to a station by its number or its first letters."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QLineEdit, QVBoxLayout

from benchlog.tasks.bench_view import StationRow
from benchlog.window.theme import sized


class StationFinder(QFrame):
    """One field; what it would find stands below it as one types."""

    wanted = Signal(str)
    closed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self._rows: tuple[StationRow, ...] = ()
        title = QLabel("Go to which station?  Type its number or first letters, then Enter.")
        sized(title, 20, bold=True)
        self.field = QLineEdit()
        self.field.setAccessibleName("Station's number or first letters")
        sized(self.field, 34, bold=True)
        self.found = QLabel(wordWrap=True)
        sized(self.found, 20)
        self.field.textChanged.connect(self._look)
        self.field.returnPressed.connect(self._go)
        self.field.installEventFilter(self)
        column = QVBoxLayout(self)
        column.addWidget(title)
        column.addWidget(self.field)
        column.addWidget(self.found)
        column.addStretch()

    def open(self, rows: tuple[StationRow, ...]) -> None:
        """Begin anew over the stations as they stand."""
        self._rows = rows
        self.field.clear()
        self._look("")
        self.field.setFocus()

    def eventFilter(self, _watched: object, event: object) -> bool:
        """Esc closes."""
        if isinstance(event, QKeyEvent) and event.type() == QKeyEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Escape:
                self.closed.emit()
                return True
            return event.isAutoRepeat() and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        return False

    def _look(self, text: str) -> None:
        matches = matching(self._rows, text)
        numbers = {row.key: n for n, row in enumerate(self._rows, 1)}
        listed = "   ".join(f"{numbers[row.key]} {row.label}" for row in matches)
        self.found.setText(listed or "No station begins like that.")

    def _go(self) -> None:
        matches = matching(self._rows, self.field.text())
        if self.field.text().strip() and matches:
            self.wanted.emit(matches[0].key)


def matching(rows: tuple[StationRow, ...], text: str) -> list[StationRow]:
    """Return the stations that a number or first letters mean; all for an empty text."""
    wanted = text.strip().casefold()
    if wanted.isdigit():
        place = int(wanted) - 1
        return [rows[place]] if 0 <= place < len(rows) else []
    begins = [row for row in rows if row.label.casefold().startswith(wanted)]
    return begins or [row for row in rows if wanted in row.label.casefold()]
