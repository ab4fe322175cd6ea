"""What stands below the front page's grid: the key to its marks, and what holds for all of it."""

from __future__ import annotations

from collections.abc import Sequence as Ordered

from reportlab.pdfgen.canvas import Canvas

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.address_code import code_size, draw_code
from benchlog.sheet.checks_part import doubted_line
from benchlog.sheet.lock_line import lock_line
from benchlog.sheet.marks import BY_HAND, HAND_LOOKS, LOOKS, draw_award, draw_by_hand
from benchlog.sheet.shown_award import overruled_line
from benchlog.sheet.tags import inside, link, paragraph
from benchlog.sheet.text import draw_lines, lines_in, width_of
from benchlog.sheet.typography import BOLD, FACE, INK, MUTED, SMALL
from benchlog.sheet.words import cut_of_same
from benchlog.tasks.record import Record

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

LEAST_CODE = 66.0
MARK = 21.0
BETWEEN = 12.0
KEY_LEADING = 13.0
NOTE_LEADING = 11.0
ABOVE = 15.0
"""Points from the grid's last rule to the first line of the key."""


def standing_note(record: Record) -> str:
    """Return what holds for every verdict here, with how many of a part number were cut."""
    several = " (n)" if _several(record) else ""
    return (
        f"There is no overall total. {how_many_cut(record)}{several}: others of the same part "
        "number may differ by more than the bars show."
    )


def how_many_cut(record: Record) -> str:
    """Return how many filters of a part number stand behind it all."""
    if _several(record):
        return "Few filters of each part number were cut"
    return "One filter of each part number was cut"


def _several(record: Record) -> bool:
    counts = {cut_of_same(record, specimen) for specimen in record.lineup.specimens}
    return bool(counts - {1})


class FrontNotes:
    """The key and the notes of a record, folded to a width; `height` is what they take.

    Where the data has an `address`, its code for phones stands at their right.
    """

    def __init__(self, record: Record, width: float, address: str = "") -> None:
        overruled = overruled_line(record)
        self._width = width
        self._address, self._code = address, code_size(address, LEAST_CODE)
        width -= self._code
        self._key = _key_lines(width, with_hand=bool(overruled))
        self._notes = [
            (lines_in(text, font, SMALL, width, most), font, colour)
            for text, font, colour, most in (
                (doubted_line(record), BOLD, INK, 2),
                (overruled, BOLD, INK, 2),
                (lock_line(record), FACE, INK, 2),
                (standing_note(record), FACE, INK, 3),
                (SCALE_NOTE, FACE, MUTED, 3),
            )
            if text
        ]
        self._data = lines_in(f"The data: {address}", BOLD, SMALL, width, 2) if address else []
        noted = sum(len(lines) for lines, _, _ in self._notes) + len(self._data)
        told = KEY_LEADING * len(self._key) + NOTE_LEADING * noted
        self.height = ABOVE + max(told, self._code)

    def draw(self, canvas: Canvas, y: float) -> None:
        """Draw downwards from the grid's last rule at `y`."""
        code = self._width - self._code, y - ABOVE - self._code + KEY_LEADING
        y -= ABOVE
        with inside(canvas, "L"):
            for line in self._key:
                for x, kind, word in line:
                    with inside(canvas, "LI"):
                        _key_entry(canvas, kind, word, x, y)
                y -= KEY_LEADING
        y -= 1
        for lines, font, colour in self._notes:
            y = draw_lines(canvas, lines, 0, y, font=font, colour=colour, leading=NOTE_LEADING)
        if self._data:
            below = y - NOTE_LEADING * (len(self._data) - 1) - 2
            box = 0, below, max(width_of(line, BOLD) for line in self._data), y + SMALL
            with paragraph(canvas), link(canvas, self._address, box):
                draw_lines(canvas, self._data, 0, y, font=BOLD, leading=NOTE_LEADING)
        if self._code:
            draw_code(canvas, self._address, *code, self._code)


def _key_entry(canvas: Canvas, kind: AwardKind | None, word: str, x: float, y: float) -> None:
    """Draw a mark and what it means; to a reader program it is told by its looks."""
    with inside(canvas, "Lbl"):
        if kind is None:
            draw_by_hand(canvas, x + 8, y + 3, 4.6, told=HAND_LOOKS)
        else:
            draw_award(canvas, kind, x + 8, y + 3, 4.6, told=LOOKS[kind])
    with inside(canvas, "LBody"):
        draw_lines(canvas, [word], x + MARK, y)


def _key_lines(width: float, *, with_hand: bool) -> list[list[tuple[float, AwardKind | None, str]]]:
    """Return the key as lines of (left edge, mark, word); the mark of the reviewer's hand is None.

    Fonts must be in use.
    """
    entries: list[tuple[AwardKind | None, str]] = [*KEY]
    if with_hand:
        entries.append((None, BY_HAND))
    lines: list[list[tuple[float, AwardKind | None, str]]] = [[]]
    x = 0.0
    for kind, word in entries:
        takes = MARK + width_of(word) + BETWEEN
        if lines[-1] and x + takes > width:
            lines.append([])
            x = 0.0
        lines[-1].append((x, kind, word))
        x += takes
    return lines
