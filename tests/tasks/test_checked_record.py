"""The record knows its checks and corrections, its doubts, and how sure a shift is."""

from __future__ import annotations

import math

import pytest

from benchlog.judge.rules_file import load_rules
from benchlog.measure.check import CheckMoment, Remedy
from benchlog.measure.reading import standing
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.group_correct import correct_group
from benchlog.tasks.record import Record
from benchlog.tasks.sample import load_sample
from benchlog.trade.sequence_file import load_sequence
from tests.small_trade import HandClock
from tests.tasks.check_scenes import CALLIPER, MEASURED, DriftingBench
from tests.tasks.sample_records import doubted_record, sample_record

RULES = load_rules("bench_rules")


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    return DriftingBench(shelf, clock)


def record_of(bench: DriftingBench) -> Record:
    return draw_up(bench.shelf, "l-1", MEASURED, RULES)


def test_record_names_readings_in_doubt(bench: DriftingBench) -> None:
    read = bench.read("12.35")
    bench.read("287.4", "whole_mass")
    assert record_of(bench).in_doubt == frozenset()
    failed = bench.check("0.05")
    doubted = record_of(bench)
    assert (doubted.in_doubt, doubted.checks) == ({read.id}, (failed,))
    done = correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, "chip")
    settled = record_of(bench)
    assert (settled.in_doubt, settled.corrections) == (frozenset(), (done,))


def test_instrument_that_was_only_checked_is_listed(bench: DriftingBench) -> None:
    bench.read("287.4", "whole_mass")
    bench.check("0.00", CheckMoment.OPENING)
    assert CALLIPER in record_of(bench).instruments


def test_check_and_correction_change_the_digest(bench: DriftingBench) -> None:
    bench.check("0.00", CheckMoment.OPENING)
    bench.read("12.35")
    digests = [record_of(bench).digest]
    failed = bench.check("0.05")
    digests.append(record_of(bench).digest)
    assert record_of(bench).digest == digests[-1]
    correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SPOILED, "chip")
    digests.append(record_of(bench).digest)
    assert len(set(digests)) == 3


def test_shifted_finding_is_as_sure_as_its_parts(bench: DriftingBench) -> None:
    bench.read("12.35")
    bench.read("12.35", specimen="s-b")
    failed = bench.check("0.05")
    correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, "chip")
    findings = record_of(bench).findings
    one, other = (findings["media_length", s].quantity for s in ("s-a", "s-b"))
    assert one is not None
    assert other is not None
    # Rectangular half-widths (JCGM 100:2008, 4.3.7): display 0.005, permissible error 0.03,
    # and the shift, read off the same display, 0.005.
    parts = (0.005, 0.03, 0.005)
    assert one.magnitude.nominal_value == pytest.approx(12.30)
    assert one.magnitude.std_dev == pytest.approx(math.sqrt(sum(p**2 / 3 for p in parts)))
    # What both share, the calliper's error and the shift's, cancels in their difference (5.2).
    difference = (one - other).magnitude
    assert difference.std_dev == pytest.approx(math.sqrt(2 * 0.005**2 / 3))


def test_rehearsal_catches_one_calliper_and_puts_it_right() -> None:
    record = sample_record()
    (correction,) = record.corrections
    check = next(c for c in record.checks if c.id == correction.check_id)
    assert (check.instrument_id, str(check.said.value)) == ("sample-calliper", "0.05")
    assert (check.moment, correction.shift) == (CheckMoment.CLOSING, -0.05)
    shifted = [r for r in standing(list(record.readings)) if r.group == correction.id]
    assert {r.attribute for r in shifted} == {"media_hidden"}
    assert [str(r.said.value) for r in shifted if r.said] == [
        "4.02", "4.10", "5.30", "5.22", "4.00", "4.00",
    ]  # fmt: skip
    assert record.in_doubt == frozenset()
    assert (record.revision, record.draft) == (1, True)
    assert all(
        i.id in {c.instrument_id for c in record.checks}
        for i in record.instruments
        if i.kind.value in ("scale", "calliper", "micrometer", "thickness gauge", "depth gauge")
    )


def test_rehearsal_may_leave_its_doubt() -> None:
    record = doubted_record()
    doubted = [r for r in record.readings if r.id in record.in_doubt]
    assert {(r.instrument_id, r.attribute) for r in doubted} == {
        ("sample-calliper", "media_hidden")
    }
    assert (len(doubted), record.corrections) == (6, ())
    settled = sample_record()
    put_right, wrong = (
        next(f.quantity for (key, _), f in r.figures.items() if key == "exposed_area")
        for r in (settled, record)
    )
    assert put_right is not None
    assert wrong is not None
    assert put_right.magnitude.nominal_value > wrong.magnitude.nominal_value


def test_sample_checks_stand_at_stations_of_its_sequence() -> None:
    sample = load_sample()
    stations = [s.key for s in load_sequence(sample.lineup.sequence).stations]
    for check in sample.checks:
        assert stations.index(check.begins) <= stations.index(check.ends)
