"""Ranks of a line-up: none until a purpose is chosen, then as chances; they follow readings.

A purpose that is only looked at goes nowhere; a declared one stands on the sheet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QProgressBar,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PlanRefused
from benchlog.judge.purposes import OWN, Purpose
from benchlog.tasks.declare import declare_purpose, take_back_purpose
from benchlog.tasks.declared_view import declare_state, purpose_name
from benchlog.tasks.own_purpose import LABEL, kept_weights, own_offer, own_weights_said, texts_of
from benchlog.tasks.purpose_view import NO_TOTAL, PurposeOffer, offer_of, purposes_offered
from benchlog.tasks.record import Record
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.desk import Desk
from benchlog.window.list_height import fit_to_rows
from benchlog.window.theme import font_of, px, sized
from benchlog.window.verdict.declare_bar import DeclareBar
from benchlog.window.verdict.own_weights import OwnWeights
from benchlog.window.work import Work, begin

if TYPE_CHECKING:
    from benchlog.tasks.rank_view import RanksShown
    from benchlog.window.verdict.rank_tables import RankTables

NO_PURPOSE = "No purpose"
ELSEWHERE = "No purpose is chosen here; the declared one stands on the sheet all the same."
WORKING = "Working it out…"
REPEATED = "A number from 0 to 10, or open, beside what is to count."


class RanksPage(QWidget):
    """Offers the purposes, shows the ranks under the chosen one, and declares it."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._record: Record | None = None
        self._lineup = ""
        self._stale = self._under_way = False
        self.shown: RanksShown | None = None
        self.tables: RankTables | None = None
        self._offers = purposes_offered()
        self.purposes = QListWidget()
        self.purposes.setAccessibleName("Purpose")
        self.purposes.setItemDelegate(CalmDelegate(self.purposes))
        labels = (offer.label for offer in self._offers)
        self.purposes.addItems([NO_PURPOSE, *labels, LABEL])
        self.own = OwnWeights()
        self.own.show_texts(kept_weights(desk.settings.own_weights))
        self._own: PurposeOffer | None = None
        self._refused = ""
        self.bar = DeclareBar()
        self.caption = QLabel("What is it judged for?")
        self.caption.setBuddy(self.purposes)
        self.about = QLabel(wordWrap=True)
        self.summary = QLabel(wordWrap=True)
        self.lead = QLabel(wordWrap=True)
        self.said = QLabel(wordWrap=True)
        self.made = QLabel(wordWrap=True)
        self.progress = QProgressBar()
        self.progress.setAccessibleName("Draws made")
        self.progress.setTextVisible(False)
        self.nothing = QLabel(wordWrap=True)
        self.middle = QStackedWidget()
        self._lay_out()
        self.purposes.setCurrentRow(0)
        self.purposes.currentRowChanged.connect(lambda _row: self._chosen())
        self.bar.declare.connect(self._declare)
        self.bar.take_back.connect(self._take_back)
        self.own.typed.connect(self._weighed)
        self._weigh()
        self._chosen()

    @property
    def purpose(self) -> Purpose | None:
        """The purpose that is looked at, None while there is none."""
        offer = self._offer
        return None if offer is None else offer.purpose

    def show_record(self, record: Record | None) -> None:
        """Rank this record anew if a purpose is chosen; a line-up opens with the one declared."""
        fresh = record is not None and record.lineup.id != self._lineup
        self._record = record
        if record is not None and fresh:
            self._lineup = record.lineup.id
            self._open_with(record)
        self._show_state()
        self._begin()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._side.setFixedWidth(px(330))
        self.purposes.setFont(font_of(16))
        fit_to_rows(self.purposes)
        self.own.rescaled()
        self.progress.setFixedHeight(px(6))
        if self.tables is not None:
            self.tables.rescaled()

    # --- inside ------------------------------------------------------------------------------

    @property
    def _by_own(self) -> bool:
        """Whether the reviewer's own weights are chosen, sound or not."""
        return self.purposes.currentRow() == self.purposes.count() - 1

    @property
    def _offer(self) -> PurposeOffer | None:
        row = self.purposes.currentRow()
        if self._by_own:
            return self._own
        return self._offers[row - 1] if row > 0 else None

    def _open_with(self, record: Record) -> None:
        """Choose what is declared, and have it among the offers however old it is."""
        standing = record.declared.declaration.purpose if record.declared else None
        offers, row = purposes_offered(), 0
        known = [offer.purpose for offer in offers]
        if standing is not None and standing.key == OWN:
            self.own.show_texts(texts_of(standing))
            self._weigh()
            row = len(offers) + 1
        elif standing is not None:
            if standing not in known:
                offers = (*offers, offer_of(standing, purpose_name(standing)))
                known.append(standing)
            row = known.index(standing) + 1
        self._offers = offers
        with QSignalBlocker(self.purposes):
            self.purposes.clear()
            self.purposes.addItems([NO_PURPOSE, *(offer.label for offer in offers), LABEL])
            self.purposes.setCurrentRow(row)
        fit_to_rows(self.purposes)
        self._show_chosen()

    def _declare(self, reason: str) -> None:
        purpose, workshop = self.purpose, self._desk.workshop
        if purpose is None or self._record is None:
            return
        with self._desk.faults.guarded():
            where = (workshop.shelf, workshop.clock, self._record.lineup.id)
            declare_purpose(*where, purpose, reason, self._record.sequence)
            self.bar.emptied()
            self._desk.recorded.emit()

    def _take_back(self, reason: str) -> None:
        workshop = self._desk.workshop
        if self._record is None:
            return
        with self._desk.faults.guarded():
            where = (workshop.shelf, workshop.clock, self._record.lineup.id)
            take_back_purpose(*where, reason, self._record.sequence)
            self.bar.emptied()
            self._desk.recorded.emit()

    def _show_state(self) -> None:
        self.bar.setVisible(self._record is not None)
        if self._record is not None:
            self.bar.show_state(declare_state(self._record, self.purpose))

    def _chosen(self) -> None:
        self._show_chosen()
        self._show_state()
        self._begin()

    def _show_chosen(self) -> None:
        offer, by_own = self._offer, self._by_own
        self.own.setVisible(by_own)
        if offer is None:
            self.about.setText(REPEATED if by_own else "")
        else:
            gap = "\n" if by_own else "\n\n"
            self.about.setText(f"{offer.weights}.{gap}{offer.reason}{gap}{offer.support}.")

    def _weigh(self) -> None:
        """Take the weights as they are typed, or say why they cannot be taken."""
        self._own, self._refused = None, ""
        field = ""
        try:
            self._own = own_offer(self.own.texts)
        except PlanRefused as refusal:
            self._refused, field = f"{refusal.what} {refusal.do}".strip(), refusal.field
        self.own.show_fault(field, self._refused if field else "")

    def _weighed(self) -> None:
        self._weigh()
        if self._own is not None or not self.own.texts:
            self._desk.change_settings(own_weights=self.own.texts)
        self._chosen()

    def _begin(self) -> None:
        """Work the ranks out off the main thread; only the latest wish is shown."""
        record, purpose = self._record, self.purpose
        self._stale = True
        if record is None or purpose is None:
            self._stale = False
            self.shown = None
            none = ELSEWHERE if record is not None and record.declared else NO_TOTAL
            self._say_nothing(self._refused if self._by_own and self._refused else none)
            return
        if self.shown is None or self.shown.purpose is not purpose:
            self._say_nothing(WORKING)  # neither what was said of none, nor another one's ranks
        if self._under_way:
            return
        self._stale, self._under_way = False, True

        def job(work: Work) -> tuple[Record, RanksShown]:
            from benchlog.tasks.rank_view import ranks_shown  # noqa: PLC0415 - loads numpy

            return record, ranks_shown(record, purpose, work)

        begin(job, self._done, self._failed, self._progressed)

    def _progressed(self, done: int, total: int, _what: str) -> None:
        self.progress.setRange(0, total)
        self.progress.setValue(done)

    def _done(self, outcome: tuple[Record, RanksShown]) -> None:
        self._under_way = False
        if self._stale:
            self._begin()
        elif self.purpose is not None and self._record is not None:
            self._show(*outcome)

    def _failed(self, fault: BaseException) -> None:
        self._under_way = False
        self._desk.faults.handle(fault)

    def _show(self, record: Record, shown: RanksShown) -> None:
        self.shown = shown
        self.said.setText(" ".join(shown.left_out))
        self.said.setVisible(bool(shown.left_out))
        own = own_weights_said(shown.purpose)
        self.made.setText(f"{own}. {shown.made}" if own and shown.made else shown.made)
        self.made.setVisible(bool(shown.made))
        if shown.refused:
            self._say_nothing(shown.refused, keep=True)
            return
        if self.tables is None:
            from benchlog.window.verdict.rank_tables import RankTables  # noqa: PLC0415 - numpy

            self.tables = RankTables()
            self.middle.addWidget(self.tables)
            self.tables.rescaled()
        self.summary.setText(shown.summary)
        self.lead.setText(shown.lead)
        self.lead.setVisible(bool(shown.lead))
        self.tables.show_ranks(record, shown)
        self.middle.setCurrentWidget(self.tables)

    def _say_nothing(self, words: str, *, keep: bool = False) -> None:
        self.summary.setText("No ranks so far" if words == WORKING else "No ranks")
        self.nothing.setText(words)
        self.lead.hide()
        self.middle.setCurrentWidget(self.nothing)
        if not keep:
            self.said.hide()
            self.made.hide()
        self.progress.reset()

    def _lay_out(self) -> None:
        sized(self.caption, 15, bold=True)
        sized(self.summary, 24, bold=True)
        sized(self.nothing, 17)
        sized(self.lead, 15)
        for label in (self.about, self.said, self.made):
            label.setProperty("tone", "dim")
            sized(label, 14)
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.middle.addWidget(self.nothing)
        self._side = QFrame()
        side = QVBoxLayout(self._side)
        side.setContentsMargins(0, 0, px(12), 0)
        for part in (self.caption, self.purposes):
            side.addWidget(part)
        side.addWidget(self.own, 100)
        side.addWidget(self.about)
        side.addStretch(1)
        right = QVBoxLayout()
        for part in (self.bar, self.summary, self.lead, self.progress):
            right.addWidget(part)
        right.addWidget(self.middle, 1)
        for part in (self.said, self.made):
            right.addWidget(part)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, px(6), 0, 0)
        row.addWidget(self._side)
        row.addLayout(right, 1)
