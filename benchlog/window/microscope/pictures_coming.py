"""Where pictures come from: files, the clipboard, a drop, or a folder that is watched."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMimeData, QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from benchlog.window.bench.bench_photos import PICTURES
from benchlog.window.bench.pictures_in import from_files, incoming_from
from benchlog.window.desk import Desk
from benchlog.window.microscope.folder_watch import FolderWatch

NO_PICTURE = "There is no picture on the clipboard."
NO_LONGER = "The folder is no longer watched."


class PicturesComing(QObject):
    """`came` carries pictures that the reviewer brings, `saved` those that a camera program saved.

    `said` is what to tell; `watching` carries the folder, or "".
    """

    came = Signal(object)
    saved = Signal(object)
    said = Signal(str)
    refused = Signal(object)
    watching = Signal(str)

    def __init__(self, desk: Desk, page: QWidget) -> None:
        super().__init__(page)
        self._page = page
        self.last_folder = ""
        self.watch = FolderWatch(desk.workshop.clock.seconds, self)
        self.watch.came.connect(lambda found: self.saved.emit(from_files(found)))
        self.watch.lost.connect(self.refused)
        self.watch.changed.connect(lambda: self.watching.emit(str(self.watch.folder or "")))

    def ask_files(self) -> tuple[Path, ...]:
        """Return the pictures that the reviewer picked; none when they changed their mind."""
        names, _ = QFileDialog.getOpenFileNames(self._page, "Pictures of the media", "", PICTURES)
        return tuple(Path(name) for name in names)

    def ask_folder(self) -> Path | None:
        """Return the folder that the reviewer picked; None when they changed their mind."""
        name = QFileDialog.getExistingDirectory(
            self._page, "The folder into which the camera program saves", self.last_folder
        )
        return Path(name) if name else None

    def choose(self) -> None:
        """Ask for picture files."""
        self.came.emit(from_files(self.ask_files()))

    def paste(self) -> None:
        """Take a picture from the clipboard."""
        mime = QGuiApplication.clipboard().mimeData()
        if incoming_from(mime):
            self.drop(mime)
        else:
            self.said.emit(NO_PICTURE)

    def drop(self, mime: QMimeData) -> None:
        """Take what was dropped."""
        self.came.emit(incoming_from(mime))

    def switch_folder(self) -> None:
        """Watch a folder, or watch it no longer."""
        if self.watch.folder is not None:
            self.watch.stop()
            self.said.emit(NO_LONGER)
            return
        folder = self.ask_folder()
        if folder is not None:
            self.last_folder = str(folder)
            self.watch.watch(folder)
            self.said.emit(
                f"Watching {folder}: what is saved there from now on is taken as the next field."
            )
