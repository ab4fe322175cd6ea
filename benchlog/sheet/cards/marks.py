"""The marks on cards: tags that tell specimens apart, and what a comparison came to.

Every mark is a shape first and a colour second, and a tag has a dark edge, so that it shows on any
ground, in grey and to any eye. Shapes mean what they mean on the sheet.
"""

from __future__ import annotations

import re

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.card import Mark
from benchlog.sheet.cards.look import DEEP, INK, PLATE, Area
from benchlog.sheet.cards.paths import Path, around, bar, circle, polygon, rectangle, ring
from benchlog.tasks.stand_in import LineOutcome, StandInWord
from benchlog.trade.specimen import Shape, Specimen

_HEX = re.compile(r"#[0-9a-fA-F]{6}")
_EDGE = 1.2
"""How much larger the dark edge of a tag is than its coloured inside."""


def tag_colour(specimen: Specimen) -> str:
    """Return the specimen's colour, ink when what is recorded is no colour."""
    return specimen.colour if _HEX.fullmatch(specimen.colour) else INK


def tag(specimen: Specimen, x: float, y: float, r: float) -> tuple[Mark, ...]:
    """Return a specimen's tag about a centre; it reaches `r` to every side at most."""
    inner = r / _EDGE * 0.92
    edge, means = inner + 0.12 * r, f"tag: {specimen.shape.value}"
    whole = Mark(_shape(specimen.shape, x, y, edge), INK, means)
    return whole, Mark(_shape(specimen.shape, x, y, inner), tag_colour(specimen), means)


def _shape(shape: Shape, x: float, y: float, r: float) -> Path:
    if shape is Shape.CIRCLE:
        return circle(x, y, r * 0.96)
    if shape is Shape.SQUARE:
        return rectangle(Area(x - 0.86 * r, y - 0.86 * r, x + 0.86 * r, y + 0.86 * r))
    if shape is Shape.TRIANGLE:
        return around(x, y + 0.2 * r, (r * 1.14,), 3)
    if shape is Shape.DIAMOND:
        return around(x, y, (r * 1.06,), 4)
    if shape is Shape.STAR:
        return around(x, y + 0.06 * r, (r * 1.08, r * 0.5), 10)
    arm = r * 0.4
    return polygon(
        [(x - arm, y - r), (x + arm, y - r), (x + arm, y - arm), (x + r, y - arm),
         (x + r, y + arm), (x + arm, y + arm), (x + arm, y + r), (x - arm, y + r),
         (x - arm, y + arm), (x - r, y + arm), (x - r, y - arm), (x - arm, y - arm)]
    )  # fmt: skip


def award_mark(kind: AwardKind, x: float, y: float, r: float) -> tuple[Mark, ...]:
    """Return the mark of an outcome about a centre; it reaches `r` to every side at most."""
    means = kind.value
    if kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS):
        return _rosette(x, y, r, is_open=kind is AwardKind.JOINT_WINNERS)
    if kind is AwardKind.TIE:
        return _equal(x, y, r, means)
    if kind is AwardKind.DIFFERENT:
        return (Mark(_two_way(x, y, r), INK, means),)
    if kind is AwardKind.CANNOT_SEPARATE:
        # Each circle is a mark of its own: where two outlines cross, both stay filled.
        left, right = (ring(x + side * r * 0.36, y, r * 0.52, r * 0.18) for side in (-1, 1))
        return Mark(left, INK, means), Mark(right, INK, means)
    return (Mark(ring(x, y, r * 0.78, r * 0.2), INK, means),)


def _rosette(x: float, y: float, r: float, *, is_open: bool) -> tuple[Mark, ...]:
    means = AwardKind.JOINT_WINNERS.value if is_open else AwardKind.WINNER.value
    top = y - 0.22 * r
    ribbons = [
        polygon(
            [(x + side * 0.62 * r, top), (x + side * 0.72 * r, y + r), (x, y + 0.5 * r), (x, top)]
        )
        for side in (-1, 1)
    ]
    marks = [Mark(path, DEEP, means) for path in ribbons]
    marks.append(Mark(around(x, top, (r * 0.78, r * 0.66), 24), DEEP, means))
    if is_open:
        marks.append(Mark(circle(x, top, r * 0.4), PLATE, means))
        return tuple(marks)
    for ends in ((-0.32, 0.0, -0.08, 0.24), (-0.08, 0.24, 0.36, -0.28)):
        ax, ay, bx, by = (n * r for n in ends)
        marks.append(Mark(bar(x + ax, top + ay, x + bx, top + by, 0.17 * r), PLATE, means))
    marks.append(Mark(circle(x - 0.08 * r, top + 0.24 * r, 0.085 * r), PLATE, means))
    return tuple(marks)


def _equal(x: float, y: float, r: float, means: str) -> tuple[Mark, ...]:
    box = Mark(rectangle(Area(x - r, y - 0.8 * r, x + r, y + 0.8 * r)), INK, means)
    bars = (
        Mark(rectangle(Area(x - 0.6 * r, at - 0.13 * r, x + 0.6 * r, at + 0.13 * r)), PLATE, means)
        for at in (y - 0.3 * r, y + 0.3 * r)
    )
    return box, *bars


def _two_way(x: float, y: float, r: float) -> Path:
    head, half, stem = 0.45 * r, 0.48 * r, 0.14 * r
    right = [(0.0, -stem), (r - head, -stem), (r - head, -half), (r, 0.0), (r - head, half),
             (r - head, stem), (0.0, stem)]  # fmt: skip
    left = [(-dx, dy) for dx, dy in reversed(right)]
    return polygon([(x + dx, y + dy) for dx, dy in [*right, *left]])


def line_mark(outcome: LineOutcome, x: float, y: float, r: float) -> tuple[Mark, ...]:
    """Return the mark of one line of the stand-in check."""
    if outcome is LineOutcome.MATCH:
        return _equal(x, y, r, outcome.value)
    if outcome is LineOutcome.UNKNOWN:
        return (Mark(ring(x, y, r * 0.78, r * 0.2), INK, outcome.value),)
    slash = bar(x - 0.34 * r, y + 0.62 * r, x + 0.34 * r, y - 0.62 * r, 0.24 * r)
    return *_equal(x, y, r, outcome.value), Mark(slash, PLATE, outcome.value)


def word_mark(word: StandInWord, x: float, y: float, r: float) -> tuple[Mark, ...]:
    """Return the mark of what the whole stand-in check comes to."""
    if word is StandInWord.NO_DIFFERENCE:
        return _equal(x, y, r, word.value)
    if word is StandInWord.ASK:
        return (Mark(ring(x, y, r * 0.78, r * 0.2), INK, word.value),)
    hand = rectangle(Area(x - 0.6 * r, y - 0.15 * r, x + 0.6 * r, y + 0.15 * r))
    plate = around(x, y, (r,), 8)
    return Mark(plate, INK, word.value), Mark(hand, PLATE, word.value)


def correction_mark(x: float, y: float, r: float) -> tuple[Mark, ...]:
    """Return the mark of a correction: what stood there is crossed out, and goes on."""
    means = "correction"
    stem = bar(x - r, y, x + 0.4 * r, y, 0.26 * r)
    head = polygon([(x + r, y), (x + 0.2 * r, y - 0.6 * r), (x + 0.2 * r, y + 0.6 * r)])
    cross = [bar(x - 0.7 * r, y - s * 0.5 * r, x - 0.1 * r, y + s * 0.5 * r, 0.2 * r)
             for s in (-1, 1)]  # fmt: skip
    return tuple(Mark(path, INK, means) for path in (stem, head, *cross))
