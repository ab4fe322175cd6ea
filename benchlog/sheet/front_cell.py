"""One cell of the front page's grid: a score on its scale, and the mark of what it came to."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from benchlog.judge.verdict import AwardKind, Score
from benchlog.sheet.marks import BY_HAND, draw_award, draw_by_hand, draw_tag, tag_colour
from benchlog.sheet.shown_award import NAMING, ShownAward
from benchlog.sheet.tags import figure
from benchlog.sheet.text import draw_lines, width_of
from benchlog.sheet.typography import BAND, BOLD, HAIRLINE, MUTED
from benchlog.trade.specimen import Specimen

WIDEST_SCALE = 96.0
MARK_AT = 36.0
"""Points from a cell's left edge to the middle of the mark, right of the score."""

FOR_ALL = (AwardKind.DIFFERENT, AwardKind.CANNOT_SEPARATE)
"""Outcomes that name nobody and are marked in every cell."""


def draw_cell(
    canvas: Canvas,
    specimen: Specimen,
    shown: ShownAward,
    score: Score | None,
    x: float,
    middle: float,
    inner: float,
) -> None:
    """Draw one specimen's score in one component; `inner` is the width that it may take."""
    if specimen.id in shown.winners and shown.kind in NAMING:
        canvas.setFillColor(BAND)
        canvas.rect(x - 4, middle - 11.5, inner + 6, 23, fill=1, stroke=0)
    if score is None or score.value is None:
        _without_score(canvas, specimen, shown, x, middle, inner)
        return
    draw_lines(canvas, [f"{score.value:.1f}"], x, middle + 1.5, font=BOLD, size=11.5)
    if _is_marked(specimen, shown):
        radius, raised = (5.0, 5.4) if shown.kind in NAMING else (4.4, 5.0)
        told = shown.kind.value
        draw_award(canvas, shown.kind, x + MARK_AT, middle + raised, radius, told=told)
        if shown.by_hand:
            draw_by_hand(canvas, x + MARK_AT + 12, middle + raised, 4.2, told=BY_HAND)
    draw_scale(canvas, specimen, score, x, middle - 6.5, min(inner, WIDEST_SCALE))


def _is_marked(specimen: Specimen, shown: ShownAward) -> bool:
    """Whether a cell with a score carries the outcome's mark.

    That nothing was judged is marked there only where the reviewer says so.
    """
    if specimen.id in shown.winners or shown.kind in FOR_ALL:
        return True
    return shown.by_hand and shown.kind is AwardKind.NOT_JUDGED


def _without_score(
    canvas: Canvas, specimen: Specimen, shown: ShownAward, x: float, middle: float, inner: float
) -> None:
    """Draw what stands in place of a score: the outcome's mark, or that none was given."""
    named = shown.by_hand and _is_marked(specimen, shown)
    if named or shown.kind is AwardKind.DIFFERENT:
        draw_award(canvas, shown.kind, x + 8, middle, 5, told=shown.kind.value)
        if named:
            draw_by_hand(canvas, x + 21, middle, 4.2, told=BY_HAND)
        return
    words = AwardKind.NOT_JUDGED.value
    has_room = width_of(words) <= inner - 14  # the key tells the mark where the word has none
    told = "" if has_room else words
    draw_award(canvas, AwardKind.NOT_JUDGED, x + 5, middle, 4.6, told=told)
    if has_room:
        draw_lines(canvas, [words], x + 14, middle - 3, colour=MUTED)


def draw_scale(
    canvas: Canvas, specimen: Specimen, score: Score, x: float, y: float, width: float
) -> None:
    """Draw 0 to 10 as a line with the score's interval and the specimen's shape on it."""
    with figure(canvas, _interval_words(score), (x, y - 4, x + width, y + 4)):
        _scale(canvas, specimen, score, x, y, width)


def _interval_words(score: Score) -> str:
    """Return what the scale adds to the score beside it, in words."""
    if score.low is None or score.high is None:
        return ""
    return f"probably from {score.low:.1f} to {score.high:.1f} of 10"


def _scale(
    canvas: Canvas, specimen: Specimen, score: Score, x: float, y: float, width: float
) -> None:
    inner = width - 8
    left = x + 4

    def at(value: float) -> float:
        return left + inner * min(10.0, max(0.0, value)) / 10

    canvas.saveState()
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.8)
    canvas.line(left, y, left + inner, y)
    for end in (0.0, 10.0):
        canvas.line(at(end), y - 2.2, at(end), y + 2.2)
    if score.low is not None and score.high is not None:
        canvas.setStrokeColor(tag_colour(specimen))
        canvas.setLineWidth(1.3)
        canvas.line(at(score.low), y, at(score.high), y)
        for end in (score.low, score.high):
            canvas.line(at(end), y - 2.4, at(end), y + 2.4)
    if score.value is not None:
        draw_tag(canvas, specimen, at(score.value), y, 2.7)
    canvas.restoreState()
