"""A finding in words and digits; wording is our own."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchlog.measure.finding_text import finding_text
from benchlog.measure.observe import Observer
from benchlog.measure.reading import Reading
from benchlog.measure.state import State

Read = Callable[..., Reading]


def printed(readings: list[Reading], unit: str, shown: str) -> str:
    return finding_text(Observer(()).observe("thing", "a", readings, unit), shown)


def test_measured_value_has_plus_minus(read: Read) -> None:
    # U = 1.960 · 0.1/sqrt(12) g = 0.0566 g (JCGM 100 F.2.2.1, Table G.2)
    assert printed([read("287.4 g", "gram", "mass")], "gram", "gram") == "287.400 ± 0.057 g"


def test_estimate_says_about(read: Read) -> None:
    reading = read("~5", "turn", "turn", state=State.ESTIMATE)
    assert printed([reading], "turn", "turn") == "about 5 turns (4.5 to 5.5)"


def test_marked_range_says_both_ends(read: Read) -> None:
    readings = [read("8-11 psi", "psi", "pressure")]
    assert printed(readings, "kilopascal", "psi") == "8 to 11 psi"
    assert printed(readings, "kilopascal", "kilopascal") == "55.16 to 75.84 kPa"


def test_disagreeing_counts_say_both(read: Read) -> None:
    readings = [read(t, "count", "count") for t in ("49", "51")]
    assert printed(readings, "count", "count") == "49 to 51"


def test_count_is_a_bare_number(read: Read) -> None:
    assert printed([read("52", "count", "count")], "count", "count") == "52"


def test_word_is_itself(read: Read) -> None:
    assert printed([read("nitrile", word="nitrile")], "", "") == "nitrile"


@pytest.mark.parametrize("state", [s for s in State if not s.has_value])
def test_missing_value_says_its_state(read: Read, state: State) -> None:
    assert printed([read("", state=state)], "millimeter", "inch") == state.value
