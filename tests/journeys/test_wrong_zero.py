"""A calliper that shows 0.05 mm too much: found at its closing check, put right, taken back.

The whole walk is made with keys in the window; what the record and the printed sheet say is read
from the shelf and out of the PDF.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from benchlog.settings import Settings
from benchlog.tasks.record import Record
from benchlog.tasks.rehearse import rehearse
from benchlog.tasks.sample import load_sample
from benchlog.trade.sequence_file import load_sequence
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.theme import apply_theme, rescale
from benchlog.wiring import Workshop, record_of, rehearsal_scale, sheet_writer
from tests.sheet.reading_back import words
from tests.window.bench_scenes import SteppingClock, workshop_in
from tests.window.place_scenes import NoProgress, settle

SPOKEN = Qt.ItemDataRole.AccessibleTextRole
HIDDEN = "media_hidden"
STRIP_MM = 1369.5
"""The mean of Amber's two strip lengths in the sample, 1368 mm and 1371 mm."""


def rehearsed(folder: Path) -> None:
    """Walk the sample, all but the calliper's last closing check: nobody knows of it yet."""
    workshop = workshop_in(folder)
    sample = load_sample()
    never = tuple(
        replace(check, ends="never") if check.key == "calliper_strip" else check
        for check in sample.checks
    )
    sequence = load_sequence(sample.lineup.sequence)
    rehearse(
        workshop.shelf, workshop.clock, sequence, replace(sample, checks=never),
        rehearsal_scale, NoProgress(), folder,
    )  # fmt: skip
    workshop.close()


class Reviewer:
    """Someone in the program's window with a keyboard, and a sheet to hold beside it."""

    def __init__(self, qtbot: object, window: MainWindow, folder: Path) -> None:
        self.qtbot, self.window, self.folder = qtbot, window, folder
        self.desk = window.desk
        self.sheets = 0

    @property
    def bench(self) -> QWidget:
        return self.window.place("bench").bench

    @property
    def dialog(self) -> QDialog:
        return self.bench.findChildren(QDialog)[-1]

    def press(self, key: Qt.Key) -> None:
        clock: SteppingClock = self.desk.workshop.clock
        clock.at_s += 1
        QTest.keyClick(QApplication.focusWidget(), key)
        settle()

    def type(self, text: str) -> None:
        QTest.keyClicks(QApplication.focusWidget(), text)

    def tab_to(self, widget: QWidget) -> None:
        for _ in range(60):
            if QApplication.focusWidget() is widget:
                return
            self.press(Qt.Key.Key_Tab)
        raise AssertionError(f"no Tab leads to {widget.accessibleName()!r}")

    def open_checks(self) -> None:
        self.press(Qt.Key.Key_F1)
        self.qtbot.waitUntil(lambda: QApplication.focusWidget() is self.dialog.form.shown)

    def close_checks(self) -> None:
        self.press(Qt.Key.Key_Escape)
        entry = self.bench.parts.entry.field
        assert self.bench.focusWidget() is entry  # has the keys once its window has them
        self.window.activateWindow()
        self.qtbot.waitUntil(lambda: QApplication.focusWidget() is entry)

    def record(self) -> Record:
        return record_of(self.desk.workshop, self.desk.lineup_id)

    def sheet(self) -> str:
        self.sheets += 1
        path = self.folder / f"sheet {self.sheets}.pdf"
        shelf = self.desk.workshop.shelf
        sheet_writer().write(self.record(), shelf, path, "A4", NoProgress())
        return words(path)

    def spoken(self, nickname: str) -> str:
        """What a screen reader says of the hidden width in the bench's table."""
        table = self.bench.parts.table
        for row in range(table.rowCount()):
            for column in range(table.columnCount()):
                said = table.item(row, column).data(SPOKEN)
                if said.startswith(f"Width hidden by the end caps, both together, {nickname}"):
                    return said
        raise AssertionError(nickname)


@pytest.fixture
def reviewer(qtbot, qapp, tmp_path: Path) -> Iterator[Reviewer]:
    qapp.setStyle("Fusion")
    apply_theme(qapp, "dark")
    rescale(qapp, QWidget(), 1.0)
    rehearsed(tmp_path / "shelf")

    def opener(folder: Path) -> Workshop:
        return workshop_in(folder)

    window = MainWindow(tmp_path / "shelf", Settings(sounds=False), Faults(), opener=opener)
    qtbot.addWidget(window)
    window.resize(1366, 768)
    with qtbot.waitSignal(window.opened), qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    amber = window.desk.teardown.lineup.specimens[0]
    window.place("bench").bench.hands.go_to(HIDDEN, amber.id)
    settle()
    yield Reviewer(qtbot, window, tmp_path)
    window.close()


def hidden_mm(record: Record) -> float:
    amber = record.lineup.specimens[0].id
    return float(record.findings[HIDDEN, amber].quantity.to("millimeter").magnitude.nominal_value)


def area_cm2(record: Record) -> float:
    amber = record.lineup.specimens[0].id
    return float(
        record.figures["exposed_area", amber].quantity.to("centimeter**2").magnitude.nominal_value
    )


