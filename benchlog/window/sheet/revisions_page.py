"""What was published: every revision, what changed in it, and its files."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.revision_rows import RevisionRow
from benchlog.window.theme import px, sized
from benchlog.window.verdict.plain_table import PlainTable

HEADS = ("No.", "Date", "State", "Digest", "Files", "Reason")
SHARES = (6, 17, 22, 16, 15, 26)
NONE_YET = "Nothing of this line-up was published yet."


class RevisionsPage(QWidget):
    """The list, newest first; `chosen` carries the row whose changes are asked for.

    `files_wanted` carries the row whose files are asked for.
    """

    chosen = Signal(object)
    files_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[RevisionRow, ...] = ()
        self.table = PlainTable("Revisions")
        self.table.show_heads(HEADS, SHARES)
        self.none = QLabel(NONE_YET)
        self.none.setProperty("tone", "dim")
        self.head = QLabel(wordWrap=True)
        self.changes = QListWidget()
        self.changes.setAccessibleName("What changed")
        self.changes.setWordWrap(True)
        self.files = QPushButton("Open its files")
        self.files.setAccessibleName("Open its files")
        for part, size, bold in (
            (self.none, 14, False), (self.head, 15, True), (self.changes, 14, False),
            (self.files, 14, False),
        ):  # fmt: skip
            sized(part, size, bold=bold)
        self._lay_out()
        self.table.currentCellChanged.connect(lambda row, *_: self._choose(row))
        self.table.opened.connect(lambda *_: self._want_files())
        self.files.clicked.connect(self._want_files)
        self.show_rows(())

    @property
    def row(self) -> RevisionRow | None:
        """The row in hand."""
        place = self.table.currentRow()
        return self._rows[place] if 0 <= place < len(self._rows) else None

    def show_rows(self, rows: tuple[RevisionRow, ...]) -> None:
        """Show the revisions; an older one stays in hand, else the newest is."""
        before = self.row if self.table.currentRow() > 0 else None
        self._rows = rows
        self.none.setVisible(all(row.draft for row in rows))
        self.table.blockSignals(True)  # the rows are not all there yet
        self.table.setRowCount(len(rows))
        for place, row in enumerate(rows):
            cells = (str(row.revision), row.date, row.status, row.digest, row.files, row.reason)
            for column, (head, words) in enumerate(zip(HEADS, cells, strict=True)):
                self.table.put(place, column, words, f"{head} {words or 'none'}", dim=row.draft)
        numbers = [row.revision for row in rows]
        place = numbers.index(before.revision) if before and before.revision in numbers else 0
        self.table.setCurrentCell(place if rows else -1, 0)
        self.table.blockSignals(False)
        self._choose(self.table.currentRow())

    def show_changes(self, head: str, sentences: tuple[str, ...]) -> None:
        """Show what changed in the row in hand."""
        self.head.setText(head)
        self.changes.clear()
        self.changes.addItems(list(sentences))
        self.changes.setVisible(bool(sentences))

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.table.rescaled()
        self.table.setMaximumHeight(px(300))

    def _choose(self, _place: int) -> None:
        row = self.row
        self.files.setEnabled(row is not None and not row.draft)
        if row is None:
            self.show_changes("", ())
        else:
            self.chosen.emit(row)

    def _want_files(self) -> None:
        if self.row is not None and not self.row.draft:
            self.files_wanted.emit(self.row)

    def _lay_out(self) -> None:
        foot = QHBoxLayout()
        foot.addWidget(self.files)
        foot.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.none)
        column.addWidget(self.table, 2)
        column.addLayout(foot)
        column.addWidget(self.head)
        column.addWidget(self.changes, 3)
        column.addStretch(1)
