"""Measuring in the background: the reviewer goes on, may stop it, and hears what went wrong."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, Qt

from benchlog.tasks.field_order import FieldState
from benchlog.window.bench.pictures_in import Incoming
from tests.window.bench_scenes import planned
from tests.window.microscope.field_scenes import CTRL, AtPictures
from tests.window.place_scenes import settle


def test_bench_goes_on_while_it_measures(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(120, 130)
    pictures.press(Qt.Key.Key_Escape)
    line = pictures.seat.place.pictures.line
    pictures.until(lambda: "fibres" in line.words.text())
    assert "Measuring Amber, inlet side, field 1, 1 more wait" in line.words.text()
    assert line.isVisible()
    pictures.seat.go_to("can_diameter")
    pictures.seat.answer("76.2")
    pictures.seat.type("7")
    pictures.measurer.go.set()
    pictures.measured()
    assert len(pictures.values("opening_d50_in")) == 2
    assert pictures.values("can_diameter") == ["76.2"]
    assert pictures.seat.entry.text() == "7"
    assert line.isHidden()


def test_bench_hears_of_a_refusal(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(20)
    pictures.press(Qt.Key.Key_Escape)
    pictures.measurer.go.set()
    pictures.measured()
    line = pictures.seat.place.pictures.line
    assert line.words.text() == "Amber, inlet side, field 1: refused, take it again."
    line.look.click()
    assert pictures.seat.place.currentWidget() is pictures.page
    assert line.isHidden()


def test_stopped_picture_waits_and_is_measured_later(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(120, 130)
    pictures.press(Qt.Key.Key_Period, CTRL)
    pictures.measured()
    assert pictures.measurer.measured == []
    states = [one.state for one in pictures.now.standings[:3]]
    assert states == [FieldState.WAITING, FieldState.WAITING, FieldState.WANTED]
    pictures.measurer.hold = False
    pictures.press(Qt.Key.Key_Escape)
    pictures.press(Qt.Key.Key_M, CTRL)
    pictures.measured()
    assert sorted(pictures.measurer.measured) == [120, 130]


def test_ended_process_is_told_and_tried_again(pictures: AtPictures) -> None:
    pictures.measurer.crash = True
    pictures.take(120)
    pictures.measured()
    assert "The process that measures pictures ended." in pictures.said
    pictures.measurer.crash = False
    pictures.press(Qt.Key.Key_F5)
    pictures.measured()
    assert pictures.page.parts.gates.head.text() == "Measured"


def test_retake_ends_the_older_measurement(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(120)
    pictures.press(Qt.Key.Key_R)
    pictures.take(130)
    pictures.measurer.go.set()
    pictures.measured()
    assert pictures.measurer.measured == [130]
    assert len(pictures.values("opening_d50_in")) == 1


def test_other_line_up_gets_a_page_of_its_own(pictures: AtPictures) -> None:
    first = pictures.page
    pictures.seat.desk.open_lineup(pictures.seat.desk.lineup_id)
    settle()
    assert pictures.seat.place.pictures.page is None
    assert pictures.seat.place.currentWidget() is pictures.seat.bench
    pictures.seat.place.enter()
    pictures.open()
    assert pictures.page is not first


def test_a_picture_on_its_way_stays_with_its_line_up(pictures: AtPictures) -> None:
    """Another is taken in hand before it lies on the shelf: nothing of it goes over there."""
    desk, first = pictures.seat.desk, pictures.seat.desk.lineup_id
    taking = pictures.page.taking
    taking.bring([Incoming(path.name, path=path) for path in map(pictures.file, (120, 130))])
    desk.open_lineup(planned(desk.workshop))
    pictures.until(lambda: not taking.under_way)
    settle()
    assert [m.field for m in desk.workshop.shelf.micrographs(first)] == [1]
    assert pictures.micrographs() == []
    assert pictures.seat.place.pictures.measuring.now is None
    desk.open_lineup(first)
    settle()
    pictures.seat.place.enter()
    pictures.open()
    pictures.measured()
    assert pictures.measurer.measured == [120], "what was left is measured when its page opens"


def test_closing_ends_the_measurer(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(120)
    pictures.seat.place.leave()
    assert pictures.measurer.closed
    pictures.measured()


def test_a_page_that_goes_leaves_no_picture_behind(pictures: AtPictures) -> None:
    """A picture is still being opened when another line-up is taken in hand."""
    pictures.take(120)
    pictures.measured()
    desk = pictures.seat.desk
    desk.open_lineup(desk.lineup_id)
    settle()
    pictures.seat.place.enter()
    pictures.open()
    shown = pictures.page.shown
    pictures.page.parts.list.step(-1)
    assert shown.coming, "it is on its way"
    desk.open_lineup(desk.lineup_id)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    pictures.until(lambda: not shown.coming)
