"""What the pages say besides how they look: headings, paragraphs, lists, tables, figures, in order.

A reader program speaks this tree and never looks at the page. The kinds are the standard structure
types of ISO 32000-1, 14.8.4; the tree knows nothing of how it is written into a file.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

Box: TypeAlias = tuple[float, float, float, float]

HOLDS_TEXT = frozenset(("P", "H1", "H2", "H3", "Lbl", "LBody", "Caption", "Link"))
"""Kinds whose text stands in themselves; in any other it stands in a paragraph of its own."""

MAY_BE_EMPTY = frozenset(("Document", "TR", "TH", "TD"))
"""Kinds that stay without anything in them: a table keeps its shape."""


@dataclass(frozen=True)
class Piece:
    """Marked content: the number that it has on its page; pages count from 1."""

    page: int
    number: int


@dataclass(frozen=True)
class Linked:
    """A link's place on a page: the name that its annotation has in the document."""

    page: int
    annotation: str


@dataclass(eq=False)
class Element:
    """One part of what a page says.

    `alt` tells a figure in words, `box` is its place in points; `scope`, `columns` and `rows` are a
    cell's: what it heads, and how far it spans. A `plain` cell holds text without a paragraph.
    """

    kind: str
    parent: Element | None = None
    alt: str = ""
    scope: str = ""
    columns: int = 1
    rows: int = 1
    box: Box | None = None
    plain: bool = False
    kids: list[Element | Piece | Linked] = field(default_factory=list)

    @property
    def holds_text(self) -> bool:
        """Whether text goes into it as it is."""
        return self.plain or self.kind in HOLDS_TEXT


class Structure:
    """The tree of one document, and what stands open in it while pages are drawn."""

    def __init__(self) -> None:
        self.root = Element("Document")
        self.owners: dict[int, list[Element]] = {}
        """Whose each piece of marked content is, page by page, by its number."""
        self.links: list[tuple[str, Element]] = []
        """Every link's annotation, with its element."""
        self._open = [self.root]
        self._waiting: list[Element] = []
        self._silent = 0

    @property
    def here(self) -> Element:
        """The innermost element that is open."""
        return self._open[-1]

    @property
    def silent(self) -> bool:
        """Whether what is drawn now says nothing of its own: inside a figure or a decoration."""
        return self._silent > 0

    def hush(self) -> None:
        """Let what is drawn say nothing of its own, until `speak`."""
        self._silent += 1

    def speak(self) -> None:
        """Take one `hush` back."""
        self._silent -= 1

    def begin(self, element: Element) -> Element:
        """Open a new element inside the innermost one."""
        element.parent = self.here
        self.here.kids.append(element)
        self._open.append(element)
        return element

    def resume(self, element: Element) -> None:
        """Open an element that was closed before: the rest of a table on its next page."""
        self._open.append(element)

    def end(self) -> None:
        """Close the innermost element; one that came to hold nothing is taken out."""
        element = self._open.pop()
        parent = element.parent
        if not element.kids and element.kind not in MAY_BE_EMPTY and parent is not None:
            parent.kids = [kid for kid in parent.kids if kid is not element]

    def section(self) -> None:
        """Begin a section of the document, which ends where the next begins."""
        if self.here.kind == "Sect":
            self.end()
        if self.here is self.root:
            self.begin(Element("Sect"))

    def text_into(self, first: Element | None) -> None:
        """Send the next run of text into `first`, and what comes after it where it would go."""
        self._waiting = [] if first is None else [first]

    def for_text(self) -> Element:
        """Return the element that the next run of text belongs to, made where there is none."""
        if self._waiting:
            return self._waiting.pop()
        if self.here.holds_text:
            return self.here
        element = Element("P", self.here)
        self.here.kids.append(element)
        return element

    def piece(self, element: Element, page: int) -> Piece:
        """Return the next piece of marked content on a page, which belongs to `element`."""
        owners = self.owners.setdefault(page, [])
        piece = Piece(page, len(owners))
        owners.append(element)
        element.kids.append(piece)
        return piece

    def link(self, annotation: str, page: int) -> None:
        """Put a link's annotation into the tree: into the link that is open, or else here."""
        element = self.here
        if element.kind != "Link":
            element = Element("Link", self.here)
            self.here.kids.append(element)
        element.kids.append(Linked(page, annotation))
        self.links.append((annotation, element))
