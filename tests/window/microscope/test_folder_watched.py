"""A folder that is watched from the page: what is saved there becomes the next field."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from benchlog.measure.micrograph import Side
from tests.window.microscope.field_scenes import AtPictures, png, typed_set_up


def watch(there: AtPictures) -> None:
    folder = there.folder / "camera"
    folder.mkdir()
    there.page.coming.ask_folder = lambda: folder
    there.press(Qt.Key.Key_F6)
    there.until(lambda: not there.page.coming.watch._looking)


def look(there: AtPictures) -> None:
    """Look once, a second later."""
    there.seat.clock.at_s += 2.0
    there.until(lambda: not there.page.coming.watch._looking)
    there.page.coming.watch.look()
    there.until(lambda: not there.page.coming.watch._looking)


def test_saved_picture_becomes_the_next_field(pictures: AtPictures) -> None:
    watch(pictures)
    assert "Watching" in pictures.said
    (pictures.folder / "camera" / "shot 1.png").write_bytes(png(120))
    look(pictures)
    look(pictures)
    pictures.until(lambda: len(pictures.micrographs()) == 1)
    pictures.measured()
    assert pictures.wanted() == ("Cobalt", Side.IN, 1)
    (photo,) = pictures.seat.desk.workshop.shelf.photos(pictures.seat.desk.lineup_id)
    assert photo.name == "shot 1.png"


def test_watching_ends_by_the_same_key(pictures: AtPictures) -> None:
    watch(pictures)
    pictures.press(Qt.Key.Key_F6)
    assert pictures.said == "The folder is no longer watched."
    assert pictures.page.coming.watch.folder is None
    kept = pictures.seat.desk.settings.pictures[pictures.seat.desk.lineup_id]
    assert kept["folder"].endswith("camera")


def ask_about_another_set_up(there: AtPictures) -> None:
    """Leave one field taken with a first set-up, and a picture saved under another in question."""
    there.take(120)
    there.measured()
    other = typed_set_up(there.seat, "High power")
    there.page._use_set_up(other.id)
    watch(there)
    (there.folder / "camera" / "shot 1.png").write_bytes(png(130))
    look(there)
    look(there)
    there.until(lambda: not there.page.parts.yes.isHidden())


def save_another(there: AtPictures) -> None:
    (there.folder / "camera" / "shot 2.png").write_bytes(png(140))
    look(there)
    look(there)


def test_saved_picture_waits_behind_one_in_question(pictures: AtPictures) -> None:
    ask_about_another_set_up(pictures)
    save_another(pictures)
    assert len(pictures.micrographs()) == 1
    assert QApplication.focusWidget() is pictures.page.parts.yes
    pictures.press(Qt.Key.Key_Return)
    pictures.until(
        lambda: not pictures.page.parts.yes.isHidden() and len(pictures.micrographs()) == 2
    )
    pictures.press(Qt.Key.Key_Return)
    pictures.until(lambda: len(pictures.micrographs()) == 3)
    pictures.measured()
    shelf, lineup_id = pictures.seat.desk.workshop.shelf, pictures.seat.desk.lineup_id
    assert [one.name for one in shelf.photos(lineup_id)][1:] == ["shot 1.png", "shot 2.png"]


def test_saved_picture_is_left_with_one_in_question(pictures: AtPictures) -> None:
    ask_about_another_set_up(pictures)
    save_another(pictures)
    pictures.press(Qt.Key.Key_Escape)
    assert pictures.said == "Not taken. The one after it was not taken."
    assert len(pictures.micrographs()) == 1


def test_lost_folder_is_told(pictures: AtPictures) -> None:
    watch(pictures)
    (pictures.folder / "camera").rmdir()
    look(pictures)
    pictures.until(lambda: "cannot be read" in pictures.said)
    assert pictures.page.coming.watch.folder is None
