"""A table of values: components as headings, one row each attribute or figure, notes beneath."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from reportlab.platypus import Flowable, KeepTogether

from benchlog.sheet.flow import (
    Cell,
    Heading,
    columns,
    gap,
    longest_in,
    specimen_head,
    table,
)
from benchlog.sheet.numbered import number_text
from benchlog.sheet.paragraph import Text
from benchlog.sheet.text import markup, para, shortened
from benchlog.sheet.typography import FACE, MUTED, SMALL, STYLES, WHITE, Page
from benchlog.sheet.value_rows import Row
from benchlog.sheet.value_words import Printed
from benchlog.tasks.record import Record
from benchlog.trade.component import Component

LABELS = 138.0
"""Width of the labels beside up to three specimens."""

LABELS_OF_MANY = 98.0

LONG_WORDS = 26
"""Characters from which words that are the same for all are said once across the columns."""

MOST_SPANNED = 400
IN_DOUBT = "in doubt"
GREY = MUTED.hexval().replace("0x", "#")


def value_columns(page: Page, count: int) -> list[float]:
    """Return the widths of the labels' column and of each specimen's."""
    return columns(page.content, LABELS if count <= 3 else LABELS_OF_MANY, count)


class Footnotes:
    """Warnings as numbers in brackets beside the values, told in full under the table."""

    def __init__(self) -> None:
        self._texts: list[str] = []

    def mark(self, text: str) -> str:
        """Return the mark of a sentence, the same one each time it comes up."""
        if text not in self._texts:
            self._texts.append(text)
        return f"[{self._texts.index(text) + 1}]"

    def lines(self) -> list[Flowable]:
        """Return all sentences behind their marks."""
        return [para(f"[{n}] {text}", "note") for n, text in enumerate(self._texts, 1)]


class ValuesTable:
    """Grows row by row; `flowables` gives the whole table with what stands beneath it."""

    def __init__(self, record: Record, page: Page) -> None:
        self._specimens = record.lineup.specimens
        self._widths = value_columns(page, len(self._specimens))
        heads = [
            specimen_head(s, w) for s, w in zip(self._specimens, self._widths[1:], strict=True)
        ]
        self._cells: list[list[Cell]] = [["", *heads]]
        self._style: list[tuple[object, ...]] = []
        self._empty: list[Cell] = [""] * len(self._specimens)
        self._notes = Footnotes()
        self._long: list[Flowable] = []

    def by_component(self, rows: Iterable[Row]) -> None:
        """Add rows under their components' headings."""
        listed = list(rows)
        for component in Component:
            own = [row for row in listed if row.component is component]
            if own:
                self.heading(component.value.capitalize())
                self.add(own)

    def heading(self, text: str, beneath: str = "") -> None:
        """Add a heading across the table, never parted from the row below it."""
        at = len(self._cells)
        cell: list[Flowable] = [Heading(text, 1)]
        cell += [para(beneath, "cell_muted")] if beneath else []
        self._cells.append([cell, *self._empty])
        self._style += [
            ("SPAN", (0, at), (-1, at)),
            ("NOSPLIT", (0, at), (-1, at + 1)),
            ("TOPPADDING", (0, at), (-1, at), 6),
            ("BOTTOMPADDING", (0, at), (-1, at), 1),
        ]

    def pictures(self, label: str, caption: str, framed: list[Flowable]) -> None:
        """Add a row of pictures, one for each specimen."""
        said = f"{markup(label)}" + (f'<br/><font color="{GREY}">{markup(caption)}</font>'
                                     if caption else "")  # fmt: skip
        self._cells.append([Text(said, STYLES["cell"]), *framed])

    def add(self, rows: list[Row]) -> None:
        """Add rows; a sentence that must stand beside several in a row is said once below them."""
        for row, following in pairwise([*rows, None]):
            if row is None:
                return
            self._row(row)
            if row.beside and (following is None or following.beside != row.beside):
                self._beneath(row.beside, sum(1 for r in rows if r.beside == row.beside))

    def _row(self, row: Row) -> None:
        at = len(self._cells)
        label = f"{markup(row.label)}"
        if row.note:
            label += f'<br/><font face="{FACE}" color="{GREY}">{markup(row.note)}</font>'
        head = Text(label, STYLES["cell"])
        first = row.cells[0] if row.cells else None
        same = first is not None and len(set(row.cells)) == 1 and len(row.cells) > 1
        if first is not None and same and (first.is_state or len(first.main) > LONG_WORDS):
            said = first.main if first.main.endswith(".") else f"{first.main}, for every specimen"
            once = replace(first, main=shortened(said, MOST_SPANNED))
            said_once = self._paragraph(once, once.main, row.key, self._specimens[0].id)
            self._cells.append([head, said_once, *self._empty[1:]])
            self._style.append(("SPAN", (1, at), (-1, at)))
            return
        self._cells.append([head, *(self._printed(row, n) for n in range(len(row.cells)))])

    def _printed(self, row: Row, index: int) -> Text:
        cell, width = row.cells[index], self._widths[-1]
        main = cell.main
        if len(main) > longest_in(width):
            main = shortened(main, longest_in(width) - 20) + " (in full below)"
            nickname = self._specimens[index].nickname
            told = para(f"{row.label}, {nickname}: {cell.main}", "note")
            self._long.append(KeepTogether([told]))
        return self._paragraph(cell, main, row.key, self._specimens[index].id)

    def _paragraph(self, cell: Printed, main: str, key: str, specimen_id: str) -> Text:
        style = STYLES["cell_state" if cell.is_state else "cell"]
        return number_text(cell_markup(cell, main, self._notes), style, (key, specimen_id))

    def _beneath(self, text: str, count: int) -> None:
        at = len(self._cells)
        said = f"Both: {text}" if count == 2 else f"All {count}: {text}" if count > 2 else text
        self._cells.append([para(said, "cell_muted"), *self._empty])
        self._style += [
            ("SPAN", (0, at), (-1, at)),
            ("NOSPLIT", (0, at - count), (-1, at)),
            ("TOPPADDING", (0, at), (-1, at), 0),
            ("LINEBELOW", (0, at - 1), (-1, at - 1), 0.5, WHITE),
        ]

    def flowables(self) -> list[Flowable]:
        """Return the table, its footnotes, and in full the words too long for a cell."""
        beneath = [*self._notes.lines(), *self._long]
        whole: list[Flowable] = [table(self._cells, self._widths, more=self._style)]
        return [*whole, gap(6), *beneath] if beneath else whole


def cell_markup(cell: Printed, main: str, notes: Footnotes) -> str:
    """Return one cell's paragraph: the value, then muted what belongs to it."""
    said = markup(main) + (f"<br/>{markup(cell.also)}" if cell.also else "")
    if cell.doubted:
        said += f" <b>{markup(IN_DOUBT)}</b>"
    marks = [notes.mark(text) for text in cell.warnings]
    small = " · ".join([*cell.beneath, *marks])
    if small:
        said += f' <font size="{SMALL:g}" color="{GREY}"> {markup(small)}</font>'
    return said
