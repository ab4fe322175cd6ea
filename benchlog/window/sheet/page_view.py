"""The sheet's pages in the window: turning them, and looking closer."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QMargins, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QColor, QKeySequence, QPalette, QShortcut
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.sheet_places import NumberPlace, first_place, read_places
from benchlog.window.flow_box import FlowBox
from benchlog.window.sheet.number_marks import NumberMarks
from benchlog.window.theme import colours, sized

CLOSER = 1.25
VALUE_BEFORE, NEXT_VALUE, ITS_SUM = "Value before", "Next value", "Its sum"
LEAST_ZOOM, MOST_ZOOM = 0.2, 6.0


class PageView(QWidget):
    """Shows a PDF file; `shown` carries how many pages it has. Its keys work all over `place`.

    `sum_wanted` carries the place of a value whose sum is asked for.
    """

    shown = Signal(int)
    sum_wanted = Signal(object)

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
        self.view.setPageSpacing(12)  # what a whole page leaves free: both of its margins
        self.marks = NumberMarks(self.view)
        self.number = QLabel()
        self._values = QLabel("  Value")
        self._values.setProperty("tone", "dim")
        for words in (self.number, self._values):
            sized(words, 15)
        self.buttons = {
            name: self._button(text, name, key, verb)
            for text, name, key, verb in (
                ("◀", "Page before", "PgUp", lambda: self.turn(-1)),
                ("▶", "Next page", "PgDown", lambda: self.turn(1)),
                ("–", "Smaller", "Ctrl+-", lambda: self.zoom(1 / CLOSER)),
                ("+", "Larger", "Ctrl++", lambda: self.zoom(CLOSER)),
                ("Whole page", "Whole page", "Ctrl+9", lambda: self.fit(width=False)),
                ("Full width", "Full width", "Ctrl+0", lambda: self.fit(width=True)),
                ("▲", VALUE_BEFORE, "Alt+Up", lambda: self.marks.step(-1)),
                ("▼", NEXT_VALUE, "Alt+Down", lambda: self.marks.step(1)),
                ("Its sum", ITS_SUM, "Alt+Return", self._want_sum),
            )
        }
        self._lay_out()
        self.view.pageNavigator().currentPageChanged.connect(lambda _page: self._show_number())
        self.marks.opened.connect(self.sum_wanted)
        self.marks.taken.connect(self._go_to)
        self.view.installEventFilter(self)
        self._show_number()

    @property
    def page(self) -> int:
        """The page in sight, from 0."""
        return int(self.view.pageNavigator().currentPage())

    def show_file(self, path: Path) -> bool:
        """Show a file, from where the one before was open; whether it could be read."""
        page, bars = self.page, (self.view.horizontalScrollBar(), self.view.verticalScrollBar())
        stood = [bar.value() for bar in bars]
        read = self.document.load(str(path)) is QPdfDocument.Error.None_
        last = max(self.document.pageCount() - 1, 0)
        self.view.pageNavigator().jump(min(page, last), QPointF(), 0.0)
        for bar, value in zip(bars, stood, strict=True):
            bar.setValue(value)
        self.marks.show_places(read_places(path))
        self._show_number()
        self.shown.emit(self.document.pageCount())
        return read

    def clear(self) -> None:
        """Show nothing."""
        self.document.close()
        self.marks.take(None)
        self.marks.show_places(())
        self._show_number()

    def show_value(self, number: tuple[str, str]) -> bool:
        """Take a value in hand and show its page; whether it stands on the sheet."""
        place = first_place(self.marks.places, number, self.page)
        if place is not None:
            self.marks.take(place)
        return place is not None

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Let Enter open the sum of the value in hand."""
        enter = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.type() == QEvent.Type.KeyPress and event.key() in enter and self.marks.now:
            if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
                return False
            self._want_sum()
            return True
        return False

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
        """Lay the pages on the theme's own ground, and words level with the buttons."""
        for words in (self.number, self._values):
            words.setMinimumHeight(self.buttons[ITS_SUM].sizeHint().height())
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
            mapped = bool(self.marks.places)
            ends = {
                "Page before": self.page > 0, "Next page": self.page + 1 < count,
                VALUE_BEFORE: mapped, NEXT_VALUE: mapped, ITS_SUM: self.marks.now is not None,
            }  # fmt: skip
            button.setEnabled(ends.get(name, bool(count)))

    def _want_sum(self) -> None:
        if self.marks.now is not None:
            self.sum_wanted.emit(self.marks.now)

    def _go_to(self, place: NumberPlace | None) -> None:
        """Bring the value in hand into view."""
        self.buttons[ITS_SUM].setEnabled(place is not None)
        if place is None:
            return
        if place.page != self.page:
            self.view.pageNavigator().jump(place.page, QPointF(), 0.0)
        box, room = self.marks.box(place), self.view.viewport().rect()
        for bar, low, high, end in (
            (self.view.horizontalScrollBar(), box.left(), box.right(), room.width()),
            (self.view.verticalScrollBar(), box.top(), box.bottom(), room.height()),
        ):
            if low < 0 or high > end:
                bar.setValue(round(bar.value() + (low + high - end) / 2))

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
        top = FlowBox()
        top.add(self.number)
        for name, button in self.buttons.items():
            if name == VALUE_BEFORE:
                top.add(self._values)
            top.add(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(top)
        column.addWidget(self.view, 1)
