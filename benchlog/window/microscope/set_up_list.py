"""The set-ups on the shelf, the one in use marked."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from benchlog.measure.micrograph import MicroscopeSetUp
from benchlog.tasks.set_ups import scale_words, set_up_words
from benchlog.window import icons
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px

SET_UP = Qt.ItemDataRole.UserRole


class SetUpList(QListWidget):
    """Lists set-ups with scale, light and date; `chosen` carries the id of one."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Set-ups of the microscope")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(CalmDelegate(self))
        self.setWordWrap(True)
        self.setFont(font_of(15))
        self.setIconSize(QSize(px(18), px(18)))
        self.setSpacing(px(2))
        self.currentItemChanged.connect(self._tell)

    def show_set_ups(self, set_ups: Iterable[MicroscopeSetUp], in_use: str, current: str) -> None:
        """List these and choose one, without telling of it."""
        self.blockSignals(True)
        self.clear()
        for one in set_ups:
            item = QListWidgetItem(
                f"{one.name}, {day_words(one)}\n{scale_words(one)}\n{set_up_words(one)}"
            )
            item.setData(SET_UP, one.id)
            used = one.id == in_use
            ink = colours().good if used else colours().dim
            item.setIcon(icons.icon("tick" if used else "ring", ink))
            spoken = f"{one.name}, {day_words(one)}, {scale_words(one)}, {set_up_words(one)}"
            spoken += ", in use" if used else ""
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
            item.setToolTip(spoken)
            self.addItem(item)
            if one.id == current:
                self.setCurrentItem(item)
        self.blockSignals(False)

    def _tell(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.chosen.emit(item.data(SET_UP))


def day_words(one: MicroscopeSetUp) -> str:
    """Return the day of a set-up: "25 Nov 2026"."""
    return f"{one.at.day} {one.at:%b %Y}"
