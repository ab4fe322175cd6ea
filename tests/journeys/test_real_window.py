"""One journey in a real window: plan, walk, close, reopen, judge, publish, by keyboard only.

Weights come from a second process over a pseudo-terminal, through the port of the settings.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from benchlog.measure.reading import Source, standing
from benchlog.settings import ScaleSettings, Settings
from benchlog.shelf import open_shelf
from benchlog.tasks.bench_view import Asked
from benchlog.trade.attribute import Kind
from benchlog.window import theme
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.tidy import Tidy
from tests.window.bench_scenes import workshop_in

ROOT = Path(__file__).parents[2]
LONG_MS = 20_000
PAD = Qt.KeyboardModifier.KeypadModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier

pytestmark = [pytest.mark.real_window, pytest.mark.timeout(240)]


class Hand:
    """One hand on the keyboard of a real window."""

    def __init__(self, qtbot: QtBot, window: MainWindow) -> None:
        self.qtbot = qtbot
        self.window = window
        with qtbot.waitSignal(window.opened, timeout=LONG_MS), qtbot.waitActive(window):
            window.show()
            window.activateWindow()

    @property
    def bench(self):
        return self.window.place("bench").bench

    @property
    def asked(self) -> Asked | None:
        return self.bench.view.asked

    def press(self, key: Qt.Key, modifiers=Qt.KeyboardModifier.NoModifier) -> None:
        """Press a key where the focus is, after the lock-out of keys has passed."""
        self.window.desk.workshop.clock.at_s += 1
        QTest.keyClick(QApplication.focusWidget() or self.window, key, modifiers)

    def type(self, text: str) -> None:
        QTest.keyClicks(QApplication.focusWidget(), text)

    def answer(self, text: str) -> None:
        """Type an answer and accept it; once more where it is asked about again."""
        before = len(self.window.desk.teardown.readings)
        self.type(text)
        self.press(Qt.Key.Key_Enter, PAD)
        if len(self.window.desk.teardown.readings) == before:
            self.press(Qt.Key.Key_Enter, PAD)
        assert len(self.window.desk.teardown.readings) == before + 1, (text, self.asked)

    def close(self) -> None:
        self.window.close()


class BenchScale:
    """The scale's end: a process that weighs what it is told to."""

    def __init__(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.journeys.scale_child"],
            cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        self.port = self.process.stdout.readline().strip()

    def weigh(self, grams: str) -> None:
        self.process.stdin.write(f"{grams}\n")
        self.process.stdin.flush()

    def close(self) -> None:
        self.process.communicate()


@pytest.fixture
def scale() -> Iterator[BenchScale]:
    made = BenchScale()
    yield made
    made.close()


def sit_down(qtbot: QtBot, folder: Path, scale: BenchScale) -> Hand:
    app = QApplication.instance()
    app.setStyle("Fusion")
    theme.apply_theme(app, "dark")
    Tidy(app)
    settings = Settings(sounds=False, scale=ScaleSettings(port=scale.port))
    window = MainWindow(folder, settings, Faults(), opener=workshop_in)
    window.resize(1366, 728)
    qtbot.addWidget(window)
    return Hand(qtbot, window)


def plan_by_keyboard(hand: Hand) -> None:
    """Three specimens from an empty shelf, one bought and two given."""
    hand.press(Qt.Key.Key_N, CTRL)
    hand.qtbot.waitUntil(lambda: hand.window.pages.currentWidget() is hand.window.place("lineup"))
    hand.type("Spring trial")
    lineup = hand.window.place("lineup")
    hand.qtbot.waitUntil(lambda: lineup.planning.on_shelf and not lineup.planning.pending)
    for times in (1, 2, 2):
        hand.press(Qt.Key.Key_2, CTRL)  # comes back to what is owed first: who paid
        who_paid = lineup.form.fields["paid"].editor
        hand.qtbot.waitUntil(who_paid.hasFocus)
        for _ in range(times):
            hand.press(Qt.Key.Key_Down)
        hand.press(Qt.Key.Key_Tab)
    hand.qtbot.waitUntil(lambda: "owed" not in lineup.told.text() and not lineup.planning.pending)
    hand.press(Qt.Key.Key_B, ALT)
    hand.qtbot.waitUntil(lambda: hand.window.pages.currentWidget() is hand.window.place("bench"))


def plausible(asked: Asked, turn: int) -> str:
    """Return an answer that raises no question: inside the usual range, different by specimen."""
    attribute = asked.attribute
    if attribute.kind in (Kind.CHOICE, Kind.PRESENCE):
        return "1"
    if not attribute.is_number:
        return f"noted {turn}"
    if attribute.soft is None:
        return "3"
    step = {"circle": 0.4, "square": 0.5, "triangle": 0.6}[asked.specimen.shape.value]
    value = attribute.soft.low + step * (attribute.soft.high - attribute.soft.low)
    return f"{value:.0f}" if attribute.kind is Kind.COUNT else f"{value:.2f}"


def walk(hand: Hand, scale: BenchScale, most: int) -> int:
    """Answer what is asked, `most` times or to the end; returns how many answers were given."""
    teardown = hand.window.desk.teardown
    for turn in range(most):
        if hand.bench.view.missing == 0 and not hand.bench.view.yes_wanted:
            return turn
        station = hand.bench.view.station.key
        rows = {row.key: row for row in hand.bench.view.stations}
        if hand.bench.view.yes_wanted:
            hand.type(hand.bench.parts.one_way.number)
            hand.press(Qt.Key.Key_Enter, PAD)
        elif hand.asked is None or rows[station].missing == 0:
            hand.press(Qt.Key.Key_PageDown)
        elif hand.asked.takes_weight:
            before = len(teardown.readings)
            scale.weigh(plausible(hand.asked, turn))
            hand.qtbot.waitUntil(lambda: len(teardown.readings) == before + 1, timeout=LONG_MS)  # noqa: B023
        else:
            hand.answer(plausible(hand.asked, turn))
    return most


def test_whole_job_by_keyboard_only(qtbot: QtBot, tmp_path: Path, scale: BenchScale) -> None:
    folder = tmp_path / "shelf"
    hand = sit_down(qtbot, folder, scale)
    plan_by_keyboard(hand)
    assert walk(hand, scale, 150) == 150
    hand.press(Qt.Key.Key_Slash, PAD)  # no value…
    hand.press(Qt.Key.Key_2)
    hand.press(Qt.Key.Key_Enter, PAD)
    hand.type("7")
    kept = hand.window.desk.teardown.readings
    hand.qtbot.waitUntil(lambda: hand.window.desk.teardown.place.half_typed == "7")
    place = hand.window.desk.teardown.place
    hand.close()

    hand = sit_down(qtbot, folder, scale)
    assert hand.window.desk.teardown.place == place
    assert hand.window.desk.teardown.readings == kept
    assert hand.bench.parts.entry.field.text() == "7"
    hand.press(Qt.Key.Key_Escape)
    walk(hand, scale, 2_000)
    assert hand.bench.view.missing == 0
    assert "not measured" in {r.state.value for r in hand.window.desk.teardown.readings}

    hand.press(Qt.Key.Key_4, CTRL)
    verdict = hand.window.place("verdict")
    qtbot.waitUntil(lambda: verdict.watch.record is not None, timeout=LONG_MS)
    scored = [s for s in verdict.watch.record.verdict.scores if s.value is not None]
    assert len({s.component for s in scored}) >= 8

    hand.press(Qt.Key.Key_5, CTRL)
    sheet = hand.window.place("sheet")
    target = tmp_path / "for viewers.pdf"
    sheet.ask_path = lambda _name: target
    qtbot.waitUntil(sheet.panel.write.hasFocus)
    with qtbot.waitSignal(sheet.work.written, timeout=LONG_MS):
        hand.press(Qt.Key.Key_Space)
    qtbot.waitUntil(sheet.panel.save.hasFocus)
    hand.press(Qt.Key.Key_Space)
    qtbot.waitUntil(target.exists)
    words = PdfReader(target).pages[0].extract_text()
    for said in ("Spring trial", "Amber", "Cobalt", "Moss"):
        assert said in words
    hand.close()

    with open_shelf(folder) as shelf:
        (brief,) = shelf.lineups()
        readings = standing(shelf.readings(brief.id))
    weighed = [r for r in readings if r.source is Source.SCALE]
    assert {r.attribute for r in weighed} == {"whole_mass", "media_mass"}
    assert all(r.raw for r in weighed)
