"""What came of one picture: good, or take it again, its figures, and what it was held against."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from benchlog.measure.micrograph import PictureGate
from benchlog.window import icons
from benchlog.window.theme import colours, px, restyle, sized

SIGNS = {"passed": "✓", "warned": "!", "refused": "✕"}


class GatesPanel(QScrollArea):
    """A headline with a shape, sentences under it, figures, and every gate with its limit."""

    def __init__(self) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("What came of this picture")
        self._name = ""
        self._mark = QLabel()
        self._card = QFrame()
        self._card.setProperty("card", "true")
        self.head, self.words = QLabel(wordWrap=True), QLabel(wordWrap=True)
        self.figures, self.rows = QLabel(wordWrap=True), QLabel(wordWrap=True)
        for label, size, bold, name in (
            (self.head, 18, True, "Outcome"),
            (self.words, 15, False, "What to do"),
            (self.figures, 16, False, "Figures"),
            (self.rows, 13, False, "Gates"),
        ):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setAccessibleName(name)
            sized(label, size, bold=bold)
        self.rows.setProperty("tone", "dim")
        self._lay_out()
        self.clear()

    def clear(self) -> None:
        """Say nothing."""
        self._say("", "", "", ())

    def waiting(self, words: str, gates: Sequence[PictureGate] = ()) -> None:
        """Say what goes on, with the gates known so far."""
        self._say("", words, "", gates)

    def good(self, words: str, more: str, gates: Sequence[PictureGate]) -> None:
        """Say that the picture was measured; `more` is worth knowing."""
        self._say("tick", words, more, gates)

    def bad(self, words: str, more: str, gates: Sequence[PictureGate]) -> None:
        """Say that the picture should be taken again, and why."""
        self._say("stop", words, more, gates)

    def show_figures(self, words: str) -> None:
        """Show figures, a line each; "" for none."""
        self.figures.setText(words)
        self.figures.setVisible(bool(words))

    def rescaled(self) -> None:
        """Draw the mark again for another size or theme."""
        self.setFixedWidth(px(304))
        self._show_mark()

    def _say(self, mark: str, head: str, words: str, gates: Sequence[PictureGate]) -> None:
        tone = {"tick": "good", "stop": "warn"}.get(mark, "")
        self._name = mark
        self.head.setText(head)
        self.head.setProperty("tone", tone)
        self._card.setProperty("strip", "warn" if tone == "warn" else "")
        self.words.setText(words)
        self.words.setVisible(bool(words))
        self.rows.setText("\n".join(gate_words(gate) for gate in gates))
        self.rows.setVisible(bool(gates))
        for part in (self._card, self.head, self.words):
            restyle(part)
        self._show_mark()
        self._card.setVisible(bool(head))

    def _show_mark(self) -> None:
        self._mark.setVisible(bool(self._name))
        if self._name:
            ink = colours().good if self._name == "tick" else colours().on_warn
            self._mark.setPixmap(icons.icon(self._name, ink).pixmap(px(24), px(24)))

    def _lay_out(self) -> None:
        grid = QGridLayout(self._card)
        grid.setContentsMargins(px(8), px(5), px(8), px(5))
        grid.addWidget(self._mark, 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.head, 0, 1)
        grid.addWidget(self.words, 1, 0, 1, 2)
        grid.setColumnStretch(1, 1)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, px(4), 0)
        column.setSpacing(px(8))
        for part in (self._card, self.figures, self.rows):
            column.addWidget(part)
        column.addStretch(1)
        self.setWidget(whole)


def gate_words(gate: PictureGate) -> str:
    """Return a gate as its sign, name, value and limit: "✓ brightness 203, limit 45"."""
    value = "–" if gate.value is None else f"{gate.value:.4g}"
    return f"{SIGNS.get(gate.outcome, '?')} {gate.key} {value}, limit {gate.limit:g}"
