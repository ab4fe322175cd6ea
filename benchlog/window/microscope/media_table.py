"""The figures of one side of every medium, with the spread between fields and what is missing."""

from __future__ import annotations

from PySide6.QtCore import Qt

from benchlog.tasks.field_order import FieldState
from benchlog.tasks.media_seen import FigureSeen, SideSeen
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import px
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.plain_table import PlainTable

HEADS = ("Medium", "Fields", "Opening D50", "Spread", "To tell a tenth", "Open area",
         "Fibre diameter")  # fmt: skip
SHARES = (20, 10, 24, 12, 18, 20, 24)
COLUMNS = {2: "D50", 5: "open area", 6: "fibre median"}


class MediaTable(PlainTable):
    """A row a medium. `number_here` tells which number's sum may be shown."""

    def __init__(self) -> None:
        super().__init__("Figures of the media", letters=14)
        self._numbers: dict[tuple[int, int], tuple[str, str]] = {}
        self.show_heads(HEADS, SHARES)
        self.offer_sum(SUM_KEY)

    def number_here(self) -> tuple[str, str] | None:
        """Return attribute and specimen of the chosen figure, the opening's for other cells."""
        row, column = self.currentRow(), self.currentColumn()
        return self._numbers.get((row, column)) or self._numbers.get((row, 2))

    def show_side(self, seen: SideSeen, who: dict[str, Specimen]) -> None:
        """Show one side of all media."""
        here = max(0, self.currentRow()), max(0, self.currentColumn())
        self._numbers.clear()
        self.setRowCount(len(who))
        for row, specimen in enumerate(who.values()):
            self.put_specimen(row, 0, specimen)
            fields = seen.of(specimen.id)
            measured = sum(one.state is FieldState.MEASURED for one in fields)
            told = f"{measured}" if measured == len(fields) else f"{measured} of {len(fields)}"
            self.put(row, 1, told, f"{measured} of {len(fields)} pictures measured")
            own = {one.key: one for one in seen.figures if one.specimen_id == specimen.id}
            for column, key in COLUMNS.items():
                self._put_figure(row, column, own.get(key))
            opening = own.get("D50")
            self.put(row, 3, spread_words(opening), f"spread {spread_words(opening)}")
            self.put(row, 4, more_words(opening), more_spoken(opening))
        self._stand_level()
        self.setCurrentCell(min(here[0], self.rowCount() - 1), here[1])
        self.rescaled()

    def rescaled(self) -> None:
        """Set letters and columns to the window's size, and stand as high as the rows."""
        super().rescaled()
        self.resizeRowsToContents()
        rows = sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setFixedHeight(rows + self.horizontalHeader().sizeHint().height() + px(12))
        self.scrollToTop()

    def _stand_level(self) -> None:
        """Set the one line of every cell level with the medium's mark."""
        for row in range(self.rowCount()):
            for column in range(self.columnCount()):
                self.item(row, column).setTextAlignment(Qt.AlignmentFlag.AlignVCenter)

    def _put_figure(self, row: int, column: int, figure: FigureSeen | None) -> None:
        if figure is None:
            self.put(row, column, "not asked", dim=True)
            return
        self.put(row, column, figure.text, f"{figure.label}: {figure.text}")
        self._numbers[row, column] = (figure.attribute, figure.specimen_id)


def spread_words(figure: FigureSeen | None) -> str:
    """Return the spread between fields as a share of the mean: "6.2 %"."""
    if figure is None or figure.spread is None or not figure.mean:
        return "–"
    return f"{100 * figure.spread / figure.mean:.2g} %"


def more_words(figure: FigureSeen | None) -> str:
    """Return how many more fields of each medium tell a tenth apart."""
    if figure is None or figure.more_fields is None:
        return "–"
    return f"{figure.more_fields} more" if figure.more_fields else "enough"


def more_spoken(figure: FigureSeen | None) -> str:
    """Return the same as a sentence."""
    if figure is None or figure.more_fields is None:
        return "how many fields would tell a tenth apart cannot be said"
    if not figure.more_fields:
        return "enough fields to tell a difference of a tenth"
    return f"{figure.more_fields} more fields of each medium would tell a difference of a tenth"
