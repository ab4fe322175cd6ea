"""A number typed where the sequence asks for a picture's figure."""

from __future__ import annotations

import pytest

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.tasks.look import tool_in_hand
from benchlog.tasks.ports import Place
from tests.small_media import SPIN_ON

SET_UP = Instrument("m-1", "4x", InstrumentKind.MICROSCOPE, "micrometer", 0.01, 0.0)


@pytest.mark.parametrize("hand", [(), (("microscope", SET_UP.id),)])
def test_it_is_taken_with_no_set_up(hand: tuple[tuple[str, str], ...]) -> None:
    """It would stand as sure as a picture, and without its scale's doubt."""
    place = Place("l-1", "microscope", "opening_d50_in", "s-a", tools=hand)
    d50 = SPIN_ON.attribute("opening_d50_in")
    assert d50.instrument == SET_UP.kind
    assert tool_in_hand(d50, place, [SET_UP]) is None
