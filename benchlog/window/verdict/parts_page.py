"""Component by component: the scores at the left, and beside them what is behind the chosen one."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QTabWidget, QVBoxLayout, QWidget

from benchlog.settings import METRIC
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import ComponentRow, component_rows
from benchlog.window.theme import px, sized
from benchlog.window.verdict.gaps_page import GapsPage
from benchlog.window.verdict.legend import MarkLegend
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.readings_page import ReadingsPage
from benchlog.window.verdict.score_table import ScoreTable
from benchlog.window.verdict.sums_page import SumsPage
from benchlog.window.verdict.why_page import WhyPage


class PartsPage(QWidget):
    """Shows a record's components; Enter opens the chosen one, Escape leads back to the scores."""

    def __init__(self) -> None:
        super().__init__()
        self._record: Record | None = None
        self._units = METRIC
        self.scores = ScoreTable()
        self.why, self.sums, self.readings = WhyPage(), SumsPage(), ReadingsPage()
        self.gaps = GapsPage()
        self.tabs = QTabWidget()
        self.legend = MarkLegend()
        self.show_sum = QPushButton(f"Sum  {SUM_KEY}")
        self._lay_out()
        self.scores.chosen.connect(lambda _component: self.show_component())
        self.scores.opened.connect(lambda: self.open_tab(self.tabs.currentIndex()))
        self.tabs.currentChanged.connect(lambda _tab: self._show_tab())
        for n in range(self.tabs.count()):
            shortcut = QShortcut(QKeySequence(f"Alt+{n + 1}"), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(lambda n=n: self.open_tab(n))
        back = QShortcut(QKeySequence(Qt.Key.Key_Escape), self.tabs)
        back.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        back.activated.connect(self.scores.setFocus)

    @property
    def row(self) -> ComponentRow | None:
        """The chosen component as it is shown, None while nothing is judged."""
        component = self.scores.component
        if self._record is None or component is None:
            return None
        return next(r for r in component_rows(self._record) if r.component == component)

    def show_record(self, record: Record, units: str = METRIC) -> None:
        """Show a record, with the same component chosen as before where it is still there."""
        self._record, self._units = record, units
        self.scores.show_rows(component_rows(record), record.lineup.specimens)
        self.show_component()

    def show_component(self) -> None:
        """Show what is behind the chosen component."""
        record, row = self._record, self.row
        if record is None or row is None:
            return
        self.why.show_component(record, row, self._units)
        self.sums.show_component(record, row.component, self._units)
        self.readings.show_component(record, row.component)
        self._show_tab()
        self.tabs.setAccessibleName(f"About the {row.component.value}")

    def open_tab(self, number: int) -> None:
        """Show a page about the chosen component, with the focus in it."""
        self.tabs.setCurrentIndex(number)
        first = (self.why.values, self.sums.figures, self.readings.table, self.gaps.gaps)[number]
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        for part in (self.scores, self.why, self.gaps, self.sums, self.readings, self.legend):
            part.rescaled()
        self.tabs.setMinimumWidth(px(400))

    def _show_tab(self) -> None:
        """Fill the page of gaps only while it is in sight: it compares every pair anew."""
        record, row = self._record, self.row
        if record is None or row is None or self.tabs.currentWidget() is not self.gaps:
            return
        self.gaps.show_component(record, row, self._units)

    def _lay_out(self) -> None:
        pages = (
            ("Why", self.why), ("Sums", self.sums),
            ("Readings", self.readings), ("Gaps", self.gaps),
        )  # fmt: skip
        for name, page in pages:
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
        sized(self.tabs.tabBar(), 14)
        middle = QHBoxLayout()
        middle.addWidget(self.scores, 11)
        middle.addWidget(self.tabs, 10)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(middle, 1)
        column.addWidget(self.legend)
