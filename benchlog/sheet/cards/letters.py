"""The cards' two faces: what a text is wide, and its outlines.

Letters are drawn as outlines, so that a card looks the same wherever it is opened and a PNG and an
SVG of it cannot differ. All figures of a face are equally wide, which keeps numbers in columns.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from benchlog.sheet.cards.look import Area
from benchlog.sheet.cards.paths import Path, Step, bounds, moved
from benchlog.trade.resource_file import resources_folder

REGULAR, BOLD = "DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"
NO_GLYPH = "\u25a1"
TALLEST, DEEPEST = 1.13, 0.25
"""How far a letter may reach above and below its line, in type sizes."""

USUAL_RISE = 1.0


@dataclass(frozen=True)
class Letter:
    """One character of a face, in type sizes: its advance and its outline, y downwards."""

    advance: float
    outline: Path


class _Steps(BasePen):  # type: ignore[misc]  # fontTools carries no types
    def __init__(self, glyphs: object) -> None:
        super().__init__(glyphs)
        self.steps: list[Step] = []

    def _moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self.steps.append(("M", point))

    def _lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self.steps.append(("L", point))

    def _qCurveToOne(self, handle: tuple[float, float], point: tuple[float, float]) -> None:  # noqa: N802
        self.steps.append(("Q", (*handle, *point)))

    def _curveToOne(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self.steps.append(("C", tuple(c for point in points for c in point)))

    def _closePath(self) -> None:  # noqa: N802
        self.steps.append(("Z", ()))


@cache
def _face(name: str) -> TTFont:
    return TTFont(resources_folder() / "fonts" / name, lazy=True)


@lru_cache(maxsize=4096)
def letter(face: str, character: str) -> Letter | None:
    """Return a character's outline, None where the face has no glyph for it."""
    font = _face(face)
    glyph = font.getBestCmap().get(ord(character))
    if glyph is None:
        return None
    glyphs = font.getGlyphSet()
    pen = _Steps(glyphs)
    glyphs[glyph].draw(pen)
    em = font["head"].unitsPerEm
    down = tuple(
        (step, tuple((-c if n % 2 else c) / em for n, c in enumerate(where)))
        for step, where in pen.steps
    )
    return Letter(glyphs[glyph].width / em, down)


@lru_cache(maxsize=4096)
def prints_as(character: str) -> str:
    """Return what is drawn for a character: itself, its bare letter, an empty box, or nothing.

    A letter whose marks are taller than a line loses them; what the faces lack, an emoji say,
    becomes an empty box, so that nothing vanishes unseen.
    """
    category = unicodedata.category(character)
    if character.isspace() or category in ("Cc", "Zl", "Zp", "Zs"):
        return "\u00a0" if character == "\u00a0" else " "
    if category in ("Cf", "Cs") or "\ufe00" <= character <= "\ufe0f":
        return "" if category != "Cs" else NO_GLYPH
    if "\U0001f3fb" <= character <= "\U0001f3ff":
        return ""
    if all(_fits(face, character) for face in (REGULAR, BOLD)):
        return character
    bare = unicodedata.normalize("NFD", character)[0]
    if bare != character:
        return prints_as(bare)
    return "" if category in ("Mn", "Me") else NO_GLYPH


def _fits(face: str, character: str) -> bool:
    found = letter(face, character)
    if found is None:
        return False
    area = _area(face, character)
    if area is None:
        return found.advance > 0
    return area.top >= -TALLEST and area.bottom <= DEEPEST and area.width < 2


def text_width(text: str, face: str, size: float) -> float:
    """Return how wide a line is, in drawn or in reading order."""
    return size * _width(text, face)


# A card is laid out again and again until all of it fits: the same lines, in other sizes.
@lru_cache(maxsize=16384)
def _width(text: str, face: str) -> float:
    return sum(_advance(face, c) for c in text)


@lru_cache(maxsize=16384)
def rise(text: str, face: str) -> float:
    """Return how far a line's letters reach up, in type sizes; capitals with two marks need more.

    Never less than what all usual letters need, so that lines stand evenly.
    """
    areas = (_area(face, c) for c in set(text))
    return max([USUAL_RISE, *(-area.top for area in areas if area is not None)])


@lru_cache(maxsize=4096)
def _area(face: str, character: str) -> Area | None:
    """Return what a character covers; None where it has no glyph, or one without an outline."""
    found = letter(face, character)
    return None if found is None else bounds(found.outline)


@lru_cache(maxsize=4096)
def _advance(face: str, character: str) -> float:
    found = letter(face, character)
    if found is None or unicodedata.category(character) == "Mn":
        return 0.0
    return found.advance


@lru_cache(maxsize=512)
def outlines(text: str, face: str, size: float, x: float, baseline: float) -> Path:
    """Return the outlines of a line in drawn order, its start at `x`; marks sit on their letter."""
    steps: list[Step] = []
    pen = before = 0.0
    for character in text:
        found = letter(face, character)
        if found is None:
            continue
        at = pen
        if unicodedata.category(character) == "Mn":
            own = _area(face, character) or Area(0, 0, 0, 0)
            at = pen - before / 2 - (own.left + own.right) / 2
        else:
            before = found.advance
            pen += found.advance
        steps += moved(found.outline, x + at * size, baseline, size)
    return tuple(steps)
