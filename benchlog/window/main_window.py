"""The window's shell: the bar of places, the pages, and what happens before and after opening."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QSize, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.settings import APP, Settings, save_settings
from benchlog.window import theme
from benchlog.window.faults import FaultPage, Faults, Told, in_plain_words
from benchlog.window.places import PLACES, PlacesBar

if TYPE_CHECKING:
    from benchlog.window.desk import Desk
    from benchlog.window.work import Work
    from benchlog.wiring import Workshop

FRAME = QSize(16, 48)
"""What a window manager's title bar and borders are allowed to take."""


def open_real_workshop(folder: Path) -> Workshop:
    """Open the shelf with everything it needs; slow to import, so only after the first paint."""
    from benchlog.window import desk  # noqa: F401, PLC0415 - imported here, off the main thread
    from benchlog.wiring import open_workshop  # noqa: PLC0415

    return open_workshop(folder)


class MainWindow(QMainWindow):
    """The shell. It paints first, opens the shelf after, and then furnishes the places.

    `first_painted` follows the first paint, `opened` the furnished places, `refused` a shelf
    that could not be opened.
    """

    first_painted = Signal()
    opened = Signal()
    refused = Signal(object)

    def __init__(
        self,
        folder: Path,
        settings: Settings,
        faults: Faults,
        opener: Callable[[Path], Workshop] = open_real_workshop,
    ) -> None:
        super().__init__()
        self.folder = folder
        self.settings = settings
        self.faults = faults
        self.desk: Desk | None = None
        self._opener = opener
        self._painted = False
        self._fresh = False
        self._furnished: dict[str, QWidget] = {}
        self.setWindowTitle(APP)
        self.setMinimumSize(820, 470)
        self.bar = PlacesBar()
        self.where = QLabel(objectName="where")
        self.where.setProperty("tone", "dim")
        theme.sized(self.where, 15)
        self.pages = QStackedWidget()
        self.waiting = QLabel("Opening the shelf…", margin=40)
        theme.sized(self.waiting, 24)
        self.pages.addWidget(self.waiting)
        self.fault_page = FaultPage(self.open_shelf, self._choose_folder)
        self.pages.addWidget(self.fault_page)
        self.notice = _Notice()
        self._lay_out()
        self.bar.chosen.connect(self.show_place)
        self.faults.told.connect(self._tell)
        self._settle = QTimer(self, singleShot=True, interval=40)
        self._settle.timeout.connect(self._rescale)
        self._take_geometry()

    def appear(self) -> None:
        """Show the window where it last stood.

        The first time, and where it would not fit between the screen's edges with its frame
        around it, it stands as large as the screen allows.
        """
        if self._fresh or not self._fits():
            self.showMaximized()
        else:
            self.show()

    # --- opening ---------------------------------------------------------------------------

    def open_shelf(self) -> None:
        """Open the shelf off the main thread, then furnish the places."""
        from benchlog.window.work import begin  # noqa: PLC0415 - not needed to paint

        self.pages.setCurrentWidget(self.waiting)
        folder = self.folder

        def job(_work: Work) -> Workshop:
            return self._opener(folder)

        begin(job, self._furnish, self._refuse)

    def _furnish(self, workshop: Workshop) -> None:
        from benchlog.window.desk import Desk  # noqa: PLC0415 - loaded by now, off this thread
        from benchlog.window.places import maker_of  # noqa: PLC0415

        self.desk = Desk(workshop, self.settings, self.faults)
        self.desk.go_to.connect(self.show_place)
        self.desk.lineup_changed.connect(self._show_where)
        self.desk.rules_changed.connect(self._show_where)
        self.desk.rules_wanted.connect(lambda: self.show_place("lineup"))
        self.desk.settings_changed.connect(self._take_settings)
        self.desk.curtain.connect(self._draw_curtain)
        with self.faults.guarded():
            self.desk.take_last_lineup()
        for place in PLACES:
            maker = maker_of(place)
            page = maker(self.desk) if maker else _unfurnished(place.name)
            self._furnished[place.key] = page
            self.pages.addWidget(page)
        self._rescale()
        self._show_where()
        self.show_place("bench" if self.desk.teardown else "shelf")
        self.opened.emit()

    def _refuse(self, fault: BaseException) -> None:
        self.fault_page.show_fault(in_plain_words(fault))
        self.pages.setCurrentWidget(self.fault_page)
        self.refused.emit(fault)

    def _choose_folder(self) -> None:
        chosen = self.ask_folder()
        if chosen is not None:
            self.folder = chosen
            self.open_shelf()

    def ask_folder(self) -> Path | None:
        """Ask for a shelf's folder; None when the reviewer changed their mind."""
        chosen = QFileDialog.getExistingDirectory(self, "Choose a shelf's folder", str(self.folder))
        return Path(chosen) if chosen else None

    # --- places ----------------------------------------------------------------------------

    def show_place(self, key: str) -> None:
        """Show one of the five places, once they are furnished."""
        page = self._furnished.get(key)
        if page is None:
            return
        self.pages.setCurrentWidget(page)
        self.bar.show_place(key)
        enter = getattr(page, "enter", None)
        if enter is not None:
            with self.faults.guarded():
                enter()

    def place(self, key: str) -> QWidget:
        """Return the widget of a furnished place; raises KeyError before the shelf is open."""
        return self._furnished[key]

    # --- inside ----------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.top = QWidget()
        top = QHBoxLayout(self.top)
        top.setContentsMargins(0, 0, 12, 0)
        top.addWidget(self.bar)
        top.addStretch()
        top.addWidget(self.where)
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.top)
        column.addWidget(self.notice)
        column.addWidget(self.pages, 1)
        self.setCentralWidget(middle)

    def _tell(self, told: Told) -> None:
        self.notice.tell(told)

    def _show_where(self) -> None:
        teardown = self.desk.teardown if self.desk else None
        if teardown is None:
            self.where.setText("no line-up in hand")
            self.setWindowTitle(APP)
            return
        mark = "REHEARSAL, invented: " if teardown.lineup.rehearsal else ""
        name = f"{mark}{teardown.lineup.name}"
        with self.faults.guarded():
            self.where.setText(f"{name}  ·  {self._rules_state()}")
        self.setWindowTitle(f"{name} — {APP}")

    def _rules_state(self) -> str:
        from benchlog.tasks.lock_view import short_state  # noqa: PLC0415 - not needed to paint

        return short_state(self.desk.workshop.shelf.rules_locks(self.desk.lineup_id))

    def _draw_curtain(self, drawn: bool) -> None:
        """Take away all that names a line-up or leads to names, or bring it back."""
        self.top.setVisible(not drawn)
        if drawn:
            self.setWindowTitle(APP)
        else:
            self._show_where()

    def _take_settings(self) -> None:
        if self.desk is None:
            return
        if self.desk.settings.theme != self.settings.theme:
            theme.apply_theme(QApplication.instance(), self.desk.settings.theme)
        self.settings = self.desk.settings

    def _take_geometry(self) -> None:
        kept = QByteArray.fromBase64(self.settings.geometry.encode())
        if not (kept.size() and self.restoreGeometry(kept)):
            self.resize(self._room().boundedTo(QSize(1600, 900)))
            self._fresh = True

    def _room(self) -> QSize:
        """The size that a window can have here; its frame is only known once it is shown."""
        return self.screen().availableGeometry().size() - FRAME

    def _fits(self) -> bool:
        return self.size().boundedTo(self._room()) == self.size()

    def _rescale(self) -> None:
        wanted = theme.unit_for(self.size())
        theme.rescale(QApplication.instance(), self, wanted)
        for page in self._furnished.values():
            rescaled = getattr(page, "rescaled", None)
            if rescaled is not None:
                rescaled()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._settle.start()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self._after_first_paint)

    def _after_first_paint(self) -> None:
        self.first_painted.emit()
        self.open_shelf()

    def closeEvent(self, event: QCloseEvent) -> None:
        for page in self._furnished.values():
            leave = getattr(page, "leave", None)
            if leave is not None:
                with self.faults.guarded():
                    leave()
        from benchlog.window.work import end_all  # noqa: PLC0415 - not needed to paint

        end_all()
        if self.desk is not None:
            kept = bytes(self.saveGeometry().toBase64()).decode()
            with self.faults.guarded():
                save_settings(replace(self.desk.settings, geometry=kept))
            with self.faults.guarded():
                self.desk.workshop.close()
        super().closeEvent(event)


class _Notice(QWidget):
    """A strip under the bar for failures that belong to no place; it goes away when told to."""

    def __init__(self) -> None:
        super().__init__()
        from PySide6.QtWidgets import QFrame, QPushButton  # noqa: PLC0415

        self._frame = QFrame()
        self._frame.setProperty("strip", "warn")
        self.words = QLabel(wordWrap=True)
        theme.sized(self.words, 17)
        self.close_button = QPushButton("Understood")
        theme.sized(self.close_button, 15)
        self.close_button.setAccessibleName("Understood, hide this notice")
        self.close_button.clicked.connect(self.hide)
        row = QHBoxLayout(self._frame)
        row.addWidget(self.words, 1)
        row.addWidget(self.close_button)
        around = QVBoxLayout(self)
        around.setContentsMargins(8, 0, 8, 6)
        around.addWidget(self._frame)
        self.hide()

    def tell(self, told: Told) -> None:
        self.words.setText(f"{told.what} {told.do}".strip())
        self.show()


def _unfurnished(name: str) -> QWidget:
    page = QLabel(f"{name}: there is nothing to show here in this version.", margin=40)
    theme.sized(page, 20)
    return page
