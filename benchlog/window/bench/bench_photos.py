"""Photos at the bench: picking, dropping, pasting, and showing those of the place."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFileDialog

from benchlog.errors import WorldError
from benchlog.tasks.bench_view import BenchView
from benchlog.tasks.fields import STATION
from benchlog.window.bench.pictures_in import Incoming, Where, bring_in, from_files, incoming_from

if TYPE_CHECKING:
    from benchlog.window.bench.bench import Bench

PICTURES = "Pictures (*.jpg *.jpeg *.png *.tif *.tiff *.webp *.bmp *.gif);;All files (*)"


class BenchPhotos(QObject):
    """Brings pictures to the specimen in front, at the station where the bench stands."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._bench = bench
        self._strip = bench.parts.photos
        self._shelf = bench.desk.workshop.shelf
        self._shown: tuple[str, ...] = ("unseen",)
        self._strip.add_wanted.connect(self.ask)
        self._strip.fields_wanted.connect(bench.fields_wanted)
        bench.parts.entry.field.installEventFilter(self)

    def show(self, view: BenchView) -> None:
        """Show the photos of the specimen in front at this station."""
        where = self._where(view)
        self._strip.fields.setVisible(where.station == STATION)
        photos = [
            photo
            for photo in self._shelf.photos(where.lineup_id)
            if photo.station == where.station and photo.specimen_id in ("", where.specimen_id)
        ]
        shown = (where.station, where.specimen_id, *(photo.id for photo in photos))
        if shown != self._shown:
            self._shown = shown
            self._strip.show_photos(photos)

    def ask(self) -> None:
        """Ask for picture files and bring them in."""
        paths = self.ask_files()
        if paths:
            self.bring(from_files(paths))

    def ask_files(self) -> tuple[Path, ...]:
        """Return the files that the reviewer picked; none when they changed their mind."""
        names, _ = QFileDialog.getOpenFileNames(self._bench, "Add photos", "", PICTURES)
        return tuple(Path(name) for name in names)

    def bring(self, pictures: tuple[Incoming, ...]) -> None:
        """Put pictures on the shelf for the place where the bench stands now."""
        desk = self._bench.desk
        bring_in(
            self._shelf,
            desk.workshop.clock,
            self._where(self._bench.view),
            pictures,
            self._done,
            self._failed,
            self._progressed,
        )

    def drag_entered(self, event: QDragEnterEvent) -> None:
        """Let pictures be dropped."""
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropped(self, event: QDropEvent) -> None:
        """Take what was dropped."""
        pictures = incoming_from(event.mimeData())
        if pictures:
            event.acceptProposedAction()
            self.bring(pictures)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Pasting a picture or a file adds a photo; pasting text goes into the entry."""
        pasting = (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.matches(QKeySequence.StandardKey.Paste)
        )
        return pasting and not event.isAutoRepeat() and self.paste()

    def paste(self) -> bool:
        """Take a picture from the clipboard; whether there was one."""
        pictures = incoming_from(QGuiApplication.clipboard().mimeData())
        if pictures:
            self.bring(pictures)
        return bool(pictures)

    def _where(self, view: BenchView) -> Where:
        specimen = view.asked.specimen.id if view.asked else ""
        return Where(view.lineup.id, specimen, view.station.key)

    def _done(self, number: int) -> None:
        self._after()
        told = "One photo is" if number == 1 else f"{number} photos are"
        self._bench.parts.strip.accepted(f"{told} on the shelf.")

    def _failed(self, fault: BaseException) -> None:
        self._after()
        if isinstance(fault, WorldError):
            self._bench.parts.strip.refused(fault)
        else:
            self._bench.desk.faults.handle(fault)

    def _progressed(self, done: int, total: int, what: str) -> None:
        self._bench.parts.strip.plain(f"Photo {done + 1} of {total}: {what}")

    def _after(self) -> None:
        self._bench.show_now()
        self._bench.desk.recorded.emit()
