"""A worked strip, end to end through this room; readings invented, sums by hand.

48.0 in (±0.25) × 4.10 in (±0.01), 21.4 g dry (d 0.1): 168.547 g/m² with u 0.604, of which the
length has 70 %, the width 15 %, the mass 14 % (first order, JCGM 100 5.1.2).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchlog.measure.observe import Observer
from benchlog.measure.quantities import uncertainty_in, value_in
from benchlog.measure.reading import Reading
from benchlog.measure.rounding import short, with_uncertainty
from benchlog.measure.units import Quantity

Read = Callable[..., Reading]
UNIT = "gram / meter ** 2"


@pytest.fixture
def grammage(read: Read) -> Quantity:
    observer = Observer(())
    length = observer.observe("length", "a", [read("48.0 +/- 0.25 in")], "millimeter").quantity
    width = observer.observe("width", "a", [read("4.10 +/- 0.01 in")], "millimeter").quantity
    mass = observer.observe("mass", "a", [read("21.4 g", "gram", "mass")], "gram").quantity
    return (mass / (length * width)).to(UNIT)


def test_grammage_and_its_uncertainty(grammage: Quantity) -> None:
    assert value_in(grammage, UNIT) == pytest.approx(168.5471, abs=1e-4)
    assert uncertainty_in(grammage, UNIT) == pytest.approx(0.604068, abs=1e-5)


def test_grammage_is_printed_to_what_is_known(grammage: Quantity) -> None:
    assert with_uncertainty(grammage, UNIT) == "168.5 ± 1.2 g/m²"
    assert short(grammage, UNIT) == "168.5 g/m²"
    assert with_uncertainty(grammage, "ounce / yard ** 2") == "4.971 ± 0.035 oz/yd²"


def test_shares_of_variance_add_up(grammage: Quantity) -> None:
    parts = grammage.magnitude.error_components()
    total = sum(size**2 for size in parts.values())
    shares = {str(v.tag).split("/")[0]: s**2 / total for v, s in parts.items() if s}
    assert shares == pytest.approx({"mass": 0.142, "length": 0.704, "width": 0.154}, abs=1e-3)
