"""The panel beside the pages: what goes out, what stands in the way, previewing and publishing."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.going_out import LINEUP, VERDICT, GoingOut
from benchlog.window.lineup.field import Field
from benchlog.window.sheet.output_rows import OutputRows
from benchlog.window.sheet.sheet_work import Written
from benchlog.window.theme import px, restyle, sized

PUBLISH_KEY = "Ctrl+Return"
SHOWN = 12
"""Signs of a digest that tell two records apart."""
ANSWER = {LINEUP: "Answer in the Line-up", VERDICT: "Open the codes in the Verdict"}


class SheetPanel(QFrame):
    """Shows what goes out and forwards the reviewer's wishes; it is all that is chosen here."""

    write_wanted = Signal()
    publish_wanted = Signal()
    stop_wanted = Signal()
    save_wanted = Signal()
    folder_wanted = Signal()
    elsewhere_wanted = Signal()
    answer_wanted = Signal(str)
    stand_in_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self._answered_in = ""
        self.rehearsal = _label("REHEARSAL: invented. All that goes out says so.", 14, "warn")
        self.standing = _label("", 17, bold=True)
        self.refusal = _label("", 15, "warn")
        self.to_answer = _button(ANSWER[LINEUP])
        self.outputs = OutputRows()
        self.stand_in = _button("Stand-in check…", 14)
        self.notes = _label("", 14, "dim")
        self.reason = QLineEdit()
        self.reason_field = Field("Why is there a further revision?", self.reason)
        self.write = _button("Preview the sheet")
        self.publish = _button("Publish revision 1", 18)
        self.publish.setToolTip(f"Write all that is ticked and freeze it  ({PUBLISH_KEY})")
        self.progress = QProgressBar()
        self.progress.setAccessibleName("How far it has come")
        self.doing = _label("", 13, "dim")
        self.stop = _button("Stop")
        self.state = _label("", 15, "dim")
        self.state.setAccessibleName("How things stand")
        self.facts = _label("", 13, "dim")
        self.save = _button("Save as…", 14)
        self.folder = _button("Open the folder", 14)
        self.elsewhere = _button("Files go to…", 14)
        self._lay_out()
        self._connect()
        self.show_busy(busy=False)
        self.show_written(None)
        self.show_standing(None)

    def show_standing(self, standing: GoingOut | None) -> None:
        """Show which revision is next, what comes first, and what should be known."""
        self.standing.setText(
            f"{standing.standing[:1].upper()}{standing.standing[1:]}" if standing else "…"
        )
        block = standing.block if standing else ""
        self._answered_in = standing.answered_in if standing else ""
        self.refusal.setText(block)
        self.refusal.setVisible(bool(block))
        self.to_answer.setVisible(bool(block))
        name = ANSWER.get(self._answered_in, ANSWER[LINEUP])
        self.to_answer.setText(name)
        self.to_answer.setAccessibleName(name)
        self.notes.setText("\n".join(standing.notes) if standing else "")
        self.notes.setVisible(bool(self.notes.text()))
        self.outputs.show_notes(standing.rows if standing else {})
        self._show_reason(standing)
        self._may_publish = standing is not None and standing.changed
        number = 1 if standing is None else standing.revision + (not standing.changed)
        self.publish.setText(f"Publish revision {number}")
        self.publish.setAccessibleName(self.publish.text())
        self.publish.setEnabled(self._may_publish)

    def show_busy(self, *, busy: bool) -> None:
        """Show that something is being written."""
        self.write.setEnabled(not busy)
        self.publish.setEnabled(not busy and self._may_publish)
        self.outputs.setEnabled(not busy)
        for part in (self.progress, self.doing, self.stop):
            part.setVisible(busy)
        for part in (self.state, self.facts, self.save, self.folder, self.elsewhere):
            part.setVisible(not busy)
        self.progress.setValue(0)

    def show_progress(self, done: int, total: int, what: str) -> None:
        """Show how far it has come."""
        self.progress.setMaximum(max(total, 1))
        self.progress.setValue(done)
        self.doing.setText(what)

    def show_written(self, written: Written | None) -> None:
        """Show what the pages are of; nothing to save before."""
        self.save.setEnabled(written is not None)
        self.facts.setVisible(written is not None)
        if written is None:
            self.facts.clear()
            return
        record = written.record
        draft = ", draft" if record.draft else ""
        self.facts.setText(
            f"Shown: revision {record.revision}{draft} · {written.paper} · digest "
            f"{record.digest[:SHOWN]}"
        )
        self.facts.setToolTip(f"Digest {record.digest}")

    def tell(self, words: str, *, warn: bool = False) -> None:
        """Say how things stand."""
        self.state.setText(words)
        self.state.setProperty("tone", "warn" if warn else "dim")
        restyle(self.state)

    def ask_reason(self) -> None:
        """Say that the reason is owed, and put the focus there."""
        self.reason_field.show_fault("Viewers read it; say it in a few words.")
        self.reason.setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.setFixedWidth(px(430))

    def _show_reason(self, standing: GoingOut | None) -> None:
        further = standing is not None and standing.changed and standing.revision > 1
        self.reason_field.setVisible(further and not standing.block)
        if not further:
            self.reason.clear()
        self.reason_field.show_fault("")
        lent = standing.reason if standing else ""
        self.reason.setPlaceholderText(f"left empty: {lent}" if lent else "")
        self.reason_field.show_note("" if lent else "owed", owed=not lent)

    def _connect(self) -> None:
        for button, wanted in (
            (self.write, self.write_wanted), (self.publish, self.publish_wanted),
            (self.stop, self.stop_wanted), (self.save, self.save_wanted),
            (self.folder, self.folder_wanted), (self.elsewhere, self.elsewhere_wanted),
            (self.stand_in, self.stand_in_wanted),
        ):  # fmt: skip
            button.clicked.connect(wanted)
        self.to_answer.clicked.connect(lambda: self.answer_wanted.emit(self._answered_in))
        self.reason.returnPressed.connect(self.publish_wanted)
        self.reason.textEdited.connect(lambda _text: self.reason_field.show_fault(""))

    def listen_in(self, place: QWidget) -> None:
        """Let the key that publishes work all over a place."""
        key = QShortcut(QKeySequence(PUBLISH_KEY), place)
        key.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        key.activated.connect(self.publish.click)

    def _lay_out(self) -> None:
        above = QWidget()
        upper = QVBoxLayout(above)
        upper.setContentsMargins(px(10), px(6), px(10), 0)
        for part in (self.rehearsal, self.standing, self.refusal, self.to_answer, self.outputs):
            upper.addWidget(part)
        upper.addWidget(self.stand_in, 0, Qt.AlignmentFlag.AlignLeft)
        upper.addWidget(self.notes)
        upper.addStretch(1)
        rows = QScrollArea()
        rows.setWidgetResizable(True)
        rows.setFrameShape(QFrame.Shape.NoFrame)
        rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        rows.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        rows.setWidget(above)
        rows.viewport().setAutoFillBackground(False)
        above.setAutoFillBackground(False)
        acting = QHBoxLayout()
        acting.addWidget(self.write)
        acting.addWidget(self.publish, 1)
        after = QHBoxLayout()
        for part in (self.save, self.folder, self.elsewhere):
            after.addWidget(part)
        lower = QVBoxLayout()
        lower.setContentsMargins(px(10), 0, px(10), px(6))
        lower.addWidget(self.reason_field)
        lower.addLayout(acting)
        for part in (self.progress, self.doing, self.stop, self.state, self.facts):
            lower.addWidget(part)
        lower.addLayout(after)
        column = QVBoxLayout(self)
        column.setContentsMargins(2, 2, 2, 2)
        column.addWidget(rows, 1)
        column.addLayout(lower)
        self._may_publish = False
        self.rescaled()


def _label(words: str, size: float, tone: str = "", *, bold: bool = False) -> QLabel:
    label = QLabel(words, wordWrap=True)
    if tone:
        label.setProperty("tone", tone)
    sized(label, size, bold=bold)
    return label


def _button(name: str, size: float = 15) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(name.removesuffix("…"))
    sized(button, size, bold=size > 16)
    return button
