"""Findings of pictures: what they are unsure by, what two media share, and what cancels."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from benchlog.measure.coverage import degrees_of_freedom
from benchlog.measure.field_scatter import FieldSpread
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.picture_doubt import PictureDoubt
from benchlog.measure.reading import Reading

Read = Callable[..., Reading]
MICROSCOPE = Instrument("m-1", "Ten times", InstrumentKind.MICROSCOPE, "micrometer", 0.0, 0.0)
DOUBT = PictureDoubt("m-1", sampling=2.4, scale=0.2, light=1.8, own_light=0.8)
FIELDS = {
    ("d50", "a"): FieldSpread(1.5, 12.0, common=True, words="Fields spread."),
    ("d50", "b"): FieldSpread(1.1, 12.0, common=True, words="Fields spread."),
}
ROOT_3 = math.sqrt(3)


def seen(
    observer: Observer, readings: list[Reading], specimen: str = "a", attribute: str = "d50"
) -> Finding:
    return observer.observe(attribute, specimen, readings, "micrometer")


def taken(read: Read, *texts: str) -> list[Reading]:
    return [read(text, "micrometer", "length", instrument="m-1") for text in texts]


def observer(readings: list[Reading], **more: PictureDoubt) -> Observer:
    doubts = {r.id: DOUBT for r in readings} | more
    return Observer([MICROSCOPE], pictures=doubts, fields=FIELDS)


def parts(number: object) -> dict[str, float]:
    return {str(v.tag): size for v, size in number.error_components().items() if size}  # type: ignore[attr-defined]


def test_every_part_is_named(read: Read) -> None:
    fields = taken(read, "40 um", "42 um", "44 um")
    finding = seen(observer(fields), fields)
    assert finding.quantity is not None
    assert parts(finding.quantity.magnitude) == {
        "d50/a/fields": pytest.approx(1.5),
        "picture scale/m-1": pytest.approx(0.2),
        "picture light/m-1/d50": pytest.approx(1.8 / ROOT_3),
        "d50/a/light": pytest.approx(0.8 / ROOT_3),
    }
    assert finding.scatter == "Fields spread."
    assert finding.set_ups == (("m-1", "Ten times"),)


def test_scale_and_common_light_cancel_between_media(read: Read) -> None:
    one, other = taken(read, "40 um", "42 um"), taken(read, "50 um", "52 um")
    bench = observer([*one, *other])
    a, b = seen(bench, one).quantity, seen(bench, other, "b").quantity
    assert a is not None
    assert b is not None
    gap = (a - b).magnitude
    left = math.hypot(1.5, 1.1, 0.8 / ROOT_3, 0.8 / ROOT_3)
    assert gap.std_dev == pytest.approx(left)
    # The common estimate's freedom counts once (JCGM 100 G.4.1): ν = u⁴ / ((s₁² + s₂²)² / 12).
    assert degrees_of_freedom(gap) == pytest.approx(12 * left**4 / (1.5**2 + 1.1**2) ** 2)


def test_the_scale_is_common_to_all_figures_and_light_is_not(read: Read) -> None:
    fields = taken(read, "40 um", "42 um")
    bench = observer(fields)
    d50, width = (seen(bench, fields, attribute=key).quantity for key in ("d50", "width"))
    assert d50 is not None
    assert width is not None
    shared = parts(d50.magnitude).keys() & parts(width.magnitude).keys()
    assert shared == {"picture scale/m-1"}


def test_without_known_fields_repeats_scatter_by_themselves(read: Read) -> None:
    fields = taken(read, "40 um", "42 um")
    finding = seen(Observer([MICROSCOPE], pictures={fields[0].id: DOUBT}), fields)
    assert finding.quantity is not None
    got = parts(finding.quantity.magnitude)
    assert got["d50/a/repeats"] == pytest.approx(1.0)
    # Of two readings, one is a picture's: half of what its scale and light may shift is left.
    assert got["picture scale/m-1"] == pytest.approx(0.1)
    assert got["d50/a/light"] == pytest.approx(0.4 / ROOT_3)


def test_two_set_ups_are_both_named(read: Read) -> None:
    other = Instrument("m-2", "Four times", InstrumentKind.MICROSCOPE, "micrometer", 0.0, 0.0)
    mixed = [*taken(read, "40 um"), read("41 um", "micrometer", "length", instrument="m-2")]
    finding = seen(Observer([MICROSCOPE, other]), mixed)
    assert finding.set_ups == (("m-1", "Ten times"), ("m-2", "Four times"))


def test_what_was_typed_is_no_picture_of_the_set_up(read: Read) -> None:
    typed = read("41 um", "micrometer", "length")
    finding = seen(Observer([MICROSCOPE]), [*taken(read, "40 um"), typed])
    assert finding.set_ups == (("", "by hand"), ("m-1", "Ten times"))
    assert seen(Observer([MICROSCOPE]), [typed]).set_ups == ()
