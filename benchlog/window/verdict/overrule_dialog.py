"""Overruling an award by hand: what the rules gave, what the reviewer says, and why."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PlanRefused, WorldError
from benchlog.judge.verdict import AwardKind
from benchlog.tasks.overruled_view import award_offers, winner_offers
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import ComponentRow
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.list_height import fit_to_rows
from benchlog.window.theme import font_of, px, sized
from benchlog.window.verdict.remark_box import RemarkBox

LONG = 40
"""A box with more letters stands on a line of its own, and so do all beside it."""

Overrule = Callable[[AwardKind, tuple[str, ...], str], None]
"""Overrules by kind of award, specimen ids and reason; raises PlanRefused."""


class OverruleDialog(QDialog):
    """Asks for an award and its reason, and closes once it is on the shelf."""

    def __init__(
        self, record: Record, row: ComponentRow, overrule: Overrule, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Overrule an award")
        self._overrule = overrule
        self._offers = award_offers()
        self.gave = QLabel(f"{row.component.value}: the rules gave “{row.outcome}”", wordWrap=True)
        self.reason = QLabel(row.award.reason, wordWrap=True)
        self.kinds = QListWidget()
        self.kinds.setAccessibleName("Award that you give")
        self.kinds.setItemDelegate(CalmDelegate(self.kinds))
        self.kinds.addItems([offer.label for offer in self._offers])
        self.kinds.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        by_id = {specimen.id: specimen for specimen in record.lineup.specimens}
        offered = winner_offers(record)
        self.boxes = {offer.ids[0]: QCheckBox(offer.label) for offer in offered}
        for offer in offered:
            box = self.boxes[offer.ids[0]]
            box.setIcon(tag_icon(by_id[offer.ids[0]], px(16) * 2))
            box.setAccessibleName(f"Names {offer.label}")
            sized(box, 16)
        self.why = RemarkBox(
            "Why, printed beside what the rules gave",
            "Why you overrule the award",
            "What you saw that the rules do not know of.",
        )
        self.told = QLabel(wordWrap=True)
        self.told.setProperty("tone", "warn")
        self.told.hide()
        self.do = QPushButton("Overrule")
        self.leave = QPushButton("Leave the award as it is")
        self._lay_out()
        self.kinds.currentRowChanged.connect(lambda _row: self._show_boxes())
        self.why.grown.connect(self._fit)
        self.do.clicked.connect(self._try)
        self.leave.clicked.connect(self.reject)
        standing = row.overruled.kind if row.overruled else row.award.kind
        kinds = [offer.kind for offer in self._offers]
        self.kinds.setCurrentRow(kinds.index(standing))
        self.kinds.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def reason_text(self) -> QPlainTextEdit:
        """The box for the reason."""
        return self.why.text

    def _show_boxes(self) -> None:
        names_some = self._offers[max(self.kinds.currentRow(), 0)].names_some
        for box in self.boxes.values():
            box.setEnabled(names_some)

    def _try(self) -> None:
        offer = self._offers[self.kinds.currentRow()]
        chosen = tuple(
            one for one, box in self.boxes.items() if offer.names_some and box.isChecked()
        )
        try:
            self._overrule(offer.kind, chosen, self.reason_text.toPlainText())
        except WorldError as refusal:
            self.told.setText(f"{refusal.what} {refusal.do}".strip())
            self.told.show()
            self._fit()
            field = refusal.field if isinstance(refusal, PlanRefused) else ""
            first = next(iter(self.boxes.values()))
            to = {"reason": self.reason_text, "winners": first}.get(field, self.kinds)
            to.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.accept()

    def _fit(self) -> None:
        """Stand as high as the folded lines need."""
        self.layout().activate()
        self.resize(self.width(), self.layout().totalHeightForWidth(self.width()))

    def _lay_out(self) -> None:
        self.do.setAccessibleName("Put your award beside that of the rules")
        self.leave.setAccessibleName(self.leave.text())
        self.do.setDefault(True)
        self.reason.setProperty("tone", "dim")
        for part, size in ((self.gave, 18), (self.reason, 14), (self.told, 15)):
            sized(part, size, bold=part is self.gave)
        self.kinds.setFont(font_of(16))
        fit_to_rows(self.kinds)
        self.why.rescaled()
        several = any(len(box.text()) > LONG for box in self.boxes.values())
        names = QVBoxLayout() if several else QHBoxLayout()
        for box in self.boxes.values():
            names.addWidget(box)
        names.addStretch(1)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        for button in (self.do, self.leave):
            sized(button, 16)
            buttons.addWidget(button)
        column = QVBoxLayout(self)
        for part in (self.gave, self.reason, self.kinds):
            column.addWidget(part)
        column.addLayout(names)
        column.addWidget(self.why)
        column.addWidget(self.told)
        column.addLayout(buttons)
        self.setMinimumWidth(px(640))
