"""The first page: the answer at a glance.

One grid carries it: specimens stand as column heads, components as rows, so that a photo, its
tag and its scores share one column.
"""

from __future__ import annotations

from collections.abc import Sequence as Ordered
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from benchlog.judge.verdict import Award, AwardKind, Score
from benchlog.sheet.checks_part import doubted_line
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.marks import draw_award, draw_tag, tag_colour
from benchlog.sheet.pictures import Pictures, draw_picture
from benchlog.sheet.text import draw_fitted, draw_lines, lines_in, width_of
from benchlog.sheet.typography import (
    ACCENT,
    BAND,
    BODY,
    BOLD,
    FACE,
    HAIRLINE,
    INK,
    MUTED,
    SMALL,
    Page,
)
from benchlog.sheet.words import (
    components_shown,
    cut_of_same,
    date_of,
    short_digest,
)
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen

LABELS = 118.0
GAP = 12.0
WIDEST = 140.0
TALLEST_PICTURE = 100.0
TALLEST_ROW = 38.0
KEY_HEIGHT = 92.0
DOUBT_HEIGHT = 22.0

NOT_JUDGED = AwardKind.NOT_JUDGED.value
MARKED_FOR_ALL = (AwardKind.TIE, AwardKind.DIFFERENT, AwardKind.CANNOT_SEPARATE)


@dataclass(frozen=True)
class _Grid:
    """Where the columns stand."""

    left: float
    column: float

    def x(self, index: int) -> float:
        return self.left + LABELS + index * self.column

    @property
    def inner(self) -> float:
        return self.column - GAP


