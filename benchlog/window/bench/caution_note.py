"""The cautions of a station under the list of stations, never at the list's expense."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from benchlog.tasks.bench_view import BenchView
from benchlog.window.theme import px, sized

WIDE = 236


class CautionNote(QLabel):
    """Shows a station's cautions in full; past a one-way gate, which showed all, two lines."""

    def __init__(self) -> None:
        super().__init__(objectName="cautions", wordWrap=True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("tone", "warn")
        self._cautions: tuple[str, ...] = ()
        self._gated = False
        sized(self, 14)

    def show_view(self, view: BenchView) -> None:
        """Show the cautions of the view's station; nothing while its gate shows them."""
        self._cautions = view.station.cautions
        self._gated = view.station.one_way
        self.setVisible(bool(self._cautions) and not view.yes_wanted)
        self.setToolTip("\n".join(self._cautions))
        self.setAccessibleDescription(self.toolTip())
        self.rescaled()

    def rescaled(self) -> None:
        """Fit the words to the letters' size."""
        self.setFixedWidth(px(WIDE))
        self.setWordWrap(not self._gated)
        if not self._gated:
            self.setText("\n".join(self._cautions))
            return
        gist = self._cautions[0].partition(":")[0] if self._cautions else ""
        lines = (gist, f"{len(self._cautions)} cautions: rest the pointer here")
        self.setText("\n".join(self._elided(line) for line in lines))

    def _elided(self, line: str) -> str:
        letters = self.fontMetrics()
        return letters.elidedText(line, Qt.TextElideMode.ElideRight, self.width() - px(4))
