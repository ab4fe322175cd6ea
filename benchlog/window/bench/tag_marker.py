"""A specimen's mark: its shape in its colour, and the banner that names it large."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPaintEvent, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.trade.specimen import Shape, Specimen
from benchlog.window.theme import colours, font_of, px, readable_on


def draw_shape(painter: QPainter, shape: Shape, box: QRectF) -> None:
    """Draw a tag shape into a square box, with the painter's pen and brush."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    centre, radius = box.center(), box.width() / 2
    if shape is Shape.CIRCLE:
        painter.drawEllipse(centre, radius * 0.92, radius * 0.92)
    elif shape is Shape.SQUARE:
        side = radius * 0.82
        painter.drawRect(QRectF(centre.x() - side, centre.y() - side, 2 * side, 2 * side))
    else:
        painter.drawPolygon(QPolygonF(_corners(shape, centre, radius)))


def _corners(shape: Shape, centre: QPointF, radius: float) -> list[QPointF]:
    if shape is Shape.TRIANGLE:
        lowered = QPointF(centre.x(), centre.y() + radius * 0.18)
        return _round_about(lowered, [radius * 1.06] * 3)
    if shape is Shape.DIAMOND:
        return _round_about(centre, [radius] * 4)
    if shape is Shape.STAR:
        return _round_about(centre, [radius, radius * 0.45] * 5)
    arm = radius * 0.34
    far = radius * 0.92
    outline = [(-arm, -far), (arm, -far), (arm, -arm), (far, -arm), (far, arm), (arm, arm)]
    outline += [(-x, -y) for x, y in outline]
    return [QPointF(centre.x() + x, centre.y() + y) for x, y in outline]


def _round_about(centre: QPointF, radii: list[float]) -> list[QPointF]:
    """Return corners at equal angles, the first one at the top."""
    turn = 2 * math.pi / len(radii)
    return [
        QPointF(centre.x() + r * math.sin(n * turn), centre.y() - r * math.cos(n * turn))
        for n, r in enumerate(radii)
    ]


def tag_icon(specimen: Specimen, size: int = 32) -> QIcon:
    """Return a specimen's mark as an icon."""
    picture = QPixmap(size, size)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setPen(QPen(QColor(colours().text), size / 20))
    painter.setBrush(QColor(specimen.colour))
    draw_shape(painter, specimen.shape, QRectF(2, 2, size - 4, size - 4))
    painter.end()
    return QIcon(picture)


class SpecimenBanner(QWidget):
    """Who lies in front of the camera: a strip in the specimen's colour, shape and name large."""

    def __init__(self) -> None:
        super().__init__()
        self._specimen: Specimen | None = None
        self._repeat = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_specimen(self, specimen: Specimen | None, repeat: str) -> None:
        """Show a specimen, or nobody, and which repeat is asked ("reading 2 of 3")."""
        self._specimen = specimen
        self._repeat = repeat
        said = f"{specimen.nickname}, {specimen.shape}" if specimen else "No specimen asked"
        self.setAccessibleName(f"In front: {said}")
        self.setAccessibleDescription(f"{self._particulars()} {repeat}".strip())
        self.setToolTip(self._particulars())
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(px(600), px(66))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def _particulars(self) -> str:
        s = self._specimen
        if s is None:
            return ""
        lot = f"lot {s.lot}" if s.lot else ""
        return " · ".join(part for part in (s.maker, s.part_number, lot) if part)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        specimen = self._specimen
        ground = QColor(specimen.colour if specimen else colours().raised)
        ink = readable_on(ground.name())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ground)
        painter.drawRoundedRect(self.rect(), px(8), px(8))
        if specimen is None:
            return
        painter.setBrush(ink)
        edge = px(11)
        mark = QRectF(px(14), edge, self.height() - 2 * edge, self.height() - 2 * edge)
        draw_shape(painter, specimen.shape, mark)
        painter.setPen(ink)
        left = self._write(
            painter, mark.right() + px(16), specimen.nickname, font_of(40, bold=True)
        )
        right = float(self.width() - px(16))
        font = font_of(22, bold=True)
        painter.setFont(font)
        room = QRectF(left, 0, right - left, self.height())
        painter.drawText(
            room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, self._repeat
        )
        right -= painter.fontMetrics().horizontalAdvance(self._repeat) + px(20)
        painter.setFont(font_of(18))
        words = painter.fontMetrics().elidedText(
            self._particulars(), Qt.TextElideMode.ElideRight, max(0, round(right - left))
        )
        room = QRectF(left, 0, right - left, self.height())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)

    def _write(self, painter: QPainter, left: float, words: str, font: object) -> float:
        """Write words at `left`; return where what follows may begin."""
        painter.setFont(font)
        wide = painter.fontMetrics().horizontalAdvance(words)
        painter.drawText(
            QRectF(left, 0, wide + 4, self.height()), Qt.AlignmentFlag.AlignVCenter, words
        )
        return left + wide + px(22)
