"""From a value on the pages to what is behind it, and back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtTest import QTest

from benchlog.tasks.correct import correct
from benchlog.tasks.sheet_places import NumberPlace, first_place
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.dialogs.sum_dialog import SumDialog
from benchlog.window.sheet.page_view import ITS_SUM, NEXT_VALUE
from benchlog.window.sheet.sheet_place import SheetPlace
from benchlog.window.sheet.value_ways import NOT_THERE
from tests.window.place_scenes import Person, settle, unnamed
from tests.window.sheet.test_sheet_place import ready, write

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def reader(sample_desk, sit) -> Person:
    """Someone with the written sheet before them, how things stand being known."""
    person = sit(SheetPlace, sample_desk)
    ready(person)
    write(person)
    return person


def place_of(person: Person, key: str, specimen: int = 0) -> NumberPlace:
    who = person.desk.teardown.lineup.specimens[specimen].id
    found = first_place(person.place.pages.marks.places, (key, who))
    assert found is not None
    return found


def sum_of(person: Person) -> SumDialog:
    person.until(lambda: getattr(person.place.ways, "dialog", None) is not None)
    settle()
    return person.place.ways.dialog


def test_keys_step_from_value_to_value(reader: Person) -> None:
    marks, pages = reader.place.pages.marks, reader.place.pages
    reader.press(Qt.Key.Key_Down, ALT)
    first = marks.now
    assert first is not None
    assert pages.page == first.page
    reader.press(Qt.Key.Key_Down, ALT)
    assert marks.now not in (None, first)
    reader.press(Qt.Key.Key_Up, ALT)
    assert marks.now == first


def test_enter_opens_the_sum_and_escape_leads_back(reader: Person) -> None:
    pages = reader.place.pages
    pages.show_value(place_of(reader, "can_wall").number)
    pages.view.setFocus()
    reader.press(Qt.Key.Key_Return)
    dialog = sum_of(reader)
    assert dialog.view.title.text() == "Amber · Can wall thickness"
    assert not dialog.sheet.isVisibleTo(dialog)
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert reader.place.window().focusWidget() is pages.view
    assert pages.marks.now == place_of(reader, "can_wall")


def test_click_on_a_value_opens_its_sum(reader: Person) -> None:
    pages = reader.place.pages
    place = place_of(reader, "can_height", 1)
    pages.turn(place.page)
    settle()
    at = pages.marks.box(place).center().toPoint()
    QTest.mouseClick(pages.view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert sum_of(reader).view.title.text() == "Cobalt · Height, base to dome"
    sum_of(reader).reject()


def test_click_beside_opens_nothing(reader: Person) -> None:
    pages = reader.place.pages
    pages.turn(place_of(reader, "can_height").page)
    settle()
    QTest.mouseClick(pages.view.viewport(), Qt.MouseButton.LeftButton)
    assert pages.marks.now is None


@pytest.mark.parametrize("mode", ["whole", "wide", "closer"])
def test_mark_goes_around_the_words(reader: Person, mode: str) -> None:
    pages = reader.place.pages
    place = place_of(reader, "can_wall")
    if mode != "whole":
        pages.fit(width=True)
    if mode == "closer":
        pages.zoom(2.0)
        assert pages.view.zoomMode() is QPdfView.ZoomMode.Custom
    pages.show_value(place.number)
    reader.until(lambda: ink(pages, place) > 0.01)
    box = pages.marks.box(place)
    assert pages.view.viewport().rect().contains(box.center().toPoint())


def ink(pages, place: NumberPlace) -> float:
    """Return which share of the left half of a value's box is dark; its words begin there."""
    settle()
    pages.marks.hide()
    box = pages.marks.box(place)
    box.setWidth(box.width() / 2)
    image = pages.view.viewport().grab(box.toRect()).toImage()
    pages.marks.show()
    dots = [image.pixelColor(x, y).lightness()
            for x in range(image.width()) for y in range(image.height())]  # fmt: skip
    return sum(light < 150 for light in dots) / len(dots)


def test_value_in_hand_stays_after_a_change(reader: Person) -> None:
    place = place_of(reader, "can_wall", 1)
    reader.place.pages.show_value(place.number)
    write(reader)
    assert reader.place.pages.marks.now == place
    assert reader.place.pages.page == place.page


