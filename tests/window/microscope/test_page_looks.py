"""The page of pictures at the sizes that the design knows: named, whole, and reached by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.tasks.field_order import FieldState
from benchlog.window.keys import Action, KeyMap
from benchlog.window.microscope.marks_paint import Overlay
from benchlog.window.microscope.picture_keys import OWN, Wish, useless_wishes, wish_keys
from benchlog.window.theme import rescale
from tests.window.microscope.field_scenes import CTRL, AtPictures, names_on_the_way
from tests.window.place_scenes import SIZES, cut_off, settle, unnamed


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_off_or_unnamed(pictures: AtPictures, qapp, size: str) -> None:
    width, height, unit = SIZES[size]
    place = pictures.seat.place
    place.resize(width, height)
    rescale(qapp, place, unit)
    place.rescaled()
    settle()
    pictures.take(120, 20)
    pictures.measured()
    for field in (0, 1):
        pictures.page.parts.list.setCurrentRow(field)
        settle()
        assert unnamed(pictures.page) == []
        assert [one for one in cut_off(pictures.page) if "limit" not in one] == []


def test_tab_leads_through_the_page(pictures: AtPictures) -> None:
    names = names_on_the_way(pictures.page.parts.back, pictures.page.parts.view)
    for wanted in ("Pictures", "Fields a side", "Sides looked at"):
        assert wanted in names
    assert any(name.startswith("Fields of the media") for name in names)


def test_overlay_flips_by_key(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    view = pictures.page.parts.view
    pictures.until(lambda: view.has_picture)
    assert not view.has_marks
    pictures.press(Qt.Key.Key_O)
    pictures.until(lambda: view.has_marks)
    assert view.overlay is Overlay.OUTLINES
    assert pictures.page.parts.overlays[Overlay.OUTLINES].isChecked()
    pictures.press(Qt.Key.Key_F4)
    assert view.overlay is Overlay.CENTRELINES


def test_keys_zoom_from_anywhere(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    view = pictures.page.parts.view
    pictures.until(lambda: view.has_picture)
    whole = view.zoom
    pictures.press(Qt.Key.Key_Plus, Qt.KeyboardModifier.KeypadModifier)
    assert view.zoom > whole
    pictures.press(Qt.Key.Key_0, CTRL)
    assert view.zoom == whole


def test_fields_are_stepped_through_by_page_keys(pictures: AtPictures) -> None:
    assert pictures.page.parts.list.currentRow() == 0
    pictures.press(Qt.Key.Key_PageDown)
    pictures.press(Qt.Key.Key_PageDown)
    assert pictures.page.parts.list.currentRow() == 2
    pictures.press(Qt.Key.Key_PageUp)
    assert pictures.page.parts.list.currentRow() == 1


def test_stepping_leaves_a_choice_alone(pictures: AtPictures) -> None:
    pictures.page.parts.sides.setFocus()
    pictures.press(Qt.Key.Key_M)
    assert pictures.now.asked_for is None


def test_number_of_fields_can_be_typed(pictures: AtPictures) -> None:
    fields = pictures.page.parts.fields
    fields.setFocus()
    fields.selectAll()
    QTest.keyClicks(fields, "10")
    assert pictures.now.wishes.fields == 10
    assert len(pictures.now.standings) == 60


def test_key_held_down_acts_once(pictures: AtPictures) -> None:
    asked = []
    pictures.page.coming.ask_files = lambda: asked.append(1) or ()
    pictures.press(Qt.Key.Key_F10)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_F10)  # no pause: a bounce
    assert asked == [1]


def test_assigned_keys_of_the_bench_hold_here() -> None:
    keys = KeyMap().with_key(Action.PHOTO, 0, "F13").with_key(Action.BACK, 1, "F14")
    found = wish_keys(keys)
    assert found[Wish.CHOOSE] == ("F13",)
    assert found[Wish.BEFORE] == ("F14",)
    assert found[Wish.BACK] == OWN[Wish.BACK]


def test_no_key_means_two_things() -> None:
    every = [name for names in wish_keys(KeyMap()).values() for name in names]
    assert len(every) == len(set(every))
    assert all(wish_keys(KeyMap()).values())


def test_media_in_sight_take_no_keys_of_a_field() -> None:
    every = {"field": True, "picture": True, "in_view": True, "measuring": True}
    assert useless_wishes(media=False, **every) == {Wish.SUM}
    kept = set(Wish) - useless_wishes(media=True, **every)
    assert kept == {
        Wish.BACK, Wish.CHOOSE, Wish.PASTE, Wish.FOLDER, Wish.SET_UP, Wish.OTHER, Wish.SUM,
        Wish.STOP,
    }  # fmt: skip


def test_greyed_key_does_nothing(pictures: AtPictures) -> None:
    pictures.press(Qt.Key.Key_F7)
    pictures.press(Qt.Key.Key_M)
    assert pictures.now.asked_for is None
    pictures.press(Qt.Key.Key_F7)
    pictures.press(Qt.Key.Key_M)
    assert pictures.now.asked_for is not None


def test_legend_greys_what_cannot_act(pictures: AtPictures) -> None:
    buttons = pictures.page.parts.legend.buttons
    assert not buttons[Wish.TAKE_BACK].isEnabled()
    assert not buttons[Wish.STOP].isEnabled()
    pictures.take(120)
    pictures.measured()
    pictures.until(lambda: pictures.page.parts.view.has_picture)
    assert buttons[Wish.TAKE_BACK].isEnabled()
    assert pictures.now.standings[0].state is FieldState.MEASURED
