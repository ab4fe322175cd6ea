"""The Sheet as a place: what viewers will get, page by page, written and saved."""

from __future__ import annotations

import shutil
from pathlib import Path

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QStackedWidget, QWidget

from benchlog.errors import PublishRefused
from benchlog.tasks.publish import check_disclosure, sheet_name
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.window.desk import Desk
from benchlog.window.empty_page import EmptyPage
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.sheet.page_view import PageView
from benchlog.window.sheet.sheet_panel import SheetPanel
from benchlog.window.sheet.sheet_work import SheetWork, Written
from benchlog.window.theme import px

NO_LINEUP = "Nothing to write yet: no line-up is in hand."
NOT_WRITTEN = "Not written yet. The sheet shows what is on the shelf at that moment."
CHANGED = "Something was recorded since. Write the sheet again to show it."


class SheetPlace(QStackedWidget):
    """Shows the sheet of the line-up in hand and forwards to its tasks."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.work = SheetWork(desk)
        self.written: Written | None = None
        self._saved: Path | None = None
        self.nothing = EmptyPage()
        self.nothing.say(NO_LINEUP, "shelf", "Shelf")
        self.panel = SheetPanel()
        self.pages = PageView(self)
        both = QWidget()
        self._row = QHBoxLayout(both)
        self._row.addWidget(self.panel)
        self._row.addWidget(self.pages, 1)
        self.addWidget(self.nothing)
        self.addWidget(both)
        let_enter_click(self)
        self._connect()
        self._other_lineup()

    def enter(self) -> None:
        """Show how things stand, with the focus on what comes next."""
        self._show_lineup()
        if self._refusal() is not None:
            self.panel.to_lineup.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.panel.write.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Wait for nobody; the window closes."""
        self.work.stop()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._row.setContentsMargins(px(20), px(8), px(20), px(10))
        self._row.setSpacing(px(14))
        self.panel.rescaled()
        self.pages.rescaled()

    def write(self) -> None:
        """Write the sheet and show it; a refusal is told beside the button that answers it."""
        if self._refusal() is not None:
            self._show_lineup()
            self.panel.to_lineup.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        wishes = SheetWishes(self._desk.settings.units, self.panel.sums.isChecked())
        self.work.write(self.panel.paper.currentData(), wishes)

    def save_as(self) -> None:
        """Ask where the sheet goes, and put a copy of what is shown there."""
        if self.written is None:
            return
        path = self.ask_path(sheet_name(self.written.record.lineup))
        if path is None:
            return
        with self._desk.faults.guarded():
            shutil.copyfile(self.written.path, path)
            self._saved = path
            self.panel.folder.setEnabled(True)
            self.panel.tell(f"Saved: {path}")

    def ask_path(self, name: str) -> Path | None:
        """Return where the reviewer wants the sheet; None when they changed their mind."""
        start = (self._saved.parent if self._saved else Path.home()) / name
        chosen, _ = QFileDialog.getSaveFileName(self, "Save the sheet", str(start), "PDF (*.pdf)")
        if not chosen:
            return None
        path = Path(chosen)
        return path if path.suffix.lower() == ".pdf" else path.with_name(f"{path.name}.pdf")

    def open_folder(self) -> None:
        """Show the folder of the saved sheet in the desktop's own way."""
        if self._saved is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._saved.parent)))

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        panel, work = self.panel, self.work
        self.nothing.wanted.connect(self._desk.go_to)
        panel.write_wanted.connect(self.write)
        panel.stop_wanted.connect(work.stop)
        panel.save_wanted.connect(self.save_as)
        panel.folder_wanted.connect(self.open_folder)
        panel.lineup_wanted.connect(lambda: self._desk.go_to.emit("lineup"))
        panel.paper_chosen.connect(lambda paper: self._desk.change_settings(paper=paper))
        work.begun.connect(lambda: self._busy(busy=True))
        work.progressed.connect(panel.show_progress)
        work.written.connect(self._show_written)
        work.stopped.connect(self._show_stopped)
        work.failed.connect(self._show_failure)
        self._desk.lineup_changed.connect(self._other_lineup)
        self._desk.recorded.connect(self._note_change)
        self._desk.settings_changed.connect(self._take_settings)

    def _other_lineup(self) -> None:
        self.written = None
        self._saved = None
        self.work.stop()
        self.pages.clear()
        self.panel.show_written(None)
        self.panel.folder.setEnabled(False)
        self.panel.tell(NOT_WRITTEN)
        self._show_paper()
        self._show_lineup()

    def _show_lineup(self) -> None:
        teardown = self._desk.teardown
        self.setCurrentIndex(0 if teardown is None else 1)
        if teardown is not None:
            self.panel.show_lineup(teardown.lineup, self._refusal())

    def _refusal(self) -> PublishRefused | None:
        try:
            if self._desk.teardown is not None:
                check_disclosure(self._desk.teardown.lineup)
        except PublishRefused as refusal:
            return refusal
        return None

    def _show_paper(self) -> None:
        self.panel.paper.show_choice(self._desk.settings.paper)

    def _take_settings(self) -> None:
        self._show_paper()
        self.pages.rescaled()

    def _busy(self, *, busy: bool) -> None:
        self.panel.show_busy(busy=busy)
        if busy:
            self._focus_on(self.panel.stop)

    def _show_written(self, written: Written) -> None:
        self._busy(busy=False)
        if written.record.lineup.id != self._desk.lineup_id:
            return
        self.written = written
        self.panel.show_written(written)
        self.pages.show_file(written.path)
        self.panel.tell("Written. Look it through, then save it.")
        self._focus_on(self.panel.save)

    def _show_stopped(self) -> None:
        self._busy(busy=False)
        self.panel.tell("Stopped; nothing was written.")
        self._focus_on(self.panel.write)

    def _show_failure(self, fault: BaseException) -> None:
        self._busy(busy=False)
        if isinstance(fault, PublishRefused):
            self.panel.tell(f"{fault.what} {fault.do}", warn=True)
            self._show_lineup()
        else:
            self._desk.faults.handle(fault)

    def _note_change(self) -> None:
        if self.written is not None:
            self.panel.tell(CHANGED, warn=True)

    def _focus_on(self, button: QWidget) -> None:
        """Put the focus on a button, unless somebody is in another place by now."""
        if self.isVisible():
            button.setFocus(Qt.FocusReason.OtherFocusReason)
