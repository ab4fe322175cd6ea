"""Small panels, one per measured attribute: a dot and its interval for each specimen.

Specimens stand in the same order in every panel, numbers are printed beside the dots, a missing
value stands as its state's word, and a light band shows what would be too close to call.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from benchlog.sheet.dots import Dot, Panel
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.marks import draw_tag, tag_colour
from benchlog.sheet.numbered import met
from benchlog.sheet.numbers import symbol
from benchlog.sheet.panel_words import panel_words
from benchlog.sheet.text import draw_fitted, draw_lines, lines_in, width_of
from benchlog.sheet.typography import BOLD, FACE, HAIRLINE, MUTED, SMALL, TIE_GREY, WHITE

Axis = Callable[[float], float]

ROW = 11.4
TAG = 15.0
FOOT = 12.5
HEAD_LEADING = 10.5


def round_ends(low: float, high: float) -> tuple[float, float, int]:
    """Return an axis' ends on round numbers around a range, and the decimals they need."""
    if high <= low:
        pad = abs(low) * 0.05 or 1.0
        low, high = low - pad, high + pad
    step = 10.0 ** math.floor(math.log10(high - low))
    if (high - low) / step < 3:
        step /= 2
    decimals = max(0, math.ceil(-math.log10(step)))
    return math.floor(low / step) * step, math.ceil(high / step) * step, decimals


def head_of(panel: Panel, width: float) -> tuple[list[str], list[str]]:
    """Return the lines of a panel's label and of its note; two lines together at most."""
    unit = symbol(panel.unit)
    head = f"{panel.label}, {unit}" if unit else panel.label
    note = lines_in(panel.note, FACE, SMALL, width, 1)
    return lines_in(head, BOLD, SMALL, width, 1 if note else 2), note


class DotPlot(Drawn):
    """One panel, drawn."""

    def __init__(self, panel: Panel, width: float, head_lines: int = 2) -> None:
        self._panel = panel
        self._head, self._note = head_of(panel, width)
        self._above = head_lines
        super().__init__(width, head_lines * HEAD_LEADING + len(panel.dots) * ROW + FOOT + 4)

    def _ends(self) -> tuple[float, float, int]:
        band = self._panel.band()
        ends = [e for s in self._panel.numbers for e in (s.low, s.high)]
        return round_ends(min([*ends, *(band or ())]), max([*ends, *(band or ())]))

    def told(self) -> str:
        """Return names, numbers and intervals in words."""
        return panel_words(self._panel)

    def draw(self) -> None:
        """Draw head, band, axis, then one row per specimen."""
        canvas = self.canv
        top = self.height - self._above * HEAD_LEADING
        spare = self._above - len(self._head) - len(self._note)
        first = self.height - 8 - spare * HEAD_LEADING
        below = draw_lines(canvas, self._head, 0, first, font=BOLD, leading=HEAD_LEADING)
        draw_lines(canvas, self._note, 0, below, colour=MUTED)
        low, high, decimals = self._ends()
        beside = max(width_of(dot.text) for dot in self._panel.dots) + 6
        left, right = TAG, max(TAG + 40.0, self.width - beside)

        def at(value: float) -> float:
            return left + 4 + (right - left - 8) * (value - low) / (high - low)

        self._ground(at, top, (left, right))
        for index, dot in enumerate(self._panel.dots):
            self._dot(dot, at, top - (index + 0.5) * ROW, (left, right))
        bottom = top - len(self._panel.dots) * ROW
        canvas.setFont(FACE, SMALL)
        canvas.setFillColor(MUTED)
        canvas.drawString(left, bottom - 10, _minus(f"{low:.{decimals}f}"))
        canvas.drawRightString(right, bottom - 10, _minus(f"{high:.{decimals}f}"))

    def _ground(self, at: Axis, top: float, ends: tuple[float, float]) -> None:
        canvas = self.canv
        height = len(self._panel.dots) * ROW
        band = self._panel.band()
        if band:
            canvas.setFillColor(TIE_GREY)
            canvas.setFillAlpha(0.55)
            canvas.rect(at(band[0]), top - height, at(band[1]) - at(band[0]), height,
                        fill=1, stroke=0)  # fmt: skip
            canvas.setFillAlpha(1)
        canvas.setStrokeColor(HAIRLINE)
        canvas.setLineWidth(0.6)
        canvas.line(ends[0], top - height, ends[1], top - height)
        for end in ends:
            canvas.line(end, top - height, end, top - height + 3)

    def _dot(self, dot: Dot, at: Axis, y: float, ends: tuple[float, float]) -> None:
        canvas = self.canv
        draw_tag(canvas, dot.specimen, 5, y, 3.6)
        if dot.shown is None:
            draw_fitted(canvas, dot.word, ends[0] + 4, y - 3, self.width - ends[0] - 4,
                        colour=MUTED)  # fmt: skip
            return
        draw_lines(canvas, [dot.text], ends[1] + 6, y - 3)
        box = (ends[1] + 6, y - ROW / 2, width_of(dot.text), ROW)
        met(canvas, (self._panel.key, dot.specimen.id), box)
        canvas.setStrokeColor(tag_colour(dot.specimen))
        canvas.setLineWidth(1.2)
        low, high = at(dot.shown.low), at(dot.shown.high)
        if dot.bounded:
            canvas.setFillColor(WHITE)
            canvas.rect(low, y - 2.4, max(1.5, high - low), 4.8, fill=1, stroke=1)
            return
        if dot.estimate:
            canvas.setDash(2, 1.5)
        canvas.line(low, y, high, y)
        canvas.setDash()
        for end in (low, high):
            canvas.line(end, y - 2, end, y + 2)
        draw_tag(canvas, dot.specimen, at(dot.shown.value), y, 3.2, hollow=dot.estimate)


def _minus(text: str) -> str:
    return text.replace("-", "−")
