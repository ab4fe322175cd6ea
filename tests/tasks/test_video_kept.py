"""What the video shows of the footage is typed as ranges, and refused where it cannot be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.tasks.chapters import chapters_of
from benchlog.tasks.footage import Footage, Kept, timeline_of
from benchlog.tasks.going_out import going_out
from benchlog.tasks.publish_wishes import PublishWishes, kept_wishes, wishes_back
from benchlog.tasks.video_kept import typed_kept, understood_kept, with_kept
from benchlog.tasks.video_start import KEPT, LENGTH, TypedStart, typed_start, understood_start
from tests.tasks.test_video_start import SESSION
from tests.tasks.video_scenes import filmed

seconds = st.integers(0, 40_000).map(lambda hundredths: hundredths / 100)


@given(st.lists(st.builds(Kept, seconds, seconds), max_size=4))
def test_ranges_come_back_as_shown(kept: list[Kept]) -> None:
    found = understood_kept(typed_kept(kept))
    ends = [[end for k in some for end in (k.start_s, k.end_s)] for some in (found, kept)]
    assert ends[0] == pytest.approx(ends[1])


@pytest.mark.parametrize("text", ["0:30-12:00", "0:30 – 12:00", "30 to 720", " 0:00:30-0:12:00 ,"])
def test_ranges_as_people_type_them(text: str) -> None:
    assert understood_kept(text) == (Kept(30.0, 720.0),)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("0:30", "no range"), ("30,5-720", "no range"), ("0:30-1:00-2:00", "no range"),
        ("a-b", "no place in the clip"),
        ("2:00-1:00", "is empty"), ("0:10-0:30, 0:20-0:40", "overlap"), ("9:00:00-9:10:00", "ends"),
    ],
)  # fmt: skip
def test_odd_ranges_are_refused(text: str, why: str) -> None:
    with pytest.raises(PlanRefused, match=why) as refused:
        with_kept(filmed(60), (), text)
    assert refused.value.field == KEPT


def test_length_is_typed_and_shown() -> None:
    footage = understood_start(SESSION, TypedStart(length="1:00:00"))
    assert footage == Footage(length_s=3600.0)
    assert typed_start(SESSION, footage) == TypedStart(length="1:00:00.00")
    assert understood_start(SESSION, TypedStart(length=" ")).length_s is None


@pytest.mark.parametrize("text", ["0:00", "long"])
def test_odd_length_is_refused(text: str) -> None:
    with pytest.raises(PlanRefused) as refused:
        understood_start(SESSION, TypedStart(length=text))
    assert refused.value.field == LENGTH


def test_what_is_kept_outlives_the_program() -> None:
    wishes = PublishWishes(kept=(Kept(30.0, 720.0),), footage=(Footage(length_s=900.0),))
    assert wishes_back(kept_wishes(wishes)) == wishes


def test_chapters_leave_out_what_was_cut(shelf) -> None:
    record = filmed(60)
    whole = len(chapters_of(record, timeline_of(record)))
    kept = (Kept(0.0, 30.0),)
    told = going_out(shelf, record, PublishWishes(kept=kept)).rows["chapters"].words
    short = len(chapters_of(record, timeline_of(record, (), kept)))
    assert short < whole or whole == 1
    assert told.startswith(f"{short} chapters") or "Only one chapter" in told
