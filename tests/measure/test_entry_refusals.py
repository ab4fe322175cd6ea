"""What cannot be taken, and what the reviewer is told; wording is our own."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.entry import expected, parse_entry
from benchlog.measure.reading import Said
from benchlog.measure.unit_words import UNIT_WORDS

LENGTH_WANTED = "a length such as 12.3 mm or 1/2 in"

REFUSED = [
    # text, a piece of what is said to be wrong
    ("", "Nothing was typed"),
    ("   ", "Nothing was typed"),
    ("wide", "not understood"),
    ("~", "not understood"),
    ("about", "not understood"),
    ("inf", "not understood"),
    ("-inf", "not understood"),
    ("NaN", "not understood"),
    ("0x1F", "not a unit"),
    ("5 parsecs", "'parsecs' is not a unit"),
    ("5 6", "several numbers"),
    ("5; 6", "several numbers"),
    ("8-11-14", "several numbers"),
    ("1 234", "several numbers"),
    ("$12.99", "'$12.99' is not understood"),
    ("<5", "only one end"),
    ("5 +/- 0", "nothing after"),
    ("11-8", "not the smaller"),
    ("8-8", "not the smaller"),
    ("3 mm - 1 in", "mixes two units"),
    ("3/0", "divides by nought"),
    ("1e10", "no size"),
    ("1e400", "no size"),
    ("1e99999999", "no size"),
    ("1e-30", "no size"),
    ("123456789012345678901234", "too many digits"),
    ("1,234,567", "more than one mark"),
    ("1,234.5", "more than one mark"),
    ("1.234,5", "more than one mark"),
    ("7 9/3", "several numbers"),
    ("٣٥", "not understood"),
    ("4 ft 14 in", "several numbers"),
    ("4 ft -2 in", "mixes two units"),
    ("7 9/3 to 12", "several numbers"),
    ("5 +/- 7 9/3", "several numbers"),
    ("between 8", "not understood"),
    ("9" * 81, "too long"),
]


@pytest.mark.parametrize(("text", "piece"), REFUSED)
def test_nonsense_is_refused_with_advice(text: str, piece: str) -> None:
    with pytest.raises(EntryRefused) as caught:
        parse_entry(text, "millimeter", "length")
    assert piece in caught.value.what
    assert caught.value.do


def test_ambiguous_comma_says_both_ways() -> None:
    with pytest.raises(EntryRefused) as caught:
        parse_entry("1,234 mm", "millimeter", "length")
    assert "1234" in caught.value.do
    assert "1.234" in caught.value.do


@pytest.mark.parametrize("text", ["15 000 km", "1 234", "2 500 000"])
def test_thousands_set_apart_say_how_to_type_them(text: str) -> None:
    with pytest.raises(EntryRefused, match="several numbers") as caught:
        parse_entry(text, "kilometer", "length")
    assert "without the gap" in caught.value.do


def test_two_readings_in_a_row_are_no_thousands() -> None:
    with pytest.raises(EntryRefused, match="several numbers") as caught:
        parse_entry("12 1500", "millimeter", "length")
    assert "without the gap" not in caught.value.do


@pytest.mark.parametrize("text", ["5 g", "5 psi", "5 %", "5 turns", "5 in2", "5 °C", "1 lb 2 oz"])
def test_wrong_dimension_names_expected(text: str) -> None:
    with pytest.raises(EntryRefused) as caught:
        parse_entry(text, "millimeter", "length")
    assert "a length is asked for" in caught.value.what
    assert LENGTH_WANTED in caught.value.do


def test_unknown_dimension_asks_for_a_number() -> None:
    with pytest.raises(EntryRefused) as caught:
        parse_entry("wide", "millimeter", "no such word")
    assert "a number" in caught.value.do


def test_percent_is_no_hardness() -> None:
    with pytest.raises(EntryRefused):
        parse_entry("60 %", "dimensionless", "hardness")


def test_length_is_no_pressure_off_the_column() -> None:
    with pytest.raises(EntryRefused):
        parse_entry("89 mm", "pound_force_per_square_inch", "pressure")


def test_mass_is_mass_unless_force_asked() -> None:
    with pytest.raises(EntryRefused):
        parse_entry("8 lbf", "gram", "mass")


def test_millipascal_is_not_megapascal() -> None:
    with pytest.raises(EntryRefused):
        parse_entry("5 MPA", "kilopascal", "pressure")


@pytest.mark.parametrize("word", DIMENSIONS)
def test_every_example_can_be_typed(word: str) -> None:
    dimension = DIMENSIONS[word]
    assert dimension.phrase in expected(word)
    for example in dimension.example.replace(" or ", ", ").split(", "):
        assert parse_entry(example, dimension.si_unit, word).value > 0


PIECES = [
    "8",
    "11",
    "1/2",
    "3 7/16",
    ",",
    ".",
    "-",
    " to ",
    "~",
    "about",
    "+/-",
    "e",
    "°",
    "µ",
    " ",
    "'",
    '"',
    "in",
    "mm",
    "g",
    "/",
    "½",
    "²",
    "١",
    "1e9",
    "−",
    "between ",
    "and",
]


def taken_or_refused(text: str, word: str) -> Said | EntryRefused:
    """Return what comes out; anything raised but EntryRefused fails the test."""
    try:
        return parse_entry(text, DIMENSIONS[word].si_unit, word)
    except EntryRefused as refusal:
        return refusal


@given(
    st.one_of(st.text(max_size=90), st.lists(st.sampled_from(PIECES), max_size=9).map("".join)),
    st.sampled_from(sorted(DIMENSIONS)),
)
def test_any_text_is_taken_or_refused(text: str, word: str) -> None:
    outcome = taken_or_refused(text, word)
    if isinstance(outcome, EntryRefused):
        assert outcome.what
        assert outcome.do
        return
    assert outcome.value.is_finite()
    if outcome.low is not None:
        assert outcome.high is not None
        assert outcome.low < outcome.value < outcome.high


@given(st.sampled_from(sorted(UNIT_WORDS)), st.decimals("0.01", "9999", places=2))
def test_every_unit_word_is_taken(word: str, number: object) -> None:
    unit, dimension = UNIT_WORDS[word]
    said = parse_entry(f"{number} {word}", "millimeter", dimension)
    assert said.value == number
    assert said.unit == unit
