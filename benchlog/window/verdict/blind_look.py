"""The pictures of the part that is asked about, one at a time; nothing tells whose they are."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.blind_pictures import BlindPicture
from benchlog.window.microscope.decoded import Decoded, decoded
from benchlog.window.microscope.picture_view import PictureView
from benchlog.window.theme import px, sized
from benchlog.window.work import begin


class BlindLook(QWidget):
    """Arrows lead through the pictures, + and − look closer; hidden where there are none."""

    def __init__(
        self, fetch: Callable[[str], bytes], failed: Callable[[BaseException], None]
    ) -> None:
        super().__init__()
        self._fetch, self._failed = fetch, failed
        self._pictures: tuple[BlindPicture, ...] = ()
        self.number = 0
        self.view = PictureView()
        self.view.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.caption = QLabel()
        sized(self.caption, 16)
        self.before, self.after = _arrow("◀", "Picture before"), _arrow("▶", "Next picture")
        self.before.clicked.connect(lambda: self.step(-1))
        self.after.clicked.connect(lambda: self.step(1))
        foot = QHBoxLayout()
        foot.addWidget(self.before)
        foot.addWidget(self.after)
        foot.addWidget(self.caption, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(4))
        column.addWidget(self.view, 1)
        column.addLayout(foot)
        self.hide()

    def show_pictures(self, pictures: Sequence[BlindPicture]) -> None:
        """Show these, from the first; the same ones stay as they are."""
        if tuple(pictures) == self._pictures:
            return
        self._pictures = tuple(pictures)
        self.setVisible(bool(pictures))
        self.number = 0
        if self._pictures:
            self._show()

    def step(self, by: int) -> None:
        """Show the picture before or after."""
        if self._pictures:
            self.number = (self.number + by) % len(self._pictures)
            self._show()

    def _show(self) -> None:
        picture = self._pictures[self.number]
        words = f"picture {self.number + 1} of {len(self._pictures)}, {picture.side}"
        self.caption.setText(words)
        self.view.say("Opening the picture…")
        fetch = self._fetch

        def came(image: Decoded) -> None:
            if self._pictures and self._pictures[self.number] == picture:
                self.view.show_picture(image, picture.um_per_px, words)

        begin(lambda _work: decoded(fetch(picture.photo_id)), came, self._failed)


def _arrow(sign: str, name: str) -> QPushButton:
    button = QPushButton(sign)
    button.setAccessibleName(name)
    button.setAutoDefault(True)
    sized(button, 16)
    return button
