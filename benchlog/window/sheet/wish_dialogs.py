"""The dialogs in which the reviewer says more of what goes out than a tick can."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from benchlog.window.dialogs.stand_in_dialog import StandInDialog
from benchlog.window.sheet.description_dialog import DescriptionDialog
from benchlog.window.sheet.video_dialog import VideoDialog

if TYPE_CHECKING:
    from benchlog.window.sheet.sheet_place import SheetPlace


class WishDialogs(QObject):
    """Opens them over the Sheet, each with what was chosen before."""

    def __init__(self, place: SheetPlace) -> None:
        super().__init__(place)
        self._place = place

    def ask_start(self) -> None:
        """Ask when the clips start."""
        place, outputs = self._place, self._place.panel.outputs
        if place.watch.record is not None:
            wishes = outputs.wishes
            dialog = VideoDialog(place.watch.record, wishes.footage, place, wishes.kept)
            dialog.set.connect(
                lambda clips, kept: place.take_wishes(
                    replace(outputs.wishes, footage=clips, kept=kept)
                )
            )
            dialog.open()

    def ask_words(self) -> None:
        """Ask for links, the question to viewers, and the description's limit."""
        dialog = DescriptionDialog(self._place.panel.outputs.wishes, self._place)
        dialog.set.connect(self._place.take_wishes)
        dialog.open()

    def ask_stand_in(self) -> None:
        """Ask which filter is to stand in for which."""
        place, outputs = self._place, self._place.panel.outputs
        if place.watch.record is None:
            return
        with place.desk.faults.guarded():
            dialog = StandInDialog(place.watch.record, outputs.wishes.stand_in, place)
            dialog.asked.connect(
                lambda wish: place.take_wishes(replace(outputs.wishes, stand_in=wish))
            )
            dialog.open()
