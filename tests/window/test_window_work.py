from __future__ import annotations

import logging
import sys
import threading
from pathlib import Path

import pytest
import shiboken6
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QLabel

from benchlog.errors import ShelfFull
from benchlog.settings import log_file
from benchlog.window import app, icons, work
from benchlog.window.bench.bench_scale import readable
from benchlog.window.faults import Faults, in_plain_words
from benchlog.window.flow_box import FlowBox
from benchlog.window.sounds import Sound, Sounds, write_tones


def test_work_runs_elsewhere_and_tells_here(qtbot) -> None:
    here = threading.get_ident()
    ran: dict[str, object] = {}

    def job(under_way: work.Work) -> int:
        ran["job"] = threading.get_ident()
        under_way.step(1, 2, "half")
        return 42

    def done(outcome: int) -> None:
        ran["done"] = (outcome, threading.get_ident())

    steps: list[tuple[int, int, str]] = []
    work.begin(job, done, pytest.fail, lambda *step: steps.append(step))
    qtbot.waitUntil(lambda: "done" in ran)
    assert ran["job"] != here
    assert ran["done"] == (42, here)
    assert steps == [(1, 2, "half")]


def test_work_that_waits_holds_up_no_other(qtbot) -> None:
    """As pictures that are measured by other processes do, on a machine of two processors."""
    go, ran = threading.Event(), []
    waiting = [work.begin(lambda _w: go.wait(10), ran.append, pytest.fail) for _ in range(5)]
    try:
        work.begin(lambda _w: "soon", ran.append, pytest.fail)
        qtbot.waitUntil(lambda: ran == ["soon"])
    finally:
        go.set()
    qtbot.waitUntil(lambda: len(ran) == 1 + len(waiting))


def test_what_comes_too_late_is_told_to_nobody(qtbot, caplog) -> None:
    """Who asked may be gone with its line-up before its picture is read."""
    go, ended, label = threading.Event(), [], QLabel()
    work.begin(lambda _w: go.wait(10), lambda _: label.setText("read"), pytest.fail,
               ended=lambda: ended.append(True))  # fmt: skip
    shiboken6.delete(label)
    go.set()
    with caplog.at_level(logging.INFO):
        qtbot.waitUntil(lambda: bool(ended))
    assert "came too late" in caplog.text


def test_other_faults_of_who_asked_are_not_hidden(qtbot) -> None:
    def done(_outcome: object) -> None:
        raise RuntimeError("out of step")

    ended: list[bool] = []
    with qtbot.captureExceptions() as caught:
        work.begin(lambda _w: None, done, pytest.fail, ended=lambda: ended.append(True))
        qtbot.waitUntil(lambda: bool(ended))
    assert [str(fault) for _, fault, _ in caught] == ["out of step"]


def test_failure_of_work_is_carried_here(qtbot) -> None:
    failed: list[tuple[BaseException, int]] = []

    def job(_work: work.Work) -> None:
        raise ShelfFull("The disk is full.", "Make room.")

    work.begin(job, pytest.fail, lambda fault: failed.append((fault, threading.get_ident())))
    qtbot.waitUntil(lambda: bool(failed))
    assert isinstance(failed[0][0], ShelfFull)
    assert failed[0][1] == threading.get_ident()


def test_closing_stops_work_at_its_next_step(qtbot) -> None:
    begun, outcome = threading.Event(), []
    asked = threading.Event()

    def job(under_way: work.Work) -> None:
        begun.set()
        asked.wait(10)
        under_way.step(1, 2, "next")
        outcome.append("went on")

    work.begin(job, lambda _none: outcome.append("done"), pytest.fail)
    begun.wait(10)
    for under_way in tuple(work._under_way):
        under_way.stop_asked = True
    asked.set()
    work.end_all()
    qtbot.waitUntil(lambda: not work._under_way)
    assert outcome == []


def test_bindings_leave_none_alone(qtbot, qapp) -> None:
    # Some bindings take a reference from None at each call that returns it. Before Python 3.12
    # that ends the program after some thousand calls.
    before = sys.getrefcount(None)
    for _ in range(1000):
        qapp.setObjectName("the same")
    assert before - sys.getrefcount(None) < 500


def test_world_faults_are_told_as_they_are() -> None:
    told = in_plain_words(ShelfFull("The disk is full.", "Make room."))
    assert (told.what, told.do, told.ours) == ("The disk is full.", "Make room.", False)


def test_system_faults_are_told_in_the_systems_words() -> None:
    told = in_plain_words(FileNotFoundError(2, "No such file or directory", "a.jpg"))
    assert told.what == "No such file or directory (a.jpg)."
    assert not told.ours


def test_own_faults_point_at_the_log() -> None:
    told = in_plain_words(KeyError("x"))
    assert told.ours
    assert str(log_file()) in told.do


def test_strays_reach_the_handler(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    faults, told = Faults(), []
    faults.told.connect(told.append)
    app.catch_strays(faults)
    sys.excepthook(ValueError, ValueError("planted"), None)
    assert told[0].ours


def test_log_is_kept_and_turned_over(monkeypatch: pytest.MonkeyPatch) -> None:
    root = logging.getLogger()
    monkeypatch.setattr(root, "handlers", [])
    monkeypatch.setattr(app, "LARGEST_LOG", 10)
    path = log_file()
    path.parent.mkdir(parents=True)
    path.write_text("an old log, grown long", encoding="utf-8")
    app.keep_log()
    logging.getLogger("benchlog.test").warning("noted")
    for handler in root.handlers:
        handler.close()
    assert "noted" in path.read_text(encoding="utf-8")
    assert "grown long" in path.with_suffix(".old.log").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", icons.NAMES)
def test_every_icon_draws_in_its_colour(qapp, name: str) -> None:
    image = icons.icon(name, "#ff0000", 48).pixmap(48, 48).toImage()
    inked = {
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).alpha() > 200
    }
    assert len(inked) > 40
    assert all(image.pixelColor(x, y).red() > 200 for x, y in inked)
    assert QColor("#ff0000").red() == 255


def test_icons_differ(qapp) -> None:
    pictures = {
        bytes(icons.icon(name, "#000000").pixmap(48, 48).toImage().bits()) for name in icons.NAMES
    }
    assert len(pictures) == len(icons.NAMES)


def test_raw_lines_are_readable() -> None:
    assert readable(b"  287.4 g") == "  287.4 g"
    assert readable(b"\x02\xffA") == "\\x02\\xffA"


def test_sounds_differ_and_can_be_written(tmp_path: Path) -> None:
    written = set()
    for sound in Sound:
        path = tmp_path / f"{sound.name}.wav"
        write_tones(path, sound.value)
        written.add(path.read_bytes())
    assert len(written) == len(Sound)
    assert all(len(data) > 44 and data[:4] == b"RIFF" for data in written)


def test_unwanted_sounds_stay_silent(qapp) -> None:
    sounds = Sounds(wanted=False)
    sounds.play(Sound.ACCEPTED)
    sounds.prepare()
    assert sounds._made is None


def test_flow_box_goes_on_below(qtbot) -> None:
    from PySide6.QtWidgets import QPushButton

    box = FlowBox(spacing=5)
    qtbot.addWidget(box)
    buttons = [QPushButton(f"answer {n}") for n in range(6)]
    for button in buttons:
        box.add(button)
    wide = buttons[0].sizeHint().width()
    box.resize(3 * (wide + 5), 10)
    box.show()
    rows = sorted({button.y() for button in buttons})
    assert len(rows) == 2
    assert box.height() == buttons[-1].geometry().bottom() + 1
    box.clear()
    assert box.height() == 0
