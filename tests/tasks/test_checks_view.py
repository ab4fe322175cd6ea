"""The instruments of a line-up as a reviewer sees their checks."""

from __future__ import annotations

import pytest

from benchlog.measure.check import CheckMoment, Remedy
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.check_book import CheckMark
from benchlog.tasks.checks_view import ToolView, shift_words, tool_views
from benchlog.tasks.group_correct import correct_group, take_back_group
from tests.small_trade import SCALE, TAPE, HandClock
from tests.tasks.check_scenes import CALLIPER, DriftingBench

OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def views(bench: DriftingBench, *in_hand: str) -> dict[str, ToolView]:
    made = tool_views(bench.shelf, bench.clock, "l-1", in_hand)
    return {view.instrument.id: view for view in made}


def test_those_in_use_come_first(bench: DriftingBench) -> None:
    assert [view.here for view in views(bench).values()] == [False, False, False]
    bench.read("12.35")
    found = views(bench, TAPE.id)
    assert [(key, view.here) for key, view in found.items()] == [
        (TAPE.id, True), (CALLIPER.id, True), (SCALE.id, False),
    ]  # fmt: skip
    assert found[SCALE.id].check.words == "not checked"
    assert found[TAPE.id].check.words == "no check is usual"
    assert [[kind.key for kind in step] for step in found[TAPE.id].steps] == [["zero"]]


def test_a_set_up_is_checked_by_calibrating(bench: DriftingBench) -> None:
    before = list(views(bench))
    set_up = Instrument("m-1", "4x", InstrumentKind.MICROSCOPE, "micrometer", 0.01, 0.0)
    bench.shelf.save_instrument(set_up)
    assert list(views(bench)) == before


def test_doubt_is_shown_with_its_checks_and_offer(bench: DriftingBench) -> None:
    opened = bench.check("0.00", OPENING)
    bench.read("12.35")
    failed = bench.check("0.05")
    view = views(bench)[CALLIPER.id]
    assert [(line.words[:5], line.words[7:], line.passed) for line in view.lines] == [
        (
            f"{opened.at.astimezone():%H:%M}",
            "opening zero: shows 0.00 mm, +0.00 mm off, 0.03 mm allowed: passed",
            True,
        ),
        (
            f"{failed.at.astimezone():%H:%M}",
            "closing zero: shows 0.05 mm, +0.05 mm off, 0.03 mm allowed: failed",
            False,
        ),
    ]
    assert view.offer is not None
    assert [(row.old, row.new) for row in view.offer.rows] == [("12.35 mm", "12.30 mm")]
    assert (view.check.mark, view.done) == (CheckMark.IN_DOUBT, ())
    assert view.checks == (opened, failed)


def test_what_was_done_is_told_until_it_is_taken_back(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.read("12.40")
    failed = bench.check("0.05")
    done = correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, "a chip")
    view = views(bench)[CALLIPER.id]
    assert view.offer is None
    (line,) = view.done
    assert line.correction_id == done.id
    assert line.words == (f"{done.at.astimezone():%H:%M}  2 readings shifted by −0.05 mm: a chip")
    take_back_group(bench.shelf, bench.clock, "l-1", done.id, "no")
    assert views(bench)[CALLIPER.id].done == ()
    spoiled = correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SPOILED, "lost")
    (line,) = views(bench)[CALLIPER.id].done
    assert line.words.endswith("2 readings marked as spoiled: lost")
    assert line.correction_id == spoiled.id


def test_shift_is_written_with_a_true_minus() -> None:
    assert shift_words(-0.05, CALLIPER) == "−0.05 mm"
    assert shift_words(0.1, SCALE) == "+0.1 g"
