"""The structure of a document as objects of the file (ISO 32000-1, 14.7).

There are thousands, so they are written by themselves, behind what ReportLab has written, as an
update of the file (ISO 32000-1, 7.5.6).
"""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.pdfbase import pdfdoc

from benchlog.sheet.structure import Element, Linked, Piece, Structure

ON_A_PAGE = ("StructParents", "Tabs")
"""Entries of a page that ReportLab leaves out."""

ROOT = "structure"
"""Name of the tree's root among ReportLab's objects."""


def announce_structure(document: pdfdoc.PDFDocument, structure: Structure) -> None:
    """Make room for the tree in a document whose pages are all drawn."""
    room = pdfdoc.PDFDictionary({})
    document.Reference(room, ROOT)
    document.Catalog.StructTreeRoot = room
    document.Catalog.MarkInfo = pdfdoc.PDFDictionary({"Marked": "true"})
    pages = len(document.Pages.pages)
    for key, (annotation, _) in enumerate(structure.links, pages):
        document.idToObject[document.annotationName(annotation)].dict["StructParent"] = key


def with_structure(data: bytes, document: pdfdoc.PDFDocument, structure: Structure) -> bytes:
    """Return a written document with the tree that was announced behind it."""
    first = document.objectcounter + 1
    elements = list(_walk(structure.root))
    tree = _Tree(document, {id(element): first + n for n, element in enumerate(elements)})
    objects = [tree.element(element) for element in elements]
    root = document.idToObjectNumberAndVersion[ROOT][0]
    written = [data, b"\n"]
    at = len(data) + 1
    places = []
    for number, said in [(root, tree.root(structure)), *enumerate(objects, first)]:
        line = f"{number} 0 obj\n{said}\nendobj\n".encode("latin-1")
        places.append(at)
        at += len(line)
        written.append(line)
    entries = [f"{place:010d} 00000 n \n" for place in places]
    before = int(data.rpartition(b"startxref\n")[2].split()[0])
    catalog = document.idToObjectNumberAndVersion[document.Catalog.__InternalName__][0]
    information = document.idToObjectNumberAndVersion[document.info.__InternalName__][0]
    end = [
        f"xref\n{root} 1\n{entries[0]}{first} {len(objects)}\n{''.join(entries[1:])}",
        f"trailer\n<</Size {first + len(objects)}/Root {catalog} 0 R/Info {information} 0 R",
        f"/Prev {before}>>\nstartxref\n{at}\n%%EOF\n",
    ]
    return b"".join([*written, "".join(end).encode("latin-1")])


def _walk(element: Element) -> Iterator[Element]:
    yield element
    for kid in element.kids:
        if isinstance(kid, Element):
            yield from _walk(kid)


class _Tree:
    """Writes elements that know one another by their numbers."""

    def __init__(self, document: pdfdoc.PDFDocument, numbers: dict[int, int]) -> None:
        self._document = document
        self._numbers = numbers
        self._pages = [0] + [
            document.idToObjectNumberAndVersion[f"Page{page}"][0]
            for page in range(1, len(document.Pages.pages) + 1)
        ]

    def root(self, structure: Structure) -> str:
        """Return the root's dictionary, with what finds an element from its page."""
        pages = len(self._pages) - 1
        numbers = [
            f"{key}[{' '.join(map(self._of, structure.owners.get(key + 1, [])))}]"
            for key in range(pages)
        ]
        numbers += [f"{key} {self._of(e)}" for key, (_, e) in enumerate(structure.links, pages)]
        return (
            f"<</Type/StructTreeRoot/K {self._of(structure.root)}"
            f"/ParentTree<</Nums[{' '.join(numbers)}]>>/ParentTreeNextKey {len(numbers)}>>"
        )

    def element(self, element: Element) -> str:
        """Return an element's dictionary."""
        above = self._above if element.parent is None else self._of(element.parent)
        page = next((kid.page for kid in element.kids if not isinstance(kid, Element)), 0)
        kids = [self._kid(kid, page) for kid in element.kids]
        said = f"<</Type/StructElem/S/{element.kind}/P {above}"
        if page:
            said += f"/Pg {self._pages[page]} 0 R"
        if kids:
            said += f"/K {kids[0]}" if len(kids) == 1 else f"/K[{' '.join(kids)}]"
        if element.alt:
            said += f"/Alt {pdfdoc.PDFString(element.alt).format(self._document).decode('latin-1')}"
        return f"{said}{_attributes(element)}>>"

    @property
    def _above(self) -> str:
        return f"{self._document.idToObjectNumberAndVersion[ROOT][0]} 0 R"

    def _of(self, element: Element) -> str:
        return f"{self._numbers[id(element)]} 0 R"

    def _kid(self, kid: Element | Piece | Linked, page: int) -> str:
        if isinstance(kid, Element):
            return self._of(kid)
        own = "" if kid.page == page else f"/Pg {self._pages[kid.page]} 0 R"
        if isinstance(kid, Piece):
            return f"<</Type/MCR{own}/MCID {kid.number}>>" if own else str(kid.number)
        name = self._document.annotationName(kid.annotation)
        number = self._document.idToObjectNumberAndVersion[name][0]
        return f"<</Type/OBJR{own}/Obj {number} 0 R>>"


def _attributes(element: Element) -> str:
    """Return a cell's or a figure's attributes (ISO 32000-1, 14.8.5); "" for none."""
    if element.box is not None:
        box = " ".join(f"{side:.2f}" for side in element.box)
        return f"/A<</O/Layout/BBox[{box}]>>"
    said = f"/Scope/{element.scope}" if element.scope else ""
    said += f"/ColSpan {element.columns}" if element.columns > 1 else ""
    said += f"/RowSpan {element.rows}" if element.rows > 1 else ""
    return f"/A<</O/Table{said}>>" if said else ""
