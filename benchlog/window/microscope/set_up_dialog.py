"""Choose the microscope's set-up, or make one: its scale from a stage micrometer, or typed."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QLineEdit,
    QPushButton,
    QWidget,
)

from benchlog.errors import AskAgain, EntryRefused, WorldError
from benchlog.measure.micrograph import MicroscopeSetUp
from benchlog.tasks.picture_ports import PictureMeasurer, StageScale
from benchlog.tasks.set_ups import (
    SetUpWords,
    add_stage_set_up,
    add_typed_set_up,
    current_set_ups,
)
from benchlog.window.bench.bench_photos import PICTURES
from benchlog.window.bench.pictures_in import Incoming, from_files, incoming_from
from benchlog.window.desk import Desk
from benchlog.window.dialogs.instrument_fields import read_number
from benchlog.window.faults import in_plain_words
from benchlog.window.keys import key_name, plain_key
from benchlog.window.microscope.decoded import Decoded, decoded
from benchlog.window.microscope.set_up_layout import SAVE, furnish
from benchlog.window.work import Work, begin

YES = "&Yes, it is so: keep it"
ANY_DIVISION_UM = 1.0
"""Lines are looked for before anybody says what they are."""


@dataclass(frozen=True)
class _Stage:
    """A stage micrometer's picture as it came, and what it shows."""

    data: bytes
    picture: Decoded


