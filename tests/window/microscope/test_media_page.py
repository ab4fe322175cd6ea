"""The media side by side: figures, intervals, and what may be said of every pair."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from benchlog.measure.micrograph import NOT_A_RATING, Side
from benchlog.tasks.media_seen import PairOutcome
from benchlog.tasks.plan import fresh_specimen
from benchlog.trade.specimen import Specimen
from benchlog.window.dialogs.sum_dialog import SumDialog
from benchlog.window.microscope.media_axis import round_step
from benchlog.window.microscope.media_dots import DotRow, MediaDots
from benchlog.window.microscope.media_page import MediaPage
from benchlog.window.microscope.width_strips import StripRow, WidthStrips, densities
from benchlog.window.theme import rescale
from tests.window.microscope.field_scenes import AtPictures
from tests.window.place_scenes import SIZES, cut_off, settle, unnamed


def three_media(there: AtPictures) -> MediaPage:
    """Two fields of three media's inlet side, the last one tighter; the media in sight."""
    there.page.parts.sides.setCurrentIndex(1)
    there.page.parts.sides.activated.emit(1)
    there.page.parts.fields.setValue(2)
    there.page.take_focus()
    shades = {"Amber": [118, 121], "Cobalt": [123, 126], "Moss": [80, 83]}
    for _ in range(6):
        nickname, _side, field = there.wanted()
        there.take(shades[nickname][field - 1])
    there.measured()
    return see_media(there)


def see_media(there: AtPictures) -> MediaPage:
    media = there.page.parts.media
    there.press(Qt.Key.Key_F7)
    there.until(lambda: media._view is not None and not media.watch._under_way)
    settle()
    return media


def cells(media: MediaPage, row: int) -> list[str]:
    return [media.table.item(row, column).text() for column in range(media.table.columnCount())]


def test_nothing_measured_says_so(pictures: AtPictures) -> None:
    media = see_media(pictures)
    assert media.told.text() == "No picture of the media was measured yet."
    assert not media._whole.isVisibleTo(media)


def test_media_stand_side_by_side(pictures: AtPictures) -> None:
    media = three_media(pictures)
    assert media.side is Side.IN
    assert media.sides[Side.IN].isChecked()
    assert not media.sides[Side.OUT].isEnabled()
    assert cells(media, 0)[:2] == ["Amber", "2"]
    assert "µm" in cells(media, 0)[2]
    assert cells(media, 2)[0] == "Moss"
    assert media.beside.text() == NOT_A_RATING
    assert [len(row.values) for row in media.dots.rows] == [2, 2, 2]
    assert len(media.strips.rows) == 3
    told = {(p.key, p.outcome) for p in media._view.sides[0].pairs if p.key == "D50"}
    assert ("D50", PairOutcome.CANNOT_TELL) in told
    sentences = [media.pairs.item(n).text() for n in range(media.pairs.count())]
    assert any(words.startswith("Amber against Cobalt: cannot tell") for words in sentences)
    assert sentences[0] == "Opening between fibres, D50"


def test_sum_of_a_figure_opens_by_key(pictures: AtPictures) -> None:
    media = three_media(pictures)
    assert QApplication.focusWidget() is media.table
    pictures.press(Qt.Key.Key_F12)
    dialog = pictures.page.dialogs.dialog
    pictures.until(lambda: dialog is not None and dialog.isVisible())
    assert isinstance(dialog, SumDialog)
    dialog.reject()
    settle()


def test_answers_that_come_in_are_shown(pictures: AtPictures) -> None:
    media = see_media(pictures)
    pictures.press(Qt.Key.Key_F7)
    pictures.take(120)
    pictures.press(Qt.Key.Key_F7)
    pictures.measured()
    pictures.until(lambda: media.table.rowCount() == 3)
    assert cells(media, 0)[1] == "1"
    assert cells(media, 1)[2] != cells(media, 0)[2]


def test_media_out_of_sight_work_nothing_out(pictures: AtPictures) -> None:
    media = see_media(pictures)
    worked = []
    media.watch.working.connect(worked.append)
    pictures.press(Qt.Key.Key_Escape)
    pictures.seat.go_to("can_diameter")
    pictures.seat.answer("76.2")
    settle()
    assert worked == []
    pictures.open()
    pictures.until(lambda: worked == [True, False])


def test_refused_pictures_are_told(pictures: AtPictures) -> None:
    pictures.measurer.looks = False
    pictures.take(20)
    pictures.measured()
    pictures.take(120)
    pictures.measured()
    media = see_media(pictures)
    assert media.refused.text() == (
        "Amber, field 1: refused, taken again. The picture is too dark: more light."
    )


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_off_or_unnamed(pictures: AtPictures, qapp, size: str) -> None:
    width, height, unit = SIZES[size]
    place = pictures.seat.place
    place.resize(width, height)
    rescale(qapp, place, unit)
    place.rescaled()
    pictures.take(120)
    pictures.measured()
    media = see_media(pictures)
    assert unnamed(pictures.page) == []
    assert [one for one in cut_off(media) if "Openings" not in one] == []


def specimen() -> Specimen:
    return fresh_specimen(0)


def test_dots_are_told_in_words(qtbot, themed) -> None:
    dots = MediaDots("Openings")
    qtbot.addWidget(dots)
    dots.resize(600, 120)
    dots.show_rows([DotRow(specimen(), (24.0, 26.0), 25.0, 22.0, 28.0), DotRow(specimen(), ())])
    assert dots.accessibleDescription() == (
        "Amber: mean 25.0 micrometres, 95 % interval 22.0 to 28.0, 2 fields. "
        "Amber: nothing measured"
    )
    empty = MediaDots("none")
    qtbot.addWidget(empty)
    empty.resize(600, 120)
    assert dots.grab().toImage() != empty.grab().toImage()


def test_strips_draw_shares_of_length(qtbot, themed) -> None:
    strips = WidthStrips("Fibre diameters")
    qtbot.addWidget(strips)
    strips.resize(600, 120)
    row = StripRow(specimen(), (0.0, 10.0, 30.0), (0.5, 0.5), 10.0)
    assert densities(row) == [0.05, 0.025]
    strips.show_rows([row])
    assert strips.accessibleDescription() == (
        "Amber: median 10.0 micrometres, most fibre length between 0.0 and 10.0"
    )
    image = strips.grab().toImage()
    assert len({image.pixel(x, 60) for x in range(600)}) > 2


@pytest.mark.parametrize(
    ("reach", "step"), [(43.0, 10.0), (9.0, 2.0), (0.7, 0.2), (101.0, 20.0), (0.0, 1.0)]
)
def test_axis_has_round_steps(reach: float, step: float) -> None:
    assert round_step(reach) == step
