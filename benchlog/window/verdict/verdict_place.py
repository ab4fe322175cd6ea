"""The Verdict as a place: scores and outcomes, why they came out so, and the reviewer's hand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import QApplication, QStackedWidget, QVBoxLayout, QWidget

from benchlog.judge.rules import Rules
from benchlog.judge.verdict import AwardKind
from benchlog.tasks.correct import correct
from benchlog.tasks.overrule import overrule, take_back_overruling
from benchlog.tasks.poll import poll_story
from benchlog.tasks.reading_view import ReadingRow
from benchlog.tasks.record import Record
from benchlog.tasks.remark import say
from benchlog.tasks.sets_view import look_words, sets_to_look_under
from benchlog.window.desk import Desk
from benchlog.window.empty_page import EmptyPage
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.theme import px
from benchlog.window.verdict.blind_turn import BlindTurn
from benchlog.window.verdict.correct_dialog import CorrectDialog
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.overrule_dialog import OverruleDialog
from benchlog.window.verdict.parts_page import PartsPage
from benchlog.window.verdict.poll_dialog import PollDialog
from benchlog.window.verdict.ranks_page import RanksPage
from benchlog.window.verdict.record_watch import RecordWatch
from benchlog.window.verdict.verdict_head import VerdictHead

NO_LINEUP = "Nothing to judge yet: no line-up is in hand."
NOTHING_READ = (
    "Nothing to judge yet: nothing was read at the bench. Scores appear here as readings come in. "
    "What it is judged for is best declared before the cut, under Ranks."
)


class VerdictPlace(QStackedWidget):
    """Shows the record of the line-up in hand; looks at it only while it is in sight."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.watch = RecordWatch(desk)
        self.nothing, self.unread = EmptyPage(), EmptyPage()
        self.nothing.say(NO_LINEUP, "shelf", "Shelf")
        self.unread.say(NOTHING_READ, "bench", "Bench")
        self.head = VerdictHead()
        self.title, self.working = self.head.title, self.head.working
        self.rehearsal = self.head.rehearsal
        self.parts, self.ranks = PartsPage(), RanksPage(desk)
        self.scores, self.tabs, self.why = self.parts.scores, self.parts.tabs, self.parts.why
        self.sums, self.readings, self.gaps = (
            self.parts.sums, self.parts.readings, self.parts.gaps,
        )  # fmt: skip
        self.show_sum = self.parts.show_sum
        self.first, self.views = QStackedWidget(), QStackedWidget()
        self.page = self._page()
        self.blind = BlindTurn(desk)
        for page in (self.nothing, self.page, self.blind):
            self.addWidget(page)
        let_enter_click(self)
        self._connect()

    def enter(self) -> None:
        """Show what is so now, with the focus on what comes next; a blind run goes on unseen."""
        if self.blind.under_way:
            self.blind.take_focus()
            return
        self._offer_sets()
        self._show_record(self.watch.record)
        self.watch.look()
        self._take_focus()

    def leave(self) -> None:
        """Keep a sentence half typed; the window closes."""
        self.why.keep()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._column.setContentsMargins(px(20), px(6), px(20), px(8))
        for part in (self.parts, self.ranks, self.blind):
            part.rescaled()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.watch.look()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.why.keep()
        self.watch.look_away()

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        desk = self._desk
        for empty in (self.nothing, self.unread):
            empty.wanted.connect(desk.go_to)
        self.watch.worked_out.connect(self._show_record)
        self.watch.working.connect(self.working.setVisible)
        desk.lineup_changed.connect(self._other_lineup)
        desk.settings_changed.connect(lambda: self._show_record(self.watch.record))
        desk.blind_wanted.connect(self._judge_blind)
        self.head.viewed.connect(self._view)
        self.head.judged_by.connect(self._judge_by)
        self.head.blind_wanted.connect(self._judge_blind)
        self.head.poll_wanted.connect(self._enter_poll)
        self.blind.ended.connect(self._blind_over)
        self.blind.poll_wanted.connect(self._enter_poll)
        self.why.said.connect(self._say)
        self.why.overrule_wanted.connect(self._overrule)
        self.why.take_back_wanted.connect(self._take_back)
        self.readings.correct_wanted.connect(self._correct)
        for page in (self.why, self.sums, self.readings, self.gaps):
            page.sum_wanted.connect(self._open_sum)
        self.show_sum.clicked.connect(self._open_sum)
        sum_key = QShortcut(QKeySequence(SUM_KEY), self)
        sum_key.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        sum_key.activated.connect(self._open_sum)

    def _other_lineup(self) -> None:
        self.why.forget()
        self.blind.put_away()
        self._offer_sets()
        self._show_record(None)

    def _offer_sets(self) -> None:
        """Offer the sets anew where no look under another is going on."""
        if self.watch.rules is None and self._desk.teardown is not None:
            with self._desk.faults.guarded():
                shelf = self._desk.workshop.shelf
                self.head.show_sets(sets_to_look_under(shelf, self._desk.lineup_id))

    def _show_record(self, record: Record | None) -> None:
        if self.blind.under_way:
            return
        if self._desk.teardown is None:
            self.nothing.say(NO_LINEUP, "shelf", "Shelf")
            self.setCurrentWidget(self.nothing)
            self._take_focus()
            return
        if record is None:
            self.nothing.say("Working it out…")
            self.setCurrentWidget(self.nothing)
            return
        self.title.setText(record.lineup.question or record.lineup.name)
        self.rehearsal.setVisible(record.lineup.rehearsal)
        own = self.watch.rules is None
        self.head.say_look("" if own else look_words(record))
        self.head.show_polls(tuple(poll_story(poll, record.lineup) for poll in record.polls))
        self.why.may_speak(own)
        read = bool(record.readings)
        self.head.may_judge(read)
        self.first.setCurrentWidget(self.parts if read else self.unread)
        if read:
            self.parts.show_record(record, self._desk.settings.units)
        self.ranks.show_record(record)
        if self.currentWidget() is not self.page:
            self.setCurrentWidget(self.page)
            self._take_focus()

    def _take_focus(self) -> None:
        """Put the focus where the view in sight begins, or on the way on where there is none."""
        if self.isVisible():  # somebody may be typing in another place by now
            empty = self.currentWidget() is self.nothing
            (self.nothing.go if empty else self._start).setFocus(Qt.FocusReason.OtherFocusReason)

    def _view(self, number: int) -> None:
        self.views.setCurrentIndex(number)
        self._start.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def _start(self) -> QWidget:
        """Where the view in sight begins: purposes, components, or the way to the bench."""
        if self.views.currentWidget() is self.ranks:
            return self.ranks.purposes
        return self.scores if self.first.currentWidget() is self.parts else self.unread.go

    def _judge_by(self, rules: Rules | None) -> None:
        self.why.keep()
        self.watch.judge_by(rules)

    def _open_sum(self) -> None:
        """Open the sum behind the number that is chosen on the page in sight."""
        from benchlog.window.dialogs.sum_dialog import SumDialog  # noqa: PLC0415 - on demand

        page = self.tabs.currentWidget()
        here = page.number_here()
        if here is None or self.watch.record is None or not self.watch.record.readings:
            return
        back = QApplication.focusWidget()
        self.sum_dialog = SumDialog(self._desk, self.watch.record, *here, self)
        self.sum_dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        if back is not None:
            self.sum_dialog.finished.connect(lambda _result: back.setFocus())
        self.sum_dialog.open()

    def _say(self, component: str, text: str) -> None:
        workshop = self._desk.workshop
        lineup_id = self.watch.record.lineup.id if self.watch.record else self._desk.lineup_id
        with self._desk.faults.guarded():
            say(workshop.shelf, workshop.clock, lineup_id, component, text)
            self._desk.recorded.emit()

    def _correct(self, row: ReadingRow) -> None:
        record = self.watch.record
        if record is None:
            return
        attribute = record.sequence.attribute(row.reading.attribute)

        def forward(text: str, reason: str, sure: bool) -> None:
            workshop, inch = self._desk.workshop, self._desk.settings.inch
            where = (workshop.shelf, workshop.clock, record.sequence, record.lineup.id)
            correct(*where, row.reading.id, text, reason, inch=inch, sure=sure)
            self._desk.reload()

        self.dialog = CorrectDialog(row, attribute, forward, self)
        self.dialog.finished.connect(lambda _result: self.readings.focus_row())
        self.dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.dialog.open()

    def _overrule(self) -> None:
        record, row = self.watch.record, self.parts.row
        if record is None or row is None:
            return

        def forward(kind: AwardKind, winners: tuple[str, ...], reason: str) -> None:
            workshop = self._desk.workshop
            overrule(workshop.shelf, workshop.clock, record, row.component, kind, winners, reason)
            self._desk.recorded.emit()

        self.overrule_dialog = OverruleDialog(record, row, forward, self)
        self._open_over(self.overrule_dialog, self.why.overrule)

    def _take_back(self) -> None:
        record, row = self.watch.record, self.parts.row
        if record is None or row is None:
            return
        workshop = self._desk.workshop
        with self._desk.faults.guarded():
            take_back_overruling(workshop.shelf, workshop.clock, record, row.component)
            self._desk.recorded.emit()
        self.why.overrule.setFocus()

    def _judge_blind(self) -> None:
        self.why.keep()
        if self._desk.teardown is not None and self.blind.begin():
            self.setCurrentWidget(self.blind)
            self.blind.take_focus()

    def _blind_over(self) -> None:
        self._desk.reload()
        self._show_record(self.watch.record)
        self.watch.look()
        self.scores.setFocus(Qt.FocusReason.OtherFocusReason)

    def _enter_poll(self) -> None:
        if self._desk.teardown is None:
            return
        self.poll_dialog = PollDialog(self._desk, self)
        self._open_over(self.poll_dialog, QApplication.focusWidget() or self.head.poll)

    def _open_over(self, dialog: QWidget, back: QWidget) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.finished.connect(lambda _result: back.setFocus())
        dialog.open()

    def _page(self) -> QWidget:
        for part in (self.parts, self.unread):
            self.first.addWidget(part)
        for view in (self.first, self.ranks):
            self.views.addWidget(view)
        page = QWidget()
        self._column = QVBoxLayout(page)
        self._column.addWidget(self.head)
        self._column.addWidget(self.views, 1)
        return page
