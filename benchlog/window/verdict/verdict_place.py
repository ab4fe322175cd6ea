"""The Verdict as a place: scores and outcomes, and for each component why it came out so."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.correct import correct
from benchlog.tasks.reading_view import ReadingRow
from benchlog.tasks.record import Record
from benchlog.tasks.remark import say
from benchlog.tasks.verdict_view import component_rows
from benchlog.window.desk import Desk
from benchlog.window.empty_page import EmptyPage
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.theme import px, sized
from benchlog.window.verdict.correct_dialog import CorrectDialog
from benchlog.window.verdict.legend import MarkLegend
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.readings_page import ReadingsPage
from benchlog.window.verdict.record_watch import RecordWatch
from benchlog.window.verdict.score_table import ScoreTable
from benchlog.window.verdict.sums_page import SumsPage
from benchlog.window.verdict.why_page import WhyPage

NO_LINEUP = "Nothing to judge yet: no line-up is in hand."
NOTHING_READ = (
    "Nothing to judge yet: nothing was read at the bench. Scores appear here as readings come in."
)
REHEARSAL = "REHEARSAL: invented"


class VerdictPlace(QStackedWidget):
    """Shows the record of the line-up in hand; looks at it only while it is in sight."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.watch = RecordWatch(desk)
        self.nothing = EmptyPage()
        self.nothing.say(NO_LINEUP, "shelf", "Shelf")
        self.scores = ScoreTable()
        self.why, self.sums, self.readings = WhyPage(), SumsPage(), ReadingsPage()
        self.tabs = QTabWidget()
        self.title = QLabel()
        self.working = QLabel("working it out…")
        self.rehearsal = QLabel(REHEARSAL)
        self.legend = MarkLegend()
        self.show_sum = QPushButton(f"Show the sum  {SUM_KEY}")
        self.addWidget(self.nothing)
        self.addWidget(self._page())
        let_enter_click(self)
        self._connect()

    def enter(self) -> None:
        """Show what is so now, with the focus on the components."""
        self._show_record(self.watch.record)
        self.watch.look()
        self.scores.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Keep a sentence half typed; the window closes."""
        self.why.keep()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._column.setContentsMargins(px(20), px(6), px(20), px(8))
        for part in (self.scores, self.why, self.sums, self.readings, self.legend):
            part.rescaled()
        self.tabs.setMinimumWidth(px(400))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.watch.look()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.why.keep()
        self.watch.look_away()

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        self.nothing.wanted.connect(self._desk.go_to)
        self.watch.worked_out.connect(self._show_record)
        self.watch.working.connect(self.working.setVisible)
        self._desk.lineup_changed.connect(self._other_lineup)
        self.scores.chosen.connect(lambda _component: self._show_component())
        self.scores.opened.connect(self._open)
        self.why.said.connect(self._say)
        self.readings.correct_wanted.connect(self._correct)
        for page in (self.why, self.sums, self.readings):
            page.sum_wanted.connect(self._open_sum)
        self.show_sum.clicked.connect(self._open_sum)
        sum_key = QShortcut(QKeySequence(SUM_KEY), self)
        sum_key.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        sum_key.activated.connect(self._open_sum)
        self._desk.settings_changed.connect(lambda: self._show_record(self.watch.record))
        for n in range(3):
            shortcut = QShortcut(QKeySequence(f"Alt+{n + 1}"), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(lambda n=n: self._open_tab(n))
        back = QShortcut(QKeySequence(Qt.Key.Key_Escape), self.tabs)
        back.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        back.activated.connect(self.scores.setFocus)

    def _other_lineup(self) -> None:
        self.why.forget()
        self._show_record(None)

    def _show_record(self, record: Record | None) -> None:
        if self._desk.teardown is None or (record is not None and not record.readings):
            if record is None:
                self.nothing.say(NO_LINEUP, "shelf", "Shelf")
            else:
                self.nothing.say(NOTHING_READ, "bench", "Bench")
            self.setCurrentWidget(self.nothing)
            return
        if record is None:
            self.nothing.say("Working it out…")
            self.setCurrentWidget(self.nothing)
            return
        self.title.setText(record.lineup.question or record.lineup.name)
        self.rehearsal.setVisible(record.lineup.rehearsal)
        self.scores.show_rows(component_rows(record), record.lineup.specimens)
        self._show_component()
        if self.currentWidget() is self.nothing:
            self.setCurrentIndex(1)
            if self.isVisible():  # somebody may be typing in another place by now
                self.scores.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_component(self) -> None:
        record, component = self.watch.record, self.scores.component
        if record is None or component is None:
            return
        row = next(r for r in component_rows(record) if r.component == component)
        units = self._desk.settings.units
        self.why.show_component(record, row, units)
        self.sums.show_component(record, component, units)
        self.readings.show_component(record, component)
        self.tabs.setAccessibleName(f"About the {component.value}")

    def _open(self) -> None:
        self._open_tab(self.tabs.currentIndex())

    def _open_tab(self, number: int) -> None:
        self.tabs.setCurrentIndex(number)
        first = (self.why.values, self.sums.figures, self.readings.table)[number]
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _open_sum(self) -> None:
        """Open the sum behind the number that is chosen on the page in sight."""
        from benchlog.window.dialogs.sum_dialog import SumDialog  # noqa: PLC0415 - on demand

        page = self.tabs.currentWidget()
        here = page.number_here()
        if here is None or self.watch.record is None:
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

    def _page(self) -> QWidget:
        sized(self.title, 17, bold=True)
        sized(self.working, 14)
        sized(self.rehearsal, 15, bold=True)
        self.title.setTextInteractionFlags(Qt.TextInteractionFlag.NoTextInteraction)
        self.working.setProperty("tone", "accent")
        self.rehearsal.setProperty("tone", "warn")
        self.working.hide()
        for name, page in (("Why", self.why), ("Sums", self.sums), ("Readings", self.readings)):
            number = self.tabs.addTab(page, name)
            self.tabs.setTabToolTip(number, f"Alt+{number + 1}")
        self.tabs.setDocumentMode(True)
        self.show_sum.setAccessibleName("Show the sum behind the chosen number")
        sized(self.show_sum, 14)
        corner = QWidget()
        beside = QHBoxLayout(corner)
        beside.setContentsMargins(0, 0, 0, 4)
        beside.addWidget(self.show_sum)
        self.tabs.setCornerWidget(corner)
        sized(self.tabs, 15)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.working)
        head.addWidget(self.rehearsal)
        middle = QHBoxLayout()
        middle.addWidget(self.scores, 11)
        middle.addWidget(self.tabs, 10)
        page = QWidget()
        self._column = QVBoxLayout(page)
        self._column.addLayout(head)
        self._column.addLayout(middle, 1)
        self._column.addWidget(self.legend)
        return page
