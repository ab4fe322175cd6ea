"""A box for the reviewer's own sentence; words that a bench cannot support are flagged in it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QColor, QFocusEvent, QSyntaxHighlighter, QTextCharFormat, QTextDocument
from PySide6.QtWidgets import QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.wording import Flag, flagged
from benchlog.window.theme import colours, px, sized


class RemarkBox(QWidget):
    """A caption, the box, and beneath it what is flagged first and what may be said instead.

    `left` follows when the box is left, `grown` when the lines beneath come, go or change. The
    button puts the offered words in the place of those flagged; nothing is changed unasked.
    """

    left = Signal()
    grown = Signal()

    def __init__(self, caption: str, spoken: str, placeholder: str) -> None:
        super().__init__()
        self.caption = QLabel(caption)
        self.text = _Sentence(spoken, placeholder)
        self.caption.setBuddy(self.text)
        self.why = QLabel(wordWrap=True)
        self.instead = QPushButton()
        self.instead.setAccessibleName("Put other words instead")
        self._flags: tuple[Flag, ...] = ()
        self._marks = _Marks(self.text.document())
        self.caption.setProperty("tone", "dim")
        self.why.setProperty("tone", "warn")
        for part, size in ((self.caption, 13), (self.text, 15), (self.why, 14), (self.instead, 14)):
            sized(part, size)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(3))
        for part in (self.caption, self.text, self.why, self.instead):
            column.addWidget(part)
        self.text.textChanged.connect(self._look)
        self.text.left.connect(self.left)
        self.instead.clicked.connect(self._replace)
        self._look()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.text.setFixedHeight(px(58))
        self.text.viewport().setFont(self.text.font())  # the placeholder's letters

    def _look(self) -> None:
        before, self._flags = self._flags, flagged(self.text.toPlainText())
        self.why.setVisible(bool(self._flags))
        self.instead.setVisible(bool(self._flags))
        if self._flags:
            self._show_first()
        if self._flags != before:
            self.grown.emit()

    def _show_first(self) -> None:
        flag = self._flags[0]
        may = f" It may stand when {flag.allowed_when}." if flag.allowed_when else ""
        more = f" ({len(self._flags) - 1} more)" if len(self._flags) > 1 else ""
        self.why.setText(f"“{flag.said}”: {flag.why}{may}{more}")
        self.instead.setText(f"Put “{flag.offered}” instead")
        self.instead.setAccessibleName(f"Instead of “{flag.said}” put “{flag.offered}”")

    def _replace(self) -> None:
        if not self._flags:
            return
        flag = self._flags[0]
        cursor = self.text.textCursor()
        cursor.setPosition(flag.start)
        cursor.setPosition(flag.end, cursor.MoveMode.KeepAnchor)
        cursor.insertText(flag.offered)  # one step that Ctrl+Z takes back
        self.text.setTextCursor(cursor)
        self.text.setFocus()


class _Marks(QSyntaxHighlighter):
    """Underlines what is flagged, line by line."""

    def __init__(self, document: QTextDocument) -> None:
        super().__init__(document)

    def highlightBlock(self, text: str) -> None:
        shown = QTextCharFormat()
        shown.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
        shown.setUnderlineColor(QColor(colours().on_warn))
        for flag in flagged(text):
            self.setFormat(flag.start, flag.end - flag.start, shown)


class _Sentence(QPlainTextEdit):
    """A box for a sentence; Tab leads on, leaving is told."""

    left = Signal()

    def __init__(self, spoken: str, placeholder: str) -> None:
        super().__init__()
        self.setAccessibleName(spoken)
        self.setPlaceholderText(placeholder)
        self.setTabChangesFocus(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.left.emit()