def test_turning_the_page_lets_go(reader: Person) -> None:
    pages = reader.place.pages
    pages.show_value(place_of(reader, "can_wall").number)
    assert pages.buttons[ITS_SUM].isEnabled()
    pages.turn(1)
    assert pages.marks.now is None
    assert not pages.buttons[ITS_SUM].isEnabled()
    assert pages.buttons[NEXT_VALUE].isEnabled()


def test_pointing_at_a_value_shows_a_hand(reader: Person) -> None:
    pages = reader.place.pages
    place = place_of(reader, "can_wall")
    pages.turn(place.page)
    settle()
    viewport = pages.view.viewport()
    QTest.mouseMove(viewport, pages.marks.box(place).center().toPoint())
    reader.until(lambda: viewport.cursor().shape() is Qt.CursorShape.PointingHandCursor)
    QTest.mouseMove(viewport, QPointF(2, 2).toPoint())
    reader.until(lambda: viewport.cursor().shape() is Qt.CursorShape.ArrowCursor)


def test_sum_leads_to_the_sheet(sample_desk, sit) -> None:
    person = sit(SheetPlace, sample_desk)
    ready(person)
    who = person.desk.teardown.lineup.specimens[2].id
    dialog = SumDialog(person.desk, person.place.watch.record, "can_wall", who, person.place)
    dialog.open()
    dialog.sheet.click()
    assert person.went == ["sheet"]
    person.until(lambda: person.place.pages.marks.now is not None)
    assert person.place.pages.marks.now == place_of(person, "can_wall", 2)
    assert person.place.window().focusWidget() is person.place.pages.view


def test_value_that_is_not_printed_is_told(reader: Person) -> None:
    reader.desk.value_wanted.emit("nothing_of_that_name", "nobody")
    assert reader.place.panel.state.text() == NOT_THERE


def test_sum_leads_to_the_reading(reader: Person, qtbot) -> None:
    bench = BenchPlace(reader.desk)
    qtbot.addWidget(bench)
    reader.place.ways.open_sum(place_of(reader, "area_by_pleats", 1))
    dialog = sum_of(reader)
    key = dialog._input_here()
    assert dialog.reading.isEnabled()
    dialog.reading.click()
    assert reader.went[-1] == "bench"
    asked = bench.bench.view.asked
    assert (asked.attribute.key, asked.specimen.nickname) == (key, "Cobalt")
    bench.leave()


def test_everything_has_a_name(reader: Person) -> None:
    assert unnamed(reader.place) == []
    reader.place.ways.open_sum(place_of(reader, "can_wall"))
    assert unnamed(sum_of(reader)) == []
    sum_of(reader).reject()


def changed(person: Person, text: str) -> list[bool]:
    """Correct Amber's height; return whether each sheet that is written then is the whole."""
    told: list[bool] = []
    link = person.place.work.written.connect(lambda made: told.append(made.whole))
    desk = person.desk
    first = desk.teardown.lineup.specimens[0].id
    last = next(
        r
        for r in reversed(desk.teardown.readings)
        if (r.attribute, r.specimen_id) == ("can_height", first)
    )
    correct(person.shelf, desk.workshop.clock, desk.teardown.sequence, desk.lineup_id, last.id,
            text, "digits swapped", sure=True)  # fmt: skip
    desk.reload()
    person.until(lambda: True in told)
    person.place.work.written.disconnect(link)
    return told


def test_sums_follow_after_the_page_in_view(sample_desk, sit) -> None:
    person = sit(SheetPlace, sample_desk)
    ready(person)
    person.place.panel.outputs.sums.click()
    write(person)
    pages = person.place.pages
    whole = pages.document.pageCount()
    pages.show_value(place_of(person, "can_height").number)
    page = pages.page
    assert changed(person, "88.8 mm") == [False, True]
    assert pages.page == page
    assert pages.document.pageCount() == whole
    pages.turn(whole)
    assert changed(person, "88.9 mm") == [True], "whoever reads the sums waits for them"
    assert pages.page == whole - 1
