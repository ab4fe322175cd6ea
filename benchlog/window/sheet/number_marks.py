"""The values on the page in view: which one is in hand, and what lies under the mouse."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QWidget

from benchlog.tasks.sheet_places import NumberPlace, Places, first_place, place_at, step_from
from benchlog.window.theme import colours

AROUND = 3.0
"""Dots that the mark keeps from the words it goes around."""


class NumberMarks(QWidget):
    """Lies over a page and marks the value in hand; `opened` carries one that was clicked.

    `taken` follows whenever another value, or None, is in hand.
    """

    opened = Signal(object)
    taken = Signal(object)

    def __init__(self, view: QPdfView) -> None:
        super().__init__(view.viewport())
        self._view = view
        self._places: Places = ()
        self._under: NumberPlace | None = None
        self.now: NumberPlace | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        view.viewport().setMouseTracking(True)
        view.viewport().installEventFilter(self)
        for bar in (view.horizontalScrollBar(), view.verticalScrollBar()):
            bar.valueChanged.connect(self.update)
        view.zoomFactorChanged.connect(self.update)
        view.zoomModeChanged.connect(self.update)
        view.pageNavigator().currentPageChanged.connect(self._turned)

    @property
    def places(self) -> Places:
        """Where values stand in the file that is shown."""
        return self._places

    def show_places(self, places: Places) -> None:
        """Take the map of another file; the value in hand stays so where it still is."""
        self._places, self._under = places, None
        if self.now is not None:
            self.take(first_place(places, self.now.number, self.now.page))
        self.update()

    def take(self, place: NumberPlace | None) -> None:
        """Take a value in hand."""
        self.now = place
        self.taken.emit(place)
        self.update()

    def step(self, by: int) -> None:
        """Take the value before or after the one in hand."""
        self.take(step_from(self._places, self.now, self._page, by))

    def box(self, place: NumberPlace) -> QRectF:
        """Return where a value of the page in view stands in the viewport."""
        corner, dots = self._page_in_view()
        at = QPointF(place.left * dots, place.top * dots) + corner
        return QRectF(at, QSizeF(place.width * dots, place.height * dots))

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Follow the viewport's size, and what is clicked and pointed at."""
        kind = event.type()
        if kind == QEvent.Type.Resize:
            self.resize(self._view.viewport().size())
        elif kind == QEvent.Type.MouseMove:
            self._point_at(self._at(event.position()))
        elif kind == QEvent.Type.Leave:
            self._point_at(None)
        elif kind == QEvent.Type.MouseButtonRelease and event.button() is Qt.MouseButton.LeftButton:
            place = self._at(event.position())
            if place is not None:
                self.take(place)
                self.opened.emit(place)
                return True
        return False

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Go around the value in hand, and underline what the mouse would open."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        # The page is white in either theme, and so the mark is of the light one's accent.
        ink = QColor("#00606f")
        if self._under is not None and self._under.page == self._page:
            box = self.box(self._under)
            painter.setPen(QPen(ink, 1.5))
            painter.drawLine(box.bottomLeft(), box.bottomRight())
        if self.now is not None and self.now.page == self._page:
            box = self.box(self.now).adjusted(-AROUND, -AROUND, AROUND, AROUND)
            veil = QColor(colours().accent)
            veil.setAlpha(40)
            painter.setPen(QPen(ink, 2))
            painter.setBrush(veil)
            painter.drawRoundedRect(box, 3, 3)

    @property
    def _page(self) -> int:
        return int(self._view.pageNavigator().currentPage())

    def _at(self, where: QPointF) -> NumberPlace | None:
        corner, dots = self._page_in_view()
        at = (where - corner) / dots if dots else QPointF(-1, -1)
        return place_at(self._places, self._page, at.x(), at.y())

    def _point_at(self, place: NumberPlace | None) -> None:
        if place == self._under:
            return
        self._under = place
        shape = Qt.CursorShape.PointingHandCursor if place else Qt.CursorShape.ArrowCursor
        self._view.viewport().setCursor(shape)
        self.update()

    def _turned(self) -> None:
        self._under = None
        if self.now is not None and self.now.page != self._page:
            self.take(None)
        self.update()

    def _page_in_view(self) -> tuple[QPointF, float]:
        """Return the page's upper left corner in the viewport, and dots a point.

        As QPdfView lays a single page out: beneath its upper margin and in the middle across.
        """
        view, margins = self._view, self._view.documentMargins()
        points = view.document().pagePointSize(self._page)
        if points.isEmpty():
            return QPointF(), 0.0
        room = view.viewport().size()
        across = room.width() - margins.left() - margins.right()
        dots = view.logicalDpiX() / 72
        if view.zoomMode() is QPdfView.ZoomMode.FitToWidth:
            dots = across / points.width()
        elif view.zoomMode() is QPdfView.ZoomMode.FitInView:
            dots = min(
                across / points.width(), (room.height() - view.pageSpacing()) / points.height()
            )
        else:
            dots *= view.zoomFactor()
        width = round(points.width() * dots)
        whole = max(width + margins.left() + margins.right(), room.width())
        scrolled = QPoint(view.horizontalScrollBar().value(), view.verticalScrollBar().value())
        return QPointF((whole - width) // 2, margins.top()) - QPointF(scrolled), dots
