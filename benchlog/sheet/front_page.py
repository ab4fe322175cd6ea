"""The first page: the answer at a glance.

One grid carries it: specimens stand as column heads, components as rows, so that a photo, its
tag and its scores share one column.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.sheet.drawn import Drawn
from benchlog.sheet.front_cell import draw_cell
from benchlog.sheet.front_notes import FrontNotes
from benchlog.sheet.marks import BY_HAND, draw_by_hand, draw_tag
from benchlog.sheet.pictures import Pictures, draw_picture
from benchlog.sheet.shown_award import shown_award
from benchlog.sheet.tags import begin_section, inside
from benchlog.sheet.text import draw_fitted, draw_lines, lines_in, width_of
from benchlog.sheet.typography import (
    ACCENT,
    BODY,
    BOLD,
    FACE,
    HAIRLINE,
    MUTED,
    SMALL,
    Page,
)
from benchlog.sheet.words import (
    components_shown,
    cut_of_same,
    date_of,
    revised_line,
    short_digest,
)
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.trade.component import Component

LABELS = 118.0
GAP = 12.0
WIDEST = 140.0
TALLEST_PICTURE = 100.0
LEAST_PICTURE = 24.0
TALLEST_ROW = 38.0
LOWEST_ROW = 22.0
"""A row below this would run into the next; pictures give way to it."""


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

    def __init__(self, record: Record, page: Page, pictures: Pictures, address: str = "") -> None:
        super().__init__(page.content, page.height - page.bottom - 40.0)
        self._record = record
        self._pictures = pictures
        self._notes = FrontNotes(record, self.width, address)
        count = len(record.lineup.specimens)
        column = min((self.width - LABELS + GAP) / max(1, count), WIDEST)
        self._grid = _Grid(0.0, column)

    def draw(self) -> None:
        """Draw title, specimens, grid, key and the standing note, from the top down."""
        begin_section(self.canv)
        y = self._title(self.height - 8)
        with inside(self.canv, "Table"):
            y = self._specimens(y)
            y = self._rows(y)
        self._notes.draw(self.canv, y)

    def _title(self, y: float) -> float:
        canvas, lineup = self.canv, self._record.lineup
        canvas.setFillColor(ACCENT)
        canvas.rect(0, y + 2, 30, 3, fill=1, stroke=0)
        what = "Oil filters cut open and compared, part by part"
        if lineup.rehearsal:
            what = "REHEARSAL: invented data"
        draw_lines(canvas, [what], 40, y, colour=MUTED, font=BOLD if lineup.rehearsal else FACE)
        facts = f"{date_of(self._record)}   ·   {revision_words(self._record)}"
        facts += f"   ·   digest {short_digest(self._record)}"
        draw_lines(canvas, [facts], self.width - width_of(facts), y, colour=MUTED)
        title = lines_in(lineup.name or "Line-up without a name", BOLD, 21, self.width, 2)
        y = draw_lines(canvas, title, 0, y - 27, font=BOLD, size=21, leading=25, kind="H1")
        question = lines_in(lineup.question or "No question was written down", FACE, 11,
                            self.width, 2)  # fmt: skip
        y = draw_lines(canvas, question, 0, y + 4, size=11, leading=14.5, colour=MUTED) - 2
        revised = lines_in(revised_line(self._record), BOLD, SMALL, self.width, 2)
        return draw_lines(canvas, revised, 0, y + 3, font=BOLD) - 3 if revised else y

    def _specimens(self, top: float) -> float:
        specimens = self._record.lineup.specimens
        inner = self._grid.inner
        nicknames = [lines_in(s.nickname or "no nickname", BOLD, 10, inner - 14, 2)
                     for s in specimens]  # fmt: skip
        facts = [(label, self._folded(words)) for label, words in self._identity()]
        picture = self._picture_height(top, nicknames, [lines for _, lines in facts])
        y = top - picture - 14
        with inside(self.canv, "TR"):
            with inside(self.canv, "TD"):
                pass  # above the labels stands nothing
            for index in range(len(specimens)):
                with inside(self.canv, "TH", scope="Column"):
                    self._column_head(index, top - picture, picture, y)
                    draw_lines(self.canv, nicknames[index], self._grid.x(index) + 14, y, font=BOLD,
                               size=10, leading=12.5)  # fmt: skip
        y -= 12.5 * max(map(len, nicknames), default=1) + 1
        for label, folded in facts:
            y = self._fact(label, folded, y)
        return y + 4

    def _column_head(self, index: int, bottom: float, height: float, y: float) -> None:
        """Draw a specimen's picture, and its tag before the nickname at `y`."""
        specimen = self._record.lineup.specimens[index]
        x, inner = self._grid.x(index), self._grid.inner
        photo = self._pictures.first_of(specimen.id)
        draw_picture(self.canv, photo, x, bottom, inner, height, "no picture", specimen.nickname)
        draw_tag(self.canv, specimen, x + 5, y + 3.6, 4.6)

    def _picture_height(
        self, top: float, nicknames: list[list[str]], facts: list[list[list[str]]]
    ) -> float:
        """Return how tall pictures may be: they give way to the rows of a crowded page."""
        named = 12.5 * max(map(len, nicknames), default=1) + 1
        said = sum(10.5 * max(map(len, lines), default=1) + 2 for lines in facts)
        rows = LOWEST_ROW * len(components_shown(self._record))
        left = top - 14 - named - said + 4 - rows - self._notes.height
        return max(LEAST_PICTURE, min(self._grid.inner * 0.75, TALLEST_PICTURE, left))

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

    def _folded(self, words: list[str]) -> list[list[str]]:
        return [lines_in(word, FACE, SMALL, self._grid.inner, 2) for word in words]

    def _fact(self, label: str, folded: list[list[str]], y: float) -> float:
        """Draw one field of all specimens on one level; return the next field's baseline."""
        with inside(self.canv, "TR"):
            with inside(self.canv, "TH", scope="Row", plain=True):
                draw_fitted(self.canv, label, 0, y, LABELS - 8, colour=MUTED)
            for index, lines in enumerate(folded):
                with inside(self.canv, "TD", plain=True):
                    draw_lines(self.canv, lines, self._grid.x(index), y, leading=10.5)
        return y - 10.5 * max(map(len, folded), default=1) - 2

    def _rows(self, top: float) -> float:
        components = components_shown(self._record)
        room = top - self._notes.height
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
        shown = shown_award(self._record, award)
        scores = {s.specimen_id: s for s in self._record.verdict.scores
                  if s.component is component}  # fmt: skip
        with inside(canvas, "TR"):
            with inside(canvas, "TH", scope="Row"):
                draw_fitted(canvas, component.value.capitalize(), 0, middle + 2.5, LABELS - 8,
                            font=BOLD, size=BODY)  # fmt: skip
                indent = 12.0 if shown.by_hand else 0.0
                if shown.by_hand:
                    draw_by_hand(canvas, 4.5, middle - 5.4, 4.2, told=BY_HAND)
                draw_fitted(canvas, shown.kind.value, indent, middle - 8.5, LABELS - 8 - indent,
                            colour=MUTED)  # fmt: skip
            for index, specimen in enumerate(self._record.lineup.specimens):
                with inside(canvas, "TD"):
                    draw_cell(canvas, specimen, shown, scores.get(specimen.id),
                              self._grid.x(index), middle, self._grid.inner)  # fmt: skip
