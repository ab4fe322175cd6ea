"""A specimen's photos as it came: the first in small, how many there are, and one more."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QImage, QPixmap
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QWidget

from benchlog.window.bench.bench_photos import PICTURES
from benchlog.window.bench.pictures_in import Incoming, from_files, incoming_from
from benchlog.window.theme import px, sized

HEIGHT = 62


class PhotoRow(QWidget):
    """Shows a photo; `wanted` carries pictures that were picked or dropped."""

    wanted = Signal(tuple)

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self._shown = ""
        self.picture = QLabel()
        self.picture.setAccessibleName("Photo of this specimen")
        self.words = QLabel(wordWrap=True)
        self.words.setProperty("tone", "dim")
        sized(self.words, 14)
        self.add = QPushButton("Add &photo…")
        self.add.setAccessibleName("Add a photo of this specimen")
        sized(self.add, 15)
        self.add.clicked.connect(self.ask)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.picture)
        row.addWidget(self.words, 1)
        row.addWidget(self.add)

    @property
    def shown(self) -> str:
        """The photo that is shown, "" for none."""
        return self._shown

    def show_photo(self, photo_id: str, data: bytes, many: int) -> None:
        """Show the first photo, "" and nothing where there is none."""
        told = {0: "No photo yet: pick one or drop it here.", 1: "1 photo"}
        self.words.setText(told.get(many, f"{many} photos"))
        if photo_id != self._shown:
            self._shown = photo_id
            image = QImage.fromData(data) if data else QImage()
            self.picture.setVisible(not image.isNull())
            tall = round(px(HEIGHT) * self.devicePixelRatioF())
            picture = QPixmap.fromImage(
                image.scaledToHeight(tall, Qt.TransformationMode.SmoothTransformation)
                if not image.isNull()
                else image
            )
            picture.setDevicePixelRatio(self.devicePixelRatioF())
            self.picture.setPixmap(picture)

    def ask(self) -> None:
        """Ask for picture files."""
        paths = self.ask_files()
        if paths:
            self.wanted.emit(from_files(paths))

    def ask_files(self) -> tuple[Path, ...]:
        """Return the files that the reviewer picked; none when they changed their mind."""
        names, _ = QFileDialog.getOpenFileNames(self, "Add photos", "", PICTURES)
        return tuple(Path(name) for name in names)

    def sizeHint(self) -> QSize:
        return QSize(px(300), px(HEIGHT))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        pictures: tuple[Incoming, ...] = incoming_from(event.mimeData())
        if pictures:
            event.acceptProposedAction()
            self.wanted.emit(pictures)
