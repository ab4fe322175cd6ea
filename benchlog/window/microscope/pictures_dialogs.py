"""The dialogs that open over the page of pictures: set-ups, and the sum behind a figure."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QDialog, QWidget

from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.record import Record
from benchlog.window.desk import Desk


class PictureDialogs(QObject):
    """`set_up_taken` carries the id of the set-up to use; `back` gives the keys back."""

    set_up_taken = Signal(str)

    def __init__(
        self, desk: Desk, measurer: PictureMeasurer, page: QWidget, back: Callable[[], None]
    ) -> None:
        super().__init__(page)
        self._desk, self._measurer, self._page, self._back = desk, measurer, page, back
        self.dialog: QDialog | None = None

    def open_set_ups(self, in_use: str, picture_keys: tuple[str, ...]) -> None:
        """Choose a set-up, or make one."""
        from benchlog.window.microscope.set_up_dialog import SetUpDialog  # noqa: PLC0415

        dialog = SetUpDialog(self._desk, self._measurer, in_use, picture_keys, self._page)
        dialog.taken.connect(self.set_up_taken)
        self._open(dialog)

    def open_sum(self, record: Record, attribute: str, specimen_id: str) -> None:
        """Show the sum behind a figure of a record, where there is one."""
        from benchlog.window.dialogs.sum_dialog import SumDialog  # noqa: PLC0415 - on demand

        if (attribute, specimen_id) in record.findings:
            self._open(SumDialog(self._desk, record, attribute, specimen_id, self._page))

    def _open(self, dialog: QDialog) -> None:
        self.dialog = dialog
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.finished.connect(lambda _result: self._back())
        dialog.open()
