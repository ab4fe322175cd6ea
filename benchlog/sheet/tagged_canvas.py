"""A canvas whose pages say what they hold: every run of text and every figure is marked content.

Text goes to the structure's innermost element, or becomes a paragraph there; what is painted
outside any mark is decoration (an Artifact, ISO 32000-1, 14.8.2.2).
"""

from __future__ import annotations

import re
from datetime import datetime
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

from benchlog.sheet.archive_parts import add_archive_parts
from benchlog.sheet.finished_pdf import finished
from benchlog.sheet.structure import Box, Element, Structure
from benchlog.sheet.structure_objects import ON_A_PAGE, announce_structure, with_structure

VERSION = (1, 7)
"""The version of PDF that ISO 19005-2 and ISO 14289-1 build on."""

SETTING = frozenset(
    "cm w J j M d i ri gs rg RG g G k K cs CS sc SC scn SCN".split()  # noqa: SIM905 - operators
)
"""Operators that set something and paint nothing (ISO 32000-1, annex A)."""

ARTIFACTS = {
    "": "BMC",
    "Head": "<</Type/Pagination>> BDC",
    "Header": "<</Type/Pagination/Subtype/Header>> BDC",
    "Footer": "<</Type/Pagination/Subtype/Footer>> BDC",
}
"""Sorts of decoration: none said, a table's head again, what stands on every page."""

APART = ("q", "Q")
"""Saved states, which no mark of a decoration may cross."""


_LINE_END = re.compile(r"(?<![\\ ])\)( Tj +T\*)")
"""The end of a line: words are told apart by spaces, also from one line to the next (ISO 32000-1,
14.8.2.5). A bracket after a backslash ends nothing."""


class Begin(str):
    """The operator that begins marked content."""

    __slots__ = ()


class End(str):
    """The operator that ends it, with the element whose it was."""

    element: Element | None = None


def with_artifacts(code: list[str]) -> list[str]:
    """Return a page's operators with every painting that stands outside the marks marked too."""
    marked: list[str] = []
    run: list[str] = []
    depth = 0
    for item in code:
        if depth == 0 and type(item) is str and item not in APART:
            run.append(item)
            continue
        if run:
            _flush(run, marked)
        marked.append(item)
        if type(item) is not str:
            depth += 1 if isinstance(item, Begin) else -1
    if run:
        _flush(run, marked)
    return marked


def _flush(run: list[str], marked: list[str]) -> None:
    """Move a run of operators, a mark around what begins and ends with painting."""
    painting = [i for i, item in enumerate(run) if _paints(item)]
    if painting:
        first, after = painting[0], painting[-1] + 1
        marked += [*run[:first], "/Artifact BMC", *run[first:after], "EMC", *run[after:]]
    else:
        marked += run
    run.clear()


def _paints(item: str) -> bool:
    words = item.rsplit(None, 1)
    return bool(words) and words[-1] not in SETTING


def _is_blank(text: str) -> bool:
    return text.count("Tj") == text.count("() Tj") and "TJ" not in text


class TaggedCanvas(Canvas):  # type: ignore[misc]  # ReportLab carries no types
    """Draws as any canvas does, and grows `structure` while it draws."""

    def __init__(self, out: Any, made_at: datetime, **more: Any) -> None:
        self.structure = Structure()
        self._made_at = made_at
        super().__init__(out, pdfVersion=VERSION, **more)

    def on_page(self, box: Box) -> Box:
        """Return a box (left, bottom, right, top) in the page's own axes."""
        left, bottom = self.absolutePosition(box[0], box[1])
        right, top = self.absolutePosition(box[2], box[3])
        return left, bottom, right, top

    def open_mark(self, element: Element | None, sort: str = "") -> None:
        """Begin marked content of an element; without one, of a decoration."""
        if element is None:
            self._code.append(Begin(f"/Artifact {ARTIFACTS[sort]}"))
        else:
            self._code.append(self._beginning(element))
        self.structure.hush()

    def close_mark(self) -> None:
        """End what `open_mark` began."""
        self.structure.speak()
        self._code.append(End("EMC"))

    def _beginning(self, element: Element) -> Begin:
        piece = self.structure.piece(element, self.getPageNumber())
        return Begin(f"/{element.kind} <</MCID {piece.number}>> BDC")

    def drawText(self, aTextObject: PDFTextObject) -> None:  # noqa: N802, N803 - ReportLab's names
        """Draw text as marked content of the element that it stands in."""
        code = str(aTextObject.getCode())
        if self._formData is not None or self.structure.silent:
            self._code.append(code)
            return
        if _is_blank(code):
            self.structure.text_into(None)
            self._code.append(code)
            return
        element = self.structure.for_text()
        lines, end, rest = code.rpartition(") Tj")
        code = _LINE_END.sub(r" )\1", lines) + end + rest
        last = self._code[-1] if self._code else None
        if isinstance(last, End) and last.element is element:
            before = _LINE_END.sub(r" )\1", self._code[-2])
            self._code[-2:] = [before, code, last]
            return
        end = End("EMC")
        end.element = element
        self._code += [self._beginning(element), code, end]

    def linkURL(self, url: str, *args: Any, **more: Any) -> None:  # noqa: N802 - ReportLab's name
        """Draw a link that is told by its address, and is part of what stands open."""
        super().linkURL(url, *args, Contents=pdfdoc.PDFString(f"Link to {url}"), F=4, **more)
        self.structure.link(f"NUMBER{self._annotationCount}", self.getPageNumber())

    def showPage(self) -> None:  # noqa: N802 - ReportLab's name
        """Close the page: what nothing told apart becomes decoration."""
        number = self.getPageNumber()
        self._code[:] = with_artifacts(self._code)
        super().showPage()
        page = self._doc.Pages.pages[-1]
        page.Trans = None
        page.__NoDefault__ = [*page.__NoDefault__, *ON_A_PAGE]
        page.StructParents = number - 1
        page.Tabs = pdfdoc.PDFName("S")

    def save(self) -> None:
        """Write the document, with what it says and with what an archive asks for."""
        if self._code:
            self.showPage()
        announce_structure(self._doc, self.structure)
        add_archive_parts(self._doc, self._made_at)
        data = with_structure(self.getpdfdata(), self._doc, self.structure)
        self._filename.write(finished(data, self._made_at))
