"""Photos, station by station, the specimens side by side in bench order."""

from __future__ import annotations

from itertools import zip_longest

from reportlab.platypus import Flowable, KeepTogether, Table

from benchlog.sheet.drawn import Drawn
from benchlog.sheet.flow import Heading, gap, section
from benchlog.sheet.marks import draw_tag
from benchlog.sheet.pictures import Picture, Pictures, draw_picture
from benchlog.sheet.text import draw_lines, lines_in
from benchlog.sheet.typography import BOLD, FACE, SMALL, Page
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen

GAP = 12.0
MOST_ACROSS = 3
SHAPE = 0.75
"""Height of a frame for its width, as cameras have it."""

LEAD = "The same stop of the teardown for every specimen, side by side, in bench order."


def frame_width(page: Page, count: int) -> float:
    """Return the width of one picture when `count` specimens stand side by side."""
    across = max(2, min(MOST_ACROSS, count))
    return (page.content - (across - 1) * GAP) / across


class Framed(Drawn):
    """One picture with its specimen's tag and caption beneath."""

    def __init__(self, specimen: Specimen | None, picture: Picture | None, width: float) -> None:
        caption = picture.photo.caption if picture else ""
        self._caption = lines_in(caption, FACE, SMALL, width, 3)
        self._frame = width * SHAPE
        super().__init__(width, self._frame + 19 + 11 * max(1, len(self._caption)))
        self._specimen = specimen
        self._picture = picture

    def draw(self) -> None:
        """Draw the frame, then the name and the caption under it."""
        canvas = self.canv
        bottom = self.height - self._frame
        draw_picture(canvas, self._picture, 0, bottom, self.width, self._frame, "no picture here")
        y = bottom - 13
        name = self._specimen.nickname if self._specimen else "the whole line-up"
        if self._specimen:
            draw_tag(canvas, self._specimen, 5, y + 3.2, 4)
        name_x = 14 if self._specimen else 0
        draw_lines(canvas, lines_in(name, BOLD, SMALL, self.width - 14, 1), name_x, y, font=BOLD)
        draw_lines(canvas, self._caption, 0, y - 12)


def _station_label(record: Record, key: str) -> str:
    return next((s.label for s in record.sequence.stations if s.key == key), key or "no station")


def _stations(record: Record, pictures: Pictures) -> list[str]:
    there = pictures.stations()
    known = [s.key for s in record.sequence.stations if s.key in there]
    return known + [key for key in there if key not in known]


def _frames(record: Record, pictures: Pictures, station: str, width: float) -> list[Flowable]:
    specimens = record.lineup.specimens
    each = [pictures.at(station, s.id) for s in specimens]
    frames: list[Flowable] = []
    for index, row in enumerate(zip_longest(*each)):
        for specimen, picture in zip(specimens, row, strict=True):
            if picture or index == 0:
                frames.append(Framed(specimen, picture, width))
    frames += [Framed(None, p, width) for p in pictures.at(station, "")]
    return frames


def _grid(frames: list[Flowable], width: float, across: int) -> list[Table]:
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
    ]
    rows = [frames[i : i + across] for i in range(0, len(frames), across)]
    return [
        Table([row], colWidths=[width + GAP] * len(row), style=style, hAlign="LEFT")
        for row in rows
    ]  # fmt: skip


def photos_pages(record: Record, page: Page, pictures: Pictures) -> list[Flowable]:
    """Return the section of photos; nothing when the record has none."""
    stations = _stations(record, pictures)
    if not stations:
        return []
    count = len(record.lineup.specimens)
    width, across = frame_width(page, count), max(2, min(MOST_ACROSS, count))
    parts: list[Flowable] = section("Photos", LEAD)
    for key in stations:
        rows = _grid(_frames(record, pictures, key, width), width, across)
        if rows:
            heading = Heading(_station_label(record, key), 1)
            parts += [KeepTogether([heading, rows[0]]), *rows[1:], gap(8)]
    return parts
