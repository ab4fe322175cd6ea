"""Fields of the media at one scale, each with a bar that tells it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from benchlog.measure.rounding import as_is
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.pictures import Picture, draw_picture
from benchlog.sheet.tags import figure
from benchlog.sheet.text import draw_lines, lines_in, width_of
from benchlog.sheet.typography import FACE, INK, SMALL, WHITE

BAR_SHARE = 0.3
"""About so much of a picture's width a scale bar takes."""

CAPTION_LINES = 2
LEADING = 11.0


@dataclass(frozen=True)
class Field:
    """One field as it is printed: its picture and scale, whose it is, what is said under it."""

    picture: Picture | None
    um_per_px: float
    whose: str
    caption: str

    @property
    def size_um(self) -> tuple[float, float]:
        """Width and height of what it shows, in µm, as it is printed upright."""
        if self.picture is None or not self.picture.jpeg:
            return 0.0, 0.0
        photo, shown = self.picture.photo, self.picture
        sizes = photo.width, photo.height
        if (photo.width > photo.height) != (shown.width > shown.height):
            sizes = photo.height, photo.width
        return sizes[0] * self.um_per_px, sizes[1] * self.um_per_px


def bar_um(width_um: float) -> float:
    """Return the round length nearest below the share of a width that a bar takes: 1, 2 or 5."""
    wanted = BAR_SHARE * width_um
    step = 10.0 ** math.floor(math.log10(wanted))
    return next(factor * step for factor in (5.0, 2.0, 1.0) if factor * step <= wanted * 1.0001)


def points_per_um(fields: list[Field], width: float, highest: float) -> float:
    """Return the one scale at which all fields fit a width and a height, 0 without a picture."""
    sizes = [field.size_um for field in fields if field.size_um[0]]
    return min((min(width / w, highest / h) for w, h in sizes), default=0.0)


class FieldFrame(Drawn):
    """One field at a common scale, its bar in the corner and its caption beneath."""

    def __init__(self, field: Field, width: float, frame: float, per_um: float) -> None:
        self._field = field
        self._per_um = per_um
        self._frame = frame
        self._caption = lines_in(field.caption, FACE, SMALL, width, CAPTION_LINES)
        super().__init__(width, frame + 3 + LEADING * len(self._caption))

    def draw(self) -> None:
        """Draw the picture at its scale, the bar on it, the caption under it."""
        canvas, bottom = self.canv, self.height - self._frame
        width, height = (self._per_um * size for size in self._field.size_um)
        if width:
            box = (0.0, self.height - height, width, height)
            draw_picture(canvas, self._field.picture, *box, "", self._field.whose)
            self._bar(canvas, self.height - height, width)
        else:
            box = (0.0, bottom, self.width, self._frame)
            draw_picture(canvas, self._field.picture, *box, "no picture here", self._field.whose)
        draw_lines(canvas, self._caption, 0, bottom - LEADING)

    def _bar(self, canvas: Canvas, bottom: float, width: float) -> None:
        length = bar_um(width / self._per_um)
        text = f"{as_is(length)} µm"
        long = length * self._per_um
        box = max(long, width_of(text)) + 8
        with figure(canvas, f"Scale bar: {text}", (4, bottom + 4, 4 + box, bottom + 23)):
            self._bar_at(canvas, bottom, long, box, text)

    def _bar_at(self, canvas: Canvas, bottom: float, long: float, box: float, text: str) -> None:
        canvas.saveState()
        canvas.setFillColor(WHITE)
        canvas.rect(4, bottom + 4, box, 19, fill=1, stroke=0)
        canvas.setFillColor(INK)
        canvas.rect(4 + (box - long) / 2, bottom + 7, long, 2.2, fill=1, stroke=0)
        canvas.setFont(FACE, SMALL)
        canvas.drawCentredString(4 + box / 2, bottom + 13, text)
        canvas.restoreState()
