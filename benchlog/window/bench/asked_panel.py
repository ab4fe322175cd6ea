"""What is asked: the attribute's name large, its help, how to measure it, and its range."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from benchlog.tasks.bench_view import Asked, BenchView
from benchlog.tasks.check_book import ToolCheck
from benchlog.window.theme import sized


class AskedPanel(QWidget):
    """Shows the question; keeps its height, so that nothing below it jumps."""

    def __init__(self) -> None:
        super().__init__()
        self.label = QLabel(objectName="asked")
        self.help = QLabel(wordWrap=True, objectName="askedHelp")
        self.how = QLabel(wordWrap=True, objectName="askedHow")
        self.how.setProperty("tone", "dim")
        self.checks_key = ""
        self.checks = QLabel(wordWrap=True, objectName="askedChecks")
        self.warning = QLabel(wordWrap=True, objectName="askedWarning")
        self.warning.setProperty("tone", "warn")
        sized(self.label, 34, bold=True)
        sized(self.help, 16)
        sized(self.how, 16)
        sized(self.checks, 16)
        sized(self.warning, 16)
        column = QVBoxLayout(self)
        column.setContentsMargins(2, 0, 2, 0)
        column.setSpacing(1)
        self.label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        for part in (self.label, self.help, self.how, self.checks, self.warning):
            part.setTextFormat(Qt.TextFormat.PlainText)
            column.addWidget(part)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_view(self, view: BenchView) -> None:
        """Show what the view asks, or that nothing is asked here."""
        asked = view.asked
        self._show_checks(view)
        if asked is None:
            self.label.setText(view.station.label)
            self.help.setText(view.station.help)
            self.how.setText("Nothing is asked at this station.")
            self.warning.hide()
            return
        self.label.setText(asked.attribute.label)
        self.help.setText(asked.attribute.help)
        self.how.setText(how_words(asked, view.tool_check))
        self.warning.setText(asked.attribute.warning)
        self.warning.setVisible(bool(asked.attribute.warning))
        self.rescaled()

    def _show_checks(self, view: BenchView) -> None:
        """Show what there is to do about checks, in one line; nothing as a rule."""
        tool = view.asked.tool if view.asked else None
        words, tone = "", "accent"
        if tool is not None and view.tool_check is not None and view.tool_check.stands_out:
            words = f"{tool.name} · {view.tool_check.words}. {self.checks_key} leads to its checks."
            tone = "warn"
        elif view.still_open:
            names = " · ".join(view.still_open)
            words = f"No closing check yet: {names}. {self.checks_key} makes it."
        self.checks.setProperty("tone", tone)
        self.checks.style().polish(self.checks)
        sized(self.checks, 16)
        self.checks.setText(words)
        self.checks.setVisible(bool(words))

    def rescaled(self) -> None:
        """Let the label stand as large as its length allows."""
        for size in (34, 29, 25, 21):
            sized(self.label, size, bold=True)
            if self.label.fontMetrics().horizontalAdvance(self.label.text()) <= self.width() - 6:
                break


def how_words(asked: Asked, check: ToolCheck | None) -> str:
    """Return how to measure, the usual range and the instrument in hand, on one line.

    What its checks say stands beside it, unless that has a line of its own.
    """
    parts = [asked.attribute.method, asked.range_text]
    if asked.tool is not None:
        known = f" ({check.words})" if check is not None and not check.stands_out else ""
        parts.append(f"with {asked.tool.name}{known}")
    elif asked.attribute.instrument:
        parts.append(f"no {asked.attribute.instrument} in hand")
    return "  ·  ".join(part for part in parts if part)
