"""A reading that contradicts others is asked about on the strip; Enter once more keeps it."""

from __future__ import annotations

import pytest

from tests.window.bench_scenes import Seat


@pytest.fixture
def measured(seat: Seat) -> Seat:
    """A bench with a large can measured; its weight is asked."""
    for attribute, text in (("can_diameter", "119.0"), ("can_height", "179.0")):
        seat.go_to(attribute)
        seat.answer(text)
    seat.go_to("whole_mass")
    return seat


def kept(seat: Seat) -> list[str]:
    return [r.text for r in seat.readings() if r.attribute == "whole_mass"]


def test_contradiction_stands_on_the_strip(measured: Seat) -> None:
    measured.answer("200.0")
    assert "200.0 g is too light for a can 119.0 mm across and 179.0 mm high." in measured.strip
    assert "Enter once more" in measured.strip
    assert kept(measured) == []


def test_enter_once_more_keeps_it(measured: Seat) -> None:
    measured.answer("200.0")
    measured.enter()
    assert kept(measured) == ["200.0"]


def test_another_value_is_looked_at_afresh(measured: Seat) -> None:
    measured.answer("200.0")
    measured.answer("900.0")
    assert kept(measured) == ["900.0"]
