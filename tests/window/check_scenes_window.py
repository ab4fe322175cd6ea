"""A calliper and a scale at the bench, and hands that check them with keys."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from benchlog.measure.instrument import Instrument, InstrumentKind
from tests.window.bench_scenes import Seat
from tests.window.place_scenes import settle

CALLIPER = Instrument("cal-1", "Calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.03)
SCALE = Instrument("scale-1", "Bench scale", InstrumentKind.SCALE, "gram", 0.1, 0.2)
TAPE = Instrument("tape-1", "Steel tape", InstrumentKind.TAPE, "millimeter", 1.0, 0.5)
SPOKEN = Qt.ItemDataRole.AccessibleTextRole
NO_MODIFIER = Qt.KeyboardModifier.NoModifier


def equip(seat: Seat) -> None:
    """Put the instruments on the shelf, with a length asked that the calliper answers."""
    for tool in (SCALE, TAPE, CALLIPER):
        seat.desk.workshop.shelf.save_instrument(tool)
    seat.bench.show_now()
    seat.go_to("can_diameter")


def checks_of(seat: Seat) -> QDialog:
    """Open the checks by their key; returns the dialog once it has the focus."""
    seat.press(Qt.Key.Key_F1, NO_MODIFIER)
    dialog = seat.bench.findChildren(QDialog)[-1]
    seat.qtbot.waitUntil(lambda: dialog.isAncestorOf(QApplication.focusWidget() or seat.place))
    settle()
    return dialog


def show(seat: Seat, shown: str) -> None:
    """Type what the instrument shows, and Enter."""
    seat.type(shown)
    seat.press(Qt.Key.Key_Return, NO_MODIFIER)
    settle()


def leave(seat: Seat, dialog: QDialog) -> None:
    """Close the checks with Escape; the keys belong to the bench again."""
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    seat.place.activateWindow()
    seat.qtbot.waitUntil(lambda: QApplication.focusWidget() is seat.entry)


def tab_to(seat: Seat, widget: QWidget) -> list[str]:
    """Press Tab until a widget has the focus; returns the names on the way."""
    names: list[str] = []
    for _ in range(40):
        if QApplication.focusWidget() is widget:
            return names
        seat.press(Qt.Key.Key_Tab, NO_MODIFIER)
        names.append(QApplication.focusWidget().accessibleName())
    raise AssertionError(names)
