"""The Shelf as a place: the line-ups to choose from, or, while there are none, how to begin."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.browse import matching
from benchlog.window.desk import Desk
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.shelf.lineup_list import LineupList
from benchlog.window.shelf.welcome import Welcome
from benchlog.window.theme import px, sized
from benchlog.window.work import Work, begin


class ShelfPlace(QStackedWidget):
    """Shows what is on the shelf. `filled` follows the sample line-up, when it is all there."""

    filled = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._busy = False
        self.welcome = Welcome()
        self.list = LineupList()
        self.filter = _Filter()
        self.new_button = _button("New line-up", "Ctrl+N")
        self.open_button = _button("To the bench", "Enter")
        self.verdict_button = _button("To the verdict", "")
        self.none_found = QLabel(wordWrap=True)
        self.addWidget(self.welcome)
        self.addWidget(self._browse_page())
        let_enter_click(self)
        self._connect()
        self.refresh()

    def enter(self) -> None:
        """Show what is on the shelf now."""
        self.refresh()
        if self.currentWidget() is self.welcome:
            self.welcome.begin_here()
        else:
            self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        """Read the shelf again and show what answers to the filter."""
        briefs = self._desk.workshop.shelf.lineups()
        current = self.list.current()
        kept = current.id if current else self._desk.lineup_id
        found = matching(briefs, self.filter.text())
        self.list.show_briefs(found, kept)
        self.list.setVisible(bool(found))
        self.none_found.setVisible(bool(briefs) and not found)
        self.none_found.setText(
            f"No line-up answers to “{self.filter.text().strip()}”. "
            "Type less of it, or press Esc to see all."
        )
        for button in (self.open_button, self.verdict_button):
            button.setEnabled(bool(found))
        empty = not briefs or self._busy
        self.setCurrentWidget(self.welcome if empty else self._browse)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.welcome.rescaled()
        self._column.setContentsMargins(px(28), px(12), px(28), px(16))
        self.list.doItemsLayout()

    def fill_sample(self) -> None:
        """Fill in the sample line-up off the main thread, then show its verdict."""
        from benchlog.wiring import rehearse_sample  # noqa: PLC0415 - only when wished for

        workshop = self._desk.workshop
        self._set_busy(busy=True)

        def job(work: Work) -> str:
            return rehearse_sample(workshop, work)

        begin(job, self._sample_filled, self._sample_failed, self.welcome.show_progress)

    def rehearse(self) -> None:
        """Put the sample's plan on the shelf, nothing read yet, and open the bench on it."""
        from benchlog.tasks.rehearse import plan_rehearsal  # noqa: PLC0415 - only when wished for
        from benchlog.tasks.sample import load_sample  # noqa: PLC0415
        from benchlog.trade.sequence_file import load_sequence  # noqa: PLC0415

        with self._desk.faults.guarded():
            workshop, sample = self._desk.workshop, load_sample()
            sequence = load_sequence(sample.lineup.sequence)
            lineup, _ = plan_rehearsal(workshop.shelf, workshop.clock, sequence, sample)
            self._desk.open_lineup(lineup.id)
            self._desk.go_to.emit("bench")

    def open_lineup(self, lineup_id: str, place: str = "bench") -> None:
        """Take a line-up in hand and go to a place with it."""
        with self._desk.faults.guarded():
            if lineup_id != self._desk.lineup_id:
                self._desk.open_lineup(lineup_id)
            self._desk.go_to.emit(place)

    def plan_new(self) -> None:
        """Begin a new line-up at the Line-up place."""
        self._desk.plan_wanted.emit()
        self._desk.go_to.emit("lineup")

    def check_bias(self) -> None:
        """See over the whole shelf whether awards lean."""
        from benchlog.window.shelf.bias_dialog import BiasDialog  # noqa: PLC0415 - when wished for

        BiasDialog(self._desk, self).open()

    # --- inside ----------------------------------------------------------------------------

    def _sample_filled(self, lineup_id: str) -> None:
        self._set_busy(busy=False)
        self.open_lineup(lineup_id, "verdict")
        self.filled.emit(lineup_id)

    def _sample_failed(self, fault: BaseException) -> None:
        self._set_busy(busy=False)
        self._desk.faults.handle(fault)

    def _set_busy(self, *, busy: bool) -> None:
        self._busy = busy
        self.welcome.show_busy(busy=busy)
        self.refresh()

    def _open_current(self, place: str) -> None:
        brief = self.list.current()
        if brief is not None:
            self.open_lineup(brief.id, place)

    def _connect(self) -> None:
        self.welcome.plan.connect(self.plan_new)
        self.welcome.sample.connect(self.fill_sample)
        self.welcome.rehearsal.connect(self.rehearse)
        self.list.wanted.connect(self.open_lineup)
        self.filter.textChanged.connect(self.refresh)
        self.filter.left.connect(lambda to_list: self._leave_filter(to_list=to_list))
        self.new_button.clicked.connect(self.plan_new)
        self.sample_button.clicked.connect(self.fill_sample)
        self.rehearsal_button.clicked.connect(self.rehearse)
        self.open_button.clicked.connect(lambda: self._open_current("bench"))
        self.verdict_button.clicked.connect(lambda: self._open_current("verdict"))
        self.bias_button.clicked.connect(self.check_bias)
        for keys, verb in (
            ("Ctrl+N", self.plan_new),
            ("Ctrl+F", self.filter.setFocus),
            ("Ctrl+B", self.bias_button.click),
        ):
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(verb)

    def _leave_filter(self, *, to_list: bool) -> None:
        if not to_list:
            self.filter.clear()
        if self.list.isVisible():
            self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _browse_page(self) -> QWidget:
        title = QLabel("Shelf")
        sized(title, 26, bold=True)
        sized(self.none_found, 18)
        self.none_found.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignHCenter)
        self.bias_button = _button("Bias check…", "Ctrl+B")
        self.sample_button = _button("Another sample line-up", "")
        self.rehearsal_button = _button("Rehearse at the bench", "")
        top, foot = QHBoxLayout(), QHBoxLayout()
        for part in (title, self.filter, self.new_button):
            top.addWidget(part)
        top.setStretch(1, 1)
        foot.addWidget(self.open_button)
        foot.addWidget(self.verdict_button)
        foot.addStretch(1)
        foot.addWidget(self.bias_button)
        foot.addWidget(self.sample_button)
        foot.addWidget(self.rehearsal_button)
        self._browse = QWidget()
        self._column = QVBoxLayout(self._browse)
        self._column.addLayout(top)
        self._column.addWidget(self.list, 1)
        self._column.addWidget(self.none_found, 1)
        self._column.addLayout(foot)
        return self._browse


class _Filter(QLineEdit):
    """What is typed to find a line-up; Down and Enter go to the list, Esc empties it first."""

    left = Signal(bool)

    def __init__(self) -> None:
        super().__init__()
        self.setPlaceholderText("Find by name, date, nickname, maker, part number or lot  (Ctrl+F)")
        self.setAccessibleName("Find a line-up")
        self.setClearButtonEnabled(True)
        sized(self, 17)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.left.emit(True)
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit(False)
        else:
            super().keyPressEvent(event)


def _button(name: str, key: str) -> QPushButton:
    button = QPushButton(f"{name}  ({key})" if key else name)
    button.setAccessibleName(name)
    sized(button, 17)
    return button
