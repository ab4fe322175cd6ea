"""The panel beside the preview: who paid, the paper, writing, saving, and what was written."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
)

from benchlog.errors import PublishRefused
from benchlog.tasks.publish import PAPERS
from benchlog.trade.specimen import Lineup, Paid
from benchlog.window.lineup.field import Field
from benchlog.window.lineup.tag_choice import Choices
from benchlog.window.sheet.sheet_work import Written
from benchlog.window.theme import px, sized

GROUP = 8
"""Signs of a digest that are shown together."""


class SheetPanel(QFrame):
    """Shows what stands between the record and the sheet, and forwards the reviewer's wishes."""

    write_wanted = Signal()
    stop_wanted = Signal()
    save_wanted = Signal()
    folder_wanted = Signal()
    lineup_wanted = Signal()
    paper_chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.rehearsal = _label("REHEARSAL: invented. The sheet says so on its pages.", 15, "warn")
        self.paid = _label("", 15)
        self.refusal = _label("", 15, "warn")
        self.to_lineup = _button("Answer in the Line-up")
        self.paper = Choices("Paper")
        for paper in PAPERS:
            self.paper.addItem(paper, paper)
        self.sums = QCheckBox("with the sums")
        self.sums.setToolTip("An appendix with the sum behind every figure and its uncertainty")
        self.sums.setAccessibleDescription(self.sums.toolTip())
        sized(self.sums, 15)
        self.write = _button("Write the sheet", 18)
        self.progress = QProgressBar()
        self.progress.setAccessibleName("Writing the sheet")
        self.doing = _label("", 13, "dim")
        self.stop = _button("Stop writing")
        self.state = _label("", 15, "dim")
        self.facts = _label("", 14)
        self.facts.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.facts.setAccessibleName("Revision and digest of the sheet")
        self.save = _button("Save as…")
        self.folder = _button("Open folder")
        self._lay_out()
        self._connect()
        self.show_busy(busy=False)
        self.show_written(None)

    def show_lineup(self, lineup: Lineup, refusal: PublishRefused | None) -> None:
        """Show who paid for each specimen, and what is owed before anything goes out."""
        rows = (
            f"{s.nickname}: {'not answered yet' if s.paid is Paid.UNANSWERED else s.paid.value}"
            for s in lineup.specimens
        )
        self.paid.setText("Who paid\n" + "\n".join(rows))
        self.rehearsal.setVisible(lineup.rehearsal)
        self.refusal.setText(f"{refusal.what} {refusal.do}" if refusal else "")
        self.refusal.setVisible(refusal is not None)
        self.to_lineup.setVisible(refusal is not None)

    def show_busy(self, *, busy: bool) -> None:
        """Show that a sheet is being written."""
        self.write.setEnabled(not busy)
        for part in (self.progress, self.doing, self.stop):
            part.setVisible(busy)
        self.progress.setValue(0)

    def show_progress(self, done: int, total: int, what: str) -> None:
        """Show how far it has come."""
        self.progress.setMaximum(max(total, 1))
        self.progress.setValue(done)
        self.doing.setText(what)

    def show_written(self, written: Written | None) -> None:
        """Show revision and digest of what was written; nothing to save before."""
        self.save.setEnabled(written is not None)
        if written is None:
            self.facts.clear()
            return
        digest = written.record.digest
        groups = [digest[n : n + GROUP] for n in range(0, len(digest), GROUP)]
        lines = [" ".join(groups[n : n + 2]) for n in range(0, len(groups), 2)]
        revision = f"{written.record.revision}{', draft' if written.record.draft else ''}"
        self.facts.setText(
            f"Revision {revision} · {written.paper}\nDigest\n" + "\n".join(lines)
        )

    def tell(self, words: str, *, warn: bool = False) -> None:
        """Say how things stand."""
        self.state.setText(words)
        self.state.setProperty("tone", "warn" if warn else "dim")
        self.state.style().polish(self.state)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.setFixedWidth(px(330))

    def _connect(self) -> None:
        self.write.clicked.connect(self.write_wanted)
        self.stop.clicked.connect(self.stop_wanted)
        self.save.clicked.connect(self.save_wanted)
        self.folder.clicked.connect(self.folder_wanted)
        self.to_lineup.clicked.connect(self.lineup_wanted)
        self.paper.chosen.connect(self.paper_chosen)

    def _lay_out(self) -> None:
        saving = QHBoxLayout()
        saving.addWidget(self.save)
        saving.addWidget(self.folder)
        column = QVBoxLayout(self)
        for part in (
            self.rehearsal, self.paid, self.refusal, self.to_lineup, Field("Paper", self.paper),
            self.sums, self.write, self.progress, self.doing, self.stop, self.state, self.facts,
        ):  # fmt: skip
            column.addWidget(part)
        column.addLayout(saving)
        column.addStretch(1)
        self.rescaled()


def _label(words: str, size: float, tone: str = "") -> QLabel:
    label = QLabel(words, wordWrap=True)
    if tone:
        label.setProperty("tone", tone)
    sized(label, size)
    return label


def _button(name: str, size: float = 16) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(name)
    sized(button, size, bold=size > 16)
    return button
