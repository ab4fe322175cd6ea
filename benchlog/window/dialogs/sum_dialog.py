"""The sum behind one number, opened over a place: to read, to check by draws, to copy."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.check_sum import check_sum
from benchlog.tasks.figure_view import sum_of
from benchlog.tasks.record import Record
from benchlog.tasks.sum_text import sum_text
from benchlog.window.desk import Desk
from benchlog.window.theme import px, sized
from benchlog.window.verdict.sum_view import SumView
from benchlog.window.work import Work, begin

DRAWS = 1_000_000
DRAWING = "Drawing the inputs a million times…"
NOTHING_DRAWN = "There is nothing to draw here."
COPIED = "Copied as text."


class SumDialog(QDialog):
    """Shows the sum of one figure or attribute of one specimen; Escape closes it."""

    def __init__(
        self,
        desk: Desk,
        record: Record,
        key: str,
        specimen_id: str,
        parent: QWidget,
        *,
        from_sheet: bool = False,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("The sum behind a number")
        self._desk, self._record = desk, record
        self._key, self._specimen_id = key, specimen_id
        self._work: Work | None = None
        self._open = True
        self._sum = sum_of(record, key, specimen_id, desk.settings.units)
        self.view = SumView()
        self.words = QLabel(wordWrap=True)
        self.words.setAccessibleName("What came of it")
        self.progress = QProgressBar()
        self.progress.setAccessibleName("How far the draws have come")
        self.check = _button("Check by a &million draws")
        self.copy = _button("Co&py as text")
        self.sheet = _button("Show on the &sheet")
        self.sheet.setVisible(not from_sheet)
        self.reading = _button("To the &reading")
        self.reading.setToolTip("Go to where the input in hand was read at the bench")
        self.leave = _button("&Close")
        self._lay_out()
        self.view.show_sum(self._sum)
        self._fit(parent)
        figure = record.figures.get((key, specimen_id))
        self.check.setEnabled(figure is not None and bool(self._sum.rows))
        if figure is None:
            self.check.setToolTip("Only for figures that are worked out; this one was read.")
        self.check.clicked.connect(self._check)
        self.copy.clicked.connect(self._copy)
        self.sheet.clicked.connect(self._show_on_sheet)
        self.reading.clicked.connect(self._go_to_reading)
        self.view.inputs.currentCellChanged.connect(lambda *_: self._show_reading())
        self._show_reading()
        self.leave.clicked.connect(self.reject)

    def _check(self) -> None:
        """Work the check on another thread; the dialog may be closed meanwhile."""
        record, key, specimen_id = self._record, self._key, self._specimen_id
        self.check.setEnabled(False)
        self.progress.setRange(0, 0)
        self.progress.show()
        self._tell(DRAWING)

        def job(work: Work) -> object:
            return check_sum(record, key, specimen_id, work, trials=DRAWS)

        self._work = begin(job, self._checked, self._failed, self._progressed)

    def done(self, result: int) -> None:
        """Close; draws under way stop at their next block, and are told to nobody."""
        if self._work is not None:
            self._work.stop_asked = True
        self._open = False
        super().done(result)

    def _checked(self, found: object) -> None:
        if not self._open:
            return
        self._ended()
        self._tell(found.words if found else NOTHING_DRAWN, warn=bool(found) and not found.agrees)

    def _failed(self, fault: BaseException) -> None:
        if self._open:
            self._ended()
            self._tell("The check could not be worked.")
        self._desk.faults.handle(fault)

    def _progressed(self, done: int, total: int, _what: str) -> None:
        if self._open:
            self.progress.setRange(0, total)
            self.progress.setValue(done)

    def _ended(self) -> None:
        self.progress.hide()
        self.check.setEnabled(True)

    def _copy(self) -> None:
        said = self.words.text() if self.words.text() not in ("", COPIED, DRAWING) else ""
        words = sum_text(self._sum) + (f"\n\n{said}" if said else "")
        QGuiApplication.clipboard().setText(words + "\n")
        self._tell(said or COPIED)

    def _input_here(self) -> str:
        """Return the attribute behind the input in hand, "" where it was not read at the bench."""
        row = self.view.inputs.currentRow()
        inputs = self._sum.inputs
        key = inputs[row].key if 0 <= row < len(inputs) else ""
        return key if (key, self._specimen_id) in self._record.findings else ""

    def _show_reading(self) -> None:
        self.reading.setEnabled(bool(self._input_here()))

    def _show_on_sheet(self) -> None:
        self.accept()
        self._desk.value_wanted.emit(self._key, self._specimen_id)

    def _go_to_reading(self) -> None:
        key = self._input_here()
        self.accept()
        self._desk.reading_wanted.emit(key, self._specimen_id)

    def _tell(self, words: str, *, warn: bool = False) -> None:
        self.words.setProperty("tone", "warn" if warn else "")
        self.words.style().unpolish(self.words)
        self.words.style().polish(self.words)
        sized(self.words, 14)
        self.words.setText(words)

    def _lay_out(self) -> None:
        sized(self.words, 14)
        self.progress.setRange(0, 0)
        self.progress.hide()
        self.progress.setFixedWidth(px(160))
        foot = QHBoxLayout()
        foot.addWidget(self.words, 1)
        foot.addWidget(self.progress)
        buttons = (self.check, self.copy, self.sheet, self.reading, self.leave)
        for button in buttons:
            foot.addWidget(button)
        column = QVBoxLayout(self)
        column.addWidget(self.view, 1)
        column.addLayout(foot)
        parts = (self.view.inputs, self.view.about, self.view.budget)
        for one, other in pairwise((*parts, *buttons)):
            QWidget.setTabOrder(one, other)
        self.leave.setDefault(True)
        self.view.inputs.setFocus(Qt.FocusReason.OtherFocusReason)

    def _fit(self, parent: QWidget) -> None:
        """Take most of the window's room, whatever its size."""
        room = parent.window().size()
        self.resize(round(room.width() * 0.96), round(room.height() * 0.96))
        self.view.rescaled()


def _button(text: str) -> QPushButton:
    button = QPushButton(text)
    button.setAccessibleName(text.replace("&", ""))
    button.setAutoDefault(False)
    sized(button, 15)
    return button
