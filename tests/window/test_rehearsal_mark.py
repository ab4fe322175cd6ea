from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QThreadPool

from benchlog.settings import Settings
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.work import end_all
from tests.window.place_scenes import sample_shelf


def test_rehearsal_is_marked_above_every_place(qtbot, themed, tmp_path: Path) -> None:
    window = MainWindow(sample_shelf(tmp_path / "sample"), Settings(sounds=False), Faults())
    qtbot.addWidget(window)
    with qtbot.waitSignal(window.opened, timeout=30_000):
        window.show()
    for place in ("shelf", "lineup", "bench", "verdict", "sheet"):
        window.show_place(place)
        assert window.where.isVisible()
        assert window.where.text().startswith("REHEARSAL, invented: Three for one mount")
    window.close()
    end_all()
    QThreadPool.globalInstance().waitForDone()
