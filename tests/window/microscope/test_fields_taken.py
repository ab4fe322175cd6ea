"""Taking fields of the media: where each picture goes, and what came of it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QApplication

from benchlog.measure.micrograph import Side
from benchlog.tasks.field_order import FieldState
from tests.window.bench_scenes import Seat
from tests.window.microscope.field_scenes import CTRL, AtPictures, png, typed_set_up
from tests.window.place_scenes import settle


def test_key_leads_there_and_back(pictures: AtPictures) -> None:
    assert pictures.seat.place.currentWidget() is pictures.page
    pictures.press(Qt.Key.Key_Escape)
    assert pictures.seat.place.currentWidget() is pictures.seat.bench
    assert QApplication.focusWidget() is pictures.seat.entry


def test_button_stands_at_the_microscope_alone(seat: Seat) -> None:
    button = seat.bench.parts.photos.fields
    assert button.isHidden()
    seat.desk.teardown.go_to_station("microscope")
    seat.place.enter()
    assert not button.isHidden()
    button.click()
    assert seat.place.currentWidget() is seat.place.pictures.page


def test_half_typed_text_survives_the_way(seat: Seat) -> None:
    seat.go_to("can_diameter")
    seat.type("76.")
    seat.press(Qt.Key.Key_M, CTRL)
    seat.press(Qt.Key.Key_Escape, Qt.KeyboardModifier.NoModifier)
    assert seat.entry.text() == "76."


def test_picture_without_set_up_is_refused(without_set_up: AtPictures) -> None:
    there = without_set_up
    assert "make one first" in there.said
    assert QApplication.focusWidget() is there.page.parts.set_up
    there.page.coming.ask_files = lambda: (there.file(120),)
    there.press(Qt.Key.Key_F10)
    assert "No set-up of the microscope is chosen." in there.said
    assert there.micrographs() == []


def test_picture_goes_into_the_wanted_field(pictures: AtPictures) -> None:
    assert pictures.wanted() == ("Amber", Side.IN, 1)
    assert "Amber" in pictures.page.parts.banner.accessibleName()
    assert "inlet side · field 1 of 3" in pictures.page.parts.banner.accessibleDescription()
    pictures.take(120)
    pictures.measured()
    assert pictures.wanted() == ("Cobalt", Side.IN, 1)
    assert pictures.listed()[0] == "✓ Amber, inlet 1   measured"
    assert pictures.listed()[1] == "· Cobalt, inlet 1   next"
    assert pictures.values("opening_d50_in") == ["60.00 µm"]


def test_measured_field_shows_its_figures(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    panel = pictures.page.parts.gates
    assert panel.head.text() == "Measured"
    assert "D50  60.0 ± 2.1 µm" in panel.figures.text()
    assert "open area  55.0 ± 2.2 %" in panel.figures.text()
    assert "no micron rating" in panel.figures.text()
    assert panel.rows.text() == "✓ brightness 200, limit 45"


def test_several_pictures_fill_fields_in_order(pictures: AtPictures) -> None:
    pictures.take(120, 130, 140)
    pictures.measured()
    taken = [(m.specimen_id, m.side, m.field) for m in pictures.micrographs()]
    planned = [(s.field.specimen_id, s.field.side, s.field.field) for s in pictures.now.standings]
    assert taken == planned[:3]
    assert pictures.measurer.measured == [120, 130, 140]


def test_dark_picture_is_wanted_again_at_once(pictures: AtPictures) -> None:
    pictures.measurer.hold = True
    pictures.take(20)
    panel = pictures.page.parts.gates
    pictures.until(lambda: panel.head.text() == "Take it again now")
    assert panel.words.text() == "The picture is too dark: more light."
    assert pictures.wanted() == ("Amber", Side.IN, 1)
    assert "field 1 of 3, again" in pictures.page.parts.banner.accessibleDescription()
    pictures.measurer.go.set()
    pictures.measured()


def test_refused_field_is_taken_again(pictures: AtPictures) -> None:
    pictures.measurer.looks = False
    pictures.take(20)
    pictures.measured()
    assert pictures.page.parts.gates.head.text() == "Refused: take it again"
    assert "take it again" in pictures.said
    assert pictures.values("opening_d50_in") == []
    pictures.take(120)
    pictures.measured()
    assert [m.field for m in pictures.standing()] == [1]
    assert pictures.micrographs()[1].supersedes == pictures.micrographs()[0].id
    assert len(pictures.values("opening_d50_in")) == 1
    assert pictures.wanted() == ("Cobalt", Side.IN, 1)


def test_good_field_can_be_taken_again(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    pictures.press(Qt.Key.Key_R)
    assert pictures.said == "Next: Amber, inlet side, field 1."
    pictures.take(140)
    pictures.measured()
    assert len(pictures.standing()) == 1
    assert pictures.values("opening_d50_in") == ["70.00 µm"]


def test_enter_on_a_field_takes_it_next(pictures: AtPictures) -> None:
    pictures.press(Qt.Key.Key_Down)
    pictures.press(Qt.Key.Key_Down)
    pictures.press(Qt.Key.Key_Return)
    assert pictures.wanted() == ("Moss", Side.IN, 1)
    pictures.take(120)
    pictures.measured()
    assert pictures.wanted() == ("Amber", Side.IN, 1)


def test_one_more_field_follows_the_last(pictures: AtPictures) -> None:
    pictures.press(Qt.Key.Key_M)
    assert pictures.wanted() == ("Amber", Side.IN, 4)
    pictures.take(120)
    pictures.measured()
    assert pictures.listed()[-1] == "✓ Amber, inlet 4   measured"


def test_picture_is_taken_back_with_its_readings(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    pictures.press(Qt.Key.Key_F8)
    assert pictures.said.startswith("Taken back: Amber, inlet side, field 1.")
    assert pictures.standing() == ()
    assert pictures.values("opening_d50_in") == []
    assert pictures.wanted() == ("Amber", Side.IN, 1)


def test_pasted_picture_is_taken(pictures: AtPictures) -> None:
    QGuiApplication.clipboard().setImage(QImage.fromData(png(150)))
    pictures.press(Qt.Key.Key_V, CTRL)
    pictures.until(lambda: len(pictures.micrographs()) == 1)
    pictures.measured()
    assert pictures.measurer.measured == [150]


def test_clipboard_without_picture_says_so(pictures: AtPictures) -> None:
    mime = QMimeData()
    mime.setText("76.2")
    QGuiApplication.clipboard().setMimeData(mime)
    pictures.press(Qt.Key.Key_V, CTRL)
    assert pictures.said == "There is no picture on the clipboard."


def test_what_is_no_picture_stops_those_after(pictures: AtPictures) -> None:
    bad = pictures.folder / "notes.png"
    bad.write_bytes(b"no picture at all")
    pictures.page.coming.ask_files = lambda: (bad, pictures.file(120))
    pictures.press(Qt.Key.Key_F10)
    pictures.until(lambda: "notes.png could not be read" in pictures.said)
    assert pictures.micrographs() == []


def test_same_picture_twice_is_refused(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.page.coming.ask_files = lambda: (pictures.file(120),)
    pictures.press(Qt.Key.Key_F10)
    pictures.until(lambda: "is the very picture of" in pictures.said)
    assert len(pictures.micrographs()) == 1
    pictures.measured()


@pytest.mark.parametrize(
    ("shades", "said"),
    [
        ((120,), ""),
        ((120, 130), "The one after it was not taken."),
        ((120, 130, 140, 150), "The 3 after it were not taken."),
    ],
)
def test_pictures_behind_a_refused_one_are_told(
    pictures: AtPictures, shades: tuple[int, ...], said: str
) -> None:
    """They would go into the fields of those before them."""
    pictures.take(120)
    paths = tuple(pictures.file(shade) for shade in shades)
    pictures.page.coming.ask_files = lambda: paths
    pictures.press(Qt.Key.Key_F10)
    pictures.until(lambda: "is the very picture of" in pictures.said)
    assert pictures.said.endswith(said or "take a new one.")
    assert len(pictures.micrographs()) == 1


def test_other_set_up_is_asked_about(pictures: AtPictures) -> None:
    pictures.take(120)
    pictures.measured()
    other = typed_set_up(pictures.seat, "High power")
    pictures.page._use_set_up(other.id)
    pictures.page.coming.ask_files = lambda: (pictures.file(130),)
    pictures.press(Qt.Key.Key_F10)
    pictures.until(lambda: "pictures of unlike set-ups" in pictures.said)
    assert QApplication.focusWidget() is pictures.page.parts.yes
    pictures.press(Qt.Key.Key_Escape)
    assert pictures.said == "Not taken."
    pictures.press(Qt.Key.Key_F10)
    pictures.until(lambda: not pictures.page.parts.yes.isHidden())
    pictures.press(Qt.Key.Key_Return)
    pictures.until(lambda: len(pictures.micrographs()) == 2)
    pictures.measured()
    assert pictures.micrographs()[1].set_up_id == other.id


def test_sides_and_number_are_kept(pictures: AtPictures) -> None:
    parts = pictures.page.parts
    parts.sides.setFocus()
    pictures.press(Qt.Key.Key_Down)
    parts.fields.setFocus()
    pictures.press(Qt.Key.Key_Down)
    assert pictures.listed() == [
        "· Amber, inlet 1   next", "· Cobalt, inlet 1", "· Moss, inlet 1",
        "· Cobalt, inlet 2", "· Moss, inlet 2", "· Amber, inlet 2",
    ]  # fmt: skip
    kept = pictures.seat.desk.settings.pictures[pictures.seat.desk.lineup_id]
    assert (kept["fields"], kept["sides"]) == (2, "inlet side")


def test_all_taken_says_what_to_do(pictures: AtPictures) -> None:
    parts = pictures.page.parts
    parts.sides.setCurrentIndex(1)
    parts.sides.activated.emit(1)
    parts.fields.setValue(1)
    pictures.page.take_focus()
    pictures.take(120, 130, 140)
    pictures.measured()
    assert pictures.now.wanted is None
    assert pictures.page.parts.banner.isHidden()
    assert pictures.page.parts.done.text() == "Every field has its picture; F7 shows the media."
    assert {one.state for one in pictures.now.standings} == {FieldState.MEASURED}
    pictures.page.coming.ask_files = lambda: (pictures.file(150),)
    pictures.press(Qt.Key.Key_F10)
    settle()
    assert "Every field has its picture." in pictures.said
