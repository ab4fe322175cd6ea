"""Set-ups of a microscope: typed or from a stage picture, named, replaced and never changed."""

from __future__ import annotations

import hashlib
from dataclasses import replace

import pytest

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.instrument import InstrumentKind
from benchlog.measure.micrograph import ScaleFrom
from benchlog.shelf import SqlShelf
from benchlog.tasks.picture_ports import StageScale
from benchlog.tasks.set_ups import (
    SetUpWords,
    add_stage_set_up,
    add_typed_set_up,
    current_set_ups,
    instruments_listed,
    scale_words,
    set_up_words,
)
from tests.small_media import picture
from tests.small_trade import HandClock

WORDS = SetUpWords("Ten times", "Bench microscope", "10×", "above")
STAGE = StageScale(
    um_per_px=0.46, u_um_per_px=0.0023, px_per_division=21.74, width_px=1600, height_px=1200,
    lines=((10.0, 0.0, 10.0, 1200.0), (31.7, 0.0, 31.7, 1200.0), (53.5, 0.0, 53.5, 1200.0)),
    lines_missing=1, residual_share=0.012, curvature_share=0.004,
    problems=("The lines are a little blurred.",),
)  # fmt: skip


def test_a_typed_scale_is_kept_with_its_instrument(fair: SqlShelf, clock: HandClock) -> None:
    made = add_typed_set_up(fair, clock, WORDS, "0,46 µm", "0.5 %", size_px=(1600, 1200))
    assert fair.set_ups() == [made]
    assert made.u_um_per_px == pytest.approx(0.0023)
    assert made.scale_from is ScaleFrom.TYPED
    tool = next(i for i in fair.instruments() if i.id == made.id)
    assert (tool.kind, tool.unit, tool.name) == (
        InstrumentKind.MICROSCOPE, "micrometer", "Ten times",
    )  # fmt: skip
    assert "0.46 µm a pixel, standard uncertainty 0.5 %, typed" in tool.note
    assert set_up_words(made) == "Bench microscope, 10×, light from above, 1600 × 1200 px"


@pytest.mark.parametrize(
    ("scale", "u", "said"),
    [
        ("", "1 %", "Nothing was typed"),
        ("0", "1 %", "is no scale"),
        ("-0.4", "1 %", "is no scale"),
        ("0.4 to 0.5", "1 %", "is no scale"),
        ("3 g", "1 %", "measures a mass"),
        ("0.46", "-0.1", "is no uncertainty"),
        ("0.46", "-1 %", "is no uncertainty"),
    ],
)
def test_what_is_no_scale_is_refused(
    fair: SqlShelf, clock: HandClock, scale: str, u: str, said: str
) -> None:
    with pytest.raises(EntryRefused, match=said):
        add_typed_set_up(fair, clock, WORDS, scale, u)
    assert fair.set_ups() == []


@pytest.mark.parametrize(("scale", "u"), [("460", "1 %"), ("0.46", "0"), ("0.46", "9 %")])
def test_an_unlikely_scale_is_asked_about(
    fair: SqlShelf, clock: HandClock, scale: str, u: str
) -> None:
    with pytest.raises(AskAgain):
        add_typed_set_up(fair, clock, WORDS, scale, u)
    assert add_typed_set_up(fair, clock, WORDS, scale, u, sure=True).um_per_px == float(scale)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"name": " "}, "has no name"),
        ({"objective": ""}, "has no objective"),
        ({"light": "sideways"}, "no direction of light"),
        ({"replaces": "nobody"}, "not among those in use"),
        ({"reference_fibre": "Wire 0.05"}, "wants both"),
        ({"edge_offset_px": "0.3"}, "wants both"),
        ({"reference_fibre": "Wire", "edge_offset_px": "much"}, "is no offset"),
        ({"reference_fibre": "Wire", "edge_offset_px": "nan"}, "larger than any light"),
        ({"reference_fibre": "Wire", "edge_offset_px": "12"}, "larger than any light"),
    ],
)
def test_words_that_cannot_stand_are_refused(
    fair: SqlShelf, clock: HandClock, change: dict[str, str], said: str
) -> None:
    with pytest.raises(EntryRefused, match=said):
        add_typed_set_up(fair, clock, replace(WORDS, **change), "0.46", "1 %")
    assert fair.set_ups() == []


def test_a_reference_fibre_keeps_its_offset(fair: SqlShelf, clock: HandClock) -> None:
    words = replace(WORDS, reference_fibre="wire 0.05 mm", edge_offset_px="−0,37 px")
    made = add_typed_set_up(fair, clock, words, "0.46", "1 %")
    assert made.edge_offset_px == -0.37
    assert set_up_words(made).endswith("edge offset −0.37 px by wire 0.05 mm")


def test_a_stage_scale_waits_for_the_division(fair: SqlShelf, clock: HandClock) -> None:
    data = picture()
    with pytest.raises(AskAgain, match=r"lie 10 µm apart\. The lines are a little blurred"):
        add_stage_set_up(fair, clock, WORDS, STAGE, 10.0, 0.01, data)
    made = add_stage_set_up(fair, clock, WORDS, STAGE, 10.0, 0.01, data, sure=True)
    assert fair.scale_picture(made.id) == data
    assert made.scale_picture == hashlib.sha256(data).hexdigest()
    assert (made.width_px, made.height_px, made.division_um) == (1600, 1200, 10.0)
    assert scale_words(made).endswith("by stage micrometer, division 10 µm")
    assert made.scale_notes == (
        "3 lines found, 1 missing between them, 21.74 px a division.",
        "Lines lie 1.2 % of a division off even spacing.",
        "The spacing changes by 0.4 % across the picture.",
        "The lines are a little blurred.",
    )


@pytest.mark.parametrize(("division", "u"), [(0.0, 0.0), (-10.0, 0.0), (10.0, -1.0)])
def test_no_division_is_refused(
    fair: SqlShelf, clock: HandClock, division: float, u: float
) -> None:
    with pytest.raises(EntryRefused, match="no division"):
        add_stage_set_up(fair, clock, WORDS, STAGE, division, u, picture(), sure=True)


def test_a_new_calibration_takes_the_place_of_the_old(fair: SqlShelf, clock: HandClock) -> None:
    old = add_typed_set_up(fair, clock, WORDS, "0.46", "1 %")
    with pytest.raises(EntryRefused, match="There is a set-up 'Ten times' already"):
        add_typed_set_up(fair, clock, WORDS, "0.47", "1 %")
    new = add_typed_set_up(fair, clock, replace(WORDS, replaces=old.id), "0.47", "1 %")
    other = add_typed_set_up(fair, clock, replace(WORDS, name="Four times"), "1.1", "1 %")
    assert current_set_ups(fair) == [other, new]
    assert fair.set_ups() == [old, new, other]
    with pytest.raises(EntryRefused, match="not among those in use"):
        add_typed_set_up(fair, clock, replace(WORDS, replaces=old.id), "0.48", "1 %")


def test_instruments_leave_out_what_was_replaced(fair: SqlShelf, clock: HandClock) -> None:
    others = [one.id for one in fair.instruments()]
    old = add_typed_set_up(fair, clock, WORDS, "0.46", "0.5 %")
    assert [one.id for one in instruments_listed(fair)] == [*others, old.id]
    new = add_typed_set_up(fair, clock, replace(WORDS, replaces=old.id), "0.47", "0.5 %")
    assert [one.id for one in instruments_listed(fair)] == [*others, new.id]
