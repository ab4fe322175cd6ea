"""What a rubber is called, on what that rests, and the temperatures of its family."""

from __future__ import annotations

import pytest

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.measure.state import State
from benchlog.trade.attribute import Judged
from tests.derive.found import figures, without, word

PARTS = {
    "gasket": "gasket material",
    "adbv": "material of the drain-back valve",
    "o_ring": "material of the O-rings",
}


def rubber_of(part, family, by=None):
    known = [word(f"{part}_material", family)]
    if by:
        known.append(word(f"{part}_material_by", by))
    found = figures(*known)
    return found[f"{part}_rubber"], found[f"{part}_service"]


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize(
    # Usual service temperatures in °C: upper ends of published tables of rubber makers
    # (NBR 100 to 125, HNBR 160, ACM 170, VMQ 230, FKM −20 to 250), the others from memory.
    ("family", "name", "celsius"),
    [
        ("nbr", "Nitrile (NBR)", "−30 °C up to 100 to 125 °C"),
        ("hnbr", "Hydrogenated nitrile (HNBR)", "−30 °C up to 150 to 160 °C"),
        ("acm", "Acrylic rubber (ACM)", "−20 °C up to 150 to 170 °C"),
        ("vmq", "Silicone (VMQ)", "−60 °C up to 200 to 230 °C"),
        ("fkm", "Fluorocarbon rubber (FKM)", "−20 °C up to 200 to 250 °C"),
    ],
)
def test_data_sheet_establishes_any_family(part, family, name, celsius):
    rubber, service = rubber_of(part, family, "data_sheet")
    assert rubber.word == f"{name}, by the maker's statement or data sheet"
    assert service.word.startswith(celsius)
    assert "published B: " in service.word
    assert len(service.readings) == 2


def test_both_scales_of_temperature_are_given():
    # −30, 100 and 125 °C by hand: °F = 1.8 °C + 32.
    assert "(−22 °F up to 212 to 257 °F)" in rubber_of("gasket", "nbr", "data_sheet")[1].word


def test_ash_test_tells_silicone_only():
    # Silicone leaves a solid white ash; the others burn away much alike (published B).
    assert rubber_of("gasket", "vmq", "ash")[0].word == "Silicone (VMQ), by an ash test"
    for family in ("nbr", "hnbr", "acm", "fkm"):
        rubber, service = rubber_of("gasket", family, "ash")
        assert rubber.word.startswith("family not established: ")
        assert "tells silicone and no other" in service.refusal


@pytest.mark.parametrize(
    ("by", "told"), [("look", "look only"), (None, "does not say how it was established")]
)
def test_look_or_silence_establishes_nothing(by, told):
    rubber, service = rubber_of("adbv", "vmq", by)
    assert rubber.word.startswith("family not established: Silicone (VMQ) by ")
    assert told in rubber.word
    assert told in service.refusal


@pytest.mark.parametrize("answer", ["dark_rubber", "coloured_rubber", "other"])
def test_untested_rubber_has_no_limits(answer):
    rubber, service = rubber_of("gasket", answer, "data_sheet")
    assert rubber.word.startswith("family not established: ")
    assert service.word is None
    assert "no limits" in service.refusal


@pytest.mark.parametrize("part", PARTS)
def test_missing_answer_is_named(part):
    found = figures(without(f"{part}_material", State.COULD_NOT_TELL))
    for figure in (found[f"{part}_rubber"], found[f"{part}_service"]):
        assert figure.refusal == f"No {PARTS[part]}: could not tell."


def test_no_rubber_is_ranked():
    kinds = [k for k in FIGURE_KINDS if k.key.endswith(("_rubber", "_service"))]
    assert {k.judged for k in kinds} == {Judged.DIFFERENT}
    assert len(kinds) == 2 * len(PARTS)
