"""What the bench knows of its instruments while readings come in."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.measure.bracket import Bracket, BracketState
from benchlog.measure.check import CheckMoment, Remedy
from benchlog.shelf import SqlShelf
from benchlog.tasks.check_book import NEVER, CheckBook, CheckMark, ToolCheck, tool_check
from benchlog.tasks.checks import brackets_of, in_doubt
from benchlog.tasks.group_correct import correct_group, take_back_group
from tests.small_trade import TAPE, HandClock
from tests.tasks.check_scenes import CALLIPER, DriftingBench

OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def book(bench: DriftingBench) -> CheckBook:
    return CheckBook(bench.shelf, bench.clock, "l-1")


def known(bench: DriftingBench) -> ToolCheck | None:
    return book(bench).tool(bench.shelf.readings("l-1"), CALLIPER)


def test_state_follows_checks_and_readings(bench: DriftingBench) -> None:
    bench.read("12.35")
    assert known(bench) == NEVER
    opened = bench.check("0.00", OPENING)
    assert known(bench) == ToolCheck(CheckMark.OPEN, f"opened {opened.at.astimezone():%H:%M}")
    bench.read("12.40")
    bench.check("0.01")
    assert known(bench) == ToolCheck(CheckMark.PASSED, "closed and passed")
    bench.read("12.45")
    failed = bench.check("0.05")
    assert known(bench) == ToolCheck(CheckMark.IN_DOUBT, "closing failed: 1 reading in doubt")
    assert known(bench).stands_out
    done = correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, "a chip")
    assert known(bench) == ToolCheck(CheckMark.PUT_RIGHT, "put right")
    take_back_group(bench.shelf, bench.clock, "l-1", done.id, "no")
    assert known(bench).words == "closing failed: 1 reading in doubt"


def test_failed_opening_stands_out_before_any_reading(bench: DriftingBench) -> None:
    bench.check("0.05", OPENING)
    assert known(bench).words == "opening failed; no reading hangs on it"
    assert known(bench).stands_out
    bench.check("0.00", OPENING)
    assert known(bench).mark is CheckMark.OPEN
    bench.check("0.05", OPENING)
    bench.read("12.35")
    bench.read("12.35")
    assert known(bench).words == "opening failed: 2 readings in doubt"


def test_doubt_outlasts_a_new_opening(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.check("0.05")
    bench.check("0.00", OPENING)
    assert known(bench).words == "closing failed: 1 reading in doubt"


def test_day_is_named_once_it_is_over(bench: DriftingBench) -> None:
    opened = bench.check("0.00", OPENING).at.astimezone()
    found = brackets_of(bench.shelf, "l-1")
    later = tool_check(found, opened + timedelta(days=2))
    assert later.words == f"opened {opened.day} {opened:%b, %H:%M}"


def test_tool_that_wants_no_check_is_not_told_of(bench: DriftingBench) -> None:
    assert book(bench).tool([], TAPE) is None
    bench.check("0", OPENING, tool=TAPE)
    assert book(bench).tool([], TAPE).mark is CheckMark.OPEN


def test_open_ones_are_those_with_readings_to_close(bench: DriftingBench) -> None:
    def still_open() -> tuple[str, ...]:
        readings, tools = bench.shelf.readings("l-1"), bench.shelf.instruments()
        return book(bench).still_open(readings, tools)

    bench.read("12.35")
    assert still_open() == ()
    bench.check("0.00", OPENING)
    assert still_open() == ()
    bench.read("12.35")
    assert still_open() == ("Calliper",)
    bench.check("0.00")
    assert still_open() == ()


def test_changed_instrument_is_judged_anew(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.check("0.05")
    kept, readings = book(bench), bench.shelf.readings("l-1")
    assert len(kept.in_doubt(readings, [CALLIPER])) == 1
    assert kept.in_doubt(readings, [replace(CALLIPER, permissible_error=0.06)]) == frozenset()


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(walk=st.lists(st.sampled_from(["read", "good", "bad", "open"]), min_size=1, max_size=7))
def test_book_that_was_kept_agrees_with_a_fresh_look(bench: DriftingBench, walk: list[str]) -> None:
    for step in walk:
        if step == "read":
            kept = book(bench)
            bench.read("12.35")
            now = bench.shelf.readings("l-1")
            kept.in_doubt(now[:-1], bench.shelf.instruments())
            told = kept.in_doubt(now, bench.shelf.instruments())
            assert told == in_doubt(brackets_of(bench.shelf, "l-1"))
        else:
            bench.check("0.05" if step == "bad" else "0.00", OPENING if step == "open" else CLOSING)


def test_bracket_without_checks_is_not_checked() -> None:
    bare = Bracket("cal-1", (), (), (), BracketState.NOT_CHECKED)
    assert tool_check([bare], datetime(2026, 5, 4, tzinfo=UTC)) == NEVER