class FrontPage(Drawn):
    """The whole first page as one flowable, which never grows beyond its frame."""

    def __init__(self, record: Record, page: Page, pictures: Pictures) -> None:
        super().__init__(page.content, page.height - page.bottom - 40.0)
        self._record = record
        self._pictures = pictures
        count = len(record.lineup.specimens)
        column = min((self.width - LABELS + GAP) / max(1, count), WIDEST)
        self._grid = _Grid(0.0, column)

    def draw(self) -> None:
        """Draw title, specimens, grid, key and the standing note, from the top down."""
        y = self._title(self.height - 8)
        y = self._specimens(y)
        y = self._rows(y)
        self._key(y)

    def _title(self, y: float) -> float:
        canvas, lineup = self.canv, self._record.lineup
        canvas.setFillColor(ACCENT)
        canvas.rect(0, y + 2, 30, 3, fill=1, stroke=0)
        facts = f"{date_of(self._record)}   ·   {revision_words(self._record)}"
        facts += f"   ·   digest {short_digest(self._record)}"
        canvas.setFont(FACE, SMALL)
        canvas.setFillColor(MUTED)
        canvas.drawRightString(self.width, y, facts)
        what = "Oil filters cut open and compared, part by part"
        if lineup.rehearsal:
            what = "REHEARSAL: invented specimens and readings"
        draw_lines(canvas, [what], 40, y, colour=MUTED, font=BOLD if lineup.rehearsal else FACE)
        title = lines_in(lineup.name or "Line-up without a name", BOLD, 21, self.width, 2)
        y = draw_lines(canvas, title, 0, y - 27, font=BOLD, size=21, leading=25)
        question = lines_in(lineup.question or "No question was written down", FACE, 11,
                            self.width, 2)  # fmt: skip
        return draw_lines(canvas, question, 0, y + 4, size=11, leading=14.5, colour=MUTED) - 2

    def _specimens(self, top: float) -> float:
        specimens = self._record.lineup.specimens
        inner = self._grid.inner
        picture = min(inner * 0.75, TALLEST_PICTURE)
        nicknames = [lines_in(s.nickname or "no nickname", BOLD, 10, inner - 14, 2)
                     for s in specimens]  # fmt: skip
        y = top - picture - 14
        for index, specimen in enumerate(specimens):
            x = self._grid.x(index)
            photo = self._pictures.first_of(specimen.id)
            draw_picture(self.canv, photo, x, top - picture, inner, picture, "no picture")
            draw_tag(self.canv, specimen, x + 5, y + 3.6, 4.6)
            draw_lines(self.canv, nicknames[index], x + 14, y, font=BOLD, size=10, leading=12.5)
        y -= 12.5 * max(map(len, nicknames), default=1) + 1
        for label, words in self._identity():
            y = self._fact(label, words, y)
        return y + 4

    def _identity(self) -> list[tuple[str, list[str]]]:
        """Return what is said of every specimen, field by field."""
        specimens = self._record.lineup.specimens
        return [
            ("Maker", [s.maker or "not recorded" for s in specimens]),
            ("Part number", [s.part_number or "not recorded" for s in specimens]),
            ("Lot or date code", [s.lot or "not recorded" for s in specimens]),
            ("Who paid", [s.paid.value for s in specimens]),
            ("Cut of this part number",
             [f"n = {cut_of_same(self._record, s)}" for s in specimens]),
        ]  # fmt: skip

    def _fact(self, label: str, words: list[str], y: float) -> float:
        """Draw one field of all specimens on one level; return the next field's baseline."""
        folded = [lines_in(word, FACE, SMALL, self._grid.inner, 2) for word in words]
        draw_fitted(self.canv, label, 0, y, LABELS - 8, colour=MUTED)
        for index, lines in enumerate(folded):
            draw_lines(self.canv, lines, self._grid.x(index), y, leading=10.5)
        return y - 10.5 * max(map(len, folded), default=1) - 2

    def _rows(self, top: float) -> float:
        components = components_shown(self._record)
        room = top - KEY_HEIGHT - (DOUBT_HEIGHT if self._record.in_doubt else 0.0)
        height = min(TALLEST_ROW, room / max(1, len(components)))
        for index, component in enumerate(components):
            self._row(component, top - index * height, height)
        bottom = top - len(components) * height
        self._rule(bottom)
        return bottom

    def _rule(self, y: float) -> None:
        canvas = self.canv
        right = self._grid.x(len(self._record.lineup.specimens)) - GAP
        canvas.setStrokeColor(HAIRLINE)
        canvas.setLineWidth(0.6)
        canvas.line(0, y, max(right, LABELS), y)

    def _row(self, component: Component, top: float, height: float) -> None:
        self._rule(top)
        award = next(a for a in self._record.verdict.awards if a.component is component)
        middle = top - height / 2
        canvas = self.canv
        draw_fitted(canvas, component.value.capitalize(), 0, middle + 2.5, LABELS - 8,
                    font=BOLD, size=BODY)  # fmt: skip
        draw_fitted(canvas, award.kind.value, 0, middle - 8.5, LABELS - 8, colour=MUTED)
        scores = {s.specimen_id: s for s in self._record.verdict.scores
                  if s.component is component}  # fmt: skip
        for index, specimen in enumerate(self._record.lineup.specimens):
            score = scores.get(specimen.id)
            self._cell(specimen, award, score, self._grid.x(index), middle)

    def _cell(
        self, specimen: Specimen, award: Award, score: Score | None, x: float, middle: float
    ) -> None:
        canvas = self.canv
        won = specimen.id in award.winners
        if won and award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS):
            canvas.setFillColor(BAND)
            canvas.rect(x - 4, middle - 11.5, self._grid.inner + 6, 23, fill=1, stroke=0)
            draw_award(canvas, award.kind, x + 36, middle + 5.4, 5)
        if score is None or score.value is None:
            self._without_score(award, x, middle)
            return
        if award.kind in MARKED_FOR_ALL and (won or award.kind is not AwardKind.TIE):
            draw_award(canvas, award.kind, x + 36, middle + 5, 4.4)
        draw_lines(canvas, [f"{score.value:.1f}"], x, middle + 1.5, font=BOLD, size=11.5)
        draw_scale(canvas, specimen, score, x, middle - 6.5, min(self._grid.inner, 96.0))

    def _without_score(self, award: Award, x: float, middle: float) -> None:
        """Draw what stands in place of a score: the two-way arrow, or that none was given."""
        if award.kind is AwardKind.DIFFERENT:
            draw_award(self.canv, award.kind, x + 8, middle, 5)
            return
        draw_award(self.canv, AwardKind.NOT_JUDGED, x + 5, middle, 4.6)
        width = self._grid.inner - 14
        if width_of(NOT_JUDGED) <= width:  # the key tells the mark where the word finds no room
            draw_lines(self.canv, [NOT_JUDGED], x + 14, middle - 3, colour=MUTED)

    def _key(self, y: float) -> None:
        canvas = self.canv
        y -= 15
        x = 0.0
        for kind, word in KEY:
            width = 21 + canvas.stringWidth(word, FACE, SMALL) + 12
            if x + width > self.width:
                x, y = 0.0, y - 13
            draw_award(canvas, kind, x + 8, y + 3, 4.6)
            draw_lines(canvas, [word], x + 21, y)
            x += width
        y -= 14
        doubted = doubted_line(self._record)
        if doubted:
            y = draw_lines(canvas, lines_in(doubted, BOLD, SMALL, self.width, 2), 0, y, font=BOLD)
        for text, colour in ((standing_note(self._record), INK), (SCALE_NOTE, MUTED)):
            y = draw_lines(canvas, lines_in(text, FACE, SMALL, self.width, 3), 0, y, colour=colour)


KEY: Ordered[tuple[AwardKind, str]] = (
    (AwardKind.WINNER, "winner"),
    (AwardKind.JOINT_WINNERS, "joint winner: nobody clearly beats it"),
    (AwardKind.TIE, "tie: too close to call"),
    (AwardKind.DIFFERENT, "different, not better"),
    (AwardKind.CANNOT_SEPARATE, "cannot separate"),
    (AwardKind.NOT_JUDGED, "not judged"),
)

SCALE_NOTE = (
    "Score from 0 to 10 by fixed scales, whoever stands beside it. The bar is where it would "
    "probably fall (95 %) if the same parts were measured again here."
)


def standing_note(record: Record) -> str:
    """Return what holds for every verdict here, with how many of a part number were cut."""
    counts = {cut_of_same(record, specimen) for specimen in record.lineup.specimens}
    cut = "One filter of each part number was cut"
    if counts - {1}:
        cut = "Few filters of each part number were cut (n)"
    return (
        f"There is no overall total. {cut}: others of the same part number may differ by more "
        "than the bars show."
    )


def draw_scale(
    canvas: Canvas, specimen: Specimen, score: Score, x: float, y: float, width: float
) -> None:
    """Draw 0 to 10 as a line with the score's interval and the specimen's shape on it."""
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
