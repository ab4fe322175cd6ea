"""Tables that say what they are: rows, heads and cells, one table however many pages it runs to."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import Table

from benchlog.sheet.paragraph import Text
from benchlog.sheet.structure import Element
from benchlog.sheet.tagged_canvas import TaggedCanvas
from benchlog.sheet.tags import Kept


class TableTags:
    """Told by ReportLab what of a table is drawn next; `heads` is how many rows head it.

    The first cell of every other row heads that row, unless `row_heads` is False. A head that is
    repeated on a later page is passed over there.
    """

    def __init__(self, heads: int = 1, *, row_heads: bool = True) -> None:
        self._heads = heads
        self._row_heads = row_heads
        self._kept = Kept()
        self._passed_over = False
        self._repeated = 0
        self._row = 0

    def __call__(self, table: Table, what: str, *args: Any) -> None:
        """Open or close what is drawn next."""
        canvas = table.canv
        if not isinstance(canvas, TaggedCanvas):
            return
        if what == "startTable":
            self._passed_over = canvas.structure.silent
            if not self._passed_over:
                self._begin(canvas, table)
        elif self._passed_over:
            return
        elif what == "startRow":
            self._begin_row(canvas, args[0])
        elif what == "endRow":
            self._end_row(canvas)
        elif what == "startCell" and not canvas.structure.silent:
            canvas.structure.begin(self._cell(table, args[0], args[1], args[2]))
        elif what == "endTable" or (what == "endCell" and not canvas.structure.silent):
            canvas.structure.end()

    def _begin(self, canvas: TaggedCanvas, table: Table) -> None:
        before = self._kept.of(canvas.structure)
        self._repeated = 0
        if before is None:
            self._kept.keep(canvas.structure, canvas.structure.begin(Element("Table")))
        else:
            canvas.structure.resume(before)
            self._repeated = int(table.repeatRows)

    def _begin_row(self, canvas: TaggedCanvas, row: int) -> None:
        self._row = row
        if row < self._repeated:
            canvas.open_mark(None, "Head")
        else:
            canvas.structure.begin(Element("TR"))

    def _end_row(self, canvas: TaggedCanvas) -> None:
        if self._row < self._repeated:
            canvas.close_mark()
        else:
            canvas.structure.end()

    def _cell(self, table: Table, row: int, column: int, held: object) -> Element:
        spans = getattr(table, "_spanRanges", {}).get((column, row))
        columns, rows = (spans[2] - column + 1, spans[3] - row + 1) if spans else (1, 1)
        scope = ""
        if row < self._heads and not self._repeated:
            scope = "Column" if _says(held) else ""
        elif self._row_heads and column == 0 and columns == 1 and _says(held):
            scope = "Row"
        kind = "TH" if scope else "TD"
        return Element(kind, scope=scope, columns=columns, rows=rows, plain=_is_plain(held))


def _says(held: object) -> bool:
    """Whether there is anything in a cell."""
    parts = held if isinstance(held, list | tuple) else [held]
    return any(not isinstance(part, Text) or _has_words(part) for part in parts)


def _has_words(text: Text) -> bool:
    # Broken into lines, a paragraph of several faces keeps words instead of runs of text.
    return any(not hasattr(frag, "text") or frag.text.strip() for frag in text.frags)


def _is_plain(held: object) -> bool:
    """Whether a cell holds one paragraph and nothing else."""
    parts = held if isinstance(held, list | tuple) else [held]
    only = parts[0] if len(parts) == 1 else None
    return isinstance(only, Text) and only.kind == "P" and not only.bulletText
