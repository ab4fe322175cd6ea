"""Checking an instrument: what is stored, what is refused, what it means."""

from __future__ import annotations

from decimal import Decimal

import pytest

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.bracket import BracketState
from benchlog.measure.check import CheckMoment
from benchlog.measure.reading import Said
from benchlog.shelf import SqlShelf
from benchlog.tasks.checks import (
    brackets_of,
    check_instrument,
    in_doubt,
    length_standard,
    told_check,
)
from benchlog.tasks.ports import Steadiness, Weight
from benchlog.trade.check_standard import ZERO, Standard, check_weight, load_check_standards
from tests.small_trade import SCALE, HandClock
from tests.tasks.check_scenes import CALLIPER, DriftingBench

OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING
BLOCK = load_check_standards().kind("block")


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def weight(text: str, steadiness: Steadiness = Steadiness.STABLE) -> Weight:
    return Weight(Said(f"{text} g", Decimal(text), "gram"), steadiness, None, b"raw")


def test_check_is_stored_where_it_was_made(bench: DriftingBench, shelf: SqlShelf) -> None:
    first = bench.check("0", OPENING)
    reading = bench.read("12.35")
    last = bench.check("0.05")
    assert shelf.checks("l-1") == [first, last]
    assert (first.after, last.after) == ("", reading.id)
    assert (last.known, last.tolerance, last.standard) == (0.0, 0.0, "")
    assert last.said == Said("0.05", Decimal("0.05"), "millimeter")


def test_weight_from_the_scale_is_taken(shelf: SqlShelf, clock: HandClock) -> None:
    made = check_instrument(
        shelf, clock, "l-1", SCALE.id, CLOSING, weight("100.1"), check_weight("M1", 100),
        session_s=7.0, note=" draught ",
    )  # fmt: skip
    assert shelf.checks("l-1") == [made]
    assert (made.known, made.tolerance, made.said.value) == (100.0, 0.005, Decimal("100.1"))
    assert (made.session_s, made.note) == (7.0, "draught")
    assert told_check(made, SCALE) == (
        "Bench scale · closing check weight 100 g, class M1: shows 100.1 g,"
        " +0.1 g off, 0.205 g allowed: passed"
    )


def test_failed_check_is_told_in_one_line(bench: DriftingBench) -> None:
    assert told_check(bench.check("0.05"), CALLIPER) == (
        "Calliper · closing zero: shows 0.05 mm, +0.05 mm off, 0.03 mm allowed: failed"
    )


@pytest.mark.parametrize(
    ("given", "word"),
    [
        ("", "Nothing"),
        ("oops", "not understood"),
        ("0.05 g", "mass"),
        ("~0.05", "one number"),
        ("0-0.05", "one number"),
        (weight("0.0"), "does not weigh"),
    ],
)
def test_no_number_of_the_calliper_is_refused(
    bench: DriftingBench, given: str | Weight, word: str
) -> None:
    with pytest.raises(EntryRefused, match=word):
        check_instrument(bench.shelf, bench.clock, "l-1", CALLIPER.id, OPENING, given)
    assert bench.shelf.checks("l-1") == []


@pytest.mark.parametrize(
    ("given", "word"),
    [
        (weight("0.0", Steadiness.MOVING), "not settled"),
        (Weight(None, Steadiness.OVERLOAD, None, b""), "no weight"),
    ],
)
def test_unsettled_scale_is_refused(
    shelf: SqlShelf, clock: HandClock, given: Weight, word: str
) -> None:
    with pytest.raises(EntryRefused, match=word):
        check_instrument(shelf, clock, "l-1", SCALE.id, OPENING, given)


def test_standard_of_another_dimension_is_refused(bench: DriftingBench) -> None:
    with pytest.raises(EntryRefused, match="cannot be checked with a check weight"):
        bench.check("0", standard=check_weight("M1", 100))


def test_unknown_instrument_is_refused(shelf: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(EntryRefused, match="not on the shelf"):
        check_instrument(shelf, clock, "l-1", "nobody", OPENING, "0")


def test_far_off_check_is_asked_again(shelf: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(AskAgain, match="far off"):
        check_instrument(shelf, clock, "l-1", SCALE.id, OPENING, "10", check_weight("M1", 100))
    assert shelf.checks("l-1") == []
    made = check_instrument(
        shelf, clock, "l-1", SCALE.id, OPENING, "10", check_weight("M1", 100), sure=True
    )
    assert shelf.checks("l-1") == [made]


def test_block_is_turned_into_the_calliper_s_unit(bench: DriftingBench) -> None:
    block = length_standard(BLOCK, "1 in", "0.0001 in", CALLIPER)
    assert block == Standard("gauge block 1 in", Decimal(1), Decimal("0.0001"), "inch")
    made = bench.check("25.42", standard=block)
    assert (made.known, made.tolerance) == pytest.approx((25.4, 0.00254))


def test_bare_block_is_in_the_calliper_s_unit() -> None:
    block = length_standard(BLOCK, "10", "0.00004 in", CALLIPER)
    assert (block.name, block.known, block.unit) == ("gauge block 10 mm", 10, "millimeter")
    # The inch is 25.4 mm exactly (NIST SP 811, B.8).
    assert block.tolerance == Decimal("0.001016")


@pytest.mark.parametrize(
    ("known", "tolerance", "word"),
    [
        ("0", "0", "above zero"),
        ("-5", "0.1", "above zero"),
        ("5", "-0.1", "no tolerance"),
        ("5", "5", "no tolerance"),
        ("4-6", "0.1", "one number"),
        ("5", "", "Nothing"),
    ],
)
def test_absurd_blocks_are_refused(known: str, tolerance: str, word: str) -> None:
    with pytest.raises(EntryRefused, match=word):
        length_standard(BLOCK, known, tolerance, CALLIPER)


def test_brackets_are_those_of_the_shelf(bench: DriftingBench) -> None:
    assert brackets_of(bench.shelf, "l-1") == ()
    bench.check("0.00", OPENING)
    weighed = bench.read("287.4", "whole_mass")
    read = bench.read("12.35")
    bench.check("0.05")
    scale, calliper = brackets_of(bench.shelf, "l-1")
    assert (scale.state, scale.readings) == (BracketState.NOT_CHECKED, (weighed,))
    assert (calliper.state, calliper.readings) == (BracketState.CLOSING_FAILED, (read,))
    assert in_doubt((scale, calliper)) == {read.id}


def test_zero_goes_with_every_unit(shelf: SqlShelf, clock: HandClock) -> None:
    made = check_instrument(shelf, clock, "l-1", SCALE.id, OPENING, "-0.1", ZERO)
    assert (made.known, made.said.value) == (0.0, Decimal("-0.1"))
