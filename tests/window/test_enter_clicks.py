from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from benchlog.window.lineup.lineup_place import LineupPlace
from benchlog.window.sheet.sheet_place import SheetPlace
from benchlog.window.shelf.shelf_place import ShelfPlace
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_fixtures import desk, sample_desk, sit  # noqa: F401

PLACES = [ShelfPlace, LineupPlace, VerdictPlace, SheetPlace]
ENTER = [Qt.Key.Key_Return, Qt.Key.Key_Enter]


@pytest.mark.parametrize("make", PLACES)
def test_enter_clicks_every_focused_button(sample_desk, sit, make) -> None:  # noqa: F811
    person = sit(make, sample_desk)
    if make is VerdictPlace:
        person.until(lambda: person.place.watch.record is not None)
        person.press(Qt.Key.Key_3, Qt.KeyboardModifier.AltModifier)
    buttons = [b for b in person.place.findChildren(QPushButton) if b.isEnabled() and b.isVisible()]
    clicked: list[QPushButton] = []
    assert buttons
    for button in buttons:
        button.clicked.disconnect()  # what it does is no matter here
        button.clicked.connect(lambda _on=False, button=button: clicked.append(button))
        button.setFocus()
        for key in ENTER:
            person.press(key)
    assert clicked == [button for button in buttons for _ in ENTER]


@pytest.mark.parametrize("key", ENTER)
def test_enter_takes_the_first_offer(desk, sit, key) -> None:  # noqa: F811
    person = sit(ShelfPlace, desk)
    person.press(key)
    assert person.went == ["lineup"]
