"""Collect garbage on the main thread only.

A widget that is part of a reference cycle dies where the collector happens to run. Python runs it
on whichever thread allocates, the scale's or a worker's too, and a widget that dies there takes
the program with it. So the collector is switched off, and a timer of the main thread runs it.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

EVERY_MS = 1_000


class Tidy(QObject):
    """Takes the collector over while it lives; collects what is due, oldest generations last."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        self._timer = QTimer(self, interval=EVERY_MS)
        self._timer.timeout.connect(self.collect_due)
        self._timer.start()

    def collect_due(self) -> int:
        """Collect the oldest generation that is due; returns it, or -1 when none is."""
        due = [
            generation
            for generation, (count, most) in enumerate(
                zip(gc.get_count(), gc.get_threshold(), strict=True)
            )
            if count > most > 0
        ]
        if due:
            gc.collect(max(due))
        return max(due, default=-1)
