"""Pictures of the media in what is frozen, told, compared between revisions, and in the digest."""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest

from benchlog.measure.micrograph import PictureAnswer
from benchlog.tasks.changed import DATA, SHEET, PictureChange, outputs_touched
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.contents import contents_of
from benchlog.tasks.contents_json import contents_from_json, plain_contents
from benchlog.tasks.digest import picture_marks
from benchlog.tasks.frozen_record import frozen, frozen_text, thawed
from benchlog.tasks.tell import tell
from benchlog.tasks.work_out import worked_out
from tests.tasks.pictured_records import DARK, pictured_contents, pictured_record

Plain = dict[str, Any]
RETAKEN = {"photo": "f" * 64, "text": f"refused: {DARK}"}


@pytest.fixture
def older() -> Plain:
    return deepcopy(thawed(frozen_text(pictured_record())))


def first_name() -> str:
    return pictured_record().lineup.specimens[0].nickname


def test_fields_are_frozen_as_they_stand(older: Plain) -> None:
    told = {one["name"]: one["text"] for one in older["pictures"]}
    first, second = (one.nickname for one in pictured_record().lineup.specimens[:2])
    assert told == {
        f"{second}, inlet side, field 1": "measured",
        f"{first}, inlet side, field 1": "measured",
        f"{second}, inlet side, field 2": "measured",
        f"{first}, inlet side, field 2": "not measured yet",
    }
    (set_up,) = older["set_ups"]
    assert set_up["name"] == "stereo, 4x"
    assert "0.5 µm a pixel" in set_up["fields"]["scale"]


def test_their_photos_stand_among_them_alone(older: Plain) -> None:
    photos = {one["id"] for one in older["photos"]}
    assert photos
    assert not photos & {one.photo_id for one in pictured_record().micrographs}


@pytest.mark.parametrize(
    ("change", "sentences"),
    [
        (lambda p: p[1].update(photo="f" * 64),
         ["Picture of {0}, inlet side, field 1 taken again"]),
        (lambda p: p[1].update(RETAKEN),
         ["Picture of {0}, inlet side, field 1 taken again",
          "Picture of {0}, inlet side, field 1: measured → refused: " + DARK]),
        (lambda p: p.pop(3), ["Picture of {0}, inlet side, field 2 taken back"]),
        (lambda p: p.append({**p[3], "field": 3, "name": "one more"}),
         ["Picture of one more taken"]),
        (lambda p: p[1].update(set_up="other"),
         ["Picture of {0}, inlet side, field 1, set-up: stereo, 4x → other"]),
    ],
)  # fmt: skip
def test_every_change_of_a_picture_is_told(
    older: Plain, change: Callable[[list[Plain]], object], sentences: list[str]
) -> None:
    newer = deepcopy(older)
    change(newer["pictures"])
    found = changed_between(older, newer)
    assert [one.sentence for one in found] == [one.format(first_name()) for one in sentences]
    assert all(isinstance(one, PictureChange) for one in found)
    assert outputs_touched(found[0]) == (SHEET, DATA)


def test_set_ups_come_and_go(older: Plain) -> None:
    none = {**older, "set_ups": []}
    assert [one.sentence for one in changed_between(none, older)] == [
        "Set-up stereo, 4x came into use"
    ]
    assert [one.sentence for one in changed_between(older, none)] == [
        "Set-up stereo, 4x is no longer used"
    ]


def test_a_record_from_before_pictures_compares(older: Plain) -> None:
    before = {key: part for key, part in older.items() if key not in ("pictures", "set_ups")}
    assert len(changed_between(before, older)) == 5
    assert changed_between(before, deepcopy(before)) == ()


def test_contents_with_pictures_come_back() -> None:
    contents = pictured_contents()
    again = contents_from_json(json.dumps(plain_contents(contents)))
    assert again == contents
    assert contents_of(worked_out(again)) == contents


def test_pictures_are_in_the_digest() -> None:
    contents = pictured_contents()
    record = pictured_record()
    assert worked_out(contents).digest == record.digest
    answers: tuple[PictureAnswer, ...] = contents.answers
    warmer = replace(contents.set_ups[0], um_per_px=0.51)
    for other in (
        replace(contents, answers=(*answers[:-1], replace(answers[-1], fibres=113.0))),
        replace(contents, micrographs=contents.micrographs[:-1]),
        replace(contents, set_ups=(warmer,)),
    ):
        assert worked_out(other).digest != record.digest


def test_no_pictures_leave_a_digest_alone() -> None:
    assert picture_marks((), (), ()) == ()


def test_everything_is_told_as_plain_values() -> None:
    told = tell(pictured_record())
    assert json.loads(json.dumps(told, allow_nan=False)) == told
    assert told["set_ups"][0]["um_per_px"] == 0.5
    assert [one["id"] for one in told["micrographs"]] == ["m1", "m2", "m3", "m4", "m5"]
    assert told["picture_answers"][0]["reasons"] == [DARK]
    figures = told["picture_answers"][1]["figures"]
    assert figures[0]["key"] == "D50"
    assert frozen(pictured_record())["told"] == told
