"""The pictures of the line-up in hand beside its bench, and what is measured in the background."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from benchlog.tasks.fields import KeptAnswer
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.window.desk import Desk
from benchlog.window.faults import in_plain_words
from benchlog.window.microscope.measuring import Measuring, Task
from benchlog.window.microscope.measuring_line import MeasuringLine
from benchlog.window.sounds import Sounds
from benchlog.wiring import picture_measurer

if TYPE_CHECKING:
    from benchlog.window.microscope.pictures_page import PicturesPage


class PicturesKeeper(QObject):
    """Makes the page when it is first wanted, and goes on measuring whatever page is in sight.

    `changed` follows every picture that was measured or refused, once its readings are there.
    """

    changed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._measurer: PictureMeasurer | None = None
        self.page: PicturesPage | None = None
        self.measuring = Measuring(self)
        self.line: MeasuringLine | None = None
        self.measuring.done.connect(self._measured)
        self.measuring.failed.connect(self._failed)

    @property
    def measurer(self) -> PictureMeasurer:
        """What measures; its process begins with the first picture."""
        if self._measurer is None:
            self._measurer = picture_measurer()
        return self._measurer

    def use(self, measurer: PictureMeasurer) -> None:
        """Measure with this one from now on."""
        self._measurer = measurer

    def open(self, sounds: Sounds) -> PicturesPage:
        """Return the page of the line-up in hand."""
        if self.page is None:
            from benchlog.window.microscope.pictures_page import (  # noqa: PLC0415 - on demand
                PicturesPage,
            )

            self.page = PicturesPage(self._desk, self.measurer, self.measuring, sounds)
        return self.page

    def new_line(self) -> MeasuringLine:
        """Return a line for another bench, which tells of what is measured."""
        self.line = MeasuringLine(self.measuring)
        return self.line

    def forget_page(self) -> PicturesPage | None:
        """Let go of the page of a line-up that is no longer in hand; returns it."""
        page, self.page = self.page, None
        if page is not None:
            page.coming.watch.stop()
            page.shown.let_go()
        return page

    def close(self) -> None:
        """End what is under way; the window closes."""
        self.measuring.cancel()
        if self.page is not None:
            self.page.coming.watch.stop()
        if self._measurer is not None:
            self._measurer.close()

    # --- inside ------------------------------------------------------------------------------

    def _measured(self, task: Task, kept: KeptAnswer) -> None:
        self._desk.reload()
        if self._shows(task):
            self.page.measured(task, kept)
        self._tell(f"{task.title}: refused, take it again." if not kept.answer.figures else "")
        self.changed.emit()

    def _failed(self, task: Task, fault: BaseException) -> None:
        told = in_plain_words(fault)
        if told.ours:
            self._desk.faults.handle(fault)
        if self._shows(task):
            self.page.not_measured(task, fault)
        self._tell(f"{task.title}: not measured. {told.what}")

    def _shows(self, task: Task) -> bool:
        return self.page is not None and self.page.now.knows(task.micrograph_id)

    def _tell(self, words: str) -> None:
        """Say at the bench what was not seen on the page."""
        seen = self.page is not None and self.page.isVisible()
        if self.line is not None and words and not seen:
            self.line.say(words)
