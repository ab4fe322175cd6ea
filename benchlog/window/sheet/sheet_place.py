"""The Sheet as a place: all that viewers will get, seen page by page, published and re-issued."""

from __future__ import annotations

import shutil
from pathlib import Path

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PublishRefused
from benchlog.settings import default_published
from benchlog.tasks.publish import sheet_name
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.published_folder import files_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision_rows import RevisionRow, what_changed
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.window.desk import Desk
from benchlog.window.empty_page import EmptyPage
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.sheet.going_out_watch import GoingOutWatch
from benchlog.window.sheet.page_view import PageView
from benchlog.window.sheet.revisions_page import RevisionsPage
from benchlog.window.sheet.sheet_panel import SheetPanel
from benchlog.window.sheet.sheet_work import Published, SheetWork, Written
from benchlog.window.sheet.value_ways import ValueWays
from benchlog.window.sheet.wish_dialogs import WishDialogs
from benchlog.window.sheet.wishes_kept import keep_wishes, wishes_of
from benchlog.window.theme import px, sized
from benchlog.window.work import Work, begin

NO_LINEUP = "Nothing to publish yet: no line-up is in hand."
NOT_WRITTEN = "Until it is published, all that is shown here is a draft."
CHANGED = "Something was recorded since. The pages are being brought up to date."
VIEWS = ("Pa&ges", "Re&visions")
PAGES, REVISIONS = range(2)


