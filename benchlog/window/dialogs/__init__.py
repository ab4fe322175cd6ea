"""Dialogs that open over a place; each is shown without blocking and says what was chosen."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtWidgets import QDialog

    from benchlog.window.bench.bench import Bench


def open_dialog(name: str, bench: Bench) -> QDialog:
    """Open the dialog "scale", "tool", "checks", "keys" or "settings" over the bench."""
    if name == "tool":
        kind = bench.view.asked.attribute.instrument if bench.view.asked else ""
        module = import_module("benchlog.window.dialogs.instruments_dialog")
        dialog = module.InstrumentsDialog(bench.desk, kind, bench)
        dialog.taken.connect(bench.hands.use_tool)
    elif name == "scale":
        module = import_module("benchlog.window.dialogs.scale_dialog")
        dialog = module.ScaleDialog(bench.desk, bench.scale, bench)
    elif name == "checks":
        module = import_module("benchlog.window.dialogs.checks_dialog")
        keys = bench.router.keys
        dialog = module.ChecksDialog(bench.desk, bench.scale, tools_in_hand(bench), keys, bench)
        bench.desk.recorded.connect(bench.show_now)
        dialog.finished.connect(lambda: bench.desk.recorded.disconnect(bench.show_now))
    elif name == "keys":
        dialog = import_module("benchlog.window.dialogs.keys_dialog").KeysDialog(bench.desk, bench)
    else:
        module = import_module("benchlog.window.dialogs.settings_dialog")
        dialog = module.SettingsDialog(bench.desk, bench)
    dialog.setAttribute(dialog_deletes())
    dialog.finished.connect(bench.take_focus)
    dialog.finished.connect(bench.show_now)
    dialog.open()
    return dialog


def tools_in_hand(bench: Bench) -> list[str]:
    """Return the ids of the instruments in hand, that of the answer asked first."""
    asked = bench.view.asked
    first = [asked.tool.id] if asked and asked.tool else []
    return [*first, *(tool for _kind, tool in bench.hands.teardown.place.tools)]


def dialog_deletes() -> object:
    """Return the attribute that lets a dialog go once it is closed."""
    from PySide6.QtCore import Qt  # noqa: PLC0415

    return Qt.WidgetAttribute.WA_DeleteOnClose
