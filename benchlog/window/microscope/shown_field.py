"""The picture that is looked at: read, made ready and drawn over, off the main thread."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from benchlog.measure.micrograph import MicroscopeSetUp
from benchlog.tasks.field_order import FieldStanding, FieldState
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.window.desk import Desk
from benchlog.window.faults import in_plain_words
from benchlog.window.microscope.decoded import Decoded, decoded
from benchlog.window.microscope.marks_paint import DrawnMarks, Overlay, marks_drawn
from benchlog.window.microscope.picture_view import PictureView
from benchlog.window.work import Work, begin

PICTURES_KEPT, MARKS_KEPT = 3, 6
"""A picture of the largest size that is shown takes 130 MB, its marks hardly any."""


class ShownField(QObject):
    """Shows one field's picture in a view; marks are asked for when an overlay wants them.

    `told` carries what goes on with the drawing, "" for nothing; `changed` follows when another
    picture, or none, is in sight.
    """

    told = Signal(str)
    changed = Signal()

    def __init__(self, desk: Desk, measurer: PictureMeasurer, view: PictureView) -> None:
        super().__init__()
        self._desk, self._measurer, self._view = desk, measurer, view
        self._pictures: OrderedDict[str, Decoded] = OrderedDict()
        self._marks: OrderedDict[str, DrawnMarks] = OrderedDict()
        self._asked: set[str] = set()
        self._standing: FieldStanding | None = None
        self._set_up: MicroscopeSetUp | None = None
        self.coming: set[str] = set()  # ids of photos that are being made ready
        self._in_sight = self._words = ""
        view.overlay_changed.connect(self._draw)

    def show(self, one: FieldStanding | None, set_up: MicroscopeSetUp | None, words: str) -> None:
        """Show a field; the same picture stays as it is, looked at as closely."""
        self._standing, self._set_up = one, set_up
        photo = one.micrograph.photo_id if one and one.micrograph else ""
        if not photo:
            self._in_sight = ""
            self._view.say(words)
            self.told.emit("")
            return
        self._words = words
        if photo != self._in_sight:
            self._in_sight = photo
            if photo in self._pictures:
                self._put(photo)
            else:
                self._view.say("Opening the picture…")
                shelf = self._desk.workshop.shelf
                self._make_ready(photo, lambda: shelf.photo_bytes(photo))
        self._draw()

    def let_go(self) -> None:
        """Show nothing any more: the view goes, and what is on its way comes too late."""
        self._standing, self._in_sight = None, ""

    def keep(self, photo_id: str, data: bytes) -> None:
        """Make a picture ready whose bytes are at hand."""
        self._make_ready(photo_id, lambda: data)

    # --- inside ------------------------------------------------------------------------------

    def _make_ready(self, photo: str, fetch: Callable[[], bytes]) -> None:
        if photo in self.coming:
            return
        self.coming.add(photo)

        def came(picture: Decoded) -> None:
            self.coming.discard(photo)
            self._pictures[photo] = picture
            while len(self._pictures) > PICTURES_KEPT:
                self._pictures.popitem(last=False)
            if photo == self._in_sight:
                self._put(photo)
                self._draw()

        def failed(fault: BaseException) -> None:
            self.coming.discard(photo)
            self._desk.faults.handle(fault)

        begin(lambda _work: decoded(fetch()), came, failed)

    def _put(self, photo: str) -> None:
        scale = self._set_up.um_per_px if self._set_up else 0.0
        self._view.show_picture(self._pictures[photo], scale, self._words)
        self.changed.emit()

    def _draw(self) -> None:
        """Draw the overlay that is chosen, once its marks are there."""
        one, set_up = self._standing, self._set_up
        if one is None or one.micrograph is None or not self._view.has_picture:
            return
        micrograph = one.micrograph
        if self._view.overlay is Overlay.NOTHING or set_up is None:
            self.told.emit("")
        elif micrograph.id in self._marks:
            self._view.show_marks(self._marks[micrograph.id])
            self.told.emit("")
        elif one.state is FieldState.WAITING:
            self.told.emit("drawn once it is measured")
        elif micrograph.id not in self._asked:
            self._ask(micrograph.id, micrograph.photo_id, set_up)
        else:
            self.told.emit("being drawn…")

    def _ask(self, micrograph_id: str, photo: str, set_up: MicroscopeSetUp) -> None:
        shelf, measurer = self._desk.workshop.shelf, self._measurer
        self._asked.add(micrograph_id)
        self.told.emit("being drawn…")

        def job(work: Work) -> DrawnMarks:
            return marks_drawn(measurer.marks(shelf.photo_bytes(photo), set_up, work))

        def came(marks: DrawnMarks) -> None:
            self._asked.discard(micrograph_id)
            self._marks[micrograph_id] = marks
            while len(self._marks) > MARKS_KEPT:
                self._marks.popitem(last=False)
            self._draw()

        def failed(fault: BaseException) -> None:
            self._asked.discard(micrograph_id)
            told = in_plain_words(fault)
            self.told.emit(told.what)
            if told.ours:
                self._desk.faults.handle(fault)

        begin(job, came, failed)
