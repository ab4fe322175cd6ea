"""Somebody at the pictures of the media, with a measurer that answers as a test tells it to."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from benchlog.errors import ScaleRefused, WorkStopped
from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    PictureFigure,
    PictureGate,
    Side,
    standing_micrographs,
)
from benchlog.tasks.picture_ports import PictureMarks, StageScale
from benchlog.tasks.ports import Progress
from benchlog.tasks.set_ups import SetUpWords, add_typed_set_up
from benchlog.window.microscope.fields_now import FieldsNow
from benchlog.window.microscope.pictures_page import PicturesPage
from tests.window.bench_scenes import Seat
from tests.window.place_scenes import settle

NO_MODIFIER = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
DARK = PictureGate("brightness", 20.0, 45.0, "refused", "The picture is too dark: more light.")
BRIGHT = PictureGate("brightness", 200.0, 45.0, "passed")
STAGE = b"stage"


def png(shade: int, width: int = 120, height: int = 90) -> bytes:
    """A picture of one grey, so that each shade is a picture of its own."""
    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.fill(QColor(shade, shade, shade))
    kept = QByteArray()
    buffer = QBuffer(kept)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(buffer, "PNG")
    return bytes(kept)


def shade_of(data: bytes) -> int:
    return QImage.fromData(data).pixelColor(1, 1).red()


@dataclass
class PlainMeasurer:
    """Measures D50 = shade / 2 µm; shades under 50 are too dark. `hold` keeps it from answering."""

    hold: bool = False
    looks: bool = True
    crash: bool = False
    closed: bool = False
    measured: list[int] = field(default_factory=list)
    go: threading.Event = field(default_factory=threading.Event)

    def look(self, data: bytes, _set_up: MicroscopeSetUp) -> tuple[PictureGate, ...]:
        return ((DARK if shade_of(data) < 50 else BRIGHT),) if self.looks else ()

    def measure(self, data: bytes, _set_up: MicroscopeSetUp, progress: Progress) -> PictureAnswer:
        progress.step(1, 5, "fibres")
        while self.hold and not self.go.wait(0.005):
            progress.step(1, 5, "fibres")
        if self.crash:
            raise WorkStopped("The process that measures pictures ended.", "Measure it again.")
        shade = shade_of(data)
        self.measured.append(shade)
        dark = shade < 50
        return PictureAnswer(
            id="",
            micrograph_id="",
            at=datetime.fromtimestamp(0, UTC),
            method="told by a test",
            verdict="refused" if dark else "measured",
            light="above",
            reasons=(DARK.words,) if dark else (),
            gates=(DARK if dark else BRIGHT,),
            figures=()
            if dark
            else (
                PictureFigure("D50", shade / 2, "um", 2.0, 0.5, 0.1),
                PictureFigure("open area", 0.55, "1", 0.01, 0.02, 0.0),
                PictureFigure("fibre median", shade / 10, "um", 0.3, 0.2, 0.1),
            ),
            fibres=100.0,
            edges_um=(0.0, 10.0, 20.0, 30.0),
            shares=() if dark else (0.2, 0.5, 0.3),
        )

    def marks(self, _data: bytes, _set_up: MicroscopeSetUp, _progress: Progress) -> PictureMarks:
        square = ((20.0, 20.0), (60.0, 20.0), (60.0, 60.0), (20.0, 60.0), (20.0, 20.0))
        return PictureMarks((square,), (((0.0, 45.0), (119.0, 45.0)),), ((60.0, 45.0, 30.0),))

    def stage_scale(self, data: bytes, division_um: float, _u: float) -> StageScale:
        if shade_of(data) < 50:
            raise ScaleRefused("Fewer than 8 evenly spaced lines were found.", "Focus.")
        lines = tuple((x, 5.0, x, 85.0) for x in (20.0, 40.0, 60.0, 80.0))
        return StageScale(
            division_um / 20, 0.006 * division_um / 20, 20.0, 120, 90, lines, 1, 0.002, 0.0004
        )

    def close(self) -> None:
        self.closed = True


@dataclass
class AtPictures:
    """Someone at the page of pictures, with keys only."""

    seat: Seat
    measurer: PlainMeasurer
    folder: Path

    @property
    def page(self) -> PicturesPage:
        page = self.seat.place.pictures.page
        assert page is not None
        return page

    @property
    def now(self) -> FieldsNow:
        return self.page.now

    @property
    def said(self) -> str:
        return self.page.parts.strip.words.text()

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NO_MODIFIER) -> None:
        self.seat.pause()
        QTest.keyClick(QApplication.focusWidget(), key, modifiers)
        settle()

    def open(self) -> None:
        """Go to the pictures by their key."""
        self.press(Qt.Key.Key_M, CTRL)
        self.until(lambda: self.page.isAncestorOf(QApplication.focusWidget() or self.seat.place))

    def file(self, shade: int, width: int = 120) -> Path:
        path = self.folder / f"{shade}.png"
        path.write_bytes(png(shade, width))
        return path

    def take(self, *shades: int) -> None:
        """Choose picture files by the key, and wait until each lies in its field."""
        paths = tuple(self.file(shade) for shade in shades)
        self.page.coming.ask_files = lambda: paths
        before = len(self.micrographs())
        self.press(Qt.Key.Key_F10)
        self.until(lambda: not self.page.taking.under_way)
        assert len(self.micrographs()) == before + len(shades), self.said
        settle()

    def measured(self) -> None:
        """Wait until nothing is measured any more."""
        measuring = self.seat.place.pictures.measuring
        self.until(lambda: not self.page.taking.under_way)
        self.until(lambda: measuring.now is None and not measuring.waiting)
        settle()

    def until(self, condition: object) -> None:
        self.seat.qtbot.waitUntil(lambda: bool(condition()), timeout=15_000)

    def micrographs(self) -> list[Micrograph]:
        shelf = self.seat.desk.workshop.shelf
        return shelf.micrographs(self.seat.desk.lineup_id)

    def standing(self) -> tuple[Micrograph, ...]:
        return standing_micrographs(tuple(self.micrographs()))

    def wanted(self) -> tuple[str, Side, int]:
        """Nickname, side and number of the field that the next picture goes into."""
        wanted = self.now.wanted
        return self.now.specimen(wanted.specimen_id).nickname, wanted.side, wanted.field

    def values(self, attribute: str) -> list[str]:
        """The standing answers of an attribute, as texts in order."""
        from benchlog.measure.reading import standing

        return [r.text for r in standing(self.seat.readings()) if r.attribute == attribute]

    def listed(self) -> list[str]:
        shown = self.page.parts.list
        return [shown.item(row).text() for row in range(shown.count())]


def typed_set_up(seat: Seat, name: str = "Low power") -> MicroscopeSetUp:
    workshop = seat.desk.workshop
    words = SetUpWords(name, "stand", "4x", "above")
    return add_typed_set_up(workshop.shelf, workshop.clock, words, "0.5", "1 %")


def names_on_the_way(start: QWidget, to: QWidget) -> list[str]:
    """Press Tab until a widget has the focus; the names on the way."""
    start.setFocus()
    names = []
    for _ in range(80):
        if QApplication.focusWidget() is to:
            return names
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        names.append(QApplication.focusWidget().accessibleName())
    raise AssertionError(names)
