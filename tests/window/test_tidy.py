from __future__ import annotations

import gc
import threading
import weakref

from PySide6.QtCore import QCoreApplication

from benchlog.window.tidy import Tidy


class Ring:
    """Part of a reference cycle, which only the collector can free; notes where it dies."""

    died_on: str = ""

    def __init__(self) -> None:
        self.me = self
        weakref.finalize(self, self._note)

    @staticmethod
    def _note() -> None:
        Ring.died_on = threading.current_thread().name


def test_garbage_dies_on_the_main_thread(qapp: QCoreApplication) -> None:
    gc.enable()
    tidy = Tidy(qapp)
    Ring()

    kept: list[list[int]] = []

    def allocate() -> None:
        kept.extend([n] for n in range(20_000))  # far over the youngest generation's threshold

    worker = threading.Thread(target=allocate, name="worker")
    worker.start()
    worker.join()
    assert Ring.died_on == ""
    assert not gc.isenabled()
    assert tidy.collect_due() >= 0
    assert Ring.died_on == threading.main_thread().name
    tidy.deleteLater()


def test_nothing_is_collected_before_it_is_due(qapp: QCoreApplication) -> None:
    tidy = Tidy(qapp)
    gc.collect()
    assert tidy.collect_due() == -1
    tidy.deleteLater()
