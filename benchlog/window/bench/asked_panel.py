"""What is asked: the attribute's name large, its help, how to measure it, and its range."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from benchlog.tasks.bench_view import Asked, BenchView
from benchlog.window.theme import sized


class AskedPanel(QWidget):
    """Shows the question; keeps its height, so that nothing below it jumps."""

    def __init__(self) -> None:
        super().__init__()
        self.label = QLabel(objectName="asked")
        self.help = QLabel(wordWrap=True, objectName="askedHelp")
        self.how = QLabel(wordWrap=True, objectName="askedHow")
        self.how.setProperty("tone", "dim")
        self.warning = QLabel(wordWrap=True, objectName="askedWarning")
        self.warning.setProperty("tone", "warn")
        sized(self.label, 34, bold=True)
        sized(self.help, 16)
        sized(self.how, 16)
        sized(self.warning, 16)
        column = QVBoxLayout(self)
        column.setContentsMargins(2, 0, 2, 0)
        column.setSpacing(1)
        self.label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        for part in (self.label, self.help, self.how, self.warning):
            part.setTextFormat(Qt.TextFormat.PlainText)
            column.addWidget(part)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_view(self, view: BenchView) -> None:
        """Show what the view asks, or that nothing is asked here."""
        asked = view.asked
        if asked is None:
            self.label.setText(view.station.label)
            self.help.setText(view.station.help)
            self.how.setText("Nothing is asked at this station.")
            self.warning.hide()
            return
        self.label.setText(asked.attribute.label)
        self.help.setText(asked.attribute.help)
        self.how.setText(how_words(asked))
        self.warning.setText(asked.attribute.warning)
        self.warning.setVisible(bool(asked.attribute.warning))
        self.rescaled()

    def rescaled(self) -> None:
        """Let the label stand as large as its length allows."""
        for size in (34, 29, 25, 21):
            sized(self.label, size, bold=True)
            if self.label.fontMetrics().horizontalAdvance(self.label.text()) <= self.width() - 6:
                break


def how_words(asked: Asked) -> str:
    """Return how to measure, the usual range and the instrument in hand, on one line."""
    parts = [asked.attribute.method, asked.range_text]
    if asked.tool is not None:
        parts.append(f"with {asked.tool.name}")
    elif asked.attribute.instrument:
        parts.append(f"no {asked.attribute.instrument} in hand")
    return "  ·  ".join(part for part in parts if part)
