"""Lines understood one by one, against the shapes that are known."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.instruments.lines import LONGEST_LINE
from benchlog.instruments.telegram import NotAWeight, plain_text, read_line
from benchlog.instruments.template_file import load_templates
from benchlog.measure.units import registry
from benchlog.tasks.ports import Steadiness, Weight

SHAPES = load_templates()
STABLE, MOVING, SILENT = Steadiness.STABLE, Steadiness.MOVING, Steadiness.SILENT
OVER, UNDER = Steadiness.OVERLOAD, Steadiness.UNDERLOAD

# Source of each row: P = a published line form; T = common practice, no source; M = from memory.
WEIGHTS = [
    ("T", "words-before", b"ST,GS,+00287.4  g", "287.4", "gram", STABLE, False),
    ("T", "words-before", b"US,NT,-  12.34 g", "-12.34", "gram", MOVING, True),
    ("P", "words-before", b"ST,+00020.50  g", "20.50", "gram", STABLE, None),
    ("P", "words-before", b"ST,GS,+0020.50 g", "20.50", "gram", STABLE, False),
    ("T", "words-before", b"ST,TR,+000.634 lb", "0.634", "pound", STABLE, None),
    ("T", "plain", b"  287.4 g", "287.4", "gram", SILENT, None),
    ("T", "plain", b"+287.4", "287.4", "gram", SILENT, None),
    ("T", "plain", b"0.634 lb", "0.634", "pound", SILENT, None),
    ("T", "plain", b"10.138oz", "10.138", "ounce", SILENT, None),
    ("T", "plain", b"0.2874 kg", "0.2874", "kilogram", SILENT, None),
    ("T", "plain", b"1437.00 ct", "1437.00", "carat", SILENT, None),
    ("T", "plain", b"4435.2 gr", "4435.2", "grain", SILENT, None),
    ("T", "plain", b"4435.2 GN", "4435.2", "grain", SILENT, None),
    ("T", "plain", b"287400 mg", "287400", "milligram", SILENT, None),
    ("T", "plain", b"  12.3 G", "12.3", "gram", SILENT, None),
    ("T", "plain", b"-   .5 g", "-0.5", "gram", SILENT, None),
    ("T", "question-mark-after", b"287.4 g ?", "287.4", "gram", MOVING, None),
    ("T", "question-mark-after", b"287.4 g", "287.4", "gram", STABLE, None),
    ("T", "name-block", b"N     + 287.4  g  ", "287.4", "gram", STABLE, True),
    ("M", "name-block", b"N     + 287.4     ", "287.4", "gram", MOVING, True),
    ("T", "letter-after-command", b"S S    287.40 g", "287.40", "gram", STABLE, None),
    ("T", "letter-after-command", b"S D    287.40 g", "287.40", "gram", MOVING, None),
    ("P", "letter-after-unit", b"+00123.4 g S", "123.4", "gram", STABLE, None),
    ("P", "letter-after-unit", b"-00123.4 g U", "-123.4", "gram", MOVING, None),
    ("P", "marker-before-sign", b"SI ? -  20.50 g  ", "-20.50", "gram", MOVING, None),
    ("P", "marker-before-sign", b"SI   -  20.50 g  ", "-20.50", "gram", STABLE, None),
    ("P", "blank-unit", b"+   20.50 g  ", "20.50", "gram", STABLE, None),
    ("M", "blank-unit", b"+   20.50    ", "20.50", "gram", MOVING, None),
    ("P", "five-flags", b" 1G     287.400 g  ", "287.400", "gram", STABLE, False),
    ("P", "five-flags", b" 1NM    -12.340 lb ", "-12.340", "pound", MOVING, True),
    ("T", "decimal-comma", b"  287,40 g", "287.40", "gram", SILENT, None),
]

BEYOND = [
    ("P", "words-before", b"OL,+9999999E+19", OVER),
    ("T", "words-before", b"OL,-9999999E+19", UNDER),
    ("T", "letter-after-command", b"S +", OVER),
    ("T", "letter-after-command", b"S -", UNDER),
    ("P", "marker-before-sign", b"SI ^   999.99 g", OVER),
    ("P", "marker-before-sign", b"SI v -  99.99 g", UNDER),
    ("P", "blank-unit", b"       H     ", OVER),
    ("P", "blank-unit", b"       L     ", UNDER),
    ("T", "name-block", b"Stat        H", OVER),
    ("T", "name-block", b"Stat        L", UNDER),
    ("T", "plain", b"  OL", OVER),
    ("T", "plain", b"-----", UNDER),
    ("T", "plain", b"^^^^^^", OVER),
    ("T", "plain", b"vvvvvv", UNDER),
    ("T", "plain", b"+9999999E+19", OVER),
    ("M", "five-flags", b"O1G   ------    g  ", OVER),
    ("M", "five-flags", b"U1G   ------    g  ", UNDER),
]


def read(raw: bytes, key: str, unit: str = "gram") -> Weight | NotAWeight:
    return read_line(raw, SHAPES.shape(key), SHAPES.units, unit)


@pytest.mark.parametrize(("source", "key", "raw", "value", "unit", "steadiness", "net"), WEIGHTS)
def test_known_line_gives_weight(source, key, raw, value, unit, steadiness, net):
    weight = read(raw, key)
    assert isinstance(weight, Weight), weight
    assert weight.said is not None
    assert str(weight.said.value) == value, "the digits are kept"
    assert weight.said.unit == unit
    assert (weight.steadiness, weight.net, weight.raw) == (steadiness, net, raw)


@pytest.mark.parametrize(("source", "key", "raw", "steadiness"), BEYOND)
def test_beyond_range_has_no_weight(source, key, raw, steadiness):
    weight = read(raw, key)
    assert isinstance(weight, Weight), weight
    assert (weight.said, weight.steadiness, weight.raw) == (None, steadiness, raw)


@pytest.mark.parametrize(
    ("key", "raw", "why"),
    [
        ("plain", b"", "empty"),
        ("plain", b"\0\0 ", "empty"),
        ("plain", b"hello", "shape"),
        ("plain", b"287.4.1 g", "shape"),
        ("plain", b"287.4 st", "'st', a unit that is not known"),
        ("plain", b"\xb2\xb8\xb7.4 g", "no text"),
        ("plain", b"1" * (LONGEST_LINE + 1), "longer"),
        ("plain", b"0 lb 10.1 oz", "shape"),
        ("words-before", b"ST,GS,", "no number"),
        ("words-before", b"287.4 g", "shape"),
        ("letter-after-unit", b"+00123.4 g E", "no weight to give"),
        ("letter-after-command", b"S I", "no weight to give"),
        ("blank-unit", b"       C     ", "no weight to give"),
    ],
)
def test_no_weight_says_why(key, raw, why):
    fault = read(raw, key)
    assert isinstance(fault, NotAWeight), fault
    assert why in fault.why
    assert fault.raw == raw


def test_silent_unit_is_the_configured():
    weight = read(b"+10.14", "plain", unit="ounce")
    assert isinstance(weight, Weight)
    assert weight.said is not None
    assert (weight.said.unit, weight.said.text) == ("ounce", "10.14 ounce")


def test_nul_bytes_are_overlooked():
    weight = read(b"\0  287.4\0 g\0", "plain")
    assert isinstance(weight, Weight)
    assert weight.said is not None
    assert weight.said.value == Decimal("287.4")
    assert weight.raw == b"\0  287.4\0 g\0", "what came in is kept as it came"


def test_many_digits_are_never_rounded():
    digits = "-" + "1234567890" * 4 + ".5"
    weight = read(digits.encode() + b" g", "plain")
    assert isinstance(weight, Weight)
    assert weight.said is not None
    assert str(weight.said.value) == digits


def test_minus_zero_is_zero():
    weight = read(b"-  0.00 g", "plain")
    assert isinstance(weight, Weight)
    assert weight.said is not None
    assert (str(weight.said.value), weight.said.text) == ("0.00", "0.00 g")


def test_every_unit_is_a_mass():
    for spelling, name in SHAPES.units.items():
        weight = read(b"1 " + spelling.encode(), "plain")
        assert isinstance(weight, Weight)
        assert weight.said is not None
        assert weight.said.unit == name
        assert registry().Quantity(1, name).check("[mass]")


@given(raw=st.binary(max_size=140), shape=st.sampled_from(SHAPES.shapes))
def test_any_bytes_give_weight_or_fault(raw, shape):
    got = read_line(raw, shape, SHAPES.units, "gram")
    assert isinstance(got, Weight | NotAWeight)
    assert got.raw == raw


NEARLY = st.text("STUSGNOL,+-0123456789. gk?^vHE", max_size=30)


@given(text=NEARLY, shape=st.sampled_from(SHAPES.shapes))
def test_near_misses_never_invent_digits(text, shape):
    got = read_line(text.encode(), shape, SHAPES.units, "gram")
    if isinstance(got, Weight) and got.said is not None:
        digits = f"{got.said.value.copy_abs():f}".lstrip("0.")
        assert digits.rstrip(".") in text.replace(",", ".") or not digits


@given(st.binary(max_size=LONGEST_LINE))
def test_plain_text_has_no_odd_bytes(raw):
    text = plain_text(raw)
    assert isinstance(text, NotAWeight) or (text.isascii() and "\0" not in text and text.strip())
