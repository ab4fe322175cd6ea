"""Looking at one picture: fitted, close up, moved by keys, and drawn over."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest

from benchlog.tasks.picture_ports import PictureMarks
from benchlog.window.microscope.decoded import decoded
from benchlog.window.microscope.marks_paint import (
    Overlay,
    bar_length,
    marks_drawn,
    stage_path,
)
from benchlog.window.microscope.picture_view import PictureView
from tests.window.microscope.field_scenes import png
from tests.window.place_scenes import settle

MARKS = PictureMarks(
    (((10.0, 10.0), (90.0, 10.0), (90.0, 80.0), (10.0, 80.0), (10.0, 10.0)),),
    (((0.0, 45.0), (119.0, 45.0)),),
    ((60.0, 45.0, 20.0),),
)


@pytest.fixture
def view(qtbot, themed) -> PictureView:
    made = PictureView()
    qtbot.addWidget(made)
    made.resize(480, 360)  # four screen pixels a pixel of the file
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.show_picture(decoded(png(120)), 0.0, "a test")
    made.setFocus()
    settle()
    return made


def colour_at(view: PictureView, x: float, y: float) -> QColor:
    """The colour that is seen at a point of the file, in pixels, the first one's middle at 0, 0."""
    zoom = view.zoom
    image = view.grab().toImage()
    return image.pixelColor(round((x + 0.5) * zoom), round((y + 0.5) * zoom))


def test_whole_picture_is_fitted_in(view: PictureView) -> None:
    assert view.zoom == 4.0
    assert colour_at(view, 60, 45) == QColor(120, 120, 120)


def test_keys_on_the_view_move_what_is_close(view: PictureView) -> None:
    view.closer(2.0)
    before = QPointF(view._middle)
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert view._middle.x() > before.x()
    for _ in range(20):
        QTest.keyClick(view, Qt.Key.Key_Right)
    assert view._middle.x() == 120 - 480 / 2 / view.zoom


def test_zooming_keeps_the_point_under_the_mouse(view: PictureView) -> None:
    under = QPointF(120, 90)
    view.closer(2.0, under)
    there = view._middle + (under - QPointF(240, 180)) / view.zoom
    assert (there - QPointF(30, 22.5)).manhattanLength() < 1e-9
    view.closer(0.1)
    assert view.zoom == 4.0


def test_zoom_has_an_end(view: PictureView) -> None:
    for _ in range(30):
        view.closer()
    assert view.zoom == 16.0


@pytest.mark.parametrize(
    ("overlay", "at", "off"),
    [
        (Overlay.OUTLINES, (50, 10), (50, 45)),
        (Overlay.CENTRELINES, (50, 45), (50, 10)),
        (Overlay.CIRCLES, (80, 45), (60, 45)),
    ],
)
def test_marks_lie_where_they_were_measured(
    view: PictureView, overlay: Overlay, at: tuple[int, int], off: tuple[int, int]
) -> None:
    view.show_marks(marks_drawn(MARKS))
    view.choose(overlay)
    assert colour_at(view, *at) != QColor(120, 120, 120)
    assert colour_at(view, *off) == QColor(120, 120, 120)
    view.choose(Overlay.NOTHING)
    assert colour_at(view, *at) == QColor(120, 120, 120)


def test_overlays_follow_each_other_round() -> None:
    seen = [Overlay.NOTHING]
    while (after := seen[-1].after) is not Overlay.NOTHING:
        seen.append(after)
    assert seen == list(Overlay)


def test_stage_line_is_marked_over_its_middle(view: PictureView) -> None:
    view.show_lines(stage_path([(60.0, 0.0, 60.0, 89.0)]))
    assert colour_at(view, 60, 45) != QColor(120, 120, 120)
    assert colour_at(view, 60, 10) == QColor(120, 120, 120)


def test_scale_bar_is_round_and_fits() -> None:
    for um_per_px, scale in ((0.5, 1.0), (0.467, 0.52), (2.0, 0.1), (0.05, 8.0)):
        um, long = bar_length(um_per_px, scale, 200.0)
        assert 80.0 <= long <= 200.0
        assert long == pytest.approx(um / um_per_px * scale)
        assert f"{um:.0e}"[0] in "125"


def test_sixteen_bit_grey_can_be_looked_at() -> None:
    kept = io.BytesIO()
    values = np.full((30, 40), 128 * 256, dtype=np.uint16)
    Image.fromarray(values).save(kept, "TIFF")
    picture = decoded(kept.getvalue())
    assert (picture.width, picture.height) == (40, 30)
    assert abs(picture.images[0].pixelColor(5, 5).red() - 128) <= 1


def test_turned_picture_stands_upright() -> None:
    kept = io.BytesIO()
    exif = Image.Exif()
    exif[274] = 6  # turn a quarter to the right to see it upright
    Image.new("L", (60, 20), 99).save(kept, "JPEG", exif=exif)
    picture = decoded(kept.getvalue())
    assert (picture.width, picture.height) == (20, 60)
    assert picture.images[0].height() == 60


def test_large_picture_has_smaller_halves() -> None:
    picture = decoded(png(90, 1700, 1300))
    widths = [image.width() for image in picture.images]
    assert widths == [1700, 850, 425, 212]
    assert picture.fit_for(0.2).width() == 425
    assert picture.fit_for(1.5).width() == 1700


def test_what_is_no_picture_says_so(view: PictureView) -> None:
    view.show_picture(decoded(b"no picture"), 0.0, "")
    assert not view.has_picture
    assert "cannot be shown" in view.accessibleDescription()
