"""Whether each font is in the file as ISO 19005-2, 6.2.11 wants it; clauses from memory."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from io import BytesIO

import pikepdf
from fontTools.ttLib import TTFont
from pikepdf import Name

from tests.sheet.tagged_reader import SHOWING, character_map

SYMBOLIC = 4


def font_faults(pdf: pikepdf.Pdf) -> Iterator[str]:
    """Yield what is wrong with a font that is used on some page."""
    for name, (font, codes) in _used(pdf).items():
        if "/ToUnicode" not in font:
            yield f"6.2.11.7.2: {name} does not lead back to text"
            continue
        yield from _of_map(name, font, codes)
        descriptor = font.get("/FontDescriptor", {})
        if font.Subtype != Name.TrueType or "/FontFile2" not in descriptor:
            yield f"6.2.11.4.1: {name} is not embedded"
            continue
        if not int(descriptor.Flags) & SYMBOLIC or "/Encoding" in font:
            yield f"6.2.11.6: {name} is symbolic and has an encoding, or is neither"
        yield from _of_program(name, font, codes)


def _used(pdf: pikepdf.Pdf) -> dict[str, tuple[pikepdf.Object, set[int]]]:
    """Return each font with the codes that are shown of it, forms included."""
    fonts: dict[str, pikepdf.Object] = {}
    codes: dict[str, set[int]] = defaultdict(set)
    forms = [one for one in pdf.objects
             if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == Name.Form]  # fmt: skip
    for place in [*(page.obj for page in pdf.pages), *forms]:
        now = ""
        for operands, operator in pikepdf.parse_content_stream(place):
            if str(operator) == "Tf":
                now = str(operands[0])
                fonts[now] = place.Resources.Font[now]
            elif str(operator) in SHOWING:
                shown = operands[0]
                pieces = shown if isinstance(shown, pikepdf.Array) else [shown]
                for piece in pieces:
                    if isinstance(piece, pikepdf.String):
                        codes[now].update(bytes(piece))
    return {name: (font, codes[name]) for name, font in fonts.items()}


def _of_map(name: str, font: pikepdf.Object, codes: set[int]) -> Iterator[str]:
    stream = bytes(font.ToUnicode.read_bytes())
    to_text = character_map(stream)
    if {"\0", "\ufeff", "\ufffe"} & set(to_text.values()):
        yield f"6.2.11.7.2: {name} leads to what is no character"
    if any("\ue000" <= to_text[code] <= "\uf8ff" for code in codes & to_text.keys()):
        yield f"6.2.11.7.3: {name} shows a character of private use"
    for code in codes - to_text.keys():
        yield f"6.2.11.7.2: {name}: {code} does not lead back to text"
    for count in stream.split(b" beginbfchar")[:-1]:
        if int(count.rsplit(b"\n", 1)[-1]) > 100:
            yield f"{name}: a block of more than 100 pairs"


def _of_program(name: str, font: pikepdf.Object, codes: set[int]) -> Iterator[str]:
    program = TTFont(BytesIO(font.FontDescriptor.FontFile2.read_bytes()), lazy=True)
    tables = program["cmap"].tables
    if len(tables) != 1:
        yield f"6.2.11.6: {name} has {len(tables)} character maps"
    glyphs, widths = tables[0].cmap, program["hmtx"]
    scale = 1000 / program["head"].unitsPerEm
    first = int(font.FirstChar)
    for code in sorted(codes):
        glyph = glyphs.get(code, ".notdef")
        if glyph == ".notdef" or program.getGlyphID(glyph) == 0:
            yield f"6.2.11.8: {name} shows {code}, which has no glyph"
            continue
        told = float(font.Widths[code - first])
        if abs(told - widths[glyph][0] * scale) > 1:
            yield f"6.2.11.5: {name}: {code} is {told} wide, and not as its glyph"
