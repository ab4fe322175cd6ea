"""Pictures of the media at the bench: kept, taken again, taken back, measured and read."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from benchlog.errors import AskAgain, EntryRefused, PictureRefused
from benchlog.measure.micrograph import Micrograph, PictureAnswer, Side, standing_micrographs
from benchlog.measure.reading import Reading, Source, standing
from benchlog.shelf import SqlShelf
from benchlog.tasks.correct import correct
from benchlog.tasks.field_order import WantedField
from benchlog.tasks.fields import KeptAnswer, keep_answer, measured, take_back, take_picture
from benchlog.tasks.set_ups import instrument_of_set_up
from tests.small_media import SET_UP, SPIN_ON, figure, picture, refused
from tests.small_media import measured as said
from tests.small_trade import HandClock

FIELD = WantedField("s-a", Side.IN, 1)
NEXT = WantedField("s-b", Side.IN, 1)
OTHER_SET_UP = replace(SET_UP, id="m-2", name="Four times", width_px=8, height_px=6)


@pytest.fixture
def media(fair: SqlShelf) -> SqlShelf:
    fair.add_set_up(SET_UP, instrument_of_set_up(SET_UP))
    fair.add_set_up(OTHER_SET_UP, instrument_of_set_up(OTHER_SET_UP))
    return fair


def take(
    shelf: SqlShelf,
    clock: HandClock,
    field: WantedField = FIELD,
    number: int = 0,
    **more: object,
) -> Micrograph:
    settled = {"set_up_id": SET_UP.id, "name": "field.png", "data": picture(number)} | more
    return take_picture(shelf, clock, "l-1", field, **settled)


def keep(
    shelf: SqlShelf, clock: HandClock, micrograph: Micrograph, answer: PictureAnswer
) -> KeptAnswer:
    return keep_answer(shelf, clock, SPIN_ON, "l-1", micrograph.id, answer, session_s=7.0)


def standing_of(shelf: SqlShelf) -> list[Reading]:
    return standing(shelf.readings("l-1"))


def test_a_picture_becomes_a_photo_and_a_field(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    assert media.micrographs("l-1") == [made]
    (photo,) = media.photos("l-1")
    assert (photo.station, photo.specimen_id) == ("microscope", "s-a")
    assert photo.caption == "Amber, inlet side, field 1"
    assert media.photo_bytes(made.photo_id) == picture()


def test_every_figure_makes_a_reading(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    kept = keep(media, clock, made, said(41.372, 0.6184, 14.2))
    read = {r.attribute: r for r in standing_of(media)}
    assert {key: r.text for key, r in read.items()} == {
        "opening_d50_in": "41.37 µm",
        "open_area_in": "61.84 %",
        "fibre_median_in": "14.20 µm",
    }
    opening = read["opening_d50_in"]
    assert opening.source is Source.PICTURE
    assert (opening.instrument_id, opening.session_s) == (SET_UP.id, 7.0)
    assert opening.si_value == pytest.approx(41.37e-6)
    assert kept.answer.readings == tuple(r.id for r in kept.readings)
    assert media.picture_answers("l-1") == [kept.answer]
    assert kept.told == ()


def test_fields_are_repeats_in_turn(media: SqlShelf, clock: HandClock) -> None:
    for number in (1, 2, 3):
        field = WantedField("s-a", Side.OUT, number)
        keep(media, clock, take(media, clock, field, number), said(40.0 + number, fibre=None))
    read = [r for r in standing_of(media) if r.attribute == "opening_d50_out"]
    assert [(r.ordinal, r.said.value) for r in read if r.said] == [
        (1, Decimal("41.00")), (2, Decimal("42.00")), (3, Decimal("43.00")),
    ]  # fmt: skip


def test_an_unusual_number_is_told_and_kept(media: SqlShelf, clock: HandClock) -> None:
    kept = keep(media, clock, take(media, clock), said(400.0))
    (told,) = kept.told
    assert "400 µm, outside the usual 5 to 200 µm" in told
    opening = next(r for r in standing_of(media) if r.attribute == "opening_d50_in")
    assert opening.reason == "as the picture has it"


def test_a_refused_picture_makes_no_reading(media: SqlShelf, clock: HandClock) -> None:
    kept = keep(media, clock, take(media, clock), refused())
    assert kept.readings == ()
    assert media.readings("l-1") == []
    assert media.picture_answers("l-1")[0].verdict == "refused"


def test_a_retake_takes_the_old_readings_back(media: SqlShelf, clock: HandClock) -> None:
    old = take(media, clock)
    keep(media, clock, old, said(41.0))
    new = take(media, clock, number=1)
    assert new.supersedes == old.id
    assert standing_of(media) == []
    assert {r.reason for r in media.readings("l-1") if r.withdrawn} == {"picture taken again"}
    keep(media, clock, new, said(43.0))
    opening = next(r for r in standing_of(media) if r.attribute == "opening_d50_in")
    assert (opening.text, opening.ordinal) == ("43.00 µm", 1)


def test_a_picture_taken_back_leaves_its_photo(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    keep(media, clock, made, said(41.0))
    gone = take_back(media, clock, "l-1", made.id)
    assert (gone.withdrawn, gone.supersedes) == (True, made.id)
    assert standing_micrographs(tuple(media.micrographs("l-1"))) == ()
    assert standing_of(media) == []
    assert len(media.photos("l-1")) == 1
    with pytest.raises(EntryRefused, match="taken again or taken back"):
        take_back(media, clock, "l-1", made.id)


def test_a_corrected_reading_goes_with_its_picture(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    keep(media, clock, made, said(41.0))
    opening = next(r for r in standing_of(media) if r.attribute == "opening_d50_in")
    correct(media, clock, SPIN_ON, "l-1", opening.id, "42 µm", "read anew by hand", sure=True)
    take_back(media, clock, "l-1", made.id)
    assert standing_of(media) == []


def test_an_answer_to_a_picture_that_is_gone_is_refused(media: SqlShelf, clock: HandClock) -> None:
    old = take(media, clock)
    take(media, clock, number=1)
    with pytest.raises(EntryRefused, match="taken again or taken back"):
        keep(media, clock, old, said(41.0))
    assert media.picture_answers("l-1") == []


def test_measuring_anew_supersedes_the_old_readings(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    first = keep(media, clock, made, said(41.0))
    second = keep(media, clock, made, said(42.0, fibre=None))
    read = {r.attribute: r for r in standing_of(media)}
    assert set(read) == {"opening_d50_in", "open_area_in"}
    assert read["opening_d50_in"].supersedes in {r.id for r in first.readings}
    assert read["opening_d50_in"].ordinal == 1
    assert [r.attribute for r in second.readings if r.withdrawn] == ["fibre_median_in"]
    assert set(second.answer.readings) == {r.id for r in read.values()}


def test_figures_nobody_asks_for_make_no_reading(media: SqlShelf, clock: HandClock) -> None:
    answer = said(41.0, figures=(figure("D90", 80.0), figure("D50", 41.0)))
    kept = keep(media, clock, take(media, clock), answer)
    assert [r.attribute for r in kept.readings] == ["opening_d50_in"]


def test_what_is_no_picture_is_refused(media: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(PictureRefused):
        take(media, clock, data=b"no picture")
    assert media.photos("l-1") == []


def test_one_picture_is_one_field(media: SqlShelf, clock: HandClock) -> None:
    take(media, clock)
    with pytest.raises(EntryRefused, match="the very picture of Amber, inlet side, field 1"):
        take(media, clock, NEXT)
    assert take(media, clock).field == 1  # the same field again is a retake


@pytest.mark.parametrize(
    "field", [WantedField("nobody", Side.IN, 1), WantedField("s-a", Side.IN, 0)]
)
def test_a_field_that_is_not_there_is_refused(
    media: SqlShelf, clock: HandClock, field: WantedField
) -> None:
    with pytest.raises(EntryRefused, match="no such field"):
        take(media, clock, field)


def test_another_resolution_is_refused(media: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(EntryRefused, match=r"16 × 12 pixels, and Four times takes 8 × 6"):
        take(media, clock, set_up_id="m-2", data=picture(size=(16, 12)))
    turned = take(media, clock, set_up_id="m-2", data=picture(size=(6, 8)))
    assert turned.set_up_id == "m-2"


def test_the_stage_micrometer_is_no_medium(media: SqlShelf, clock: HandClock) -> None:
    from hashlib import sha256

    data = picture(5)
    stage = replace(SET_UP, id="m-3", name="Staged", scale_picture=sha256(data).hexdigest())
    media.add_set_up(stage, instrument_of_set_up(stage), data)
    with pytest.raises(EntryRefused, match="shows the stage micrometer"):
        take(media, clock, set_up_id="m-3", data=data)


def test_a_second_set_up_is_asked_about(media: SqlShelf, clock: HandClock) -> None:
    take(media, clock)
    with pytest.raises(AskAgain, match="were taken with Ten times"):
        take(media, clock, NEXT, 1, set_up_id="m-2")
    assert take(media, clock, NEXT, 1, set_up_id="m-2", sure=True).set_up_id == "m-2"


def test_a_set_up_calibrated_anew_is_out_of_use(media: SqlShelf, clock: HandClock) -> None:
    newer = replace(SET_UP, id="m-9", replaces=SET_UP.id)
    media.add_set_up(newer, instrument_of_set_up(newer))
    with pytest.raises(EntryRefused, match="not in use"):
        take(media, clock)
    assert take(media, clock, set_up_id="m-9").set_up_id == "m-9"


class Echo:
    """A measurer that says which bytes it was given, with which set-up."""

    def measure(self, data: bytes, set_up: object, progress: object) -> PictureAnswer:
        assert (data, set_up, progress) == (picture(), SET_UP, "told")
        return said(55.0)


def test_measuring_takes_the_bytes_and_the_set_up(media: SqlShelf, clock: HandClock) -> None:
    made = take(media, clock)
    answer = measured(media, Echo(), made, "told")
    assert answer == said(55.0)
    assert media.picture_answers("l-1") == []
