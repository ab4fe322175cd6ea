"""What is put on the shelf comes back as it was, from the file and not from memory."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.shelf import SqlShelf, open_shelf
from tests import strategies
from tests.shelf import scenes
from tests.shelf.scenes import Folders


@given(st.lists(strategies.lineups, min_size=1, max_size=4, unique_by=lambda one: one.id))
def test_lineups_come_back_whole(new_folder: Folders, lineups) -> None:
    folder = new_folder()
    with open_shelf(folder) as shelf:
        for lineup in lineups:
            shelf.save_lineup(lineup)
    with open_shelf(folder, read_only=True) as shelf:
        assert [shelf.lineup(one.id) for one in lineups] == lineups
        briefs = shelf.lineups()
        assert {b.id: b.specimens for b in briefs} == {x.id: x.specimens for x in lineups}
        ages = [brief.created_at for brief in briefs]
        assert ages == sorted(ages, reverse=True)


@given(st.lists(strategies.instruments, unique_by=lambda one: one.id, max_size=5))
def test_instruments_keep_their_order(new_folder: Folders, instruments) -> None:
    folder = new_folder()
    with open_shelf(folder) as shelf:
        for instrument in instruments:
            shelf.save_instrument(instrument)
    with open_shelf(folder) as shelf:
        assert shelf.instruments() == instruments


@given(st.data())
def test_readings_come_back_in_order(new_folder: Folders, data: st.DataObject) -> None:
    lineup = data.draw(strategies.lineups)
    known = strategies.readings(
        lineup.id, tuple(one.id for one in lineup.specimens), (scenes.SCALE.id,)
    )
    given_in = data.draw(st.lists(known, min_size=1, max_size=6, unique_by=lambda one: one.id))
    correction = replace(data.draw(known), id="correction", supersedes=given_in[0].id)
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_instrument(scenes.SCALE)
        shelf.save_lineup(lineup)
        for reading in (*given_in, correction):
            shelf.add_reading(reading)
    with open_shelf(folder) as shelf:
        found = shelf.readings(lineup.id)
        assert found == [*given_in, correction]
        said = [(r.said.text, str(r.said.value), str(r.said.low)) for r in found if r.said]
        assert said == [
            (r.said.text, str(r.said.value), str(r.said.low))
            for r in (*given_in, correction)
            if r.said
        ]
        assert all(reading.at.utcoffset() == timedelta(0) for reading in found)
        assert shelf.lineups()[0].readings == len(found)


@given(st.data())
def test_bench_notes_come_back(new_folder: Folders, data: st.DataObject) -> None:
    lineup = data.draw(strategies.lineups)
    specimens = tuple(one.id for one in lineup.specimens)
    by_id = {"max_size": 4, "unique_by": lambda one: one.id}
    moments = data.draw(st.lists(strategies.moments(lineup.id), **by_id))
    remarks = data.draw(st.lists(strategies.remarks(lineup.id, specimens), **by_id))
    place = data.draw(strategies.places(lineup.id, specimens))
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_lineup(lineup)
        for moment in moments:
            shelf.add_moment(moment)
        for remark in remarks:
            shelf.add_remark(remark)
        shelf.save_place(place)
    with open_shelf(folder) as shelf:
        assert shelf.moments(lineup.id) == moments
        assert shelf.remarks(lineup.id) == remarks
        assert shelf.place(lineup.id) == place


@given(st.data(), st.binary(min_size=1, max_size=200))
def test_photos_come_back_whole(new_folder: Folders, data: st.DataObject, picture: bytes) -> None:
    lineup = data.draw(strategies.lineups)
    specimens = tuple(one.id for one in lineup.specimens)
    name = hashlib.sha256(picture).hexdigest()
    photo = data.draw(strategies.photos(name, lineup.id, specimens))
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_lineup(lineup)
        shelf.add_photo(photo, picture)
    with open_shelf(folder) as shelf:
        assert shelf.photos(lineup.id) == [photo]
        assert shelf.photo_bytes(photo.id) == picture


def test_unknown_ids_are_key_errors(shelf: SqlShelf) -> None:
    with pytest.raises(KeyError, match="autumn"):
        shelf.lineup("autumn")
    with pytest.raises(KeyError, match="0000"):
        shelf.photo_bytes("0000")
    assert shelf.readings("autumn") == []
    assert shelf.place("autumn") is None


@pytest.mark.parametrize(
    "wrong",
    [
        {"specimen_id": "nobody"},
        {"lineup_id": "autumn"},
        {"instrument_id": "no such scale"},
        {"supersedes": "no such reading"},
        {"at": scenes.NOON.replace(tzinfo=None)},
        {"si_value": float("nan")},
    ],
    ids=lambda wrong: next(iter(wrong)),
)
def test_unfit_readings_are_refused(shelf: SqlShelf, wrong: dict[str, object]) -> None:
    shelf.add_reading(scenes.reading("before"))
    with pytest.raises(OurFault):
        shelf.add_reading(replace(scenes.reading("unfit"), **wrong))
    shelf.add_reading(scenes.reading("after"))
    assert [one.id for one in shelf.readings("spring")] == ["before", "after"]


def test_closed_shelf_says_so(shelf: SqlShelf) -> None:
    shelf.close()
    shelf.close()
    with pytest.raises(OurFault, match="closed"):
        shelf.lineups()
