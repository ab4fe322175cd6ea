"""Which number stands in a cell of a table of values, and how its sum is asked for."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.tasks.value_text import SIDE_BY_SIDE
from benchlog.trade.specimen import Specimen
from benchlog.window.verdict.plain_table import MOST_ACROSS, PlainTable

SUM_KEY = "F12"
"""Shows the sum behind the number that is chosen, wherever numbers stand."""

WARNS = " ⚠"
"""Stands behind a value that has something to bear in mind; its sum says what."""


def folded(text: str) -> str:
    """Return a value with its metric and inch units below each other, for a narrow cell."""
    return text.replace(SIDE_BY_SIDE, "\n")


def number_at(
    table: PlainTable, subjects: Sequence[str], specimens: Sequence[Specimen]
) -> tuple[str, str] | None:
    """Return the subject and the specimen's id of the chosen cell, None when none is chosen.

    A cell that belongs to no specimen stands for the first one.
    """
    row, column = table.currentRow(), table.currentColumn()
    if len(specimens) > MOST_ACROSS:
        subject, who = divmod(row, len(specimens))
    else:
        subject, who = row, max(column - 1, 0)
    if not 0 <= subject < len(subjects):
        return None
    return subjects[subject], specimens[min(who, len(specimens) - 1)].id


def keep_place(table: PlainTable, here: tuple[int, int]) -> None:
    """Choose the cell that was chosen before, or the first with a value."""
    row, column = here
    if table.rowCount():
        fits = 0 <= row < table.rowCount() and 0 <= column < table.columnCount()
        table.setCurrentCell(*(here if fits else (0, 1)))
