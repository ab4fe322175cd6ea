"""When the clip of each opening of the bench starts: the time of day, or a flagged moment."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PlanRefused
from benchlog.tasks.footage import Footage, Kept
from benchlog.tasks.record import Record
from benchlog.tasks.video_kept import typed_kept, with_kept
from benchlog.tasks.video_start import (
    KEPT,
    LATER_CLIP,
    LATER_TIME,
    LENGTH,
    START,
    Opening,
    TypedStart,
    openings_of,
    typed_start,
    with_start,
)
from benchlog.window.lineup.field import Field, focus_into, line
from benchlog.window.lineup.tag_choice import Choices
from benchlog.window.theme import px, sized

INTRODUCTION = (
    "Chapters and subtitles follow the bench's clock. Say what time of day it was at 0:00 of the "
    "clip, or choose what was flagged at that moment. A second moment, far into the clip, also "
    "takes out how far the camera's clock runs off. What was cut away is left out of chapters and "
    "subtitles when you say which ranges the video shows."
)
NOTHING_YET = "Nothing was read at the bench yet: there is no clip to set."
TYPED = "as typed"
ALL, RANGES = "all of it", "0:30-12:00, 14:10-20:00"


class _Moments(Choices):
    """A choice whose answers come and go."""

    def clear(self) -> None:
        self._answers.clear()
        super().clear()


class VideoDialog(QDialog):
    """Shows one opening at a time; `set` carries every clip, and what is kept of them."""

    set = Signal(object, object)

    def __init__(
        self,
        record: Record,
        footage: tuple[Footage, ...],
        parent: QWidget | None = None,
        kept: tuple[Kept, ...] = (),
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Start of the clip")
        self._record = record
        self._openings = openings_of(record)
        clips = [*footage, *([Footage()] * len(self._openings))]
        self._typed = [
            typed_start(one.session, clip) for one, clip in zip(self._openings, clips, strict=False)
        ]
        self._place = 0
        self.opening = Choices("Opening of the bench")
        for place, one in enumerate(self._openings):
            self.opening.addItem(one.words, place)
        self.fields = {
            START: Field("Time of day at 0:00 of the clip", line("first reading"), "14:05:30"),
            LATER_CLIP: Field("Later in the clip, at", line(), "12:34"),
            LATER_TIME: Field("it was, by time of day", line(), "14:18:04"),
            LENGTH: Field("Length of the clip", line("not known"), "1:02:03"),
            KEPT: Field("The video shows, of all clips end to end", line(ALL), RANGES),
        }
        self.fields[KEPT].editor.setText(typed_kept(kept))
        self.moments = {
            START: _Moments("Flagged moment at 0:00 of the clip"),
            LATER_TIME: _Moments("Flagged moment later in the clip"),
        }
        self._lay_out()
        for field, moments in self.moments.items():
            moments.chosen.connect(lambda time, field=field: self._take_moment(field, time))
        self.opening.chosen.connect(self._show)
        self._show(0, first=True)

    def accept(self) -> None:
        """Keep every clip, or say beside the field why it cannot stand."""
        self._remember()
        clips: tuple[Footage, ...] = ()
        for place, typed in enumerate(self._typed):
            try:
                clips = with_start(self._record, clips, place, typed)
            except PlanRefused as refusal:
                self._show(place, first=True)
                self._show_fault(refusal)
                return
        try:
            kept = with_kept(self._record, clips, self._editor(KEPT).text())
        except PlanRefused as refusal:
            self._show_fault(refusal)
            return
        self.set.emit(clips, kept)
        super().accept()

    def _show_fault(self, refusal: PlanRefused) -> None:
        field = self.fields[refusal.field]
        field.show_fault(f"{refusal.what} {refusal.do}")
        focus_into(field)

    def _show(self, place: int, *, first: bool = False) -> None:
        if not self._openings:
            return
        if not first:
            self._remember()
        self._place = place
        self.opening.show_choice(place)
        typed, opening = self._typed[place], self._openings[place]
        for field, text in (
            (START, typed.start), (LATER_CLIP, typed.later_clip), (LATER_TIME, typed.later_time),
            (LENGTH, typed.length),
        ):  # fmt: skip
            self._editor(field).setText(text)
            self.fields[field].show_fault("")
        self.fields[KEPT].show_fault("")
        for field, moments in self.moments.items():
            _offer(moments, opening, self._editor(field).text())

    def _remember(self) -> None:
        if self._openings:
            self._typed[self._place] = TypedStart(
                *(self._editor(field).text() for field in (START, LATER_CLIP, LATER_TIME, LENGTH))
            )

    def _take_moment(self, field: str, time: str) -> None:
        if time:
            self._editor(field).setText(time)

    def _editor(self, field: str) -> QLineEdit:
        return self.fields[field].editor

    def _lay_out(self) -> None:
        introduction = QLabel(INTRODUCTION if self._openings else NOTHING_YET, wordWrap=True)
        introduction.setProperty("tone", "dim")
        sized(introduction, 14)
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(14))
        grid.addWidget(Field("Opening of the bench", self.opening), 0, 0, 1, 2)
        grid.addWidget(self.fields[START], 1, 0)
        grid.addWidget(Field("or flagged then", self.moments[START]), 1, 1)
        grid.addWidget(self.fields[LATER_CLIP], 2, 0)
        grid.addWidget(self.fields[LATER_TIME], 3, 0)
        grid.addWidget(Field("or flagged then", self.moments[LATER_TIME]), 3, 1)
        grid.addWidget(self.fields[LENGTH], 4, 0)
        grid.addWidget(self.fields[KEPT], 5, 0, 1, 2)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        for button in buttons.buttons():
            button.setAccessibleName(button.text().replace("&", ""))
        buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(bool(self._openings))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(introduction)
        column.addLayout(grid)
        column.addWidget(buttons)
        self.setMinimumWidth(px(660))
        focus_into(self.fields[START])


def _offer(moments: _Moments, opening: Opening, here: str) -> None:
    """Offer the flagged moments of an opening, the one that is typed already chosen."""
    moments.clear()
    moments.addItem(TYPED, "")
    for one in opening.moments:
        moments.addItem(one.words, one.time)
    moments.show_choice(here)
    moments.setEnabled(bool(opening.moments))
