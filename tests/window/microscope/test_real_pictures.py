"""As a new user would, with the real measurement: calibrate, take fields, be refused, retake, read.

Slower than other tests of the window, for the drawn pictures of the rehearsal are really measured.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.measure.micrograph import Side
from benchlog.trade.resource_file import resources_folder
from benchlog.wiring import picture_measurer
from tests.window.bench_scenes import Seat
from tests.window.microscope.field_scenes import AtPictures, PlainMeasurer
from tests.window.microscope.test_media_page import see_media
from tests.window.microscope.test_set_up_dialog import fill, open_dialog

MICROGRAPHS = resources_folder() / "sample" / "micrographs"
TRUE_UM_PER_PX = 1.3
"""The rehearsal's pictures are drawn so, in packaging/draw_sample_micrographs.py."""


@pytest.fixture
def there(seat: Seat, tmp_path: Path) -> Iterator[AtPictures]:
    seat.place.pictures.use(picture_measurer(here=True))
    at = AtPictures(seat, PlainMeasurer(), tmp_path)
    at.open()
    yield at
    at.measured()


def take(there: AtPictures, name: str) -> None:
    there.page.coming.ask_files = lambda: (MICROGRAPHS / f"{name}.jpg",)
    before = len(there.micrographs())
    there.press(Qt.Key.Key_F10)
    there.until(lambda: not there.page.taking.under_way)
    assert len(there.micrographs()) == before + 1, there.said
    there.measured()


def calibrate(there: AtPictures) -> None:
    dialog = open_dialog(there)
    fill(dialog)
    dialog.ask_file = lambda: MICROGRAPHS / "stage.jpg"
    there.press(Qt.Key.Key_F10)
    there.until(lambda: dialog.stage.found is not None)
    QTest.keyClicks(dialog.stage.division, "50")
    there.press(Qt.Key.Key_Return)
    there.until(lambda: "lie 50 µm apart" in dialog.strip.words.text())
    there.press(Qt.Key.Key_Return)
    there.until(lambda: there.now.set_up is not None)
    there.seat.place.activateWindow()
    there.until(lambda: QApplication.focusWidget() is there.page.parts.list)


def test_from_the_stage_to_the_media(there: AtPictures) -> None:
    calibrate(there)
    assert there.now.set_up.um_per_px == pytest.approx(TRUE_UM_PER_PX, rel=0.001)
    take(there, "amber_in_1")
    take(there, "moss_in_2_blurred")
    panel = there.page.parts.gates
    assert panel.head.text() == "Refused: take it again"
    assert "blurred" in panel.words.text()
    assert there.wanted() == ("Cobalt", Side.IN, 1)
    take(there, "cobalt_in_1")
    assert panel.head.text() == "Measured"
    media = see_media(there)
    assert [len(row.values) for row in media.dots.rows] == [1, 1, 0]
    assert "refused, taken again" in media.refused.text()
    assert len(there.values("opening_d50_in")) == 2
