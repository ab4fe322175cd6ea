"""The sheet's pages in the window: turning them, and looking closer."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMargins, QPointF, Qt, Signal
from PySide6.QtGui import QColor, QKeySequence, QPalette, QShortcut
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.window.theme import colours, sized

CLOSER = 1.25
LEAST_ZOOM, MOST_ZOOM = 0.2, 6.0


class PageView(QWidget):
    """Shows a PDF file; `shown` carries how many pages it has. Its keys work all over `place`."""

    shown = Signal(int)

    def __init__(self, place: QWidget) -> None:
        super().__init__()
        self._place = place
        self.document = QPdfDocument(self)
        self.view = QPdfView(self)
        self.view.setDocument(self.document)
        self.view.setAccessibleName("Preview of the sheet")
        self.view.setPageMode(QPdfView.PageMode.SinglePage)
        self.view.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.view.setZoomMode(QPdfView.ZoomMode.FitInView)
        self.view.setDocumentMargins(QMargins(6, 6, 6, 6))
        self.number = QLabel()
        sized(self.number, 15)
        self.buttons = {
            name: self._button(text, name, key, verb)
            for text, name, key, verb in (
                ("◀", "Page before", "PgUp", lambda: self.turn(-1)),
                ("▶", "Next page", "PgDown", lambda: self.turn(1)),
                ("–", "Smaller", "Ctrl+-", lambda: self.zoom(1 / CLOSER)),
                ("+", "Larger", "Ctrl++", lambda: self.zoom(CLOSER)),
                ("Whole page", "Whole page", "Ctrl+9", lambda: self.fit(width=False)),
                ("Full width", "Full width", "Ctrl+0", lambda: self.fit(width=True)),
            )
        }
        self._lay_out()
        self.view.pageNavigator().currentPageChanged.connect(lambda _page: self._show_number())
        self._show_number()

    @property
    def page(self) -> int:
        """The page in sight, from 0."""
        return int(self.view.pageNavigator().currentPage())

    def show_file(self, path: Path) -> bool:
        """Show a file from its first page; whether it could be read."""
        page = self.page
        read = self.document.load(str(path)) is QPdfDocument.Error.None_
        last = max(self.document.pageCount() - 1, 0)
        self.view.pageNavigator().jump(min(page, last), QPointF(), 0.0)
        self._show_number()
        self.shown.emit(self.document.pageCount())
        return read

    def clear(self) -> None:
        """Show nothing."""
        self.document.close()
        self._show_number()

    def turn(self, by: int) -> None:
        """Turn pages, as far as there are any."""
        page = min(max(self.page + by, 0), max(self.document.pageCount() - 1, 0))
        self.view.pageNavigator().jump(page, QPointF(), 0.0)

    def zoom(self, by: float) -> None:
        """Look closer or from further away."""
        now = self.view.zoomFactor()
        if self.view.zoomMode() is not QPdfView.ZoomMode.Custom:
            now = self._fitted()
            self.view.setZoomMode(QPdfView.ZoomMode.Custom)
        self.view.setZoomFactor(min(max(now * by, LEAST_ZOOM), MOST_ZOOM))

    def fit(self, *, width: bool) -> None:
        """Fill the width, or show a whole page."""
        mode = QPdfView.ZoomMode.FitToWidth if width else QPdfView.ZoomMode.FitInView
        self.view.setZoomMode(mode)

    def rescaled(self) -> None:
        """Lay the pages on the theme's own ground."""
        palette = self.view.palette()
        palette.setColor(QPalette.ColorRole.Dark, QColor(colours().raised))
        self.view.setPalette(palette)

    def _fitted(self) -> float:
        """Return the zoom that the page has while it is fitted."""
        points = self.document.pagePointSize(self.page)
        if points.isEmpty():
            return 1.0
        room, dots = self.view.viewport().size(), self.view.logicalDpiX() / 72
        across = room.width() / (points.width() * dots)
        if self.view.zoomMode() is QPdfView.ZoomMode.FitToWidth:
            return across
        return min(across, room.height() / (points.height() * dots))

    def _show_number(self) -> None:
        count = self.document.pageCount()
        self.number.setText(f"Page {self.page + 1} of {count}" if count else "No pages yet")
        for name, button in self.buttons.items():
            ends = {"Page before": self.page > 0, "Next page": self.page + 1 < count}
            button.setEnabled(ends.get(name, bool(count)))

    def _button(self, text: str, name: str, key: str, verb: object) -> QPushButton:
        button = QPushButton(text)
        button.setAccessibleName(name)
        button.setToolTip(f"{name}  ({key})")
        sized(button, 15)
        button.clicked.connect(verb)
        shortcut = QShortcut(QKeySequence(key), self._place)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(verb)
        return button

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.number)
        for button in self.buttons.values():
            top.addWidget(button)
        top.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addWidget(self.view, 1)
