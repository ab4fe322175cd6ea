"""The sheet's page, type and colours, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics

from benchlog.sheet.paragraph import Face
from benchlog.trade.resource_file import resources_folder

FACE = "SheetText"
BOLD = "SheetBold"
FONT_FILES = {FACE: "DejaVuSansCondensed.ttf", BOLD: "DejaVuSansCondensed-Bold.ttf"}

INK = HexColor("#1b2228")
MUTED = HexColor("#525c65")
ACCENT = HexColor("#0c5a66")
HAIRLINE = HexColor("#c9cfd4")
BAND = HexColor("#eef1f3")
TIE_GREY = HexColor("#d4d9dd")
WHITE = HexColor("#ffffff")

SMALL = 9.0
"""The least size on the sheet; nothing is printed smaller."""

BODY = 9.5
READING = 10.5
"""Size of running text."""


@dataclass(frozen=True)
class Page:
    """One paper size with its margins, in points."""

    width: float
    height: float
    side: float = 45.0
    top: float = 53.0
    bottom: float = 53.0

    @property
    def content(self) -> float:
        """Width between the side margins."""
        return self.width - 2 * self.side


PAPERS = {"A4": Page(*A4), "Letter": Page(*LETTER)}


def use_fonts() -> None:
    """Make the sheet's two faces known to ReportLab; safe to call again."""
    for face, name in FONT_FILES.items():
        if face not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(Face(face, str(resources_folder() / "fonts" / name)))
    pdfmetrics.registerFontFamily(FACE, normal=FACE, bold=BOLD, italic=FACE, boldItalic=BOLD)


def _style(name: str, size: float, leading: float, **more: object) -> ParagraphStyle:
    settings: dict[str, object] = {
        "fontName": FACE,
        "bulletFontName": FACE,
        "bulletFontSize": SMALL,
        "textColor": INK,
        "splitLongWords": 1,
        "allowWidows": 0,
        "allowOrphans": 0,
    }
    return ParagraphStyle(name, fontSize=size, leading=leading, **{**settings, **more})


GUTTER = 84.0

STYLES = {
    style.name: style
    for style in (
        _style("body", READING, 14, spaceAfter=4),
        _style("muted", SMALL, 11.5, textColor=MUTED),
        _style("note", SMALL, 11.5, textColor=MUTED, spaceAfter=4),
        _style("section", 16, 19, fontName=BOLD, spaceAfter=4),
        _style("lead", READING, 13.5, textColor=MUTED, spaceAfter=4),
        _style("part", 12, 15, fontName=BOLD, spaceBefore=4, spaceAfter=4),
        _style("label", BODY, 11.5, fontName=BOLD),
        _style("cell", BODY, 11.5),
        _style("cell_small", SMALL, 10.8),
        _style("run", BODY, 12.5, spaceAfter=4),
        _style("cell_state", BODY, 11.5, textColor=MUTED),
        _style("cell_muted", SMALL, 11, textColor=MUTED),
        _style("number", BODY, 12, alignment=TA_RIGHT),
        _style("gutter_head", SMALL, 11.5, fontName=BOLD, textColor=MUTED),
        _style("head", SMALL, 11, fontName=BOLD, textColor=MUTED),
        _style(
            "gutter",
            READING,
            13,
            leftIndent=GUTTER,
            bulletIndent=0,
            bulletFontName=BOLD,
            bulletColor=MUTED,
            spaceAfter=3,
        ),
        _style(
            "gutter_cell",
            BODY,
            12,
            leftIndent=GUTTER,
            bulletIndent=0,
            bulletFontName=BOLD,
            bulletColor=MUTED,
            spaceAfter=2,
        ),
    )
}
