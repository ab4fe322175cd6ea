"""Text made ready to be drawn, and folded into lines that fit a width."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from benchlog.sheet.cards.joined import joined
from benchlog.sheet.cards.letters import NO_GLYPH, prints_as, text_width
from benchlog.sheet.cards.right_to_left import END, ISOLATE

ELLIPSIS = "\u2026"
SEPARATOR = " \u00b7"
"""Between parts of a note; a line's end parts them as well, so none is drawn there."""

WHOLE_WORD = 0.75
"""Share of a clipped line that must stay for it to end after a whole word; names are too short."""

_BOXES = re.compile(f"{NO_GLYPH}{{2,}}")


@dataclass(frozen=True)
class Folded:
    """Lines in reading order; whether an ellipsis stands for more, or a word had to be broken."""

    lines: tuple[str, ...]
    shortened: bool = False
    broken: bool = False


def printable(text: str) -> str:
    """Return text on one line, in reading order, with nothing that the faces cannot draw.

    Signs without a glyph become one empty box for each run of them; of several marks on one letter
    the first stays.
    """
    found: list[str] = []
    for character in joined(unicodedata.normalize("NFC", text)):
        if character in (ISOLATE, END):
            found.append(character)
            continue
        shown = prints_as(character)
        if not shown:
            continue
        if unicodedata.category(shown) == "Mn" and (
            not found or unicodedata.category(found[-1]) in ("Mn", "Zs", "So")
        ):
            continue
        found.append(shown)
    line = _BOXES.sub(NO_GLYPH, "".join(found))
    return re.sub(" +", " ", line).strip(" ")


def fold(text: str, face: str, size: float, width: float, most: int | None = None) -> Folded:
    """Fold ready text at its spaces; a word wider than a line breaks anywhere.

    Beyond `most` lines the last one ends in an ellipsis.
    """
    lines: list[str] = []
    line, broken = "", False
    for piece, is_rest in _all_pieces(text, face, size, width):
        broken = broken or is_rest
        longer = f"{line} {piece}" if line and not is_rest else piece
        if line and (is_rest or text_width(longer, face, size) > width):
            lines.append(line.removesuffix(SEPARATOR))
            line = "" if piece == SEPARATOR.strip() else piece
        else:
            line = longer
        if most is not None and len(lines) > most:
            break
    lines = [*lines, line] if line else lines
    if most is None or len(lines) <= most:
        return Folded(_whole_isolates(lines), broken=broken)
    last = clipped(" ".join(lines[most - 1 : most + 1]), face, size, width, always=True)
    return Folded(_whole_isolates([*lines[: most - 1], last]), shortened=True, broken=broken)


def clipped(text: str, face: str, size: float, width: float, *, always: bool = False) -> str:
    """Return as much of a line as fits, an ellipsis at its end where something is left off.

    It ends after a whole word where that leaves off little.
    """
    if not always and text_width(text, face, size) <= width:
        return text
    room = width - text_width(ELLIPSIS, face, size)
    kept, used = 0, 0.0
    for character in text:
        used += text_width(character, face, size)
        if used > room:
            break
        kept += 1
    return cut_to(text, kept)


def cut_to(text: str, kept: int) -> str:
    """Return at most `kept` characters of a text and an ellipsis, whole words where it can."""
    whole = kept if kept >= len(text) else text.rfind(" ", 0, kept + 1)
    return text[: whole if whole >= WHOLE_WORD * kept else kept].rstrip() + ELLIPSIS


def _all_pieces(text: str, face: str, size: float, width: float) -> Iterator[tuple[str, bool]]:
    """Give each word, in pieces where it is wider than a line; True for what is not its first."""
    for word in text.split(" "):
        start, used = 0, 0.0
        for n, character in enumerate(word):
            wide = text_width(character, face, size)
            if n > start and used + wide > width:
                yield word[start:n], start > 0
                start, used = n, 0.0
            used += wide
        yield word[start:], start > 0


def _whole_isolates(lines: list[str]) -> tuple[str, ...]:
    """Return lines in which a name that is folded stays set apart on each of its lines."""
    found, is_open = [], False
    for line in lines:
        whole = (ISOLATE if is_open else "") + line
        is_open = whole.rfind(ISOLATE) > whole.rfind(END)
        found.append(whole + (END if is_open else ""))
    return tuple(found)
