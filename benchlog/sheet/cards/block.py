"""Paragraphs set below each other in a width and a height that they must not leave.

Type shrinks down to its least size; only then are texts that may be shortened given fewer lines.
What still does not fit is refused with `NoRoom`, and whoever asked lays the card out otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from dataclasses import replace as changed

from benchlog.sheet.cards.card import Item, Words
from benchlog.sheet.cards.folding import Folded, fold, printable
from benchlog.sheet.cards.letters import REGULAR, USUAL_RISE, rise, text_width
from benchlog.sheet.cards.look import INK, LEAST, PITCH
from benchlog.sheet.cards.marks import tag
from benchlog.sheet.cards.right_to_left import drawn_order
from benchlog.trade.specimen import Specimen

_STEPS = (1.0, 0.92, 0.84, 0.76, 0.68, 0.6, 0.52, 0.44, 0.36, 0.28)
TAG_SHARE = 1.05
"""Width of a tag beside text, in type sizes; four tenths of that is the gap behind it."""


class NoRoom(Exception):
    """The texts do not fit their area at the least size."""


@dataclass(frozen=True)
class Para:
    """One paragraph, set at `size` or smaller down to `least`.

    `most` lines are aimed at; beyond them a text that `may_shorten` ends in an ellipsis, and any
    other takes the lines that it needs. `sentence` says that it runs left to right whatever it
    names. With a specimen its tag stands before the first line. `before` is a gap above. A
    `strict` one that needs more than `most` lines, or would break a word, does not fit at all.
    """

    text: str
    size: float = LEAST
    least: float = LEAST
    face: str = REGULAR
    colour: str = INK
    most: int | None = None
    may_shorten: bool = False
    sentence: bool = True
    specimen: Specimen | None = None
    before: float = 0.0
    right: bool = False
    strict: bool = False
    whole: str = ""
    """The text as it was given, kept while `text` is made ready to be drawn."""


@dataclass(frozen=True)
class _Set:
    para: Para
    size: float
    folded: Folded

    @property
    def height(self) -> float:
        extra = sum(rise(line, self.para.face) - USUAL_RISE for line in self.folded.lines)
        return self.para.before + self.size * (PITCH * len(self.folded.lines) + extra)


@dataclass(frozen=True)
class Block:
    """Set paragraphs: their items, how far down they reach, and what stands there shortened."""

    items: tuple[Item, ...]
    bottom: float
    shortened: tuple[str, ...] = ()
    widest: float = 0.0


@dataclass(frozen=True)
class Ready:
    """Paragraphs with their sizes settled, to be placed once it is known where."""

    parts: tuple[_Set, ...] = field(repr=False)
    width: float

    @property
    def height(self) -> float:
        """What they need from top to bottom."""
        return sum(part.height for part in self.parts)

    @property
    def shortened(self) -> tuple[str, ...]:
        """The texts that stand there with an ellipsis."""
        return tuple(p.para.whole for p in self.parts if p.folded.shortened)

    def at(self, left: float, top: float) -> Block:
        """Return the paragraphs placed with their upper left corner there."""
        items: list[Item] = []
        widest = 0.0
        for part in self.parts:
            top += part.para.before
            for n, line in enumerate(part.folded.lines):
                top += part.size * rise(line, part.para.face)
                baseline = top
                indent = _indent(part.para, part.size)
                drawn = drawn_order(line, sentence=part.para.sentence)
                wide = text_width(drawn, part.para.face, part.size)
                x = left + (self.width - wide if part.para.right else indent)
                if n == 0 and part.para.specimen is not None:
                    r = part.size * TAG_SHARE / 2
                    items += tag(part.para.specimen, left + r, baseline - 0.36 * part.size, r)
                items.append(
                    Words(drawn, line, x, baseline, part.para.face, part.size, part.para.colour)
                )
                widest = max(widest, indent + wide)
                top += part.size * (PITCH - USUAL_RISE)
        return Block(tuple(items), top, self.shortened, widest)


def settle(paras: list[Para], width: float, height: float) -> Ready:
    """Choose sizes and lines so that all paragraphs fit; raises NoRoom."""
    paras = [
        one
        for one in (changed(p, text=printable(p.text), whole=p.text) for p in paras)
        if one.text or one.specimen is not None
    ]
    for share in _STEPS:
        ready = Ready(tuple(_set(p, share, width) for p in paras), width)
        if ready.height <= height:
            return ready
    parts = list(ready.parts)
    while Ready(tuple(parts), width).height > height:
        long = [n for n, p in enumerate(parts) if p.para.may_shorten and len(p.folded.lines) > 1]
        if not long:
            raise NoRoom
        n = max(long, key=lambda one: len(parts[one].folded.lines))
        parts[n] = _cut(parts[n], len(parts[n].folded.lines) - 1, width)
    return Ready(tuple(parts), width)


def _set(para: Para, share: float, width: float) -> _Set:
    size = max(para.least, para.size * share)
    found = _at(para, size, width)
    while found.folded.shortened and size > para.least:
        size = max(para.least, size * 0.94)
        found = _at(para, size, width)
    if para.strict and (found.folded.broken or found.folded.shortened):
        raise NoRoom
    if found.folded.shortened and not para.may_shorten:
        return _at(changed(para, most=None), size, width)
    return found


def _at(para: Para, size: float, width: float) -> _Set:
    inner = width - _indent(para, size)
    return _Set(para, size, fold(para.text, para.face, size, inner, para.most))


def _cut(part: _Set, most: int, width: float) -> _Set:
    inner = width - _indent(part.para, part.size)
    return changed(part, folded=fold(part.para.text, part.para.face, part.size, inner, most))


def _indent(para: Para, size: float) -> float:
    return 1.4 * TAG_SHARE * size if para.specimen is not None else 0.0
