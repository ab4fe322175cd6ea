"""A failed bracket put right in one action, taken back, and what the record makes of it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.errors import EntryRefused
from benchlog.measure.check import CheckMoment, Remedy
from benchlog.measure.reading import standing
from benchlog.measure.state import State
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from benchlog.tasks.checks import brackets_of
from benchlog.tasks.correct import correct
from benchlog.tasks.group_correct import correct_group, offer, take_back_group
from benchlog.trade.check_standard import Standard
from tests.made_shelves import fresh_shelf
from tests.small_trade import HandClock, small_lineup
from tests.tasks.check_scenes import CALLIPER, MEASURED, DriftingBench

OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING
WHY = "chip between the jaws"


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def put_right(bench: DriftingBench, check_id: str, remedy: Remedy = Remedy.SHIFT):
    return correct_group(bench.shelf, bench.clock, "l-1", check_id, remedy, WHY)


def doubts(bench: DriftingBench) -> set[str]:
    return {name for b in brackets_of(bench.shelf, "l-1") for name in b.in_doubt}


def test_shift_supersedes_each_reading_once(bench: DriftingBench) -> None:
    bench.check("0.00", OPENING)
    old = [bench.read("12.35"), bench.read("12.40"), bench.read("1 in", specimen="s-b")]
    bench.read("52", "pleat_count")
    weighed = bench.read("287.4", "whole_mass")
    failed = bench.check("0.05")
    assert doubts(bench) == {r.id for r in old}
    done = put_right(bench, failed.id)
    new = bench.shelf.readings("l-1")[-3:]
    assert [(r.supersedes, r.ordinal, r.group) for r in new] == [
        (r.id, r.ordinal, done.id) for r in old
    ]
    assert [r.text for r in new] == [
        "12.35 mm − 0.05 mm", "12.40 mm − 0.05 mm", "1 in − 0.001969 in",
    ]  # fmt: skip
    assert [str(r.said.value) for r in new if r.said] == ["12.30", "12.35", "0.998031"]
    assert new[0].si_value == pytest.approx(0.0123)
    assert {r.reason for r in new} == {WHY}
    assert (done.shift, done.remedy, done.check_id) == (-0.05, Remedy.SHIFT, failed.id)
    assert weighed in bench.standing()
    assert doubts(bench) == set()
    assert bench.shelf.group_corrections("l-1") == [done]


def test_estimates_and_intervals_shift_whole(bench: DriftingBench) -> None:
    bench.read("~5")
    bench.read("8-11")
    put_right(bench, bench.check("0.5").id)
    first, second = bench.standing()
    assert (first.state, second.state) == (State.ESTIMATE, State.MEASURED)
    assert (first.si_low, first.si_high) == pytest.approx((0.004, 0.005))
    assert (second.si_low, second.si_high) == pytest.approx((0.0075, 0.0105))
    assert second.said is not None
    assert (second.said.low, second.said.high) == (Decimal("7.5"), Decimal("10.5"))


def test_spoiled_leaves_no_number(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.read("52", "pleat_count")
    done = put_right(bench, bench.check("0.05").id, Remedy.SPOILED)
    assert bench.values() == ["spoiled", "52"]
    spoiled = next(r for r in bench.standing() if r.group)
    assert (spoiled.state, spoiled.said, spoiled.si_value) == (State.SPOILED, None, None)
    assert (spoiled.text, spoiled.si_unit, done.shift) == ("spoiled", "", 0.0)
    assert doubts(bench) == set()


def test_offer_shows_old_and_new(bench: DriftingBench) -> None:
    bench.check("0.00", OPENING)
    bench.read("12.35")
    bench.read("~5")
    failed = bench.check("0.05")
    (bracket,) = brackets_of(bench.shelf, "l-1")
    offered = offer(bracket, CALLIPER)
    assert offered is not None
    assert [(row.old, row.new) for row in offered.rows] == [
        ("12.35 mm", "12.30 mm"), ("~5 mm", "4.45 to 5.45 mm"),
    ]  # fmt: skip
    assert (offered.check, offered.shift, offered.refusal) == (failed, Decimal("-0.05"), "")
    assert "opening check passed" in offered.caution
    put_right(bench, failed.id)
    (bracket,) = brackets_of(bench.shelf, "l-1")
    assert offer(bracket, CALLIPER) is None


def test_offer_warns_of_one_checked_value(bench: DriftingBench) -> None:
    bench.check("0.05", OPENING)
    bench.read("12.35")
    bench.check(
        "10.05", standard=Standard("gauge block 10 mm", Decimal(10), Decimal(0), "millimeter")
    )
    (bracket,) = brackets_of(bench.shelf, "l-1")
    offered = offer(bracket, CALLIPER)
    assert offered is not None
    assert "at 10 mm alone" in offered.caution
    assert "opening check passed" not in offered.caution


def test_shift_below_zero_is_refused(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.read("0.02")
    failed = bench.check("0.05")
    (bracket,) = brackets_of(bench.shelf, "l-1")
    offered = offer(bracket, CALLIPER)
    assert offered is not None
    assert "below zero: 0.02 mm − 0.05 mm" in offered.refusal
    before = bench.shelf.readings("l-1")
    with pytest.raises(EntryRefused, match="below zero"):
        put_right(bench, failed.id)
    assert bench.shelf.readings("l-1") == before
    assert bench.shelf.group_corrections("l-1") == []


def test_passed_or_settled_check_corrects_nothing(bench: DriftingBench) -> None:
    bench.read("12.35")
    passed = bench.check("0.01")
    with pytest.raises(EntryRefused, match="No reading is in doubt"):
        put_right(bench, passed.id)
    bench.check("0.00", OPENING)
    bench.read("12.35")
    failed = bench.check("0.05")
    put_right(bench, failed.id)
    with pytest.raises(EntryRefused, match="No reading is in doubt"):
        put_right(bench, failed.id)


def test_reason_is_wanted(bench: DriftingBench) -> None:
    bench.read("12.35")
    failed = bench.check("0.05")
    with pytest.raises(EntryRefused, match="reason"):
        correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, " ")
    done = put_right(bench, failed.id)
    with pytest.raises(EntryRefused, match="reason"):
        take_back_group(bench.shelf, bench.clock, "l-1", done.id, "")


def test_readings_after_a_failed_closing_are_a_second_group(bench: DriftingBench) -> None:
    bench.read("12.35")
    failed = bench.check("0.05")
    put_right(bench, failed.id)
    later = bench.read("12.50")
    assert doubts(bench) == {later.id}
    put_right(bench, failed.id)
    assert (bench.values(), doubts(bench)) == (["12.30", "12.45"], set())


def test_any_failed_check_of_the_bracket_may_be_gone_by(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.check("0.05")
    block = Standard("gauge block 10 mm", Decimal(10), Decimal(0), "millimeter")
    put_right(bench, bench.check("10.06", standard=block).id)
    assert (bench.values(), doubts(bench)) == (["12.29"], set())


def test_failed_opening_is_put_right_alike(bench: DriftingBench) -> None:
    failed = bench.check("0.05", OPENING)
    bench.read("12.35")
    put_right(bench, failed.id)
    assert (bench.values(), doubts(bench)) == (["12.30"], set())


def test_taking_back_restores_what_was_said(bench: DriftingBench) -> None:
    old = [bench.read("12.35"), bench.read("~5"), bench.read("7/16 in")]
    failed = bench.check("0.05")
    done = put_right(bench, failed.id)
    back = take_back_group(bench.shelf, bench.clock, "l-1", done.id, "it was the block")
    now = bench.standing()
    assert [(r.said, r.si_value, r.state, r.ordinal) for r in now] == [
        (r.said, r.si_value, r.state, r.ordinal) for r in old
    ]
    assert (back.takes_back, back.shift) == (done.id, 0.05)
    assert doubts(bench) == {r.id for r in now}
    for gone in (done.id, back.id, "nobody"):
        with pytest.raises(EntryRefused, match="does not hold"):
            take_back_group(bench.shelf, bench.clock, "l-1", gone, "again")
    put_right(bench, failed.id, Remedy.SPOILED)
    assert bench.values() == ["spoiled"] * 3


def test_taking_back_spoiled_brings_numbers_back(bench: DriftingBench) -> None:
    bench.read("12.35")
    done = put_right(bench, bench.check("0.05").id, Remedy.SPOILED)
    take_back_group(bench.shelf, bench.clock, "l-1", done.id, "checked on the wrong jaws")
    assert bench.values() == ["12.35"]


def test_taking_back_leaves_later_corrections(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.read("12.40")
    done = put_right(bench, bench.check("0.05").id)
    first, _ = bench.standing()
    correct(bench.shelf, bench.clock, MEASURED, "l-1", first.id, "12.03", "digits", sure=True)
    take_back_group(bench.shelf, bench.clock, "l-1", done.id, "it was the block")
    assert bench.values() == ["12.03", "12.40"]
    assert {r.group for r in bench.standing() if r.said and str(r.said.value) == "12.03"} == {""}


def test_scratched_and_put_back_shift_can_be_taken_back(bench: DriftingBench) -> None:
    bench.read("12.35")
    done = put_right(bench, bench.check("0.05").id)
    # The bench refuses to scratch one reading of a group; a shelf may hold that all the same.
    (shifted,) = bench.standing()
    scratch = replace(shifted, id="scratch", said=None, withdrawn=True, supersedes=shifted.id)
    bench.shelf.add_reading(scratch)
    bench.shelf.add_reading(replace(shifted, id="back", supersedes="scratch"))
    assert bench.values() == ["12.30"]
    take_back_group(bench.shelf, bench.clock, "l-1", done.id, "it was the block")
    assert bench.values() == ["12.35"]


lengths = st.decimals(1, 500, places=2).map(lambda d: f"{d:f}")
steps = st.lists(st.one_of(lengths, lengths.map(lambda t: f"~{t}"), st.just("scratch")), max_size=8)


@given(
    before=st.lists(lengths, max_size=2),
    inside=steps,
    off=st.decimals("-0.9", "0.9", places=2).filter(lambda d: abs(d) > Decimal("0.03")),
    remedy=st.sampled_from(Remedy),
)
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bracket_is_put_right_and_back(tmp_path_factory, before, inside, off, remedy) -> None:
    folder = fresh_shelf(tmp_path_factory.mktemp("place") / "shelf")
    with open_shelf(folder) as shelf:
        shelf.save_lineup(small_lineup())
        bench = DriftingBench(shelf, HandClock())
        for text in before:
            bench.read(text)
        bench.check("0.00")
        bench.check("0.00", OPENING)
        for text in inside:
            if text != "scratch":
                bench.read(text)
            elif len(bench.standing()) > len(before):
                bench.walk.scratch_last()
        outside = bench.standing()[: len(before)]
        doubted = bench.standing()[len(before) :]
        failed = bench.check(f"{off:f}")
        assert doubts(bench) == {r.id for r in doubted}
        if not doubted:
            return
        count, numbers = len(shelf.readings("l-1")), [r.said and r.said.value for r in doubted]
        done = put_right(bench, failed.id, remedy)
        made = shelf.readings("l-1")[count:]
        assert [r.supersedes for r in made] == [r.id for r in doubted]
        assert bench.standing() == [*outside, *made]
        if remedy is Remedy.SHIFT:
            assert [r.said.value + off for r in made if r.said] == numbers
        take_back_group(shelf, bench.clock, "l-1", done.id, "back")
        restored = standing(shelf.readings("l-1"))[len(before) :]
        assert [r.said and r.said.value for r in restored] == numbers
        assert [(r.si_low, r.si_high) for r in restored] == [(r.si_low, r.si_high) for r in doubted]
    assert check_shelf(folder) == []
