"""Which check is due, and with what."""

from __future__ import annotations

from decimal import Decimal

import pytest

from benchlog.errors import EntryRefused
from benchlog.measure.check import CheckMoment
from benchlog.measure.instrument import InstrumentKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.checks import brackets_of
from benchlog.tasks.usual_checks import (
    is_of,
    last_length,
    last_weight,
    put_on,
    usual_moment,
    usual_step,
)
from benchlog.trade.check_standard import ZERO, Standard, check_weight, load_check_standards
from tests.small_trade import SCALE, HandClock
from tests.tasks.check_scenes import CALLIPER, DriftingBench

OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING
KINDS = load_check_standards()
STEPS = KINDS.steps_for(InstrumentKind.CALLIPER)
BLOCK = Standard("gauge block 10 mm", Decimal(10), Decimal("0.001"), "millimeter")


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def due(bench: DriftingBench) -> tuple[CheckMoment, int]:
    found = [b for b in brackets_of(bench.shelf, "l-1") if b.instrument_id == CALLIPER.id]
    moment = usual_moment(found, STEPS)
    return moment, usual_step(found, moment, STEPS)


def test_bracket_asks_for_each_check_in_turn(bench: DriftingBench) -> None:
    asked = [due(bench)]
    for shown, standard in (("0.00", ZERO), ("10.00", BLOCK)):
        bench.check(shown, OPENING, standard=standard)
        asked.append(due(bench))
    bench.read("12.35")
    asked.append(due(bench))
    for shown, standard in (("0.00", ZERO), ("10.00", BLOCK)):
        bench.check(shown, CLOSING, standard=standard)
        asked.append(due(bench))
    assert asked == [
        (OPENING, 0), (OPENING, 1), (OPENING, 0),
        (CLOSING, 0), (CLOSING, 1), (OPENING, 0),
    ]  # fmt: skip


def test_closing_owes_no_more_than_the_opening_had(bench: DriftingBench) -> None:
    bench.check("0.00", OPENING)
    bench.read("12.35")
    bench.check("0.00", CLOSING)
    assert due(bench) == (OPENING, 0)


def test_readings_never_opened_are_closed_first(bench: DriftingBench) -> None:
    bench.read("12.35")
    assert due(bench) == (CLOSING, 0)
    bench.check("0.00", CLOSING)
    assert due(bench) == (CLOSING, 1)


def test_form_becomes_a_standard() -> None:
    zero, weight, block = KINDS.kind("zero"), KINDS.kind("weight"), KINDS.kind("block")
    assert put_on(zero, CALLIPER, length="ignored") == ZERO
    made = put_on(weight, SCALE, weight_class="M1", nominal_g="100")
    assert made == check_weight("M1", 100)
    assert put_on(block, CALLIPER, length="10", tolerance="0.001") == BLOCK
    with pytest.raises(EntryRefused):
        put_on(block, CALLIPER, length="", tolerance="")


def test_last_standard_is_offered_again(bench: DriftingBench) -> None:
    block = KINDS.kind("block")
    assert last_length([], block) == ("", "")
    assert last_weight([]) == ("M1", "100")
    made = bench.check("10.00", OPENING, standard=BLOCK)
    weighed = bench.check("200.0", OPENING, SCALE, check_weight("F2", 200))
    assert is_of(made, block)
    assert not is_of(made, KINDS.kind("pin"))
    assert last_length([made, weighed], block) == ("10", "0.001")
    assert last_weight([made, weighed]) == ("F2", "200")
