"""What all places share: the open shelf, the settings, and the line-up in hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from benchlog.settings import Settings, save_settings
from benchlog.tasks.walk import Teardown
from benchlog.window.faults import Faults
from benchlog.wiring import Workshop, open_teardown


class Desk(QObject):
    """The open shelf with one line-up in hand; places listen to it and forward to its tasks.

    `lineup_changed` follows when another line-up, or none, is in hand; `recorded` when readings,
    photos or remarks were added by any place; `rules_changed` when its rules were locked or
    changed; `settings_changed` after the reviewer changed one.
    A place that wants another place shown emits `go_to` with its key; `plan_wanted` asks the
    Line-up place to begin a new plan, `rules_wanted` to open the rules of the line-up in hand,
    `blind_wanted` the Verdict to judge blind, `value_wanted` the Sheet to show where the value of a
    figure or attribute of a specimen stands, and `reading_wanted` the Bench to go to where an
    attribute of a specimen is asked. `curtain` is drawn (True) while nothing in the
    window may name a specimen.
    """

    lineup_changed = Signal()
    recorded = Signal()
    rules_changed = Signal()
    settings_changed = Signal()
    go_to = Signal(str)
    plan_wanted = Signal()
    rules_wanted = Signal()
    blind_wanted = Signal()
    curtain = Signal(bool)
    value_wanted = Signal(str, str)
    reading_wanted = Signal(str, str)

    def __init__(self, workshop: Workshop, settings: Settings, faults: Faults) -> None:
        super().__init__()
        self.workshop = workshop
        self.settings = settings
        self.faults = faults
        self.teardown: Teardown | None = None

    @property
    def lineup_id(self) -> str:
        """The line-up in hand; "" when there is none."""
        return self.teardown.lineup.id if self.teardown else ""

    def take_last_lineup(self) -> None:
        """Take the line-up that was last at the bench in hand again, if there is one."""
        last = self.workshop.shelf.last_lineup()
        if last is not None:
            self.open_lineup(last)

    def open_lineup(self, lineup_id: str) -> None:
        """Take a line-up in hand, at the place of the bench where it stood."""
        self.teardown = open_teardown(self.workshop, lineup_id, inch=self.settings.inch)
        self.lineup_changed.emit()

    def reload(self) -> None:
        """Read the line-up in hand again, after a place changed its plan or its readings."""
        if self.teardown is not None:
            self.teardown.reload()
            self.recorded.emit()

    def change_settings(self, **changes: Any) -> None:
        """Keep changed settings, and tell all places."""
        self.settings = replace(self.settings, **changes)
        if self.teardown is not None:
            self.teardown.inch = self.settings.inch
        with self.faults.guarded():
            save_settings(self.settings)
        self.settings_changed.emit()
