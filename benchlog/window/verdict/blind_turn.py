"""Judging blind from choosing what to the reveal; while it runs nothing tells whose part it is."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from benchlog.errors import AskAgain, WorldError
from benchlog.judge.blind import BlindRun
from benchlog.tasks.blind_pictures import blind_pictures
from benchlog.tasks.blind_view import blind_offers
from benchlog.tasks.judge_blind import (
    blind_answer,
    blind_next,
    blind_take_back,
    reveal,
    start_blind,
    unrevealed,
)
from benchlog.window.desk import Desk
from benchlog.window.theme import px
from benchlog.window.verdict.blind_end import EndPage
from benchlog.window.verdict.blind_question import QuestionPage
from benchlog.window.verdict.blind_start import ChoosePage, CodesPage


class BlindTurn(QStackedWidget):
    """Leads through one run; `ended` follows when the window may show names again.

    `poll_wanted` asks for the viewers' poll before the codes are opened. While a run goes on the
    desk's curtain is drawn, so that the rest of the window names nobody either.
    """

    ended = Signal()
    poll_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.under_way = False
        self.run: BlindRun | None = None
        self.choose, self.codes = ChoosePage(), CodesPage()
        self.asking = QuestionPage(desk.workshop.shelf.photo_bytes, desk.faults.handle)
        self.end = EndPage()
        for page in (self.choose, self.codes, self.asking, self.end):
            self.addWidget(page)
            page.layout().setContentsMargins(px(40), px(20), px(40), px(20))
        self.choose.begun.connect(self._start)
        self.choose.left.connect(self._leave)
        self.codes.hidden.connect(self._ask)
        self.asking.answered.connect(self._answer)
        self.asking.taken_back.connect(self._take_back)
        self.asking.paused.connect(self._leave)
        self.asking.ended.connect(lambda: self._end(all_answered=False))
        self.end.reveal_wanted.connect(self._reveal)
        self.end.back.connect(self._ask)
        self.end.over.connect(self._leave)
        self.end.poll_wanted.connect(self.poll_wanted)

    def begin(self) -> bool:
        """Go on with a run that was not revealed, else offer a new one; False when neither can."""
        workshop, teardown = self._desk.workshop, self._desk.teardown
        if teardown is None:
            return False
        self.under_way = True
        self._desk.curtain.emit(True)
        with self._desk.faults.guarded():
            self.run = unrevealed(workshop.shelf, teardown.lineup.id)
            if self.run is not None:
                self._ask()
                return True
            offers = blind_offers(workshop.shelf, teardown.lineup, teardown.sequence)
            self.choose.show_offers(offers)
            self.setCurrentWidget(self.choose)
            return True
        self.put_away()
        return False

    def put_away(self) -> None:
        """Forget what goes on here; a run stays sealed on the shelf."""
        if self.under_way:
            self.under_way = False
            self.run = None
            self._desk.curtain.emit(False)

    def take_focus(self) -> None:
        """Give the keys to the page in sight."""
        firsts: dict[QWidget, QWidget] = {
            self.choose: self.choose.list,
            self.codes: self.codes.show_list,
            self.asking: self.asking,
            self.end: self.end.reveal,
        }
        firsts[self.currentWidget()].setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        for page in (self.choose, self.codes, self.asking, self.end):
            page.rescaled()
            page.layout().setContentsMargins(px(40), px(20), px(40), px(20))

    # --- inside ------------------------------------------------------------------------------

    def _start(self, attributes: tuple[str, ...]) -> None:
        workshop, teardown = self._desk.workshop, self._desk.teardown
        try:
            self.run = start_blind(
                workshop.shelf, workshop.clock, teardown.lineup.id, attributes,
                sequence=teardown.sequence,
            )  # fmt: skip
        except WorldError as refusal:
            self.choose.told.setText(f"{refusal.what} {refusal.do}".strip())
            return
        self.codes.take_run(self.run, teardown.lineup)
        self.setCurrentWidget(self.codes)
        self.take_focus()

    def _ask(self, said: str = "") -> None:
        """Ask the next question, or lead to the reveal when there is none."""
        with self._desk.faults.guarded():
            sequence = self._desk.teardown.sequence
            asked = blind_next(self._desk.workshop.shelf, self.run, sequence)
            if asked is None:
                self._end(all_answered=True)
                return
            pictures = blind_pictures(self._desk.workshop.shelf, self.run, asked)
            self.asking.ask(asked, said, pictures)
            self.setCurrentWidget(self.asking)
            self.take_focus()

    def _answer(self, text: str) -> None:
        workshop, teardown = self._desk.workshop, self._desk.teardown
        try:
            kept = blind_answer(
                workshop.shelf, workshop.clock, self.run, text, sequence=teardown.sequence
            )
        except WorldError as refusal:
            self.asking.say(f"{refusal.what} {refusal.do}".strip(), warn=True)
            return
        self._ask(f"Kept: {kept.code}, {kept.said}")

    def _take_back(self) -> None:
        workshop = self._desk.workshop
        try:
            back = blind_take_back(workshop.shelf, workshop.clock, self.run)
        except WorldError as refusal:
            self.asking.say(f"{refusal.what} {refusal.do}".strip(), warn=True)
            return
        self._ask(f"Taken back: {back.code}, {back.said}")

    def _end(self, *, all_answered: bool) -> None:
        self.setCurrentWidget(self.end)
        self.end.stand_ready(all_answered=all_answered)

    def _reveal(self, sure: bool) -> None:
        workshop, teardown = self._desk.workshop, self._desk.teardown
        try:
            reveal(workshop.shelf, workshop.clock, self.run, sure=sure)
        except AskAgain as question:
            self.end.ask_again(f"{question.what} {question.do}".strip())
        except WorldError as refusal:
            self.end.say(f"{refusal.what} {refusal.do}".strip())
        else:
            self.end.show_opened(self.run, teardown.lineup)

    def _leave(self) -> None:
        self.put_away()
        self.ended.emit()
