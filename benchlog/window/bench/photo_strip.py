"""The pictures of this specimen at this station, small; pictures are decoded off the thread."""

from __future__ import annotations

from collections import OrderedDict

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QImage, QPixmap
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QListView,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
)

from benchlog.tasks.ports import Photo, Shelf
from benchlog.window.faults import Faults
from benchlog.window.image_reading import read_image
from benchlog.window.theme import px, sized
from benchlog.window.work import Work, begin

SIDE = 240
KEPT = 200
PHOTO_ID = Qt.ItemDataRole.UserRole


class PhotoStrip(QFrame):
    """Thumbnails with a button that asks for more.

    `fields_wanted` asks for the pictures of the media, offered at the microscope.
    """

    add_wanted = Signal()
    fields_wanted = Signal()
    shown = Signal(str)

    def __init__(self, shelf: Shelf, faults: Faults) -> None:
        super().__init__()
        self._shelf = shelf
        self._faults = faults
        self._small: OrderedDict[str, QImage] = OrderedDict()
        self.setProperty("card", "true")
        self.title = QLabel("Photos")
        sized(self.title, 15, bold=True)
        self.list = QListWidget()
        self.list.setAccessibleName("Photos of this specimen at this station")
        self.list.setViewMode(QListView.ViewMode.IconMode)
        self.list.setMovement(QListView.Movement.Static)
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.list.setAcceptDrops(False)
        self.hint = QLabel("Drop or paste\npictures here")
        self.hint.setProperty("tone", "dim")
        self.hint.setAlignment(Qt.AlignmentFlag.AlignCenter)
        sized(self.hint, 14)
        self.add = QPushButton("Add photo…")
        self.add.setAccessibleName("Add photos from files")
        self.add.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        sized(self.add, 14)
        self.add.clicked.connect(self.add_wanted)
        self.fields = QPushButton("Measure pictures…")
        self.fields.setAccessibleName("Take and measure pictures of the media")
        self.fields.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        sized(self.fields, 14, bold=True)
        self.fields.clicked.connect(self.fields_wanted)
        self.fields.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 4, 6, 6)
        column.setSpacing(3)
        for part in (self.title, self.list, self.hint, self.add, self.fields):
            column.addWidget(part, 1 if part in (self.list, self.hint) else 0)
        self.rescaled()

    def show_photos(self, photos: list[Photo]) -> None:
        """Show these pictures; each appears as soon as it is decoded."""
        self.title.setText(f"Photos: {len(photos)}" if photos else "Photos: none yet")
        self.list.setVisible(bool(photos))
        self.hint.setVisible(not photos)
        self.list.clear()
        for photo in photos:
            item = QListWidgetItem()
            item.setData(PHOTO_ID, photo.id)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, photo.caption or photo.name)
            item.setToolTip(f"{photo.name}, {photo.width} × {photo.height}")
            item.setSizeHint(QSize(px(76), px(60)))
            self.list.addItem(item)
            if photo.id in self._small:
                self._put(photo.id)
            else:
                self._fetch(photo.id)

    def rescaled(self) -> None:
        """Take the width that the window's size gives."""
        self.setFixedWidth(px(186))
        self.list.setIconSize(QSize(px(72), px(56)))

    def _fetch(self, photo_id: str) -> None:
        shelf = self._shelf

        def job(_work: Work) -> QImage:
            return small(shelf.photo_bytes(photo_id))

        def done(image: QImage) -> None:
            self._small[photo_id] = image
            while len(self._small) > KEPT:
                self._small.popitem(last=False)
            self._put(photo_id)

        begin(job, done, self._faults.handle)

    def _put(self, photo_id: str) -> None:
        picture = QIcon(QPixmap.fromImage(self._small[photo_id]))
        for row in range(self.list.count()):
            item = self.list.item(row)
            if item.data(PHOTO_ID) == photo_id:
                item.setIcon(picture)
        self.shown.emit(photo_id)


def small(data: bytes) -> QImage:
    """Return a picture's bytes as a small image, turned as its camera says; may be null."""
    image, _ = read_image(
        data, lambda size: size.scaled(SIDE, SIDE, Qt.AspectRatioMode.KeepAspectRatio)
    )
    return image
