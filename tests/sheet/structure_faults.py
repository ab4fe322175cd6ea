"""What is wrong with the structure of a PDF, by ISO 14289-1 (PDF/UA-1); clauses from memory."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pikepdf
from pikepdf import Name

from tests.sheet.tagged_reader import Node, PageMarks, marks_of, tree_of

INSIDE = {
    "L": {"LI"},
    "LI": {"Lbl", "LBody"},
    "Table": {"TR"},
    "TR": {"TH", "TD"},
}
"""What may stand directly in these (ISO 32000-1, 14.8.4)."""

ONLY_IN = {"LI": "L", "Lbl": "LI", "LBody": "LI", "TR": "Table", "TH": "TR", "TD": "TR"}


def structure_faults(path: Path) -> list[str]:
    """Return every fault with the clause that it breaks."""
    with pikepdf.open(path) as pdf:
        tree = tree_of(pdf)
        marks = [marks_of(page) for page in pdf.pages]
        return [
            *_of_document(pdf),
            *_of_content(marks),
            *_of_tree(pdf, tree, marks),
            *_of_kinds(tree),
            *_of_headings(tree),
            *_of_tables(tree),
            *_of_figures(tree),
            *_of_links(pdf, tree),
        ]


def _of_document(pdf: pikepdf.Pdf) -> Iterator[str]:
    root = pdf.Root
    if not root.get("/MarkInfo", {}).get("/Marked") or root.MarkInfo.get("/Suspects"):
        yield "7.1: not said to be tagged"
    if not root.get("/ViewerPreferences", {}).get("/DisplayDocTitle"):
        yield "7.1: the title is not shown"
    if not str(pdf.docinfo.get("/Title", "")):
        yield "7.1: no title"
    if not str(root.get("/Lang", "")):
        yield "7.2: no language"
    if pdf.is_encrypted:
        yield "7.16: encrypted"
    for number, page in enumerate(pdf.pages):
        if page.obj.get("/Tabs") != Name.S:
            yield f"7.18.3: page {number + 1} is not gone through in the order of its structure"


def _of_content(marks: list[PageMarks]) -> Iterator[str]:
    for number, page in enumerate(marks, 1):
        for fault in page.faults:
            yield f"7.1: page {number}: {fault}"
        counts = Counter(mark.number for mark in page.marks if mark.number is not None)
        for mcid, count in counts.items():
            if count > 1:
                yield f"ISO 32000-1, 14.7.4.2: page {number} has the number {mcid} {count} times"
        for mark in page.marks:
            if mark.number is None and mark.tag != "/Artifact":
                yield f"7.1: page {number}: content marked {mark.tag} without a number"
            if mark.number is None and mark.text.strip() and "/Type" not in mark.properties:
                yield f"7.1: page {number}: words are passed over: {mark.text}"


def _of_tree(pdf: pikepdf.Pdf, tree: Node, marks: list[PageMarks]) -> Iterator[str]:
    numbered = [page.numbered() for page in marks]
    held: Counter[tuple[int, int]] = Counter()
    owner: dict[tuple[int, int], pikepdf.Object] = {}
    for node in tree.walk():
        for kid in node.kids:
            if isinstance(kid, tuple):
                held[kid] += 1
                owner[kid] = node.raw
                if numbered[kid[0]][kid[1]].tag != f"/{node.kind}":
                    yield f"14.7.4: {kid} is marked otherwise than {node.kind}"
    there = {(n, mcid) for n, page in enumerate(numbered) for mcid in page}
    for place in there ^ held.keys():
        yield f"7.1: content {place} is not once in the tree"
    for place, count in held.items():
        if count != 1:
            yield f"7.1: content {place} is {count} times in the tree"
    numbers = pikepdf.NumberTree(pdf.Root.StructTreeRoot.ParentTree)
    parents = [numbers[int(page.obj.StructParents)] for page in pdf.pages]
    for place, raw in owner.items():
        if parents[place[0]][place[1]].objgen != raw.objgen:
            yield f"ISO 32000-1, 14.7.4.4: {place} leads to another element than holds it"


def _of_kinds(tree: Node) -> Iterator[str]:
    for node in tree.walk():
        for child in node.children():
            if child.raw.P.objgen != node.raw.objgen:
                yield f"ISO 32000-1, 14.7.2: {child.kind} says that another is above it"
            if node.kind in INSIDE and child.kind not in INSIDE[node.kind]:
                yield f"7.5, 7.6: {child.kind} stands in {node.kind}"
            if child.kind in ONLY_IN and node.kind != ONLY_IN[child.kind]:
                yield f"7.5, 7.6: {child.kind} stands in {node.kind}"
        if not node.kids and node.kind not in ("TD", "TH", "TR"):
            yield f"an empty {node.kind}"


def _of_headings(tree: Node) -> Iterator[str]:
    levels = [int(node.kind[1]) for node in tree.walk() if node.kind in ("H1", "H2", "H3")]
    for before, after in pairwise([0, *levels]):
        if after > before + 1:
            yield f"7.4.2: a heading of level {after} follows one of level {before}"
    if levels.count(1) != 1:
        yield f"{levels.count(1)} titles"


def _of_tables(tree: Node) -> Iterator[str]:
    for table in (node for node in tree.walk() if node.kind == "Table"):
        taken: dict[tuple[int, int], int] = {}
        for r, row in enumerate(table.children()):
            c = 0
            for cell in row.children():
                while (r, c) in taken:
                    c += 1
                wide = int(cell.attributes.get("/ColSpan", 1))
                high = int(cell.attributes.get("/RowSpan", 1))
                for place in ((r + i, c + j) for i in range(high) for j in range(wide)):
                    taken[place] = taken.get(place, 0) + 1
                if cell.kind == "TH" and "/Scope" not in cell.attributes:
                    yield "7.5: a head cell does not say what it heads"
        rows = len(table.children())
        columns = max((c for _, c in taken), default=-1) + 1
        if len(taken) != rows * columns or set(taken.values()) - {1}:
            yield f"7.5: a table of {rows} rows and {columns} columns has {len(taken)} places"
        if not any(cell.kind == "TH" for row in table.children() for cell in row.children()):
            yield "7.5: a table without a head"


def _of_figures(tree: Node) -> Iterator[str]:
    for node in tree.walk():
        if node.kind == "Figure":
            if not node.alt.strip():
                yield "7.3: a figure without words"
            if len(node.attributes.get("/BBox", ())) != 4:
                yield "ISO 32000-1, 14.8.5.4.3: a figure without its place"


def _of_links(pdf: pikepdf.Pdf, tree: Node) -> Iterator[str]:
    held = {
        kid.objgen: node
        for node in tree.walk()
        for kid in node.kids
        if isinstance(kid, pikepdf.Object)
    }
    numbers = pikepdf.NumberTree(pdf.Root.StructTreeRoot.ParentTree)
    for number, page in enumerate(pdf.pages, 1):
        for annotation in page.obj.get("/Annots", ()):
            node = held.get(annotation.objgen)
            if node is None or node.kind != "Link":
                yield f"7.18.5: page {number}: a link is not in the tree"
            elif numbers[int(annotation.StructParent)].objgen != node.raw.objgen:
                yield f"7.18.1: page {number}: a link leads to another element"
            if not str(annotation.get("/Contents", "")):
                yield f"7.18.5: page {number}: a link without words"
