"""Starting the window: names, theme, log, and one handler for whatever goes wrong."""

from __future__ import annotations

import logging
import sys
from pathlib import Path
from types import TracebackType

from PySide6.QtWidgets import QApplication

from benchlog.settings import APP, Settings, log_file
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.theme import apply_theme
from benchlog.window.tidy import Tidy

LARGEST_LOG = 1_000_000


def run(shelf_folder: Path, settings: Settings) -> int:
    """Show the window on the shelf in `shelf_folder` until it is closed; returns the exit code."""
    app, window = start(shelf_folder, settings)
    window.appear()
    return app.exec()


def start(shelf_folder: Path, settings: Settings) -> tuple[QApplication, MainWindow]:
    """Make the application and its window, not shown yet."""
    keep_log()
    app = QApplication.instance() or QApplication([APP])
    app.setApplicationName(APP)
    app.setApplicationDisplayName(APP)
    app.setDesktopFileName(APP)
    app.setStyle("Fusion")
    apply_theme(app, settings.theme)
    Tidy(app)
    faults = Faults()
    catch_strays(faults)
    return app, MainWindow(shelf_folder, settings, faults)


def keep_log() -> None:
    """Write the log beside the reviewer's other program files; go on without when that fails."""
    path = log_file()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and path.stat().st_size > LARGEST_LOG:
            path.replace(path.with_suffix(".old.log"))
        handler: logging.Handler = logging.FileHandler(path, encoding="utf-8", delay=True)
    except OSError:
        handler = logging.StreamHandler()
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    logging.basicConfig(level=logging.INFO, handlers=[handler])


def catch_strays(faults: Faults) -> None:
    """Lead exceptions that nobody caught to the handler that logs and tells in plain words."""

    def stray(kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, fault, trace)
            QApplication.quit()
            return
        faults.handle(fault)

    sys.excepthook = stray
