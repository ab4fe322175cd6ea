from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlog.sheet.dot_plot import DotPlot, round_ends
from benchlog.sheet.dots import Dot, Panel
from benchlog.sheet.numbers import Spread
from benchlog.sheet.typography import use_fonts
from benchlog.trade.attribute import Judged
from tests.sheet.drawn_boxes import Noting
from tests.sheet.sample_record import SPECIMENS

use_fonts()


def dots(*values: float | None) -> tuple[Dot, ...]:
    return tuple(
        Dot(s, None if v is None else Spread(v, v - 1, v + 1, "millimeter"), "spoiled")
        for s, v in zip(SPECIMENS, values, strict=False)
    )


def panel(judged: Judged, meaningful: float | None, *values: float | None) -> Panel:
    return Panel("Wall", "millimeter", dots(*values), judged, meaningful)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_axis_holds_its_range(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assume(high == low or high - low > 1e-9 * max(1.0, abs(low), abs(high)))
    first, last, decimals = round_ends(low, high)
    slack = 1e-9 * max(1.0, abs(low), abs(high))
    assert first <= low + slack
    assert last >= high - slack
    assert first < last
    assert decimals >= 0


def test_axis_ends_are_round() -> None:
    assert round_ends(244.8, 301.3)[:2] == (240.0, 310.0)
    first, last, decimals = round_ends(0.368, 0.522)
    assert (first, last, decimals) == (pytest.approx(0.35), pytest.approx(0.55), 2)


def test_band_hangs_on_the_leader() -> None:
    assert panel(Judged.MORE, 2, 10, 14).band() == (12, 14)
    assert panel(Judged.LESS, 2, 10, 14).band() == (10, 12)
    assert panel(Judged.BAND, 2, 10, 14).band() == (11, 13)


def test_no_band_without_a_limit() -> None:
    assert panel(Judged.MORE, None, 10, 14).band() is None
    assert panel(Judged.MORE, 2, None, None).band() is None


def drawn(shown: Panel, width: float = 157.0) -> Noting:
    canvas = Noting()
    DotPlot(shown, width).drawOn(canvas, 0, 0)
    return canvas


def test_missing_value_stands_as_its_word() -> None:
    said = [box.text for box in drawn(panel(Judged.MORE, 1, 10, None, 14)).boxes]
    assert "spoiled" in said
    assert said.count("10.0 ± 1.0") == 1


def test_panel_stays_in_its_column() -> None:
    for box in drawn(panel(Judged.MORE, 1, 10123.4, None, 14567.8)).boxes:
        assert box.left >= 0
        assert box.right <= 157.01


def test_numbers_stand_beside_their_dots() -> None:
    boxes = {b.text: b for b in drawn(panel(Judged.MORE, 1, 10, 12, 14)).boxes}
    heights = [boxes[f"{v}.0 ± 1.0"].bottom for v in (10, 12, 14)]
    assert heights == sorted(heights, reverse=True)
    assert len({round(a - b, 6) for a, b in pairwise(heights)}) == 1


def test_estimate_is_marked() -> None:
    guess = Dot(SPECIMENS[0], Spread(5, 4.5, 5.5, "turn"), "~5", estimate=True)
    assert guess.text == "~5"


def test_note_stands_under_the_label() -> None:
    shown = Panel("Wall", "millimeter", dots(1, 2), Judged.DIFFERENT, None, "not compared")
    boxes = {b.text: b for b in drawn(shown).boxes}
    assert boxes["not compared"].top < boxes["Wall, mm"].top


def test_interval_is_an_open_bar_without_a_dot() -> None:
    between = Dot(SPECIMENS[0], Spread(60.0, 20.0, 100.0, "kilopascal"), bounded=True)
    assert between.text == "20 to 100"
    paths = {}
    for bounded in (True, False):
        one = replace(between, bounded=bounded)
        canvas = Noting()
        shown = Panel("Pressure", "kilopascal", (one, *dots(50)[0:1]), Judged.DIFFERENT)
        DotPlot(shown, 157.0).drawOn(canvas, 0, 0)
        paths[bounded] = "\n".join(canvas._code)
    # a circle is four curves: two tags at the left, and a dot for the other specimen alone
    assert paths[False].count(" c") - paths[True].count(" c") == 4
    assert paths[True].count(" re") == paths[False].count(" re") + 1
