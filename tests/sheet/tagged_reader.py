"""Reading back what a PDF says besides how it looks: marked content, and the structure over it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf
from pikepdf import Name

_NAMES = "S s f F f* B B* b b* sh Do BI EI INLINE Tj TJ ' \""
PAINTING = frozenset(_NAMES.split())
"""Operators that put something onto the page (ISO 32000-1, annex A)."""

SHOWING = frozenset(("Tj", "TJ"))


@dataclass
class Mark:
    """One stretch of marked content: its number, or the properties of an artifact."""

    tag: str
    number: int | None
    properties: dict[str, Any]
    text: str = ""
    paints: bool = False


@dataclass
class PageMarks:
    """A page's marks in the order in which they are painted, and what broke the rules."""

    marks: list[Mark] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def numbered(self) -> dict[int, Mark]:
        return {mark.number: mark for mark in self.marks if mark.number is not None}


@dataclass
class Node:
    """An element of the tree with what it holds, marked content as (page, number)."""

    kind: str
    alt: str
    attributes: dict[str, Any]
    kids: list[Node | tuple[int, int] | pikepdf.Object]
    raw: pikepdf.Object

    def walk(self) -> list[Node]:
        inner = [node for kid in self.kids if isinstance(kid, Node) for node in kid.walk()]
        return [self, *inner]

    def children(self) -> list[Node]:
        return [kid for kid in self.kids if isinstance(kid, Node)]


def marks_of(page: pikepdf.Page) -> PageMarks:
    """Return a page's marked content; nested or unclosed marks and bare painting are faults."""
    found = PageMarks()
    stack: list[Mark] = []
    saved: list[int] = []
    font = b""
    fonts = page.resources.Font
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        if name in ("BMC", "BDC"):
            if stack:
                found.faults.append(f"a mark {operands[0]} inside {stack[-1].tag}")
            stack.append(_mark(operands))
            found.marks.append(stack[-1])
            saved.append(0)
        elif name == "EMC":
            stack.pop()
            if saved.pop():
                found.faults.append("a saved state crosses the end of a mark")
        elif name in ("q", "Q") and saved:
            saved[-1] += 1 if name == "q" else -1
        elif name == "Tf":
            font = str(operands[0])
        elif name in PAINTING:
            text = _shown(operands, fonts[font]) if name in SHOWING else ""
            if stack:
                stack[-1].paints = True
                stack[-1].text += text
            elif name not in SHOWING or text:
                found.faults.append(f"{name} paints outside every mark")
    if stack:
        found.faults.append("a mark is not closed")
    return found


def _mark(operands: Any) -> Mark:
    properties = dict(operands[1]) if len(operands) > 1 else {}
    number = properties.get("/MCID")
    return Mark(str(operands[0]), None if number is None else int(number), properties)


def _shown(operands: Any, font: pikepdf.Object) -> str:
    pieces = operands[0] if isinstance(operands[0], pikepdf.Array) else [operands[0]]
    table = character_map(bytes(font.ToUnicode.read_bytes()))
    return "".join(
        table.get(code, "\ufffd")
        for piece in pieces
        if isinstance(piece, pikepdf.String)
        for code in bytes(piece)
    )


@cache
def character_map(stream: bytes) -> dict[int, str]:
    """Return a ToUnicode map: from code to character."""
    pairs = re.findall(rb"<([0-9A-F]{2})> <((?:[0-9A-F]{4})+)>", stream)
    return {int(code, 16): bytes.fromhex(to.decode()).decode("utf-16-be") for code, to in pairs}


def tree_of(pdf: pikepdf.Pdf) -> Node:
    """Return the structure tree's top element."""
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
    return _node(pdf.Root.StructTreeRoot.K, pages)


def _node(raw: pikepdf.Object, pages: dict[tuple[int, int], int]) -> Node:
    held = raw.get("/K", pikepdf.Array())
    kids: list[Node | tuple[int, int] | pikepdf.Object] = []
    for kid in held if isinstance(held, pikepdf.Array) else [held]:
        if isinstance(kid, int):
            kids.append((pages[raw.Pg.objgen], kid))
        elif kid.get("/Type") == Name.MCR:
            kids.append((pages[kid.get("/Pg", raw.get("/Pg")).objgen], int(kid.MCID)))
        elif kid.get("/Type") == Name.OBJR:
            kids.append(kid.Obj)
        else:
            kids.append(_node(kid, pages))
    attributes = dict(raw.get("/A", pikepdf.Dictionary()))
    return Node(str(raw.S)[1:], str(raw.get("/Alt", "")), attributes, kids, raw)


def told(path: Path) -> list[tuple[str, str]]:
    """Return what is heard, in order: each element that holds text or is a figure, with it."""
    with pikepdf.open(path) as pdf:
        marks = [marks_of(page).numbered() for page in pdf.pages]
        heard = []
        for node in tree_of(pdf).walk():
            own = "".join(marks[k[0]][k[1]].text for k in node.kids if isinstance(k, tuple))
            if node.kind == "Figure":
                heard.append((node.kind, node.alt))
            elif own:
                heard.append((node.kind, " ".join(own.split())))
        return heard
