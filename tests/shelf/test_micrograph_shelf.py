"""Set-ups, fields and answers come back as they were; each is stored whole or not at all."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.errors import EntryRefused, OurFault, ShelfDamaged, ShelfReadOnly
from benchlog.measure.instrument import InstrumentKind
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from benchlog.shelf.picture_rows import media_type_of
from tests import picture_strategies, strategies
from tests.shelf import picture_scenes, scenes
from tests.shelf.scenes import Folders


@pytest.fixture
def pictured(shelf: SqlShelf) -> SqlShelf:
    picture_scenes.picture_all(shelf)
    return shelf


@settings(max_examples=25)
@given(st.data())
def test_all_come_back(new_folder: Folders, data: st.DataObject) -> None:
    lineup = data.draw(strategies.lineups)
    specimen = lineup.specimens[0].id
    picture = data.draw(st.binary(min_size=1, max_size=20))
    name = hashlib.sha256(picture).hexdigest()
    set_ups = [data.draw(picture_strategies.set_ups("a"))]
    set_ups.append(replace(data.draw(picture_strategies.set_ups("b", name)), replaces="a"))
    of = picture_strategies.micrographs(lineup.id, specimen, "b", name)
    made = data.draw(st.lists(of, max_size=3, unique_by=lambda one: one.id))
    answers = [data.draw(picture_strategies.answers(one.id)) for one in made for _ in range(2)]
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_lineup(lineup)
        shelf.add_photo(replace(scenes.photo(picture, specimen), lineup_id=lineup.id), picture)
        for set_up, taken in zip(set_ups, (None, picture), strict=True):
            shelf.add_set_up(set_up, replace(picture_scenes.MICROSCOPE, id=set_up.id), taken)
        for one in made:
            shelf.add_micrograph(one, [])
        unlike = {one.id: one for one in answers}
        for answer in unlike.values():
            shelf.add_picture_answer(answer, [])
    with open_shelf(folder, read_only=True) as shelf:
        assert shelf.set_ups() == set_ups
        assert shelf.micrographs(lineup.id) == made
        assert shelf.picture_answers(lineup.id) == list(unlike.values())
        assert shelf.scale_picture("b") == picture
    assert check_shelf(folder) == []


def test_a_retake_takes_readings_along(pictured: SqlShelf, folder: Path) -> None:
    assert [one.id for one in pictured.micrographs("spring")] == ["dark", "bright", "other", "gone"]
    answers = pictured.picture_answers("spring")
    assert [one.id for one in answers] == ["too dark", "good", "also good"]
    assert answers[1] == picture_scenes.answer("good", "bright", ("d50",))
    assert [one.id for one in pictured.readings("spring")] == ["d50", "d50-2", "d50-2 back"]
    assert pictured.readings("spring")[0] == picture_scenes.opening("d50")
    assert pictured.instruments() == [scenes.SCALE, picture_scenes.MICROSCOPE]
    assert pictured.scale_picture("stereo") == picture_scenes.SCALE_PICTURE
    assert check_shelf(folder) == []


def test_a_field_is_replaced_once(pictured: SqlShelf) -> None:
    with pytest.raises(EntryRefused, match="already been retaken") as refused:
        pictured.add_micrograph(picture_scenes.micrograph("again", "dark"), [])
    assert "that took its place" in refused.value.do
    assert len(pictured.micrographs("spring")) == 4


def test_refused_readings_leave_no_answer(pictured: SqlShelf) -> None:
    twice = picture_scenes.opening("d50-2 again", 2, "d50-2")
    with pytest.raises(EntryRefused, match="already been corrected"):
        pictured.add_picture_answer(picture_scenes.answer("late", "bright"), [twice])
    with pytest.raises(EntryRefused, match="already been corrected"):
        pictured.add_micrograph(picture_scenes.micrograph("late", field=3), [twice])
    assert len(pictured.picture_answers("spring")) == 3
    assert len(pictured.micrographs("spring")) == 4


def test_what_points_nowhere_is_refused(pictured: SqlShelf) -> None:
    one = picture_scenes.micrograph("new", field=3)
    wrong = (
        replace(one, photo_id="0" * 64),
        replace(one, specimen_id="bravo"),
        replace(one, photo_id=""),
        replace(one, set_up_id="lost"),
        replace(one, supersedes="lost"),
    )
    for micrograph in wrong:
        with pytest.raises(OurFault):
            pictured.add_micrograph(micrograph, [])
    with pytest.raises(OurFault):
        pictured.add_picture_answer(picture_scenes.answer("new", "lost"), [])
    endless = replace(picture_scenes.answer("new", "bright"), shares=(float("inf"), 0.0))
    with pytest.raises(OurFault, match="no number"):
        pictured.add_picture_answer(endless, [])
    assert len(pictured.micrographs("spring")) == 4
    assert len(pictured.picture_answers("spring")) == 3


def test_a_set_up_is_whole(shelf: SqlShelf) -> None:
    set_up, instrument = picture_scenes.SET_UP, picture_scenes.MICROSCOPE
    with pytest.raises(OurFault, match="without its scale's picture"):
        shelf.add_set_up(set_up, instrument)
    with pytest.raises(OurFault, match="not the SHA-256"):
        shelf.add_set_up(set_up, instrument, b"another picture")
    with pytest.raises(OurFault, match="with the instrument scale"):
        shelf.add_set_up(set_up, scenes.SCALE, picture_scenes.SCALE_PICTURE)
    assert shelf.set_ups() == []
    assert shelf.instruments() == [scenes.SCALE]
    shelf.add_set_up(set_up, instrument, picture_scenes.SCALE_PICTURE)
    with pytest.raises(OurFault, match="already used"):
        shelf.add_set_up(set_up, instrument, picture_scenes.SCALE_PICTURE)


def test_no_scale_picture_no_bytes(shelf: SqlShelf) -> None:
    typed = replace(picture_scenes.SET_UP, id="typed", scale_picture="")
    shelf.add_set_up(typed, replace(picture_scenes.MICROSCOPE, id="typed"))
    for unknown in ("typed", "lost"):
        with pytest.raises(KeyError, match=unknown):
            shelf.scale_picture(unknown)


def test_a_view_takes_nothing(pictured: SqlShelf, folder: Path) -> None:
    with open_shelf(folder, read_only=True) as view, pytest.raises(ShelfReadOnly):
        view.add_set_up(picture_scenes.SET_UP, picture_scenes.MICROSCOPE, b"picture")


def test_a_lost_scale_picture_is_noticed(pictured: SqlShelf, folder: Path) -> None:
    name = picture_scenes.SET_UP.scale_picture
    file = folder / "photos" / name[:2] / f"{name[2:]}.jpg"
    file.unlink()
    with pytest.raises(ShelfDamaged, match="missing"):
        pictured.scale_picture("stereo")
    assert [problem for problem in check_shelf(folder) if name[2:] in problem]


def test_pictures_tell_their_kind() -> None:
    signs = {
        b"\xff\xd8\xff\xe0": "image/jpeg",
        b"\x89PNG\r\n\x1a\n..": "image/png",
        b"II*\x00....": "image/tiff",
        b"MM\x00*....": "image/tiff",
        b"BM......": "image/bmp",
        b"RIFF....WEBPVP8 ": "image/webp",
        b"RIFF....WAVEfmt ": "",
        b"": "",
    }
    assert {begin: media_type_of(begin) for begin in signs} == signs


def test_the_instrument_of_a_set_up_is_a_microscope(shelf: SqlShelf, folder: Path) -> None:
    tape = replace(picture_scenes.MICROSCOPE, kind=InstrumentKind.TAPE)
    shelf.add_set_up(picture_scenes.SET_UP, tape, picture_scenes.SCALE_PICTURE)
    assert check_shelf(folder) == ["The instrument of set-up stereo is no microscope."]
