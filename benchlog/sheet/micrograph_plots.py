"""What fields of the media come to, drawn: openings with their intervals, fibres as strips."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.dot_plot import round_ends
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.marks import draw_tag, tag_colour
from benchlog.sheet.text import draw_fitted, draw_lines, lines_in
from benchlog.sheet.typography import BOLD, FACE, HAIRLINE, MUTED, SMALL, TIE_GREY, WHITE
from benchlog.tasks.media_seen import FigureSeen, StripSeen
from benchlog.trade.specimen import Specimen

HEAD = 14.0
FOOT = 14.0
ROW = 26.0
TAG = 14.0
BESIDE = 80.0

Axis = Callable[[float], float]


class _Rows(Drawn):
    """A heading, one row a specimen, and an axis beneath with its ends."""

    def __init__(self, title: str, specimens: Sequence[Specimen], width: float) -> None:
        super().__init__(width, HEAD + len(specimens) * ROW + FOOT)
        self._title = title
        self._specimens = list(specimens)

    @property
    def _right(self) -> float:
        return self.width - BESIDE

    def _axis(self, low: float, high: float) -> Axis:
        left, right = TAG + 4, self._right - 4
        return lambda value: left + (right - left) * (value - low) / (high - low)

    def _frame(self, canvas: Canvas, ends: tuple[float, float, int], unit: str) -> None:
        low, high, decimals = ends
        title = lines_in(self._title, BOLD, SMALL, self.width, 1)
        draw_lines(canvas, title, 0, self.height - 9, font=BOLD)
        bottom = FOOT
        canvas.setStrokeColor(HAIRLINE)
        canvas.setLineWidth(0.6)
        canvas.line(TAG, bottom, self._right, bottom)
        canvas.setFont(FACE, SMALL)
        canvas.setFillColor(MUTED)
        canvas.drawString(TAG, bottom - 11, f"{low:.{decimals}f}".replace("-", "−"))
        canvas.drawRightString(self._right, bottom - 11, f"{high:.{decimals}f} {unit}")

    def _middle(self, number: int) -> float:
        return self.height - HEAD - (number + 0.5) * ROW


class OpeningPlot(_Rows):
    """Openings: a ring a field, the mean with its interval, and what light shifts in all alike."""

    def __init__(
        self, title: str, figures: Sequence[FigureSeen], specimens: Sequence[Specimen], width: float
    ) -> None:
        super().__init__(title, specimens, width)
        self._figures = {figure.specimen_id: figure for figure in figures}

    def told(self) -> str:
        """Return every mean and its fields, in words."""
        said = []
        for specimen in self._specimens:
            figure = self._figures.get(specimen.id)
            if figure is not None and figure.mean is not None:
                fields = ", ".join(f"{value:.4g}" for value in figure.values)
                said.append(f"{specimen.nickname} {figure.text} (fields {fields})")
        return f"{self._title}: " + ("; ".join(said) if said else "no field was measured")

    def draw(self) -> None:
        """Draw the axis, then a row for each specimen."""
        numbers = [
            number
            for one in self._figures.values()
            if one.mean is not None
            for number in (*one.values, one.low or 0.0, one.high or 0.0)
        ]
        ends = round_ends(max(0.0, min(numbers, default=0.0)), max(numbers, default=1.0))
        self._frame(self.canv, ends, "µm")
        at = self._axis(*ends[:2])
        for number, specimen in enumerate(self._specimens):
            self._row(specimen, at, self._middle(number), ends[0])

    def _row(self, specimen: Specimen, at: Axis, y: float, floor: float) -> None:
        canvas = self.canv
        figure = self._figures.get(specimen.id)
        draw_tag(canvas, specimen, 5, y, 3.8)
        if figure is None or figure.mean is None or figure.low is None or figure.high is None:
            room = self.width - TAG - 4
            draw_fitted(canvas, "no field was measured", TAG + 4, y - 3, room, colour=MUTED)
            return
        draw_fitted(canvas, figure.text, self._right + 4, y - 3, BESIDE - 4)
        left, right = at(max(floor, figure.mean - figure.alike)), at(figure.mean + figure.alike)
        canvas.setFillColor(TIE_GREY)
        canvas.rect(left, y - 9, right - left, 18, fill=1, stroke=0)
        canvas.setStrokeColor(tag_colour(specimen))
        canvas.setFillColor(WHITE)
        canvas.setLineWidth(0.9)
        for value in figure.values:
            canvas.circle(at(value), y + 7, 2.0, fill=1, stroke=1)
        canvas.setLineWidth(1.3)
        low, high = at(max(floor, figure.low)), at(figure.high)
        canvas.line(low, y - 2, high, y - 2)
        for end in (low, high):
            canvas.line(end, y - 5, end, y + 1)
        draw_tag(canvas, specimen, at(figure.mean), y - 2, 3.4)


class FibreStrips(_Rows):
    """Fibres by diameter: the share of their length in each class, one strip a specimen."""

    def __init__(
        self, title: str, strips: Sequence[StripSeen], specimens: Sequence[Specimen], width: float
    ) -> None:
        super().__init__(title, specimens, width)
        self._strips = {strip.specimen_id: strip for strip in strips}

    def told(self) -> str:
        """Return where most of each specimen's fibre lies, in words."""
        said = []
        for specimen in self._specimens:
            strip = self._strips.get(specimen.id)
            if strip is not None:
                most = max(range(len(strip.shares)), key=strip.shares.__getitem__)
                low, high = strip.edges_um[most], strip.edges_um[most + 1]
                said.append(f"{specimen.nickname} most often {low:.3g} to {high:.3g} µm")
        return f"{self._title}: " + ("; ".join(said) if said else "no fibre was measured")

    def draw(self) -> None:
        """Draw the axis, then a strip for each specimen."""
        top = max((strip.edges_um[-1] for strip in self._strips.values()), default=1.0)
        most = max((max(strip.shares) for strip in self._strips.values()), default=1.0)
        self._frame(self.canv, (0.0, top, 0), "µm")
        at = self._axis(0.0, top)
        for number, specimen in enumerate(self._specimens):
            self._strip(specimen, at, self._middle(number), most)

    def _strip(self, specimen: Specimen, at: Axis, y: float, most: float) -> None:
        canvas = self.canv
        strip = self._strips.get(specimen.id)
        draw_tag(canvas, specimen, 5, y, 3.8)
        if strip is None:
            room = self.width - TAG - 4
            draw_fitted(canvas, "no fibre was measured", TAG + 4, y - 3, room, colour=MUTED)
            return
        about = f"{strip.fibres:.0f} fibres" + (": few" if strip.few else "")
        draw_fitted(canvas, about, self._right + 4, y - 3, BESIDE - 4, colour=MUTED)
        base = y - ROW / 2 + 2
        canvas.setFillColor(tag_colour(specimen))
        canvas.setStrokeColor(WHITE)
        canvas.setLineWidth(0.3)
        for number, share in enumerate(strip.shares):
            left, right = at(strip.edges_um[number]), at(strip.edges_um[number + 1])
            tall = (ROW - 5) * share / most
            if tall > 0.2:
                canvas.rect(left, base, right - left, tall, fill=1, stroke=1)
