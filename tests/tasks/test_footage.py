"""From the bench's clock to a video's seconds."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused, PublishRefused
from benchlog.tasks.footage import (
    AFTER_LAST_S,
    Anchor,
    Footage,
    Kept,
    sessions_of,
    timeline_of,
)
from benchlog.tasks.kept_text import kept_from
from tests.tasks.video_scenes import FIRST_S, START, STEP_S, filmed


def test_session_runs_from_first_to_last_entry() -> None:
    (session,) = sessions_of(filmed(10))
    assert session.began == START
    assert (session.first_s, session.last_s) == (FIRST_S, FIRST_S + 9 * STEP_S)


def test_second_opening_is_a_second_session() -> None:
    record = filmed(10, pause_after=4)
    assert [s.began for s in sessions_of(record)] == [START, START + timedelta(days=1)]
    timeline = timeline_of(record)
    last = record.readings[-1]
    assert timeline.session_of(last.at, last.session_s) == 1


def test_wall_clock_set_by_seconds_is_no_new_session() -> None:
    record = filmed(6)
    readings = [
        replace(r, at=r.at + timedelta(seconds=20)) if place > 2 else r
        for place, r in enumerate(record.readings)
    ]
    assert len(sessions_of(replace(record, readings=tuple(readings)))) == 1


def test_bench_opened_again_at_once_is_a_second_session() -> None:
    record = filmed(6)
    opened = START + timedelta(seconds=40)
    times = [(START, 5.0), (START, 6.0), (START, 7.0), (opened, 5.0), (opened, 6.0), (opened, 7.0)]
    readings = [
        replace(r, at=began + timedelta(seconds=seconds), session_s=seconds)
        for r, (began, seconds) in zip(record.readings, times, strict=True)
    ]
    record = replace(record, readings=tuple(readings), moments=())
    assert [s.began for s in sessions_of(record)] == [START, opened]
    timeline = timeline_of(record)
    assert [timeline.session_of(r.at, r.session_s) for r in readings] == [0, 0, 0, 1, 1, 1]


def test_wall_clock_set_back_is_no_new_session() -> None:
    record = filmed(6)
    readings = [
        replace(r, at=r.at - timedelta(seconds=40)) if place > 2 else r
        for place, r in enumerate(record.readings)
    ]
    assert len(sessions_of(replace(record, readings=tuple(readings)))) == 1


def test_correction_at_the_desk_is_in_no_session() -> None:
    record = filmed(6)
    desk = replace(
        record.readings[0],
        id="desk",
        at=START + timedelta(days=3),
        session_s=0.0,
        supersedes=record.readings[0].id,
    )
    record = replace(record, readings=(*record.readings, desk))
    assert len(sessions_of(record)) == 1
    assert timeline_of(record).session_of(desk.at, desk.session_s) is None


def test_without_anchors_the_first_entry_is_at_nought() -> None:
    timeline = timeline_of(filmed(3))
    assert timeline.shown(0, FIRST_S) == 0.0
    assert timeline.shown(0, FIRST_S + STEP_S) == pytest.approx(STEP_S)
    assert timeline.length_s == pytest.approx(2 * STEP_S + AFTER_LAST_S)


def test_one_anchor_sets_the_beginning() -> None:
    timeline = timeline_of(filmed(3), [Footage((Anchor(2.0, 30.0),))])
    assert timeline.shown(0, FIRST_S) == pytest.approx(33.0)


def test_two_anchors_set_the_drift() -> None:
    # By hand: 1000 s at the bench are 1001 s in the clip, so 500 s are 500.5 s.
    anchors = (Anchor(0.0, 10.0), Anchor(1000.0, 1011.0))
    timeline = timeline_of(filmed(50), [Footage(anchors, 1200.0)])
    assert timeline.shown(0, 500.0) == pytest.approx(510.5)


@given(
    st.floats(0, 1000),
    st.floats(60, 5000),
    st.floats(0.96, 1.04),
    st.floats(0, 500),
)
def test_anchors_are_where_they_were_set(
    first: float, apart: float, rate: float, clip: float
) -> None:
    anchors = (Anchor(first, clip), Anchor(first + apart, clip + rate * apart))
    timeline = timeline_of(filmed(5), [Footage(anchors, 1e6)])
    for anchor in anchors:
        assert timeline.uncut(0, anchor.session_s) == pytest.approx(anchor.clip_s, abs=1e-6)


def test_clips_lie_end_to_end() -> None:
    timeline = timeline_of(filmed(10, pause_after=4), [Footage(length_s=100.0), Footage()])
    assert timeline.shown(1, FIRST_S) == 100.0


def test_kept_ranges_close_up() -> None:
    kept = (Kept(0.0, 10.0), Kept(30.0, 50.0))
    timeline = timeline_of(filmed(10), kept=kept)
    assert timeline.shown(0, FIRST_S + 5) == pytest.approx(5.0)
    assert timeline.shown(0, FIRST_S + 20) is None
    assert timeline.shown(0, FIRST_S + 35) == pytest.approx(15.0)
    assert timeline.shown_from(0, FIRST_S + 20) == pytest.approx(10.0)
    assert timeline.shown_from(0, FIRST_S + 60) is None
    assert timeline.length_s == 30.0


def test_kept_ranges_may_be_put_in_another_order() -> None:
    timeline = timeline_of(filmed(10), kept=(Kept(30.0, 50.0), Kept(0.0, 10.0)))
    assert timeline.shown(0, FIRST_S + 35) == pytest.approx(5.0)
    assert timeline.shown(0, FIRST_S + 5) == pytest.approx(25.0)
    assert timeline.shown_from(0, FIRST_S + 12) == 0.0


@given(st.lists(st.floats(0, 400), min_size=2, max_size=8, unique=True), st.floats(0, 400))
def test_whatever_is_shown_lies_in_the_video(cuts: list[float], second: float) -> None:
    ends = sorted(cuts)[: len(cuts) // 2 * 2]
    kept = [Kept(a, b) for a, b in zip(ends[::2], ends[1::2], strict=True)]
    timeline = timeline_of(filmed(30), kept=kept)
    shown = timeline.shown(0, FIRST_S + second)
    inside = any(k.start_s <= second < k.end_s for k in kept)
    if shown is not None:
        assert 0.0 <= shown <= timeline.length_s
    assert (shown is not None) >= (inside and abs(min((second - e for e in ends), key=abs)) > 1e-9)


def test_before_the_camera_ran_nothing_is_shown() -> None:
    timeline = timeline_of(filmed(5), [Footage((Anchor(FIRST_S + 20, 0.0),))])
    assert timeline.shown(0, FIRST_S) is None
    assert timeline.shown_from(0, FIRST_S) == 0.0


@pytest.mark.parametrize(
    ("footage", "kept", "what"),
    [
        ([Footage(), Footage()], (), "2 clips and only 1 openings"),
        ([Footage((Anchor(0, 0), Anchor(100, 150)))], (), "100 s passed at the bench and 150 s"),
        ([Footage((Anchor(5, 0), Anchor(5, 9)))], (), "0 s passed at the bench"),
        ([Footage((Anchor(0, 0),) * 3)], (), "More than two anchors"),
        ([], (Kept(5, 5),), "is empty"),
        ([], (Kept(-1, 5),), "is empty"),
        ([], (Kept(0, 20), Kept(10, 30)), "overlap"),
        ([], (Kept(1e6, 2e6),), "after the footage ends"),
    ],
)
def test_what_cannot_be_is_refused(
    footage: list[Footage], kept: tuple[Kept, ...], what: str
) -> None:
    with pytest.raises(PublishRefused, match=what):
        timeline_of(filmed(10), footage, kept)


def test_pasted_ranges_are_read() -> None:
    text = "0:12 - 3:40.5\n\n 1:00:00 --> 1:00:02,250 \n4:00 to 5:00\n"
    assert kept_from(text) == (Kept(12, 220.5), Kept(3600, 3602.25), Kept(240, 300))


@pytest.mark.parametrize("line", ["12 - 13", "0:61 - 2:00", "0:10", "a:bc - d:ef"])
def test_line_that_is_no_range_is_named(line: str) -> None:
    with pytest.raises(EntryRefused, match="Line 2"):
        kept_from(f"0:00 - 0:10\n{line}")
