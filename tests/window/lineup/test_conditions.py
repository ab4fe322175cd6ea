"""Stating conditions in the Line-up, with the keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from benchlog.trade.conditions import usual_conditions
from benchlog.window.lineup.conditions_dialog import ConditionsDialog
from tests.window.place_scenes import Person, cut_off, unnamed
from tests.window.plan_scenes import on_shelf, saved

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def stating(kept: Person) -> ConditionsDialog:
    """The dialog, opened with its key over a plan that is on the shelf."""
    kept.press(Qt.Key.Key_C, ALT)
    kept.until(lambda: kept.place.findChildren(ConditionsDialog))
    (dialog,) = kept.place.findChildren(ConditionsDialog)
    with kept.qtbot.waitActive(dialog):
        dialog.activateWindow()
    return dialog


def retype(kept: Person, dialog: ConditionsDialog, key: str, text: str) -> None:
    kept.tab_to(dialog.fields[key].editor)
    kept.focus.selectAll()
    kept.type(text)


def test_stated_flow_reaches_the_shelf(kept: Person, stating: ConditionsDialog) -> None:
    retype(kept, stating, "flow_l_min", "12")
    with saved(kept):
        kept.press(Qt.Key.Key_Return)
    assert on_shelf(kept).conditions.flow_l_min == 12.0
    assert "can_pressure" not in kept.place.told.text()


def test_fault_stands_beside_its_field(kept: Person, stating: ConditionsDialog) -> None:
    retype(kept, stating, "oil_temperature_c", "900")
    kept.press(Qt.Key.Key_Return)
    field = stating.fields["oil_temperature_c"]
    assert field.fault.isVisible()
    assert "cannot be believed" in field.fault.text()
    assert stating.isVisible()
    assert QApplication.focusWidget() is field.editor
    assert on_shelf(kept).conditions is None


def test_usual_conditions_can_be_put_back(kept: Person, stating: ConditionsDialog) -> None:
    retype(kept, stating, "flow_l_min", "12")
    stating.usual.click()
    assert stating.fields["flow_l_min"].editor.text() == "30 L/min"
    with kept.qtbot.waitSignal(stating.stated) as told:
        stating.accept()
    assert told.args == [None]


def test_stating_is_taken_back_with_undo(kept: Person, stating: ConditionsDialog) -> None:
    retype(kept, stating, "can_pressure_kpa", "500")
    with saved(kept):
        kept.press(Qt.Key.Key_Return)
    assert on_shelf(kept).conditions.can_pressure_kpa == 500.0
    with saved(kept):
        kept.place.planning.take_back()
    assert (on_shelf(kept).conditions or usual_conditions()) == usual_conditions()


def test_every_field_is_named_and_whole(kept: Person, stating: ConditionsDialog) -> None:
    assert unnamed(stating) == []
    assert cut_off(stating) == []
