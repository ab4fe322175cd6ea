"""Pictures on their way into fields: kept, looked at at once, and measured in the background."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp
from benchlog.tasks.field_order import FieldState, WantedField, field_words
from benchlog.tasks.fields import KeptAnswer, keep_answer, measured, take_back, take_picture
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.trade.specimen import Lineup
from benchlog.window.bench.pictures_in import Incoming
from benchlog.window.desk import Desk
from benchlog.window.microscope.fields_now import FieldsNow
from benchlog.window.microscope.measuring import Measuring, Task
from benchlog.window.work import Work, begin

NO_SET_UP = EntryRefused(
    "No set-up of the microscope is chosen.", "Make one first, so that a pixel has a length."
)
ALL_TAKEN = EntryRefused(
    "Every field has its picture.",
    "Choose a field in the list and press Enter to take it again, or ask for one more.",
)


@dataclass(frozen=True)
class Taking:
    """One picture on its way into a field."""

    picture: Incoming
    data: bytes
    field: WantedField
    set_up: MicroscopeSetUp


class FieldTaking(QObject):
    """Does what the page asks for, off the main thread.

    `taken` carries a Micrograph and the picture's bytes; `looked` its id and the gates told at
    once; `asked` an AskAgain that `say_yes` answers; `refused` why one was not taken, and how many
    behind it were left with it: they would have gone into the wrong fields.
    """

    taken = Signal(object, object)
    looked = Signal(str, object)
    asked = Signal(object)
    refused = Signal(object, int)

    def __init__(
        self, desk: Desk, now: FieldsNow, measurer: PictureMeasurer, measuring: Measuring
    ) -> None:
        super().__init__()
        self._desk, self._now = desk, now
        self._measurer, self._measuring = measurer, measuring
        self._coming: deque[Incoming] = deque()
        self._busy = False
        self._in_question: Taking | None = None

    @property
    def in_question(self) -> bool:
        """Whether a picture waits for a yes."""
        return self._in_question is not None

    @property
    def under_way(self) -> bool:
        """Whether a picture is still on its way into a field."""
        return self._busy or bool(self._coming)

    def bring(self, pictures: Sequence[Incoming]) -> None:
        """Take pictures into the wanted fields, one after the other."""
        self._in_question = None
        self.follow(pictures)

    def follow(self, pictures: Sequence[Incoming]) -> None:
        """Take pictures behind those under way; while one waits for a yes, they wait behind it."""
        self._coming.extend(pictures)
        self._next()

    def say_yes(self) -> None:
        """Take the picture in question all the same."""
        if self._in_question is not None:
            taking, self._in_question = self._in_question, None
            self._take(taking, sure=True)

    def forget_question(self) -> int:
        """Leave the picture in question where it is, and those behind it; return how many."""
        self._in_question = None
        left = len(self._coming)
        self._coming.clear()
        return left

    def take_back(self, micrograph: Micrograph) -> None:
        """Take a picture out of its field; raises EntryRefused for one that does not stand."""
        workshop = self._desk.workshop
        self._measuring.drop(micrograph.id)
        take_back(
            workshop.shelf, workshop.clock, micrograph.lineup_id, micrograph.id,
            session_s=self._session_s,
        )  # fmt: skip
        self._desk.reload()

    def measure(self, micrograph: Micrograph) -> None:
        """Measure a picture in the background, anew if it was measured before."""
        desk, measurer = self._desk, self._measurer
        teardown = desk.teardown
        assert teardown is not None
        shelf, clock, sequence = desk.workshop.shelf, desk.workshop.clock, teardown.sequence
        session_s = self._session_s

        def job(work: Work) -> KeptAnswer:
            said = measured(shelf, measurer, micrograph, work)
            return keep_answer(
                shelf, clock, sequence, micrograph.lineup_id, micrograph.id, said,
                session_s=session_s,
            )  # fmt: skip

        self._measuring.add(Task(micrograph.id, title_of(teardown.lineup, micrograph), job))

    def measure_left(self) -> None:
        """Measure every picture that was taken and has no answer yet."""
        for one in self._now.standings:
            if one.state is FieldState.WAITING and one.micrograph is not None:
                self.measure(one.micrograph)

    # --- inside ------------------------------------------------------------------------------

    @property
    def _session_s(self) -> float:
        return self._desk.teardown.session_s if self._desk.teardown else 0.0

    def _next(self) -> None:
        if self._busy or self.in_question or not self._coming:
            return
        picture = self._coming.popleft()
        field, set_up = self._now.wanted, self._now.set_up
        if set_up is None or field is None:
            self._stop(NO_SET_UP if set_up is None else ALL_TAKEN)
            return
        self._busy = True

        def read(_work: Work) -> Taking:
            data = picture.path.read_bytes() if picture.path else picture.data
            return Taking(picture, data, field, set_up)

        begin(read, lambda taking: self._take(taking, sure=False), self._stop)

    def _take(self, taking: Taking, *, sure: bool) -> None:
        self._busy = True
        workshop, lineup_id = self._desk.workshop, self._now.lineup_id
        session_s = self._session_s

        def keep(_work: Work) -> Micrograph:
            return take_picture(
                workshop.shelf, workshop.clock, lineup_id, taking.field, taking.set_up.id,
                taking.picture.name, taking.data, session_s=session_s, sure=sure,
            )  # fmt: skip

        def failed(fault: BaseException) -> None:
            if isinstance(fault, AskAgain):
                self._busy = False
                self._in_question = taking
                self.asked.emit(fault)
            else:
                self._stop(fault)

        begin(keep, lambda micrograph: self._kept(taking, micrograph), failed)

    def _kept(self, taking: Taking, micrograph: Micrograph) -> None:
        self._busy = False
        if self._desk.lineup_id != self._now.lineup_id:
            # Another line-up was taken in hand: this one's page measures the picture when it is
            # opened again, and what was to follow has no fields here any more.
            self._coming.clear()
            return
        if micrograph.supersedes:
            self._measuring.drop(micrograph.supersedes)
        if self._now.asked_for == taking.field:
            self._now.asked_for = None
        self._desk.reload()
        self.taken.emit(micrograph, taking.data)
        self._look(taking, micrograph)
        self.measure(micrograph)
        self._next()

    def _look(self, taking: Taking, micrograph: Micrograph) -> None:
        measurer = self._measurer
        begin(
            lambda _work: measurer.look(taking.data, taking.set_up),
            lambda gates: self.looked.emit(micrograph.id, gates),
            # What keeps a look from its answer keeps the measurement too, and is told there.
            lambda _fault: None,
        )

    def _stop(self, fault: BaseException) -> None:
        self._busy = False
        left = len(self._coming)
        self._coming.clear()
        self.refused.emit(fault, left)


def title_of(lineup: Lineup, micrograph: Micrograph) -> str:
    """Return what a micrograph shows, in words."""
    field = WantedField(micrograph.specimen_id, micrograph.side, micrograph.field)
    return field_words(lineup, field)
