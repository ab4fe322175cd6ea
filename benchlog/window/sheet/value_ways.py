"""The ways between a value on the pages and what is behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt

from benchlog.tasks.sheet_places import NumberPlace

if TYPE_CHECKING:
    from benchlog.window.sheet.sheet_place import SheetPlace

NOT_THERE = "That value stands on no page of this sheet."


class ValueWays(QObject):
    """Opens the sum of a value on the pages, and shows on them a value that is asked for."""

    def __init__(self, place: SheetPlace) -> None:
        super().__init__(place)
        self._place = place
        self._wanted: tuple[str, str] | None = None

    def open_sum(self, where: NumberPlace) -> None:
        """Open the sum behind a value of the pages; closing it leads back to them."""
        from benchlog.window.dialogs.sum_dialog import SumDialog  # noqa: PLC0415 - on demand

        place = self._place
        if place.written is None:
            return
        record = place.written.record
        self.dialog = SumDialog(place.desk, record, *where.number, place, from_sheet=True)
        self.dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.dialog.finished.connect(lambda _result: place.focus_on(place.pages.view))
        self.dialog.open()

    def show(self, key: str, specimen_id: str) -> None:
        """Show where a value stands; the pages are written first where there are none."""
        place = self._place
        place.desk.go_to.emit("sheet")
        place.show_pages()
        if place.written is None:
            self._wanted = (key, specimen_id)
            place.write()
        elif place.pages.show_value((key, specimen_id)):
            place.focus_on(place.pages.view)
        else:
            place.panel.tell(NOT_THERE, warn=True)

    def written(self) -> None:
        """Show the value for which the pages were written, if there is one."""
        if self._wanted is not None:
            wanted, self._wanted = self._wanted, None
            self.show(*wanted)

    def forget(self) -> None:
        """Wait for no value any more."""
        self._wanted = None
