"""Ranges hold what they should; the files never say what a bench cannot show."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.trade.attribute import Range
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.sequence_file import load_sequence

NEVER_SAID = re.compile(
    r"\bfits\b|filters? better|holds? more|flows? better|stronger filter|better filter", re.I
)

FILES = sorted(
    path for room in ("sequence", "trade") for path in (resources_folder() / room).rglob("*.toml")
)

number = st.floats(allow_nan=False, allow_infinity=False)


@given(number, number, number)
def test_range_holds_what_lies_between(one, other, value):
    span = Range(min(one, other), max(one, other))
    assert span.holds(value) == (sorted([one, other, value])[1] == value)


@given(number, number)
def test_range_holds_its_ends(one, other):
    span = Range(min(one, other), max(one, other))
    assert span.holds(span.low)
    assert span.holds(span.high)


@pytest.mark.parametrize("key", ["spin_on", "cartridge"])
def test_soft_lies_inside_hard(key):
    for attribute in load_sequence(key).attributes:
        if attribute.soft and attribute.hard:
            assert attribute.hard.holds(attribute.soft.low), attribute.key
            assert attribute.hard.holds(attribute.soft.high), attribute.key


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_nothing_is_said_that_a_bench_cannot_show(path):
    assert not NEVER_SAID.search(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("phrase", ["It fits.", "filters better", "Holds more dirt"])
def test_forbidden_words_are_caught(phrase):
    assert NEVER_SAID.search(phrase)


def test_unknown_keys_raise():
    sequence = load_sequence("spin_on")
    with pytest.raises(KeyError):
        sequence.attribute("no_such_thing")
    with pytest.raises(KeyError):
        sequence.station("no_such_place")
    assert sequence.at("no_such_place") == ()
