"""One picture to look at: fitted or close up, with what was measured drawn over it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.window.microscope.decoded import Decoded
from benchlog.window.microscope.marks_paint import (
    INKS,
    DrawnMarks,
    Overlay,
    bar_length,
    draw_path,
    draw_scale_bar,
)
from benchlog.window.theme import colours, font_of, px, sized

CLOSER = 1.25
CLOSEST = 16.0
"""Screen pixels a pixel of the file, at most."""
PAN = {
    Qt.Key.Key_Left: (1, 0),
    Qt.Key.Key_Right: (-1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class PictureView(QWidget):
    """Shows a picture; wheel and keys + − 0 zoom, arrows and dragging move it.

    `overlay_changed` follows when another overlay is shown.
    """

    overlay_changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Picture")
        sized(self, 16)
        self.overlay = Overlay.NOTHING
        self._picture: Decoded | None = None
        self._marks: DrawnMarks | None = None
        self._lines: QPainterPath | None = None
        self._um_per_px = 0.0
        self._words = ""
        self._zoom = 0.0
        """Screen pixels a pixel of the file; 0 while the whole picture is fitted in."""
        self._middle = QPointF()
        self._dragged: QPointF | None = None

    # --- what is shown -----------------------------------------------------------------------

    def say(self, words: str) -> None:
        """Show words in place of a picture."""
        self._picture = self._marks = self._lines = None
        self._words = words
        self.setAccessibleDescription(words)
        self.update()

    def show_picture(self, picture: Decoded, um_per_px: float, words: str) -> None:
        """Show a picture, fitted in; `words` name it, `um_per_px` is 0 where it has no scale."""
        if not picture.images:
            self.say("This picture cannot be shown here. It is safe on the shelf.")
            return
        self._picture, self._um_per_px = picture, um_per_px
        self._marks = self._lines = None
        self._zoom = 0.0
        self.setAccessibleDescription(words)
        self.update()

    def show_marks(self, marks: DrawnMarks | None) -> None:
        """Lay marks ready; the overlay that is chosen is drawn from them."""
        self._marks = marks
        self.update()

    def show_lines(self, lines: QPainterPath | None) -> None:
        """Draw a stage micrometer's lines over the picture."""
        self._lines = lines
        self.update()

    @property
    def has_picture(self) -> bool:
        """Whether a picture is shown."""
        return self._picture is not None

    @property
    def has_marks(self) -> bool:
        """Whether there is something to lay over the picture."""
        return self._marks is not None

    @property
    def has_lines(self) -> bool:
        """Whether a stage micrometer's lines are drawn."""
        return self._lines is not None

    def choose(self, overlay: Overlay) -> None:
        """Lay this over the picture."""
        self.overlay = overlay
        self.overlay_changed.emit()
        self.update()

    # --- zoom and place ----------------------------------------------------------------------

    @property
    def zoom(self) -> float:
        """Screen pixels a pixel of the file."""
        return self._zoom or self._fitted()

    def closer(self, by: float = CLOSER, about: QPointF | None = None) -> None:
        """Look closer, or with `by` under 1 from further away; `about` stays where it is."""
        if self._picture is None:
            return
        old, fitted = self.zoom, self._fitted()
        if not self._zoom:
            self._middle = QPointF(self._picture.width / 2, self._picture.height / 2)
        new = min(old * by, max(CLOSEST, fitted))
        if new <= fitted * 1.001:
            self.fit()
            return
        kept = about or QPointF(self.width() / 2, self.height() / 2)
        off = kept - QPointF(self.width() / 2, self.height() / 2)
        self._middle += off / old - off / new
        self._zoom = new
        self._hold_in()

    def fit(self) -> None:
        """Show the whole picture."""
        self._zoom = 0.0
        self.update()

    def move_by(self, by: QPointF) -> None:
        """Move the picture by screen pixels."""
        if self._zoom:
            self._middle -= by / self._zoom
            self._hold_in()

    def _fitted(self) -> float:
        if self._picture is None:
            return 1.0
        return min(self.width() / self._picture.width, self.height() / self._picture.height)

    def _hold_in(self) -> None:
        """Let the picture's edge come no further in than it must."""
        assert self._picture is not None
        across, down = self.width() / 2 / self._zoom, self.height() / 2 / self._zoom
        wide, high = float(self._picture.width), float(self._picture.height)
        self._middle = QPointF(
            wide / 2 if 2 * across >= wide else min(max(self._middle.x(), across), wide - across),
            high / 2 if 2 * down >= high else min(max(self._middle.y(), down), high - down),
        )
        self.update()

    # --- events ------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = PAN.get(Qt.Key(event.key()))
        if step and self._zoom:
            self.move_by(QPointF(step[0] * self.width(), step[1] * self.height()) / 5)
            return
        super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y()
        if turned:
            self.closer(CLOSER ** (turned / 120), event.position())

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self._dragged = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragged is not None:
            self.move_by(event.position() - self._dragged)
            self._dragged = event.position()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        self._dragged = None

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._zoom and self._picture is not None:
            self._hold_in()

    def sizeHint(self) -> QSize:
        return QSize(px(480), px(360))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(200), px(120))

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = colours()
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(shown.panel))
        if self._picture is None:
            painter.setPen(QColor(shown.dim))
            painter.setFont(font_of(18))
            flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(self.rect().adjusted(px(20), 0, -px(20), 0), flags, self._words)
        else:
            self._paint_picture(painter, self._picture)
        colour = shown.accent if self.hasFocus() else shown.line
        painter.setPen(QPen(QColor(colour), 2 if self.hasFocus() else 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))

    def _paint_picture(self, painter: QPainter, picture: Decoded) -> None:
        zoom = self.zoom
        middle = self._middle if self._zoom else QPointF(picture.width / 2, picture.height / 2)
        painter.save()
        painter.translate(self.width() / 2, self.height() / 2)
        painter.scale(zoom, zoom)
        painter.translate(-middle)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, zoom < CLOSEST / 4)
        painter.drawImage(QRectF(0, 0, picture.width, picture.height), picture.fit_for(zoom))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        over = self._marks.path(self.overlay) if self._marks else None
        if over is not None:
            draw_path(painter, over, INKS[self.overlay.name.lower()], px(1.3))
        if self._lines is not None:
            draw_path(painter, self._lines, INKS["lines"], px(1.0))
        painter.restore()
        if self._um_per_px > 0:
            um, long = bar_length(self._um_per_px, zoom, self.width() / 4)
            draw_scale_bar(painter, QRectF(self.rect()), um, long, font_of(15, bold=True))
