from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDropEvent, QGuiApplication, QImage
from PySide6.QtTest import QTest

from benchlog.window.bench.photo_strip import small
from tests.window.bench_scenes import Seat


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    image = QImage(64, 48, QImage.Format.Format_RGB32)
    image.fill(QColor("#884422"))
    path = tmp_path / "front.png"
    assert image.save(str(path))
    return path


def photos(seat: Seat) -> list:
    return seat.desk.workshop.shelf.photos(seat.desk.lineup_id)


def drop(seat: Seat, mime: QMimeData) -> None:
    event = QDropEvent(
        QPointF(300, 300),
        Qt.DropAction.CopyAction,
        mime,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    seat.bench.dropEvent(event)


def paste(seat: Seat) -> None:
    QTest.keyClick(seat.entry, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)


def test_dropped_file_becomes_a_photo(seat: Seat, picture: Path, qtbot) -> None:
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(picture))])
    with qtbot.waitSignal(seat.bench.parts.photos.shown):
        drop(seat, mime)
    (photo,) = photos(seat)
    assert (photo.name, photo.station, photo.width) == ("front.png", "outside", 64)
    assert photo.specimen_id == seat.view.asked.specimen.id
    assert seat.desk.workshop.shelf.photo_bytes(photo.id) == picture.read_bytes()
    assert seat.bench.parts.photos.title.text() == "Photos: 1"
    assert seat.strip == "One photo is on the shelf."


def test_pasted_picture_becomes_a_photo(seat: Seat, picture: Path, qtbot) -> None:
    QGuiApplication.clipboard().setImage(QImage(str(picture)))
    with qtbot.waitSignal(seat.bench.parts.photos.shown):
        paste(seat)
    (photo,) = photos(seat)
    assert (photo.media_type, photo.width, photo.height) == ("image/png", 64, 48)


def test_pasted_text_is_typed(seat: Seat) -> None:
    QGuiApplication.clipboard().setText("287.4")
    paste(seat)
    assert seat.entry.text() == "287.4"
    assert photos(seat) == []


def test_picked_files_become_photos(seat: Seat, picture: Path, qtbot) -> None:
    seat.bench.photos.ask_files = lambda: (picture,)
    with qtbot.waitSignal(seat.bench.parts.photos.shown):
        seat.press(Qt.Key.Key_F10, Qt.KeyboardModifier.NoModifier)
    assert len(photos(seat)) == 1


def test_photo_leaves_typed_text_alone(seat: Seat, picture: Path, qtbot) -> None:
    seat.type("28")
    seat.bench.photos.ask_files = lambda: (picture,)
    with qtbot.waitSignal(seat.bench.parts.photos.shown):
        seat.press(Qt.Key.Key_F10, Qt.KeyboardModifier.NoModifier)
    assert seat.entry.text() == "28"


def test_what_is_no_picture_is_refused(seat: Seat, tmp_path: Path, qtbot) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("no picture", encoding="utf-8")
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    drop(seat, mime)
    qtbot.waitUntil(lambda: seat.bench.parts.strip.tone == "warn")
    assert "notes.txt could not be read as a picture" in seat.strip
    assert photos(seat) == []


def test_photos_are_those_of_the_place(seat: Seat, picture: Path, qtbot) -> None:
    seat.bench.photos.ask_files = lambda: (picture,)
    with qtbot.waitSignal(seat.bench.parts.photos.shown):
        seat.bench.photos.ask()
    seat.bench.hands.next()
    assert seat.bench.parts.photos.title.text() == "Photos: none yet"
    seat.bench.hands.back()
    assert seat.bench.parts.photos.title.text() == "Photos: 1"


@pytest.mark.parametrize("mode", ["L", "RGB", "I;16"])
def test_tiff_is_made_small(mode: str) -> None:
    kept = io.BytesIO()
    Image.new(mode, (400, 300)).save(kept, "TIFF")
    image = small(kept.getvalue())
    assert (image.width(), image.height()) == (240, 180)