class SheetPlace(QStackedWidget):
    """Shows what goes out of the line-up in hand and forwards to its tasks."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.work = SheetWork(desk)
        self.watch = GoingOutWatch(desk)
        self.written: Written | None = None
        self._folder: Path | None = None
        self._without_sums = 0
        self.nothing = EmptyPage()
        self.nothing.say(NO_LINEUP, "shelf", "Shelf")
        self.panel = SheetPanel()
        self.pages = PageView(self)
        self.revisions = RevisionsPage()
        self.ways = ValueWays(self)
        self.dialogs = WishDialogs(self)
        self.views = QTabBar()
        self._lay_out()
        let_enter_click(self)
        self._connect()
        self._other_lineup()

    def enter(self) -> None:
        """Show how things stand, with the focus on what comes next."""
        self._show_lineup()
        self.watch.look()
        if self.currentWidget() is self.nothing:
            self.focus_on(self.nothing.go)
            return
        blocked = self.panel.to_answer.isVisibleTo(self)
        self.focus_on(self.panel.to_answer if blocked else self.panel.write)

    def leave(self) -> None:
        """Wait for nobody; the window closes."""
        self.watch.look_away()
        self.work.stop()

    def hideEvent(self, event: object) -> None:
        super().hideEvent(event)
        self.watch.look_away()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._row.setContentsMargins(px(20), px(8), px(20), px(10))
        self._row.setSpacing(px(14))
        self.panel.rescaled()
        self.pages.rescaled()
        self.revisions.rescaled()

    def write(self) -> None:
        """Write the sheet as a draft and show it."""
        self.show_pages()
        self.work.write(self.desk.settings.paper, self._sheet_wishes())

    def publish(self) -> None:
        """Publish all that is wanted as the next revision; a reason that is owed is asked for."""
        standing, panel = self.watch.standing, self.panel
        if standing is None or not standing.changed:
            return
        if standing.block:
            self.focus_on(panel.to_answer)
            return
        reason = panel.reason.text().strip()
        if standing.needs_reason and not reason:
            panel.ask_reason()
            return
        settings = self.desk.settings
        wishes = panel.outputs.wishes
        self.work.publish(settings.paper, settings.units, wishes, self._base(), reason)

    def save_as(self) -> None:
        """Ask where the sheet goes, and put a copy of what is shown there."""
        if self.written is None:
            return
        path = self.ask_path(sheet_name(self.written.record.lineup))
        if path is None:
            return
        with self.desk.faults.guarded():
            shutil.copyfile(self.written.path, path)
            self._files_in(path.parent)
            self.panel.tell(f"Saved: {path}")

    def ask_path(self, name: str) -> Path | None:
        """Return where the reviewer wants the sheet; None when they changed their mind."""
        start = (self._folder or Path.home()) / name
        chosen, _ = QFileDialog.getSaveFileName(self, "Save the sheet", str(start), "PDF (*.pdf)")
        if not chosen:
            return None
        path = Path(chosen)
        return path if path.suffix.lower() == ".pdf" else path.with_name(f"{path.name}.pdf")

    def ask_folder(self) -> Path | None:
        """Return the folder for the files of revisions; None when they changed their mind."""
        chosen = QFileDialog.getExistingDirectory(
            self, "Folder for the files of revisions", str(self._base())
        )
        return Path(chosen) if chosen else None

    def open_folder(self) -> None:
        """Show the folder of what was published or saved last, in the desktop's own way."""
        if self._folder is not None:
            self.show_folder(self._folder)

    def show_folder(self, folder: Path) -> None:
        """Show a folder in the desktop's own way."""
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def take_wishes(self, wishes: PublishWishes) -> None:
        """Keep what goes out as chosen, and show it."""
        with self.desk.faults.guarded():
            keep_wishes(self.desk, wishes)
        self.panel.outputs.show_wishes(wishes)
        self.watch.wish(wishes)

    def show_pages(self) -> None:
        """Show the pages, not the revisions."""
        self.views.setCurrentIndex(PAGES)

    def focus_on(self, widget: QWidget) -> None:
        """Put the focus on a widget, unless somebody is in another place by now."""
        if self.isVisible():
            widget.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        panel, work, desk = self.panel, self.work, self.desk
        self.nothing.wanted.connect(desk.go_to)
        panel.write_wanted.connect(self.write)
        panel.publish_wanted.connect(self.publish)
        panel.stop_wanted.connect(work.stop)
        panel.save_wanted.connect(self.save_as)
        panel.folder_wanted.connect(self.open_folder)
        panel.elsewhere_wanted.connect(self._choose_folder)
        panel.answer_wanted.connect(desk.go_to)
        panel.stand_in_wanted.connect(self.dialogs.ask_stand_in)
        panel.outputs.wished.connect(self.take_wishes)
        panel.outputs.paper_chosen.connect(lambda paper: desk.change_settings(paper=paper))
        panel.outputs.units_chosen.connect(lambda units: desk.change_settings(units=units))
        panel.outputs.start_wanted.connect(self.dialogs.ask_start)
        panel.outputs.words_wanted.connect(self.dialogs.ask_words)
        panel.listen_in(self)
        work.begun.connect(lambda: self._busy(busy=True))
        work.progressed.connect(panel.show_progress)
        work.written.connect(self._show_written)
        work.published.connect(self._show_published)
        work.stopped.connect(self._show_stopped)
        work.failed.connect(self._show_failure)
        self.watch.told.connect(self._show_standing)
        self.views.currentChanged.connect(self._right.setCurrentIndex)
        self.revisions.chosen.connect(self._show_changes)
        self.revisions.files_wanted.connect(self._open_files)
        desk.lineup_changed.connect(self._other_lineup)
        desk.recorded.connect(self._note_change)
        desk.value_wanted.connect(self.ways.show)
        self.pages.sum_wanted.connect(self.ways.open_sum)
        desk.settings_changed.connect(self._take_settings)

    def _other_lineup(self) -> None:
        self.written, self._without_sums = None, 0
        self.ways.forget()
        self._files_in(None)
        self.work.stop()
        self.pages.clear()
        self.panel.show_written(None)
        self.panel.show_standing(None)
        self.panel.tell(NOT_WRITTEN)
        self.revisions.show_rows(())
        self._take_settings()
        wishes = wishes_of(self.desk)
        self.panel.outputs.show_wishes(wishes)
        self.watch.wish(wishes)
        self._show_lineup()

    def _show_lineup(self) -> None:
        teardown = self.desk.teardown
        self.setCurrentIndex(0 if teardown is None else 1)
        self.panel.rehearsal.setVisible(teardown is not None and teardown.lineup.rehearsal)

    def _show_standing(self) -> None:
        standing = self.watch.standing
        self.panel.show_standing(standing)
        if standing is not None and not standing.changed and self.panel.state.text() == NOT_WRITTEN:
            self.panel.tell("")
        self.panel.show_busy(busy=self.work.under_way)
        self.revisions.show_rows(self.watch.rows)
        if self.panel.refusal.text() and self.panel.write.hasFocus():
            self.focus_on(self.panel.to_answer)
        record, written = self.watch.record, self.written
        if written is None or record is None or not self.isVisible():
            return
        if (written.record.digest, written.record.draft) != (record.digest, record.draft):
            hurry = not self._without_sums or self.pages.page < self._without_sums
            self._refresh(record, hurry=hurry)

    def _refresh(self, record: Record, *, hurry: bool) -> None:
        """Bring the pages up to date: in a hurry without the sums first, where nobody sees them."""
        paper, wishes = self.desk.settings.paper, self._sheet_wishes()
        self.work.refresh(record, paper, wishes, hurry=hurry)

    def _take_settings(self) -> None:
        self.panel.outputs.show_settings(self.desk.settings.paper, self.desk.settings.units)
        self.pages.rescaled()

    def _sheet_wishes(self) -> SheetWishes:
        return self.panel.outputs.wishes.of_sheet(self.desk.settings.units)

    def _base(self) -> Path:
        kept = self.desk.settings.publish_to
        return Path(kept) if kept else default_published()

    def _choose_folder(self) -> None:
        folder = self.ask_folder()
        if folder is not None:
            self.desk.change_settings(publish_to=str(folder))
            self.panel.tell(f"Files of revisions go to {folder}")

    def _busy(self, *, busy: bool) -> None:
        self.panel.show_busy(busy=busy)
        if busy:
            self.focus_on(self.panel.stop)

    def _show_written(self, written: Written) -> None:
        asked = self.panel.stop.isVisibleTo(self.panel)
        self._busy(busy=False)
        if written.record.lineup.id != self.desk.lineup_id:
            return
        if not written.whole:
            self._show_first(written)
            return
        self.written = written
        self.panel.show_written(written)
        self.pages.show_file(written.path)
        self.panel.tell("This is how the sheet looks now." if written.record.draft else "")
        if asked:
            self.focus_on(self.panel.save)
        self.ways.written()

    def _show_first(self, written: Written) -> None:
        """Show the pages before the sums at once, and let the whole follow."""
        page = self.pages.page
        if self.pages.show_file(written.path):
            self._without_sums = self.pages.document.pageCount()
        if page >= self._without_sums and self.written is not None:
            self.pages.show_file(self.written.path)
            self.pages.turn(page - self.pages.page)
        self._refresh(written.record, hurry=False)

    def _show_published(self, published: Published) -> None:
        self._busy(busy=False)
        made = published.publication
        self.watch.published()
        if made.lineup_id != self.desk.lineup_id:
            return
        self._files_in(published.folder)
        self.panel.reason.clear()
        self.panel.tell(
            f"Revision {made.revision} is published: {len(made.outputs)} files in "
            f"{published.folder}"
        )
        self.focus_on(self.panel.folder)

    def _show_stopped(self) -> None:
        self._busy(busy=False)
        self.panel.tell("Stopped; nothing was written.")
        self.focus_on(self.panel.write)

    def _show_failure(self, fault: BaseException) -> None:
        self._busy(busy=False)
        if isinstance(fault, PublishRefused):
            self.panel.tell(f"{fault.what} {fault.do}", warn=True)
        else:
            self.desk.faults.handle(fault)

    def _show_changes(self, row: RevisionRow) -> None:
        record, shelf = self.watch.record, self.desk.workshop.shelf
        if record is None:
            return
        self.revisions.show_changes("…", ())

        def job(_work: Work) -> tuple[str, tuple[str, ...]]:
            return what_changed(shelf, record, row)

        def told(found: tuple[str, tuple[str, ...]]) -> None:
            if self.revisions.row == row:
                self.revisions.show_changes(*found)

        begin(job, told, self.desk.faults.handle)

    def _open_files(self, row: RevisionRow) -> None:
        teardown = self.desk.teardown
        if teardown is None:
            return
        shelf, lineup, base = self.desk.workshop.shelf, teardown.lineup, self._base()

        def job(_work: Work) -> Path:
            return files_of(shelf, lineup, row.revision, base)

        def found(folder: Path) -> None:
            self._files_in(folder)
            self.panel.tell(f"Files of revision {row.revision}: {folder}")
            self.show_folder(folder)

        begin(job, found, self._show_failure)

    def _files_in(self, folder: Path | None) -> None:
        self._folder = folder
        self.panel.folder.setEnabled(folder is not None)

    def _note_change(self) -> None:
        if self.written is not None:
            self.panel.tell(CHANGED, warn=True)

    def _lay_out(self) -> None:
        for name in VIEWS:
            self.views.addTab(name)
        self.views.setAccessibleName("Pages or revisions")
        self.views.setExpanding(False)
        self.views.setDrawBase(False)
        sized(self.views, 14)
        self._right = QStackedWidget()
        self._right.addWidget(self.pages)
        self._right.addWidget(self.revisions)
        right = QVBoxLayout()
        right.addWidget(self.views)
        right.addWidget(self._right, 1)
        both = QWidget()
        self._row = QHBoxLayout(both)
        self._row.addWidget(self.panel)
        self._row.addLayout(right, 1)
        self.addWidget(self.nothing)
        self.addWidget(both)
