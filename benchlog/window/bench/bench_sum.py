"""The sum behind a number that came in at the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt

from benchlog.measure.reading import standing
from benchlog.tasks.record import Record
from benchlog.window.work import Work, begin
from benchlog.wiring import record_of

if TYPE_CHECKING:
    from benchlog.window.bench.bench import Bench

WORKING = "Working out the sum…"
NOTHING = "Nothing was read yet, so there is no sum to show."


class BenchSum(QObject):
    """Works the record out on another thread, then opens the sum over the bench."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._bench = bench
        self._under_way = False

    def open_here(self) -> None:
        """Open the sum of the table's cell that has the keys, of what is asked, or the latest."""
        table, asked = self._bench.parts.table, self._bench.view.asked
        cell = table.cell_here() if table.hasFocus() else None
        if cell is None and asked is not None and asked.taken:
            cell = asked.attribute.key, asked.specimen.id
        self.open(cell)

    def open(self, number: tuple[str, str] | None) -> None:
        """Open the sum of an attribute of a specimen; of the latest reading for None."""
        desk = self._bench.desk
        if self._under_way or not desk.lineup_id:
            return
        workshop, lineup_id = desk.workshop, desk.lineup_id
        self._under_way = True
        self._bench.parts.strip.plain(WORKING)

        def job(_work: Work) -> Record:
            return record_of(workshop, lineup_id)

        begin(job, lambda record: self._show(record, number), self._failed)

    def _show(self, record: Record, number: tuple[str, str] | None) -> None:
        from benchlog.window.dialogs.sum_dialog import SumDialog  # noqa: PLC0415 - on demand

        self._under_way = False
        left = standing(list(record.readings))
        if number is None and left:
            number = left[-1].attribute, left[-1].specimen_id
        if number is None or number not in record.findings:
            self._bench.parts.strip.plain(NOTHING)
            return
        self._bench.parts.strip.plain("")
        self.dialog = SumDialog(self._bench.desk, record, *number, self._bench)
        self.dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.dialog.finished.connect(self._bench.take_focus)
        self.dialog.open()

    def _failed(self, fault: BaseException) -> None:
        self._under_way = False
        self._bench.parts.strip.plain("")
        self._bench.desk.faults.handle(fault)
