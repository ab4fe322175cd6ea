"""The start of the clip is typed as time of day, read back the same, and refused when unclear."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.tasks.footage import Anchor, Footage, Session, sessions_of, timeline_of
from benchlog.tasks.video_start import (
    LATER_CLIP,
    LATER_TIME,
    START,
    TypedStart,
    openings_of,
    typed_start,
    understood_start,
    with_start,
)
from tests.tasks.video_scenes import FIRST_S, filmed
from tests.tasks.video_scenes import START as OPENED

SESSION = Session(OPENED, 5.0, 3605.0)


def local(seconds: float) -> str:
    return f"{(OPENED + timedelta(seconds=seconds)).astimezone():%H:%M:%S}"


def test_openings_list_what_was_flagged_in_them() -> None:
    first, second = openings_of(filmed(10, pause_after=4))
    assert first.words.startswith("2026-03-07, ")
    assert second.words.startswith("2026-03-08, ")
    (moment,) = first.moments
    assert moment.words == f"{local(12)} Look"
    assert moment.time == f"{local(12)}.50"
    assert second.moments == ()


def test_nothing_typed_leaves_the_first_reading() -> None:
    assert understood_start(SESSION, TypedStart()) == Footage()
    assert typed_start(SESSION, Footage()) == TypedStart()


def test_time_of_day_becomes_an_anchor() -> None:
    footage = understood_start(SESSION, TypedStart(local(2)))
    assert footage == Footage((Anchor(2.0, 0.0),))
    before = understood_start(SESSION, TypedStart(local(-61)))
    assert before.anchors == (Anchor(-61.0, 0.0),)


def test_flagged_moment_is_where_the_clip_starts() -> None:
    record = filmed(10)
    (moment,) = openings_of(record)[0].moments
    clips = with_start(record, (), 0, TypedStart(moment.time))
    timeline = timeline_of(record, clips)
    assert timeline.shown(0, FIRST_S + 7.5) == pytest.approx(0.0)
    assert timeline.shown(0, FIRST_S + 15.0) == pytest.approx(7.5)


def test_second_moment_takes_drift_out() -> None:
    record = filmed(60)
    typed = TypedStart(local(5), "10:06", local(5 + 600))
    timeline = timeline_of(record, with_start(record, (), 0, typed))
    assert timeline.shown(0, 5.0 + 300) == pytest.approx(303.0)


def test_clip_of_a_later_opening_leaves_the_first_alone() -> None:
    record = filmed(10, pause_after=4)
    second = sessions_of(record)[1]
    at = f"{(second.began + timedelta(seconds=4)).astimezone():%H:%M:%S}"
    clips = with_start(record, (), 1, TypedStart(at))
    assert clips == (Footage(), Footage((Anchor(4.0, 0.0),)))


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (TypedStart("25:00"), START),
        (TypedStart("09:61"), START),
        (TypedStart("09:00:75"), START),
        (TypedStart("nine"), START),
        (TypedStart("", "1:00", "09:01"), START),
        (TypedStart("09:00", "1:00", ""), LATER_TIME),
        (TypedStart("09:00", "", "09:01"), LATER_CLIP),
        (TypedStart("09:00", "soon", "09:01"), LATER_CLIP),
    ],
)
def test_unclear_times_name_their_field(typed: TypedStart, field: str) -> None:
    with pytest.raises(PlanRefused) as refusal:
        understood_start(SESSION, typed)
    assert refusal.value.field == field
    assert refusal.value.do


def test_moments_that_cannot_both_be_right_are_refused() -> None:
    typed = TypedStart(local(5), "20:00", local(605))
    with pytest.raises(PlanRefused, match="600 s passed at the bench") as refusal:
        with_start(filmed(60), (), 0, typed)
    assert refusal.value.field == LATER_CLIP


@given(
    start=st.integers(-360_000, 720_000),
    clip=st.integers(1, 1_500_000),
    later=st.integers(-360_000, 720_000),
)
def test_what_is_shown_reads_back_the_same(start: int, clip: int, later: int) -> None:
    anchors = Anchor(start / 100, 0.0), Anchor(later / 100, clip / 100)
    typed = typed_start(SESSION, Footage(anchors))
    back = understood_start(SESSION, typed).anchors
    for one, other in zip(back, anchors, strict=True):
        assert one.session_s == pytest.approx(other.session_s, abs=0.0051)
        assert one.clip_s == pytest.approx(other.clip_s, abs=0.0051)
