"""Looks at a watched folder now and then, off the main thread."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from benchlog.instruments.watched_folder import WatchedFolder
from benchlog.window.work import Work, begin

EVERY_MS = 400


class FolderWatch(QObject):
    """`came` carries the new pictures of the folder; `lost` why it cannot be looked at any more."""

    came = Signal(object)
    lost = Signal(object)
    changed = Signal()

    def __init__(self, seconds: Callable[[], float], parent: QObject) -> None:
        super().__init__(parent)
        self._seconds = seconds
        self._watched: WatchedFolder | None = None
        self._looking = False
        self._timer = QTimer(self, interval=EVERY_MS)
        self._timer.timeout.connect(self.look)

    @property
    def folder(self) -> Path | None:
        """The folder that is watched, if any."""
        return self._watched.folder if self._watched else None

    def watch(self, folder: Path) -> None:
        """Watch a folder from now on, and no other."""
        self._watched = WatchedFolder(folder)
        self._timer.start()
        self.changed.emit()
        self.look()

    def stop(self) -> None:
        """Watch no longer."""
        self._watched = None
        self._timer.stop()
        self.changed.emit()

    def look(self) -> None:
        """Look once, unless a look is still under way."""
        watched = self._watched
        if watched is None or self._looking:
            return
        self._looking = True
        now = self._seconds()

        def job(_work: Work) -> tuple[Path, ...]:
            return watched.look(now)

        begin(job, lambda found: self._found(watched, found), self._failed)

    def _found(self, watched: WatchedFolder, found: tuple[Path, ...]) -> None:
        self._looking = False
        if found and watched is self._watched:
            self.came.emit(found)

    def _failed(self, fault: BaseException) -> None:
        self._looking = False
        self.stop()
        self.lost.emit(fault)
