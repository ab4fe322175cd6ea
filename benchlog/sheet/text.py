"""Text made safe to print: glyphs the faces lack, markup, and lines that must fit a width."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from functools import lru_cache
from xml.sax.saxutils import escape

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.paragraph import Text
from benchlog.sheet.tags import paragraph
from benchlog.sheet.typography import FACE, INK, SMALL, STYLES

NO_GLYPH = "\u25a1"
ELLIPSIS = "\u2026"


@lru_cache(maxsize=4096)
def _printable(character: str) -> str:
    """Return what stands for one character on the sheet; "" for what prints nothing."""
    if character in "\n\u00a0":
        return character
    category = unicodedata.category(character)
    if category in ("Cc", "Zl", "Zp", "Zs"):
        return " "
    if category == "Cf" or 0xFE00 <= ord(character) <= 0xFE0F:
        return ""
    glyphs = pdfmetrics.getFont(FACE).face.charToGlyph
    # A character of private use has no meaning that a reader program could tell.
    return character if category not in ("Cs", "Co") and ord(character) in glyphs else NO_GLYPH


def clean(text: str) -> str:
    """Return `text` with only characters that the sheet's faces can print.

    A character without a glyph becomes an empty box, so that nothing vanishes unseen.
    """
    return "".join(map(_printable, unicodedata.normalize("NFC", text))).strip()


def one_line(text: str) -> str:
    """Return `text` cleaned and with its line breaks turned into spaces."""
    return " ".join(clean(text).split(" ")).replace("\n", " ")


def shortened(text: str, most: int) -> str:
    """Return `text` with at most `most` characters, an ellipsis standing for the rest."""
    return text if len(text) <= most else text[: most - 1].rstrip() + ELLIPSIS


def markup(text: str) -> str:
    """Return cleaned `text` as paragraph markup, line breaks kept."""
    return escape(clean(text)).replace("\n", "<br/>")


def para(text: str, style: str = "body", label: str | None = None) -> Text:
    """Return a paragraph of plain text; `label` stands in the gutter of style "gutter"."""
    bullet = None if label is None else escape(clean(label))
    return Text(markup(text), STYLES[style], bulletText=bullet)


def width_of(text: str, font: str = FACE, size: float = SMALL) -> float:
    """Return the width of one line of text in points."""
    return float(pdfmetrics.stringWidth(text, font, size))


def _clip(text: str, font: str, size: float, width: float) -> str:
    """Return as much of `text` as fits `width`, ended by an ellipsis when some is left off."""
    if width_of(text, font, size) <= width:
        return text
    keep = bisect_right(
        range(len(text)), width, key=lambda n: width_of(text[:n] + ELLIPSIS, font, size)
    )
    return text[: max(0, keep - 1)].rstrip() + ELLIPSIS


def _break_word(word: str, font: str, size: float, width: float) -> list[str]:
    """Break a word that is wider than a line into pieces that are not."""
    pieces, piece = [], ""
    for character in word:
        if piece and width_of(piece + character, font, size) > width:
            pieces.append(piece)
            piece = ""
        piece += character
    return [*pieces, piece] if piece else pieces


def lines_in(text: str, font: str, size: float, width: float, most: int) -> list[str]:
    """Break `text` into at most `most` lines of `width` points; what is left off shows as …."""
    # No letter of the faces is narrower than a fifth of its size; what cannot fit at all is not
    # worth measuring.
    text = one_line(text)[: int(most * width / (size / 5)) + most]
    lines, line = [], ""
    words = [p for word in text.split() for p in _break_word(word, font, size, width)]
    for word in words:
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, font, size) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    lines = [*lines, line] if line else lines
    if len(lines) > most:
        lines = [*lines[: most - 1], _clip(" ".join(lines[most - 1 :]), font, size, width)]
    return lines


def draw_lines(
    canvas: Canvas,
    lines: list[str],
    x: float,
    y: float,
    *,
    font: str = FACE,
    size: float = SMALL,
    leading: float = 11.0,
    colour: object = INK,
    kind: str = "P",
) -> float:
    """Draw lines downwards, the first with its baseline at `y`; return the next baseline.

    To a reader program they are one paragraph, or part of what is open there; `kind` may make it
    a heading, "H1" for a title.
    """
    canvas.setFillColor(colour)
    canvas.setFont(font, size)
    with paragraph(canvas, kind):
        for line in lines:
            canvas.drawString(x, y, line)
            y -= leading
    return y


def draw_fitted(
    canvas: Canvas,
    text: str,
    x: float,
    y: float,
    width: float,
    *,
    font: str = FACE,
    size: float = SMALL,
    colour: object = INK,
) -> None:
    """Draw one line that never runs beyond `width`."""
    line = lines_in(text, font, size, width, 1)
    draw_lines(canvas, line, x, y, font=font, size=size, colour=colour)
