"""What findings of one record share: instruments by load, corrections (JCGM 100)."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.part import Spread, part_of
from benchlog.measure.quantities import uncertainty_in
from benchlog.measure.reading import Reading

Read = Callable[..., Reading]
ROOT_3, ROOT_12 = math.sqrt(3), math.sqrt(12)

# Class III, e 1 g: in service ±1 g to 500 g, ±2 g to 2000 g (OIML R 76-1:2006, Table 6, 3.5.2)
SCALE = Instrument("pan", "scale", InstrumentKind.SCALE, "gram", 1.0, 9.0, None, "", "III", 1.0)


def weighed(observer: Observer, read: Read, name: str, *texts: str) -> Finding:
    readings = [read(text, "gram", "mass", instrument="pan") for text in texts]
    return observer.observe(name, "a", readings, "gram")


def u(quantity: object, unit: str = "gram") -> float:
    return uncertainty_in(quantity, unit)  # type: ignore[arg-type]


@pytest.mark.parametrize(("text", "half"), [("300 g", 1.0), ("700 g", 2.0), ("2500 g", 3.0)])
def test_permissible_error_follows_the_load(read: Read, text: str, half: float) -> None:
    finding = weighed(Observer([SCALE]), read, "whole", text)
    assert u(finding.quantity) == pytest.approx(math.hypot(1.0 / ROOT_12, half / ROOT_3))


def test_load_is_taken_in_the_scale_unit(read: Read) -> None:
    readings = [read("1.2 lb", "gram", "mass", instrument="pan")]  # 544 g, beyond 500 e
    finding = Observer([SCALE]).observe("whole", "a", readings, "ounce")
    assert u(finding.quantity) == pytest.approx(math.hypot(1.0 / ROOT_12, 2.0 / ROOT_3))


def test_repeats_across_a_step_share_its_mean(read: Read) -> None:
    finding = weighed(Observer([SCALE]), read, "whole", "500 g", "501 g")
    assert finding.quantity is not None
    parts = finding.quantity.magnitude.error_components()
    (size,) = [size for v, size in parts.items() if v.tag == "instrument/pan"]
    assert size == pytest.approx(1.5 / ROOT_3)


def test_one_scale_cancels_at_like_loads_only(read: Read) -> None:
    # JCGM 100 F.1.2: the common error leaves the difference as far as it is common
    observer = Observer([SCALE])
    light, lighter = (weighed(observer, read, t, t).quantity for t in ("300 g", "280 g"))
    heavy = weighed(observer, read, "heavy", "700 g").quantity
    own = math.sqrt(2) / ROOT_12
    assert u(light - lighter) == pytest.approx(own)
    assert u(heavy - light) == pytest.approx(math.hypot(own, 1.0 / ROOT_3))


def shifted(read: Read, text: str, group: str = "g1") -> Reading:
    return replace(read(text, instrument="cal"), group=group)


def test_correction_is_one_error_of_all_its_readings(read: Read) -> None:
    bare = Instrument("cal", "calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.0)
    observer = Observer([bare], corrections={"g1": 0.03})
    one = observer.observe("one", "a", [shifted(read, "12.00")], "millimeter").quantity
    other = observer.observe("other", "b", [shifted(read, "15.00")], "inch").quantity
    assert u(one, "millimeter") == pytest.approx(math.hypot(0.01 / ROOT_12, 0.03 / ROOT_3))
    assert u(one - other, "millimeter") == pytest.approx(math.sqrt(2) * 0.01 / ROOT_12)
    assert u(one + other, "millimeter") == pytest.approx(
        math.hypot(math.sqrt(2) * 0.01 / ROOT_12, 2 * 0.03 / ROOT_3)
    )


def test_correction_counts_by_its_share_of_repeats(read: Read, calliper: Instrument) -> None:
    observer = Observer([calliper], corrections={"g1": 0.03})
    readings = [shifted(read, "12.00"), shifted(read, "12.00", "")]
    finding = observer.observe("one", "a", readings, "millimeter")
    assert finding.quantity is not None
    parts = {v: s for v, s in finding.quantity.magnitude.error_components().items() if s}
    found = {part_of(v.tag): s for v, s in parts.items() if v.tag == "correction/g1"}
    assert list(found.values()) == [pytest.approx(0.5 * 0.03 / ROOT_3)]
    assert [(p.spread, p.freedom) for p in found] == [(Spread.RECTANGULAR, math.inf)]


def test_unknown_correction_adds_nothing(read: Read, calliper: Instrument) -> None:
    plain, grouped = (
        Observer([calliper]).observe("one", "a", [shifted(read, "12.00", g)], "millimeter")
        for g in ("", "g1")
    )
    assert u(plain.quantity, "millimeter") == u(grouped.quantity, "millimeter")


def test_finding_names_the_kinds_of_its_tools(read: Read, calliper: Instrument) -> None:
    tape = Instrument("tape", "tape", InstrumentKind.TAPE, "millimeter", 1.0, 0.5)
    observer = Observer([calliper, tape])
    for tools, kinds in [
        (("cal",), ("calliper",)),
        (("tape", "cal", "tape"), ("calliper", "tape")),
        ((None, "tape"), ("", "tape")),
        ((None,), ("",)),
    ]:
        readings = [read("12", instrument=tool) for tool in tools]
        assert observer.observe("thing", "a", readings, "millimeter").taken_with == kinds


def test_counts_that_disagree_are_rectangular(read: Read) -> None:
    readings = [read(text, "count", "count") for text in ("49", "51")]
    finding = Observer(()).observe("pleats", "a", readings, "count")
    assert finding.quantity is not None
    parts = {v.tag: s for v, s in finding.quantity.magnitude.error_components().items() if s}
    assert parts == {"pleats/a/counts": pytest.approx(1 / ROOT_3)}
    assert [part_of(tag).spread for tag in parts] == [Spread.RECTANGULAR]
