"""Publish, put a wrong reading right, publish again: every output follows, and nothing is lost.

The whole walk is made with keys in the window; what went out is read from the folders it is in.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from benchlog.settings import Settings
from benchlog.tasks.publication import Publication
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.sheet.sheet_place import REVISIONS
from benchlog.window.theme import apply_theme, rescale
from benchlog.wiring import open_workshop, recompute_package
from tests.window.place_scenes import sample_shelf, settle

CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
NONE = Qt.KeyboardModifier.NoModifier
LONG_MS = 240_000
RIGHT, RIGHT_SHOWN, REASON = "301.5 g", "301.5 g", "two digits swapped"


class Publisher:
    """Someone in the program's window with a keyboard."""

    def __init__(self, qtbot: object, window: MainWindow, out: Path) -> None:
        self.qtbot, self.window, self.out = qtbot, window, out
        self.desk = window.desk
        self.told: list[object] = []
        self.desk.faults.told.connect(self.told.append)

    @property
    def sheet(self) -> QWidget:
        return self.window.place("sheet")

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
        QTest.keyClick(QApplication.focusWidget(), key, modifiers)
        settle()

    def type(self, text: str) -> None:
        QTest.keyClicks(QApplication.focusWidget(), text)

    def tab_to(self, widget: QWidget) -> None:
        for _ in range(80):
            if QApplication.focusWidget() is widget:
                return
            self.press(Qt.Key.Key_Tab)
        raise AssertionError(f"no Tab leads to {widget.accessibleName()!r}")

    def until(self, condition: object) -> None:
        self.qtbot.waitUntil(lambda: bool(condition()), timeout=LONG_MS)

    def go_to_the_sheet(self) -> None:
        self.press(Qt.Key.Key_5, CTRL)
        self.until(self.sheet.panel.write.hasFocus)
        self.until(lambda: self.sheet.watch.record is not None)

    def publish(self) -> Publication:
        with self.qtbot.waitSignal(self.sheet.work.published, timeout=LONG_MS):
            self.press(Qt.Key.Key_Return, CTRL)
        self.until(lambda: not self.sheet.watch.record.draft)
        return self.desk.workshop.shelf.publications(self.desk.lineup_id)[-1]

    def published(self, revision: int) -> Path:
        return self.out / "three-for-one-mount" / f"revision-{revision}"


@pytest.fixture
def publisher(qtbot, qapp, tmp_path: Path) -> Iterator[Publisher]:
    qapp.setStyle("Fusion")
    apply_theme(qapp, "dark")
    rescale(qapp, QWidget(), 1.0)
    settings = Settings(sounds=False, publish_to=str(tmp_path / "out"))
    window = MainWindow(sample_shelf(tmp_path / "shelf"), settings, Faults(), opener=open_workshop)
    qtbot.addWidget(window)
    window.resize(QSize(1366, 768))
    with qtbot.waitSignal(window.opened), qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    settle()
    yield Publisher(qtbot, window, tmp_path / "out")
    window.close()


def choose_outputs(publisher: Publisher) -> None:
    """All but the cards, which are slow to draw; the data under a licence."""
    outputs = publisher.sheet.panel.outputs
    publisher.tab_to(outputs.rows["cards"].box)
    publisher.press(Qt.Key.Key_Space)
    publisher.tab_to(outputs.licence)
    publisher.press(Qt.Key.Key_Down)
    publisher.until(lambda: outputs.rows["data"].note.text().startswith("with "))


def put_right(publisher: Publisher) -> None:
    """Correct Amber's weight in the verdict's list of readings, with its reason."""
    publisher.press(Qt.Key.Key_4, CTRL)
    verdict = publisher.window.place("verdict")
    publisher.until(lambda: verdict.watch.record is not None)
    settle()
    label = publisher.desk.teardown.sequence.attribute("whole_mass").label
    publisher.press(Qt.Key.Key_3, ALT)
    table = verdict.readings.table
    assert QApplication.focusWidget() is table
    wanted = next(
        row
        for row in range(table.rowCount())
        if (table.item(row, 0).text(), table.item(row, 1).text()) == ("Amber", label)
    )
    while table.currentRow() != wanted:
        key = Qt.Key.Key_Down if table.currentRow() < wanted else Qt.Key.Key_Up
        publisher.press(key)
    publisher.press(Qt.Key.Key_Return)
    dialog = verdict.dialog
    assert "Amber" in dialog.now.text()
    publisher.tab_to(dialog.text)
    dialog.text.selectAll()
    publisher.type(RIGHT)
    publisher.tab_to(dialog.reason)
    publisher.type(REASON)
    publisher.press(Qt.Key.Key_Return)
    corrected = publisher.desk.workshop.shelf.readings(publisher.desk.lineup_id)[-1]
    assert (corrected.text, corrected.reason) == (RIGHT, REASON)
    publisher.window.activateWindow()  # has the keys again once its dialog is gone
    publisher.until(table.hasFocus)


def said_in(folder: Path) -> dict[str, str]:
    """What the files of a revision say, as text."""
    with zipfile.ZipFile(folder / "data.zip") as package:
        name = next(n for n in package.namelist() if n.endswith("record.json"))
        record = package.read(name).decode()
    pages = PdfReader(folder / "sheet.pdf").pages
    return {
        "sheet": "\n".join(page.extract_text() for page in pages),
        "description": (folder / "description.txt").read_text(encoding="utf-8"),
        "record": record,
    }


def revisions(publisher: Publisher) -> list[list[str]]:
    """The list as it is shown: number, state and reason."""
    table = publisher.sheet.revisions.table
    return [[table.item(r, c).text() for c in (0, 2, 5)] for r in range(table.rowCount())]


def test_correction_re_issues_everything(publisher: Publisher) -> None:
    publisher.go_to_the_sheet()
    choose_outputs(publisher)
    first = publisher.publish()
    assert {output.kind for output in first.outputs} >= {"sheet", "data", "description"}
    before = said_in(publisher.published(1))
    assert "revision 1" in before["sheet"]
    assert "draft" not in before["sheet"].split("\n")[0]
    assert first.digest[:12] in before["description"]
    assert recompute_package(publisher.published(1) / "data.zip") == ()

    put_right(publisher)
    publisher.go_to_the_sheet()
    panel = publisher.sheet.panel
    publisher.until(
        lambda: panel.publish.text() == "Publish revision 2" and panel.publish.isEnabled()
    )
    assert panel.standing.text() == "Draft of revision 2, not published"
    second = publisher.publish()
    assert (second.revision, second.reason) == (2, REASON)
    after = said_in(publisher.published(2))
    assert RIGHT_SHOWN in after["sheet"]
    assert "Revision 2" in after["sheet"]
    assert REASON in after["sheet"]
    assert REASON in after["description"]
    assert second.digest[:12] in after["description"]
    assert recompute_package(publisher.published(2) / "data.zip") == ()
    # What went out first is what it was.
    assert said_in(publisher.published(1)) == before

    publisher.sheet.views.setFocus()
    publisher.press(Qt.Key.Key_Right)
    assert publisher.sheet.views.currentIndex() == REVISIONS
    assert revisions(publisher) == [
        ["2", "published", REASON],
        ["1", "superseded by revision 2", ""],
    ]
    page = publisher.sheet.revisions
    publisher.until(page.changes.count)
    changes = [page.changes.item(n).text() for n in range(page.changes.count())]
    assert page.head.text().endswith("from revision 1 to revision 2")
    assert any(RIGHT_SHOWN in line and f"because {REASON}" in line for line in changes)
    assert publisher.told == []
