"""A value typed where the reason of a correction belongs."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from benchlog.errors import AskAgain
from benchlog.tasks.reading_view import reading_rows
from benchlog.trade.sequence_file import load_sequence
from benchlog.window.desk import Desk
from benchlog.window.verdict.correct_dialog import CorrectDialog
from benchlog.wiring import record_of
from tests.window.place_scenes import settle


@pytest.fixture
def dialog(sample_desk: Desk, qtbot):
    record = record_of(sample_desk.workshop, sample_desk.lineup_id)
    row = next(r for r in reading_rows(record) if r.label == "Dents")
    attribute = load_sequence("spin_on").attribute("dents")
    parent = QWidget()
    qtbot.addWidget(parent)
    asked: list[tuple[str, str, bool]] = []
    made = CorrectDialog(row, attribute, lambda *told: asked.append(told), parent)
    made.asked = asked
    with qtbot.waitActive(made):
        made.show()
    yield made
    parent.close()  # named here, so that it lives as long as its dialog


@pytest.mark.parametrize("said", ["287.4", "0.05 mm", "8 to 11 psi"])
def test_value_is_no_reason(dialog: CorrectDialog, qtbot, said: str) -> None:
    qtbot.keyClicks(dialog.text, "2")
    qtbot.keyClicks(dialog.reason, said)
    qtbot.keyClick(dialog.reason, Qt.Key.Key_Return)
    assert dialog.asked == []
    assert dialog.told.text() == f"'{said}' is a value, not a reason. Say in words why it changes."
    assert dialog.focusWidget() is dialog.reason
    assert dialog.reason.selectedText() == said
    qtbot.keyClicks(dialog.reason, "seen in better light")
    qtbot.keyClick(dialog.reason, Qt.Key.Key_Return)
    assert dialog.asked == [("2", "seen in better light", False)]


def test_long_question_is_shown_whole(dialog: CorrectDialog, qtbot, monkeypatch) -> None:
    def asks(*_told: object) -> None:
        raise AskAgain("These four repeats lie far apart. " * 6, "Read it again before then.")

    monkeypatch.setattr(dialog, "_correct", asks)
    qtbot.keyClicks(dialog.reason, "misread")
    qtbot.keyClick(dialog.reason, Qt.Key.Key_Return)
    settle()
    assert dialog.told.height() >= dialog.told.heightForWidth(dialog.told.width())
