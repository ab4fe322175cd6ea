"""Check the instruments of a line-up, and put right what a failed check puts in doubt."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import AskAgain, WorldError
from benchlog.measure.check import Check, Remedy
from benchlog.measure.checking import result_of
from benchlog.measure.reading import Reading
from benchlog.measure.units import unit_symbol
from benchlog.tasks.checks import check_instrument, told_result
from benchlog.tasks.checks_view import ToolView, tool_views
from benchlog.tasks.group_correct import correct_group, take_back_group
from benchlog.tasks.ports import Weight
from benchlog.trade.specimen import Specimen
from benchlog.window.bench.bench_scale import BenchScale
from benchlog.window.desk import Desk
from benchlog.window.dialogs.checks_bracket import BracketPanel
from benchlog.window.dialogs.checks_form import CheckForm, tab_stops
from benchlog.window.dialogs.checks_list import ChecksList
from benchlog.window.keys import Action, KeyMap
from benchlog.window.theme import px, sized

NO_TOOL = "No instrument is on the shelf. Add one under Instruments, then check it here."


class ChecksDialog(QDialog):
    """Left the instruments, right one check above what the checks so far have come to.

    While it is open, weights from the scale come here and are no answers of the bench.
    """

    def __init__(
        self,
        desk: Desk,
        scale: BenchScale,
        in_hand: list[str],
        keys: KeyMap,
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Checks of the instruments")
        self._desk, self._scale, self._in_hand = desk, scale, in_hand
        self._views: dict[str, ToolView] = {}
        self._shown = ""
        self._asked: tuple[str | Weight, str] | None = None
        self._polled = False
        self.list = ChecksList()
        self.form = CheckForm(keys.keys[Action.WEIGH])
        self.bracket = BracketPanel()
        self.none = QLabel(NO_TOOL, wordWrap=True)
        self.leave = QPushButton("&Close")
        self._lay_out()
        self._connect()
        self._fill()
        first = next((i for i in in_hand if i in self._views), next(iter(self._views), ""))
        self._show(first)
        self._fit(parent)
        scale.borrow(self._weight)
        if first:
            QTimer.singleShot(0, self.form, self.form.take_focus)

    def done(self, result: int) -> None:
        """Close; weights go to the bench again."""
        self._scale.borrow(None)
        super().done(result)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter clicks the button that has the focus, and no other: a group hangs on it."""
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            return
        focus = self.focusWidget()
        if isinstance(focus, QPushButton) and not event.isAutoRepeat():
            focus.click()

    # --- showing ---------------------------------------------------------------------------

    def _fill(self) -> None:
        desk = self._desk
        views = tool_views(desk.workshop.shelf, desk.workshop.clock, desk.lineup_id, self._in_hand)
        self._views = {view.instrument.id: view for view in views}
        self.list.show_tools(views, self._shown)

    def _show(self, instrument_id: str) -> None:
        """Begin with an instrument; what was said of another goes."""
        self._shown = instrument_id
        self._asked = None
        self.form.strip.plain("")
        self.form.setVisible(bool(instrument_id))
        self.below.setVisible(bool(instrument_id))
        self.none.setVisible(not instrument_id)
        if instrument_id:
            self._again()

    def _again(self) -> None:
        self.list.show_tools(self._views.values(), self._shown)
        view = self._views[self._shown]
        self.form.show_tool(view, attached=self._scale.attached)
        self.bracket.show_tool(view, self._named)

    def _named(self, reading: Reading) -> tuple[Specimen, str]:
        teardown = self._desk.teardown
        assert teardown is not None
        specimen = next(s for s in teardown.lineup.specimens if s.id == reading.specimen_id)
        return specimen, teardown.sequence.attribute(reading.attribute).label

    # --- checking --------------------------------------------------------------------------

    def _record(self, given: str | Weight) -> None:
        teardown = self._desk.teardown
        assert teardown is not None
        asked = given, self.form.moment.value
        try:
            check = check_instrument(
                self._desk.workshop.shelf,
                self._desk.workshop.clock,
                self._desk.lineup_id,
                self._shown,
                self.form.moment,
                given,
                self.form.standard.read(),
                session_s=teardown.session_s,
                sure=asked == self._asked,
            )
        except AskAgain as question:
            self._asked = asked
            self.form.strip.asks_again(question)
            self.form.shown.selectAll()
        except WorldError as refusal:
            self._asked = None
            self.form.strip.refused(refusal)
            (self.form.standard.first_empty or self.form.shown).setFocus()
        else:
            self._recorded(check)

    def _recorded(self, check: Check) -> None:
        self._asked = None
        self._reload()
        view = self._views[self._shown]
        result = result_of(check, view.instrument)
        what = f"{check.moment} {check.standard or 'zero'}".capitalize()
        words = f"{what}: {told_result(result, unit_symbol(view.instrument.unit))}."
        tell = self.form.strip.passed if result.passed else self.form.strip.failed
        tell(words)
        self.form.take_focus()

    def _weight(self, weight: Weight) -> None:
        self.form.weight_caught(weight)
        if self._polled:
            self._polled = False
            self.form.take_weight()

    def _poll(self) -> None:
        self._polled = True
        self.form.strip.plain("Asking the scale…")
        self._scale.poll()

    # --- putting right ---------------------------------------------------------------------

    def _put_right(self, check_id: str, remedy: Remedy, reason: str) -> None:
        self._change(
            lambda shelf, clock, lineup_id, session_s: correct_group(
                shelf, clock, lineup_id, check_id, remedy, reason, session_s=session_s
            ),
            self.bracket.right.refused,
        )

    def _take_back(self, correction_id: str, reason: str) -> None:
        self._change(
            lambda shelf, clock, lineup_id, session_s: take_back_group(
                shelf, clock, lineup_id, correction_id, reason, session_s=session_s
            ),
            self.bracket.done.refused,
        )

    def _change(self, verb: object, refused: object) -> None:
        teardown, workshop = self._desk.teardown, self._desk.workshop
        assert teardown is not None
        try:
            verb(workshop.shelf, workshop.clock, self._desk.lineup_id, teardown.session_s)
        except WorldError as fault:
            refused(f"{fault.what} {fault.do}".strip())
            return
        self.form.strip.plain("")
        self._reload()
        offer = self._views[self._shown].offer
        (self.bracket.right.reason if offer else self.leave).setFocus()

    def _reload(self) -> None:
        """Show what is so now, here, at the bench and in every place that listens."""
        self._desk.reload()
        self._fill()
        self._again()

    # --- wiring ----------------------------------------------------------------------------

    def _connect(self) -> None:
        self.list.chosen.connect(self._show)
        self.form.recorded.connect(self._record)
        self.form.weigh_wanted.connect(self._poll)
        self.bracket.put_right.connect(self._put_right)
        self.bracket.taken_back.connect(self._take_back)
        self.leave.clicked.connect(self.accept)

    def _lay_out(self) -> None:
        sized(self.none, 20)
        sized(self.leave, 16)
        self.leave.setAccessibleName("Close")
        self.leave.setAutoDefault(False)
        self.below = QScrollArea()
        self.below.setWidgetResizable(True)
        self.below.setFrameShape(QFrame.Shape.NoFrame)
        self.below.setWidget(self.bracket)
        right = QVBoxLayout()
        right.setSpacing(px(6))
        right.addWidget(self.none)
        right.addWidget(self.form)
        right.addWidget(self.below, 1)
        foot = QHBoxLayout()
        foot.addStretch()
        foot.addWidget(self.leave)
        right.addLayout(foot)
        row = QHBoxLayout(self)
        row.setSpacing(px(8))
        self.list.setFixedWidth(px(330))
        row.addWidget(self.list)
        row.addLayout(right, 1)
        done = self.bracket.done
        stops = [self.list, *tab_stops(self.form), *self.bracket.right.tab_stops()]
        for one, other in pairwise([*stops, done.reason, done.do, done.leave, self.leave]):
            QWidget.setTabOrder(one, other)

    def _fit(self, parent: QWidget) -> None:
        """Take most of the window's room, whatever its size."""
        room = parent.window().size()
        self.resize(round(room.width() * 0.96), round(room.height() * 0.96))
        self.bracket.right.rescaled()
