"""Pictures of a part judged blind: its own, all that stand, and nothing that tells whose."""

from __future__ import annotations

from dataclasses import dataclass, fields

import pytest

from benchlog.judge.blind import BlindRun
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, Side
from benchlog.tasks.blind_pictures import BlindPicture, blind_pictures
from benchlog.tasks.judge_blind import BlindQuestion
from benchlog.trade.attribute import Attribute
from benchlog.trade.sequence_file import load_sequence
from tests.small_media import AT, SET_UP

RUN = BlindRun(
    "r-1", "l-1", ("media_kind",), (("s-a", "KQ"), ("s-b", "TZ")), (("KQ", "TZ"),), 7, AT, ""
)


@dataclass
class Pictures:
    """As much of a shelf as pictures need."""

    taken: list[Micrograph]

    def set_ups(self) -> list[MicroscopeSetUp]:
        return [SET_UP]

    def micrographs(self, _lineup_id: str) -> list[Micrograph]:
        return self.taken


@pytest.fixture(scope="module")
def kind() -> Attribute:
    return load_sequence("spin_on").attribute("media_kind")


def shown(
    specimen: str, side: Side, field: int, photo: str, supersedes: str = "", *, gone: bool = False
) -> Micrograph:
    return Micrograph(
        f"m-{photo or 'none'}", "l-1", specimen, side, field, SET_UP.id, photo, AT, supersedes, gone
    )


def asked(attribute: Attribute, code: str) -> BlindQuestion:
    return BlindQuestion(attribute, code, (), 0, 2)


def test_only_the_part_under_the_code_is_shown(kind: Attribute) -> None:
    shelf = Pictures(
        [
            shown("s-a", Side.OUT, 1, "a-out"),
            shown("s-b", Side.IN, 1, "b-in"),
            shown("s-a", Side.IN, 2, "a-in-2"),
            shown("s-a", Side.IN, 1, "a-in-1"),
        ]
    )
    found = blind_pictures(shelf, RUN, asked(kind, "KQ"))
    assert [one.photo_id for one in found] == ["a-in-1", "a-in-2", "a-out"]
    assert {one.um_per_px for one in found} == {SET_UP.um_per_px}
    assert [one.photo_id for one in blind_pictures(shelf, RUN, asked(kind, "TZ"))] == ["b-in"]


def test_retaken_and_withdrawn_pictures_stay_away(kind: Attribute) -> None:
    first, other = shown("s-a", Side.IN, 1, "old"), shown("s-a", Side.IN, 2, "gone")
    shelf = Pictures(
        [
            first,
            shown("s-a", Side.IN, 1, "new", first.id),
            other,
            shown("s-a", Side.IN, 2, "", other.id, gone=True),
        ]
    )
    assert [p.photo_id for p in blind_pictures(shelf, RUN, asked(kind, "KQ"))] == ["new"]


def test_other_stations_show_no_pictures() -> None:
    dents = load_sequence("spin_on").attribute("dents")
    shelf = Pictures([shown("s-a", Side.IN, 1, "a")])
    assert blind_pictures(shelf, RUN, asked(dents, "KQ")) == ()


def test_nothing_tells_whose_picture_it_is() -> None:
    assert [f.name for f in fields(BlindPicture)] == ["photo_id", "um_per_px", "side"]
