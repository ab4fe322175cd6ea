"""How what is drawn says what it is: helpers for flowables, which do nothing on a plain canvas."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.structure import Box, Element, Structure
from benchlog.sheet.tagged_canvas import TaggedCanvas


class Kept:
    """Remembers the element of something that a page's end may part, so that it stays one."""

    def __init__(self) -> None:
        self._structure: Structure | None = None
        self._element: Element | None = None

    def of(self, structure: Structure) -> Element | None:
        """Return the element that it has in this document already."""
        return self._element if self._structure is structure else None

    def keep(self, structure: Structure, element: Element) -> None:
        """Remember its element in this document."""
        self._structure, self._element = structure, element


def structure_of(canvas: Canvas) -> Structure | None:
    """Return the structure that a drawing adds to; None where it says nothing."""
    if not isinstance(canvas, TaggedCanvas) or canvas.structure.silent:
        return None
    return canvas.structure


def begin_section(canvas: Canvas) -> None:
    """Begin a section of the document here; the one before ends."""
    structure = structure_of(canvas)
    if structure is not None:
        structure.section()


@contextmanager
def inside(canvas: Canvas, kind: str, *, scope: str = "", plain: bool = False) -> Iterator[None]:
    """Let everything drawn meanwhile stand in an element of this kind."""
    structure = structure_of(canvas)
    if structure is None:
        yield
        return
    structure.begin(Element(kind, scope=scope, plain=plain))
    try:
        yield
    finally:
        structure.end()


@contextmanager
def paragraph(canvas: Canvas, kind: str = "P", kept: Kept | None = None) -> Iterator[None]:
    """Let the text drawn meanwhile be one paragraph or heading; in a plain cell, the cell's."""
    structure = structure_of(canvas)
    if structure is None:
        yield
        return
    before = kept.of(structure) if kept else None
    if before is None and kind == "P" and structure.here.holds_text:
        before = structure.here
    if before is None:
        structure.begin(Element(kind))
    else:
        structure.resume(before)
    if kept:
        kept.keep(structure, structure.here)
    try:
        yield
    finally:
        structure.end()


@contextmanager
def list_item(canvas: Canvas, kept: Kept, *, labelled: bool) -> Iterator[None]:
    """Let the text drawn meanwhile be an item; the first run of it is its label, where it has one.

    Items that follow one another make one list.
    """
    structure = structure_of(canvas)
    if structure is None:
        yield
        return
    before = kept.of(structure)
    if before is not None:
        structure.resume(before)
        try:
            yield
        finally:
            structure.end()
        return
    last = structure.here.kids[-1] if structure.here.kids else None
    if isinstance(last, Element) and last.kind == "L":
        structure.resume(last)
    else:
        structure.begin(Element("L"))
    item = structure.begin(Element("LI"))
    label = Element("Lbl", item)
    if labelled:
        item.kids.append(label)
        structure.text_into(label)
    kept.keep(structure, structure.begin(Element("LBody")))
    try:
        yield
    finally:
        structure.text_into(None)
        structure.end()
        item.kids = [kid for kid in item.kids if kid is not label or label.kids]
        structure.end()
        structure.end()


@contextmanager
def figure(canvas: Canvas, told: str, box: Box) -> Iterator[None]:
    """Let everything drawn meanwhile be one figure, told in words; `box` is its place here.

    The drawing must leave as many saved states as it found. Without words it is a decoration.
    """
    structure = structure_of(canvas)
    if structure is None or not isinstance(canvas, TaggedCanvas):
        yield
        return
    if not told:
        with artifact(canvas):
            yield
        return
    element = Element("Figure", structure.here, alt=told, box=canvas.on_page(box))
    structure.here.kids.append(element)
    canvas.open_mark(element)
    try:
        yield
    finally:
        canvas.close_mark()


@contextmanager
def artifact(canvas: Canvas, sort: str = "") -> Iterator[None]:
    """Let everything drawn meanwhile be passed over; `sort` is a page's "Header" or "Footer"."""
    if structure_of(canvas) is None or not isinstance(canvas, TaggedCanvas):
        yield
        return
    canvas.open_mark(None, sort)
    try:
        yield
    finally:
        canvas.close_mark()


@contextmanager
def link(canvas: Canvas, url: str, box: Box) -> Iterator[None]:
    """Let the text drawn meanwhile lead to `url`, from a box (left, bottom, right, top) here.

    What is no address on the web leads nowhere.
    """
    if not url.startswith(("https://", "http://")):
        yield
        return
    with inside(canvas, "Link"):
        yield
        canvas.linkURL(url, box, relative=1)
