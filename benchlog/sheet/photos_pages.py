"""Photos, station by station, the specimens side by side in bench order."""

from __future__ import annotations

from itertools import zip_longest

from reportlab.platypus import Flowable, Table

from benchlog.sheet.drawn import Drawn
from benchlog.sheet.flow import Heading, bare
from benchlog.sheet.marks import draw_tag
from benchlog.sheet.pictures import Picture, Pictures, draw_picture
from benchlog.sheet.text import draw_lines, lines_in
from benchlog.sheet.typography import BOLD, FACE, SMALL, Page
from benchlog.sheet.values_table import ValuesTable, value_columns
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen

GAP = 8.0
MOST_ACROSS = 3
WIDEST = 180.0
SHAPE = 0.75
"""Height of a frame for its width, as cameras have it."""


def stand_in_columns(count: int) -> bool:
    """Whether so few specimens' pictures stand in the columns of the values beneath them."""
    return count <= MOST_ACROSS


def frame_width(page: Page, count: int) -> float:
    """Return the width of one picture when `count` specimens stand side by side."""
    if stand_in_columns(count):
        return min(value_columns(page, count)[-1] - GAP, WIDEST)
    return (page.content - (MOST_ACROSS - 1) * GAP) / MOST_ACROSS


class Framed(Drawn):
    """One picture with its specimen's tag, where it is not told by its column, and its caption."""

    def __init__(
        self,
        specimen: Specimen | None,
        picture: Picture | None,
        width: float,
        *,
        named: bool = True,
        captioned: bool = True,
    ) -> None:
        caption = picture.photo.caption if picture and captioned else ""
        self._caption = lines_in(caption, FACE, SMALL, width, 2)
        self._frame = width * SHAPE
        self._named = named
        lines = len(self._caption) + (1 if named else 0)
        super().__init__(width, self._frame + (3 + 11 * lines if lines else 0))
        self._specimen = specimen
        self._picture = picture

    def draw(self) -> None:
        """Draw the frame, then the name and the caption under it."""
        canvas = self.canv
        bottom = self.height - self._frame
        whose = self._specimen.nickname if self._specimen else "the whole line-up"
        draw_picture(canvas, self._picture, 0, bottom, self.width, self._frame, "no picture here",
                     whose)  # fmt: skip
        y = bottom - 11
        if self._named:
            name = self._specimen.nickname if self._specimen else "the whole line-up"
            if self._specimen:
                draw_tag(canvas, self._specimen, 5, y + 3.2, 4)
            name_x = 14 if self._specimen else 0
            line = lines_in(name, BOLD, SMALL, self.width - 14, 1)
            y = draw_lines(canvas, line, name_x, y, font=BOLD)
        draw_lines(canvas, self._caption, 0, y)


def station_label(record: Record, key: str) -> str:
    """Return what a station is called, or its key where the sequence lacks it."""
    return next((s.label for s in record.sequence.stations if s.key == key), key or "no station")


def _grid(frames: list[Flowable], width: float, across: int) -> list[Table]:
    style = bare(below=6)
    rows = [frames[i : i + across] for i in range(0, len(frames), across)]
    return [
        Table([row], colWidths=[width + GAP] * len(row), style=style, hAlign="LEFT")
        for row in rows
    ]  # fmt: skip


def in_order(record: Record, stations: list[str]) -> list[str]:
    """Return stations in the order of the sequence, strays behind."""
    known = [s.key for s in record.sequence.stations if s.key in stations]
    return [*known, *(s for s in stations if s not in known)]


def add_photos(
    grown: ValuesTable, record: Record, page: Page, pictures: Pictures, stations: list[str]
) -> None:
    """Add the photos of some stations to a table of values, each in its specimen's column."""
    width = frame_width(page, len(record.lineup.specimens))
    for key in in_order(record, stations):
        each = [pictures.at(key, s.id) for s in record.lineup.specimens]
        for number, row in enumerate(zip_longest(*each)):
            captions = {p.photo.caption if p else "" for p in row}
            shared = captions.pop() if len(captions) == 1 else ""
            framed: list[Flowable] = [
                Framed(s, p, width, named=False, captioned=not shared)
                for s, p in zip(record.lineup.specimens, row, strict=True)
            ]
            grown.pictures(station_label(record, key) if number == 0 else "", shared, framed)


def photos_apart(
    record: Record, page: Page, pictures: Pictures, stations: list[str]
) -> list[list[Flowable]]:
    """Return the photos that no column of values holds, row by row, headings kept with a row.

    These are all of them where many specimens share a page, else those of the whole line-up.
    """
    count = len(record.lineup.specimens)
    width = frame_width(page, count)
    shared = [] if stand_in_columns(count) else in_order(record, stations)
    found: list[list[Flowable]] = []
    for key in in_order(record, stations):
        frames: list[Flowable] = []
        if key in shared:
            specimens = record.lineup.specimens
            for row in zip_longest(*(pictures.at(key, s.id) for s in specimens)):
                frames += [Framed(s, p, width) for s, p in zip(specimens, row, strict=True)]
        frames += [Framed(None, p, width) for p in pictures.at(key, "")]
        across = MOST_ACROSS if shared or count < 1 else max(2, count)
        rows = _grid(frames, width, across)
        if rows:
            heading = Heading(station_label(record, key), 1)
            found += [[heading, rows[0]], *([row] for row in rows[1:])]
    return found