class SetUpDialog(QDialog):
    """Left the set-ups on the shelf, right a new one; `taken` carries the id of one to use."""

    taken = Signal(str)

    def __init__(
        self,
        desk: Desk,
        measurer: PictureMeasurer,
        in_use: str,
        picture_keys: tuple[str, ...],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Set-up of the microscope")
        self.setAcceptDrops(True)
        self._desk, self._measurer = desk, measurer
        self._in_use, self._picture_keys = in_use, picture_keys
        self._stage: _Stage | None = None
        self._sure = False
        self._replaces = ""
        self._set_ups: dict[str, MicroscopeSetUp] = {}
        self._come = 0
        cap = plain_key(picture_keys[0]) if picture_keys else "no key"
        self.parts = p = furnish(self, cap)
        self.list, self.fields, self.stage, self.typed = p.list, p.fields, p.stage, p.typed
        self.strip, self.save = p.strip, p.save
        self._connect()
        self._fill(in_use)
        self._begin_new(None)
        room = parent.window().size()
        self.resize(round(room.width() * 0.96), round(room.height() * 0.96))
        first = self.list if self._set_ups else self.fields.name
        QTimer.singleShot(0, first, first.setFocus)

    # --- the set-ups on the shelf ----------------------------------------------------------

    def _fill(self, current: str) -> None:
        shelf = self._desk.workshop.shelf
        every = current_set_ups(shelf)
        self._set_ups = {one.id: one for one in every}
        current = current if current in self._set_ups else next(iter(self._set_ups), "")
        self.list.show_set_ups(every, self._in_use, current)
        for button in (self.parts.use, self.parts.anew):
            button.setEnabled(bool(self._set_ups))

    @property
    def chosen(self) -> MicroscopeSetUp | None:
        """The set-up that is chosen in the list."""
        item = self.list.currentItem()
        return self._set_ups.get(item.data(Qt.ItemDataRole.UserRole)) if item else None

    def _use(self) -> None:
        if self.chosen is not None:
            self.taken.emit(self.chosen.id)
            self.accept()

    def _begin_new(self, like: MicroscopeSetUp | None) -> None:
        """Empty the form, or fill it with the set-up that is calibrated anew."""
        self._replaces = like.id if like else ""
        self._stage = None
        self.fields.show_set_up(like)
        self.stage.clear()
        self.typed.clear()
        self.parts.by_stage.setChecked(True)
        self._not_sure()
        told = f"Pictures taken with {like.name} as it was keep its scale." if like else ""
        self.strip.plain(told)
        self.parts.title.setText(f"Anew: {like.name}" if like else "A new set-up")

    def _start_new(self, like: MicroscopeSetUp | None) -> None:
        self._begin_new(like)
        (self.stage.choose if like else self.fields.name).setFocus()

    # --- the stage micrometer ---------------------------------------------------------------

    def ask_file(self) -> Path | None:
        """Return the picture that the reviewer picked; None when they changed their mind."""
        name, _ = QFileDialog.getOpenFileName(self, "Stage micrometer", "", PICTURES)
        return Path(name) if name else None

    def _choose(self) -> None:
        path = self.ask_file()
        if path is not None:
            self._bring(from_files((path,))[0])

    def _bring(self, picture: Incoming) -> None:
        self.parts.by_stage.setChecked(True)
        self.stage.looking()
        self._not_sure()
        self.save.setEnabled(True)
        self._come += 1
        number = self._come

        def read(_work: Work) -> _Stage:
            data = picture.path.read_bytes() if picture.path else picture.data
            return _Stage(data, decoded(data))

        def came(stage: _Stage) -> None:
            if number == self._come:
                self._stage = stage
                self.stage.show_picture(stage.picture)
                self._look_for_lines(stage, number)

        begin(read, came, lambda fault: self._no_scale(number, fault))

    def _look_for_lines(self, stage: _Stage, number: int) -> None:
        measurer = self._measurer

        def found(scale: StageScale) -> None:
            if number == self._come:
                self.stage.show_found(scale)
                self.stage.division.setFocus()

        begin(
            lambda _work: measurer.stage_scale(stage.data, ANY_DIVISION_UM, 0.0),
            found,
            lambda fault: self._no_scale(number, fault),
        )

    def _no_scale(self, number: int, fault: BaseException) -> None:
        if number == self._come:
            told = in_plain_words(fault)
            self.stage.refused(f"{told.what} {told.do}".strip())
            if told.ours:
                self._desk.faults.handle(fault)

    # --- keeping ---------------------------------------------------------------------------

    def _words(self) -> SetUpWords:
        f = self.fields
        return SetUpWords(
            name=f.name.text(),
            microscope=f.microscope.text(),
            objective=f.objective.text(),
            light=f.light,
            reference_fibre=f.fibre.text(),
            edge_offset_px=f.offset.text(),
            replaces=self._replaces,
        )

    def _save(self) -> None:
        if self.parts.by_typing.isChecked():
            self._try(self._keep_typed)
            return
        stage, division = self._stage, read_number(self.stage.division.text())
        within = read_number(self.stage.within.text() or "0")
        if stage is None or self.stage.found is None:
            self._refused(
                EntryRefused("There is no stage micrometer whose lines were found.",
                             "Choose its picture, or type the scale."),
                self.stage.choose,
            )  # fmt: skip
        elif not division:
            words = "Say how far apart two neighbouring marked lines are, in µm; it stands on it."
            self._refused(EntryRefused("The slide's division is not said.", words),
                          self.stage.division)  # fmt: skip
        elif within is None:
            words = "Type µm, such as 0.02, or leave it empty."
            self._refused(EntryRefused("The division's uncertainty is no number.", words),
                          self.stage.within)  # fmt: skip
        else:
            self._keep_stage(stage, division, within)

    def _keep_stage(self, stage: _Stage, division: float, within: float) -> None:
        """Find the scale again for this division, off the main thread, then keep it."""
        measurer, workshop = self._measurer, self._desk.workshop
        words, sure, number = self._words(), self._sure, self._come
        self.save.setEnabled(False)

        def found(scale: StageScale) -> None:
            if number != self._come:
                return
            self.save.setEnabled(True)
            self._try(
                lambda: add_stage_set_up(
                    workshop.shelf, workshop.clock, words, scale, division, within, stage.data,
                    sure=sure,
                )
            )  # fmt: skip

        def failed(fault: BaseException) -> None:
            if number != self._come:
                return
            self.save.setEnabled(True)
            told = in_plain_words(fault)
            self.stage.refused(f"{told.what} {told.do}".strip())

        begin(lambda _work: measurer.stage_scale(stage.data, division, within), found, failed)

    def _keep_typed(self) -> MicroscopeSetUp:
        workshop, t = self._desk.workshop, self.typed
        sides = [read_number(field.text() or "0") for field in (t.width_px, t.height_px)]
        if None in sides or bool(sides[0]) != bool(sides[1]):
            raise EntryRefused(
                "The pictures' size is not said whole.",
                "Type width and height in pixels, or leave both empty.",
            )
        return add_typed_set_up(
            workshop.shelf, workshop.clock, self._words(), t.scale.text(), t.uncertainty.text(),
            size_px=(int(sides[0]), int(sides[1])), sure=self._sure,
        )  # fmt: skip

    def _try(self, keep: object) -> None:
        try:
            made = keep()
        except AskAgain as question:
            self._sure = True
            self.save.setText(YES)
            self.save.setAccessibleName(YES.replace("&", ""))
            self.strip.asks(question)
            self.save.setFocus()
        except WorldError as refusal:
            self._refused(refusal, self._first_empty() or self.save)
        else:
            self.taken.emit(made.id)
            self.accept()

    def _refused(self, fault: WorldError, back: QWidget) -> None:
        self._not_sure()
        self.strip.refused(fault)
        back.setFocus()

    def _first_empty(self) -> QLineEdit | None:
        wanted = [self.fields.name, self.fields.objective]
        if self.parts.by_typing.isChecked():
            wanted += [self.typed.scale, self.typed.uncertainty]
        return next((field for field in wanted if not field.text().strip()), None)

    def _not_sure(self) -> None:
        self._sure = False
        self.save.setText(SAVE)
        self.save.setAccessibleName(SAVE.replace("&", ""))

    def _typed_anew(self) -> None:
        self._not_sure()
        self.strip.plain("")

    # --- events ----------------------------------------------------------------------------

    def done(self, result: int) -> None:
        """Close; what is still on its way comes too late, and nothing is kept of it."""
        self._come += 1
        super().done(result)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter clicks the button that has the focus, or keeps what is typed in a field."""
        focus = self.focusWidget()
        if key_name(event) in self._picture_keys:
            self._choose()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self._take(QGuiApplication.clipboard().mimeData())
        elif event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif isinstance(focus, QPushButton) and not event.isAutoRepeat():
            focus.click()
        elif isinstance(focus, QLineEdit) and not event.isAutoRepeat():
            self._save()
        elif focus is self.list:
            self._use()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Pasting a picture brings it, whatever field has the keys; words go into the field."""
        pasting = (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.matches(QKeySequence.StandardKey.Paste)
        )
        return pasting and self._take(QGuiApplication.clipboard().mimeData())

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        event.acceptProposedAction()
        self._take(event.mimeData())

    def _take(self, mime: QMimeData) -> bool:
        """Bring the picture in what was dropped or pasted; whether there was one."""
        pictures = incoming_from(mime)
        if pictures:
            self._bring(pictures[0])
        return bool(pictures)

    # --- wiring ----------------------------------------------------------------------------

    def _connect(self) -> None:
        self.parts.use.clicked.connect(self._use)
        self.parts.anew.clicked.connect(lambda: self._start_new(self.chosen))
        self.parts.fresh.clicked.connect(lambda: self._start_new(None))
        self.stage.picture_wanted.connect(self._choose)
        self.save.clicked.connect(self._save)
        self.parts.leave.clicked.connect(self.reject)
        for line in self.findChildren(QLineEdit):
            line.installEventFilter(self)
        for part in (self.fields, self.stage, self.typed):
            part.changed.connect(self._typed_anew)
        self.parts.by_typing.toggled.connect(lambda on: self.parts.scales.setCurrentIndex(int(on)))
        self.parts.by_typing.toggled.connect(lambda _on: self._typed_anew())
