"""Subtitles and markers: each number when it was read."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.measure.reading import Said
from benchlog.measure.state import State
from benchlog.tasks.correction_lines import correction_lines
from benchlog.tasks.footage import Kept, timeline_of
from benchlog.tasks.subtitles import (
    SHORTEST_S,
    SHOWN_S,
    markers_of,
    reading_line,
    subtitles_of,
    value_said,
)
from tests.tasks.sample_records import sample_record
from tests.tasks.video_scenes import FIRST_S, START, STEP_S, filmed


def test_each_number_appears_when_it_was_read() -> None:
    record = filmed(20)
    told = subtitles_of(record, timeline_of(record))
    assert [s.start_s for s in told] == pytest.approx([n * STEP_S for n in range(20)])
    assert [s.text for s in told] == [reading_line(record, r) for r in record.readings]
    assert {round(s.end_s - s.start_s, 6) for s in told} == {SHOWN_S}


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 40), st.floats(0.01, 20))
def test_lines_are_ordered_and_last(count: int, step: float) -> None:
    record = filmed(count, step)
    told = subtitles_of(record, timeline_of(record))
    assert len(told) == count
    assert all(SHORTEST_S - 1e-9 <= s.end_s - s.start_s <= SHOWN_S + 1e-9 for s in told)
    assert all(a.start_s <= b.start_s for a, b in pairwise(told))


def test_cut_away_numbers_are_not_shown() -> None:
    record = filmed(10)
    kept = (Kept(STEP_S, 3 * STEP_S),)
    told = subtitles_of(record, timeline_of(record, kept=kept))
    assert [s.text for s in told] == [reading_line(record, r) for r in record.readings[1:3]]


def test_correction_at_the_desk_shows_at_the_first_reading() -> None:
    record = filmed(5)
    old = record.readings[2]
    fresh = replace(
        old,
        id="desk",
        at=START + timedelta(days=2),
        session_s=0.0,
        said=Said("12.5 mm", Decimal("12.5"), "millimeter"),
        word=None,
        state=State.MEASURED,
        reason="misread",
        supersedes=old.id,
    )
    record = replace(record, readings=(*record.readings, fresh))
    told = subtitles_of(record, timeline_of(record))
    assert len(told) == 5
    assert told[2].start_s == pytest.approx(2 * STEP_S)
    assert told[2].text.endswith(": 12.5 mm (corrected later)")
    (line,) = correction_lines(record)
    assert line.startswith("2026-03-09: ")
    assert line.endswith("→ 12.5 mm. Reason: misread.")


def test_values_are_told_as_said() -> None:
    record = sample_record()
    base = record.readings[0]
    cases = {
        "287.40 g": Said("287.40 g", Decimal("287.40"), "gram"),
        "12 months": Said("12", Decimal(12), "month"),
        "about 5 turns": Said("~5", Decimal(5), "turn", approximate=True),
        "8 to 11 psi": Said(
            "8-11 psi", Decimal("9.5"), "pound_force_per_square_inch", Decimal(8), Decimal(11)
        ),
    }
    for told, said in cases.items():
        assert value_said(record, replace(base, said=said, word=None)) == told


def test_choices_are_told_by_their_label() -> None:
    record = sample_record()
    reading = next(r for r in record.readings if r.attribute == "thread_code" and r.word)
    labels = {c.key: c.label for c in record.sequence.attribute("thread_code").choices}
    assert value_said(record, reading) == labels[reading.word or ""]


def test_missing_value_is_told_by_its_state() -> None:
    record = sample_record()
    reading = next(r for r in record.readings if r.state is State.NOT_MARKED)
    assert reading_line(record, reading).endswith(": not marked")


def test_markers_hold_numbers_and_flagged_moments() -> None:
    record = filmed(5)
    told = markers_of(record, timeline_of(record))
    assert [m.seconds for m in told] == sorted(m.seconds for m in told)
    (flag,) = [m for m in told if m.note]
    assert (flag.name, flag.seconds) == ("Look", pytest.approx(STEP_S / 2))
    assert len(told) == 6
    assert record.moments[0].session_s == FIRST_S + STEP_S / 2


def test_group_correction_is_one_line() -> None:
    record = sample_record()
    (line,) = correction_lines(record)
    (made,) = record.corrections
    count = sum(r.group == made.id for r in record.readings)
    assert f"{count} readings with " in line
    assert "shifted by −0.05 mm" in line
    assert made.shift == -0.05


def test_scratch_and_putting_back_are_no_corrections() -> None:
    record = filmed(3)
    first = record.readings[0]
    scratch = replace(first, id="w", withdrawn=True, supersedes=first.id, said=None, word=None)
    back = replace(first, id="b", supersedes="w")
    assert correction_lines(replace(record, readings=(*record.readings, scratch, back))) == ()
