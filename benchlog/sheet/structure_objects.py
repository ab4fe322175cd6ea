"""The structure of a document as objects of the file (ISO 32000-1, 14.7)."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.pdfbase import pdfdoc

from benchlog.sheet.structure import Element, Linked, Piece, Structure

ON_A_PAGE = ("StructParents", "Tabs")
"""Entries of a page that ReportLab leaves out."""


class _Raw(pdfdoc.PDFObject):  # type: ignore[misc]  # ReportLab carries no types
    """An object that is written when all others have their numbers."""

    __RefOnly__ = 1

    def number(self, document: pdfdoc.PDFDocument) -> str:
        """Return the reference to this object."""
        return _reference(document, self.__InternalName__)


class _Written(_Raw):
    """One element."""

    def __init__(self, element: Element, parent: _Raw, written: dict[int, _Raw]) -> None:
        self._element = element
        self._parent = parent
        self._written = written

    def format(self, document: pdfdoc.PDFDocument) -> bytes:
        """Return the element's dictionary."""
        element = self._element
        page = next((kid.page for kid in element.kids if not isinstance(kid, Element)), 0)
        entries = [f"/Type/StructElem/S/{element.kind}/P {self._parent.number(document)}"]
        if page:
            entries.append(f"/Pg {_page(document, page)}")
        kids = [self._kid(kid, page, document) for kid in element.kids]
        if kids:
            entries.append(f"/K {kids[0]}" if len(kids) == 1 else f"/K[{' '.join(kids)}]")
        if element.alt:
            told = pdfdoc.PDFString(element.alt).format(document)
            entries.append(f"/Alt {told.decode('latin-1')}")
        attributes = _attributes(element)
        if attributes:
            entries.append(f"/A{attributes}")
        return f"<<{''.join(entries)}>>".encode("latin-1")

    def _kid(self, kid: Element | Piece | Linked, page: int, document: pdfdoc.PDFDocument) -> str:
        if isinstance(kid, Element):
            return self._written[id(kid)].number(document)
        own = "" if kid.page == page else f"/Pg {_page(document, kid.page)}"
        if isinstance(kid, Piece):
            return f"<</Type/MCR{own}/MCID {kid.number}>>" if own else str(kid.number)
        name = document.annotationName(kid.annotation)
        return f"<</Type/OBJR{own}/Obj {_reference(document, name)}>>"


class _Root(_Raw):
    """The root of the tree, with what finds an element from its page."""

    def __init__(self, structure: Structure) -> None:
        self._structure = structure
        self.written: dict[int, _Raw] = {}

    def format(self, document: pdfdoc.PDFDocument) -> bytes:
        """Return the root's dictionary."""
        structure = self._structure
        pages = len(document.Pages.pages)
        numbers = []
        for key in range(pages):
            owners = structure.owners.get(key + 1, [])
            found = " ".join(self.written[id(owner)].number(document) for owner in owners)
            numbers.append(f"{key}[{found}]")
        for key, (_, element) in enumerate(structure.links, pages):
            numbers.append(f"{key} {self.written[id(element)].number(document)}")
        top = self.written[id(structure.root)].number(document)
        return (
            f"<</Type/StructTreeRoot/K {top}/ParentTree<</Nums[{' '.join(numbers)}]>>"
            f"/ParentTreeNextKey {len(numbers)}>>"
        ).encode("latin-1")


def add_structure(document: pdfdoc.PDFDocument, structure: Structure) -> None:
    """Add the tree to a document whose pages are all drawn."""
    root = _Root(structure)
    document.Reference(root, "structure")
    for number, (element, parent) in enumerate(_walk(structure.root, None)):
        above = root if parent is None else root.written[id(parent)]
        written = _Written(element, above, root.written)
        document.Reference(written, f"said{number}")
        root.written[id(element)] = written
    pages = len(document.Pages.pages)
    for key, (annotation, _) in enumerate(structure.links, pages):
        document.idToObject[document.annotationName(annotation)].dict["StructParent"] = key
    document.Catalog.StructTreeRoot = root
    document.Catalog.MarkInfo = pdfdoc.PDFDictionary({"Marked": "true"})


def _walk(element: Element, parent: Element | None) -> Iterator[tuple[Element, Element | None]]:
    yield element, parent
    for kid in element.kids:
        if isinstance(kid, Element):
            yield from _walk(kid, element)


def _attributes(element: Element) -> str:
    """Return a cell's or a figure's attributes (ISO 32000-1, 14.8.5); "" for none."""
    if element.box is not None:
        box = " ".join(f"{side:.2f}" for side in element.box)
        return f"<</O/Layout/BBox[{box}]>>"
    said = f"/Scope/{element.scope}" if element.scope else ""
    said += f"/ColSpan {element.columns}" if element.columns > 1 else ""
    said += f"/RowSpan {element.rows}" if element.rows > 1 else ""
    return f"<</O/Table{said}>>" if said else ""


def _reference(document: pdfdoc.PDFDocument, name: str) -> str:
    number, generation = document.idToObjectNumberAndVersion[name]
    return f"{number} {generation} R"


def _page(document: pdfdoc.PDFDocument, number: int) -> str:
    return _reference(document, f"Page{number}")