def test_wrong_zero_is_found_put_right_and_taken_back(reviewer: Reviewer) -> None:
    before = reviewer.record()
    assert before.in_doubt == frozenset()
    assert hidden_mm(before) == pytest.approx(4.11)
    assert "in doubt" not in reviewer.spoken("Amber")

    reviewer.open_checks()
    assert reviewer.dialog.form.moment == "closing"
    assert reviewer.dialog.form.standard.chosen.key == "zero"
    reviewer.type("0.05")
    reviewer.press(Qt.Key.Key_Return)
    told = reviewer.dialog.form.strip.words.text()
    assert told == "Closing zero: +0.05 mm off, 0.03 mm allowed: failed."
    assert reviewer.dialog.form.standard.chosen.key == "block"
    reviewer.close_checks()

    doubted = reviewer.record()
    assert {r.attribute for r in doubted.readings if r.id in doubted.in_doubt} == {HIDDEN}
    assert len(doubted.in_doubt) == 6
    for nickname in ("Amber", "Cobalt", "Moss"):
        assert reviewer.spoken(nickname).endswith(", in doubt: its instrument failed its check")
    line = reviewer.bench.parts.asked.checks.text()
    assert line.startswith("Calliper, 150 mm · closing failed: 6 readings in doubt.")
    sheet = reviewer.sheet()
    assert "4.11 ± 0.19 mm" in sheet
    assert "is in doubt: the closing check of its calliper failed" in sheet

    put_right(reviewer)
    shifted = reviewer.record()
    assert shifted.in_doubt == frozenset()
    assert hidden_mm(shifted) == pytest.approx(4.06)
    gained = area_cm2(shifted) - area_cm2(before)
    assert gained == pytest.approx(0.05 * STRIP_MM / 100, abs=0.001)
    assert "in doubt" not in reviewer.spoken("Amber")
    sheet = reviewer.sheet()
    assert "4.06 ± 0.19 mm" in sheet
    assert "4.11 ± 0.19 mm" not in sheet
    assert "4.07 mm → 4.02 mm" in sheet
    assert "is in doubt" not in sheet

    take_back(reviewer)
    again = reviewer.record()
    assert len(again.in_doubt) == 6
    assert hidden_mm(again) == pytest.approx(4.11)
    assert area_cm2(again) == pytest.approx(area_cm2(before))
    assert reviewer.spoken("Moss").endswith(", in doubt: its instrument failed its check")
    assert "is in doubt: the closing check of its calliper failed" in reviewer.sheet()


def put_right(reviewer: Reviewer) -> None:
    """Give the reason, shift the group with one button, and see the window follow."""
    reviewer.open_checks()
    right = reviewer.dialog.bracket.right
    rows = [[right.table.item(r, c).text() for c in (0, 2, 3)] for r in range(6)]
    assert rows[0] == ["Amber", "4.07 mm", "4.02 mm"]
    reviewer.tab_to(right.reason)
    reviewer.type("glue between the jaws since the strip's first edge")
    reviewer.press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget().text() == "&Shift all 6 readings by −0.05 mm"
    reviewer.press(Qt.Key.Key_Return)
    assert len(reviewer.desk.workshop.shelf.group_corrections(reviewer.desk.lineup_id)) == 1
    assert right.isHidden()
    reviewer.close_checks()
    assert reviewer.bench.view.asked.taken[0].text == "4.07 mm − 0.05 mm"


def take_back(reviewer: Reviewer) -> None:
    """Open the checks again and take the group back, with a reason."""
    reviewer.open_checks()
    done = reviewer.dialog.bracket.done
    assert "6 readings shifted by −0.05 mm: glue between" in done.buttons[0].accessibleName()
    reviewer.tab_to(done.buttons[0])
    reviewer.press(Qt.Key.Key_Return)
    reviewer.type("the jaws were wiped before Cobalt")
    reviewer.press(Qt.Key.Key_Return)
    assert not reviewer.dialog.bracket.right.isHidden()
    reviewer.close_checks()
    undone = reviewer.desk.workshop.shelf.group_corrections(reviewer.desk.lineup_id)
    assert [bool(one.takes_back) for one in undone] == [False, True]


def test_verdict_follows_what_was_put_right(reviewer: Reviewer) -> None:
    reviewer.open_checks()
    reviewer.type("0.05")
    reviewer.press(Qt.Key.Key_Return)
    reviewer.close_checks()
    reviewer.window.show_place("verdict")
    watch = reviewer.window.place("verdict").watch
    reviewer.qtbot.waitUntil(
        lambda: watch.record is not None and len(watch.record.in_doubt) == 6, timeout=15_000
    )
    reviewer.window.show_place("bench")
    settle()
    put_right(reviewer)
    reviewer.window.show_place("verdict")
    reviewer.qtbot.waitUntil(lambda: watch.record.in_doubt == frozenset(), timeout=15_000)
    assert hidden_mm(watch.record) == pytest.approx(4.06)
