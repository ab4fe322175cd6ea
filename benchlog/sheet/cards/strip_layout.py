"""Two ways to lay out a side-by-side card: a column for each specimen, or a row.

All values of a card have one size. A value in digits stays on one line, and is set smaller than
`PLAIN_TO_READ` only where neither way has room for more.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from typing import TypeAlias

from benchlog.sheet.cards.block import NoRoom, Para, Ready, settle
from benchlog.sheet.cards.folding import printable
from benchlog.sheet.cards.frame import INSET, Frame
from benchlog.sheet.cards.letters import BOLD, REGULAR, text_width
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET, Area
from benchlog.sheet.cards.pile import Grid, Pile, name_para
from benchlog.sheet.cards.strip import Strip
from benchlog.sheet.cards.told import Seen, unbroken

MOST_COLUMNS = 3
_SIZES = (120.0, 108.0, 96.0, 88.0, PLAIN_TO_READ, 76.0, 69.0, LEAST)
_BETWEEN = 56.0
_NAME = 69.0
_NAME_SHARE = 0.3
_SECOND = 0.7
_ROW_GAP = 2.0

Layout: TypeAlias = Callable[[Strip, float, float, float, bool], Pile]


def laid_out(strip: Strip, frame: Frame, *, shortens: bool) -> tuple[Area, Pile]:
    """Return the plate's area and what stands on it; raises NoRoom.

    `shortens` lets the reason why values are not to be compared end in an ellipsis.
    """
    layouts: list[Layout] = [_columns] if len(strip.specimens) <= MOST_COLUMNS else []
    rooms = (frame.wide, frame.tall)
    plain = [(size, room) for room in rooms for size in _SIZES if size >= PLAIN_TO_READ]
    # Below that, larger digits are worth more than a plate that leaves more of the picture free.
    small = [(size, room) for size in _SIZES if size < PLAIN_TO_READ for room in rooms]
    for tries, layout in product((plain, small), (*layouts, _rows)):
        for size, room in tries:
            inner = room.inset(INSET)
            try:
                pile = layout(strip, inner.width, inner.height, size, shortens)
            except NoRoom:
                continue
            top = room.bottom - pile.height - 2 * INSET
            return Area(room.left, top, room.right, room.bottom), pile
    raise NoRoom


def _columns(strip: Strip, width: float, height: float, size: float, shortens: bool) -> Pile:
    head = _head(strip, width, height, PLAIN_TO_READ)
    count = len(strip.specimens)
    pitch = (width + _BETWEEN) / count
    inner = pitch - _BETWEEN
    names = [
        settle([name_para(s, _NAME, least=LEAST, most=2, before=18.0)], inner, height)
        for s in strip.specimens
    ]
    values = [settle(_column_value(value, size), inner, height) for value in strip.values]
    rows = Grid(tuple(names), count, pitch), Grid(tuple(values), count, pitch)
    return _with_foot(strip, Pile((head, *rows)), width, height, shortens)


def _rows(strip: Strip, width: float, height: float, size: float, shortens: bool) -> Pile:
    head = _head(strip, width, height, max(LEAST, min(size, PLAIN_TO_READ)))
    pitch = width - max(_wide(value, min(size, 96.0), width) for value in strip.values)
    pairs = []
    for specimen, value in zip(strip.specimens, strip.values, strict=True):
        large, small = min(size, 96.0), min(size, _NAME)
        level = large - small if value.is_number else 0.0
        para = name_para(specimen, small, least=small, before=_ROW_GAP + level)
        name = settle([para], pitch - _BETWEEN, height)
        told = settle(_row_value(value, large), width - pitch, height)
        pairs.append(Grid((name, told), 2, pitch))
    return _with_foot(strip, Pile((head, *pairs)), width, height, shortens)


def _wide(value: Seen, size: float, width: float) -> float:
    """Return the width that a value wants in a row; raises NoRoom when none is left for a name."""
    if not value.is_number:
        own = text_width(printable(value.lines[0]), REGULAR, min(size, _NAME))
        return min(own, (1 - _NAME_SHARE) * width)
    wide = max(text_width(unbroken(line), BOLD, size) for line in value.lines)
    if wide > (1 - _NAME_SHARE) * width:
        raise NoRoom
    return wide + 1.0


def _head(strip: Strip, width: float, height: float, size: float) -> Ready:
    return settle([Para(strip.heading, size, LEAST, BOLD, most=2)], width, height)


def _with_foot(strip: Strip, body: Pile, width: float, height: float, shortens: bool) -> Pile:
    paras = [
        Para(strip.count_line, colour=QUIET, before=14.0),
        Para(strip.unlike, before=6.0, may_shorten=shortens),
        *(Para(text, before=6.0) for text in strip.cautions),
    ]
    return Pile((*body.parts, settle(paras, width, height - body.height)))


def _column_value(value: Seen, size: float) -> list[Para]:
    if not value.is_number:
        least = min(size, _NAME)
        told = value.lines[0]
        return [Para(told, least, LEAST, most=4, may_shorten=True, before=6.0)]
    return _digits(value, size, right=False, before=6.0)


def _row_value(value: Seen, size: float) -> list[Para]:
    if not value.is_number:
        told, least = value.lines[0], min(size, _NAME)
        return [Para(told, least, LEAST, most=2, may_shorten=True, right=True, before=_ROW_GAP)]
    return _digits(value, size, right=True, before=_ROW_GAP)


def _digits(value: Seen, size: float, *, right: bool, before: float) -> list[Para]:
    paras = []
    for n, line in enumerate(value.lines):
        own, gap = (max(LEAST, _SECOND * size), 0.0) if n else (size, before)
        paras.append(
            Para(unbroken(line), own, own, BOLD, most=1, strict=True, right=right, before=gap)
        )
    return paras
