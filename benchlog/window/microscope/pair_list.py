"""What may be said of every pair of media, in sentences with a shape."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from benchlog.tasks.media_seen import PairOutcome, PairSeen
from benchlog.window import icons
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px

SHAPES = {
    PairOutcome.SMALLER: "tick",
    PairOutcome.LARGER: "tick",
    PairOutcome.TOO_LITTLE: "ring",
    PairOutcome.CANNOT_TELL: "question",
    PairOutcome.NOT_COMPARED: "stop",
}


class PairList(QListWidget):
    """A sentence a pair and figure; those that differ stand out by a tick."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Pairs of media compared")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(CalmDelegate(self))
        self.setWordWrap(True)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.setSpacing(px(2))
        self.rescaled()

    def show_pairs(self, pairs: Sequence[PairSeen], labels: Mapping[str, str]) -> None:
        """Show these, in given order, under the label of each figure."""
        self.clear()
        under = ""
        for pair in pairs:
            if pair.key != under:
                under = pair.key
                self._head(labels.get(under, under))
            item = QListWidgetItem(_folds_well(pair.words))
            told = pair.outcome in (PairOutcome.SMALLER, PairOutcome.LARGER)
            ink = colours().good if told else colours().dim
            item.setIcon(icons.icon(SHAPES[pair.outcome], ink))
            item.setToolTip(pair.words)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, pair.words)
            self.addItem(item)

    def _head(self, words: str) -> None:
        item = QListWidgetItem(words)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setFont(font_of(13))
        self.addItem(item)

    def rescaled(self) -> None:
        """Set the letters to the window's size."""
        self.setFont(font_of(15))
        self.setIconSize(QSize(px(18), px(18)))


def _folds_well(words: str) -> str:
    """Return a sentence with its number in brackets on a line of its own."""
    said, bracket, number = words.rpartition(" (")
    return f"{said}\n({number}" if bracket else words
