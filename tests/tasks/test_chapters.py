"""Chapters: first at 0:00, ascending, at least 10 s, short titles."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from benchlog.tasks.chapters import (
    BEFORE,
    LONGEST_TITLE,
    SHORTEST_S,
    Chapter,
    chapter_lines,
    chapter_notes,
    chapters_of,
    joined,
    stamp,
)
from benchlog.tasks.footage import Anchor, Footage, Kept, timeline_of
from tests.tasks.video_scenes import FIRST_S, STEP_S, filmed


def stamp_seconds(text: str) -> int:
    seconds = 0
    for part in text.split(":"):
        seconds = seconds * 60 + int(part)
    return seconds


@settings(max_examples=40, deadline=None)
@given(
    st.integers(1, 120),
    st.floats(0.5, 60),
    st.none() | st.integers(1, 60),
    st.floats(-30, 60),
    st.lists(st.tuples(st.floats(0, 500), st.floats(1, 300)), max_size=3),
)
@example(60, 15.0, None, 0.0, [])
def test_list_is_what_platforms_want(
    count: int, step: float, pause: int | None, clip: float, parts: list[tuple[float, float]]
) -> None:
    record = filmed(count, step, pause)
    kept, end = [], 0.0
    for gap, length in parts:
        kept.append(Kept(end + gap, end + gap + length))
        end += gap + length
    footage = [Footage((Anchor(FIRST_S, clip),))]
    whole = timeline_of(record, footage).length_s
    kept = [part for part in kept if part.start_s < whole]
    timeline = timeline_of(record, footage, kept)
    chapters = chapters_of(record, timeline)
    if not chapters:
        return
    assert chapters[0].seconds == 0.0
    assert all(b.seconds - a.seconds >= SHORTEST_S for a, b in pairwise(chapters))
    assert all(0 < len(one.title) <= LONGEST_TITLE for one in chapters)
    if len(chapters) > 1:
        assert timeline.length_s - chapters[-1].seconds >= SHORTEST_S
    stamps = [stamp_seconds(line.split()[0]) for line in chapter_lines(chapters).splitlines()]
    assert all(b - a >= SHORTEST_S for a, b in pairwise(stamps))


def test_chapter_begins_with_the_stations_first_reading() -> None:
    record = filmed(60)
    timeline = timeline_of(record)
    stations = {a.key: a.station for a in record.sequence.attributes}
    first: dict[str, float] = {}
    for reading in record.readings:
        first.setdefault(stations[reading.attribute], reading.session_s - FIRST_S)
    told = [(c.title, c.seconds) for c in chapters_of(record, timeline)]
    labels = {s.key: s.label for s in record.sequence.stations}
    assert told == [(labels[key], pytest.approx(seconds)) for key, seconds in first.items()]
    assert len(told) > 2


def test_late_first_reading_leaves_a_beginning() -> None:
    record = filmed(30)
    timeline = timeline_of(record, [Footage((Anchor(FIRST_S, 42.0),))])
    first, second, *_ = chapters_of(record, timeline)
    assert first == Chapter(0.0, BEFORE)
    assert second.seconds == pytest.approx(42.0)


def test_station_taken_up_again_is_continued() -> None:
    record = filmed(60, pause_after=55)
    titles = [c.title for c in chapters_of(record, timeline_of(record))]
    assert titles[-1].endswith(", continued")


def test_cut_away_beginning_moves_to_what_is_shown() -> None:
    record = filmed(40)
    plain = chapters_of(record, timeline_of(record))
    second = plain[1].seconds
    kept = (Kept(0.0, second - 1), Kept(second + STEP_S, second + 300))
    cut = chapters_of(record, timeline_of(record, kept=kept))
    assert cut[1] == Chapter(pytest.approx(second - 1), plain[1].title)


def test_quick_stations_share_a_chapter() -> None:
    record = filmed(200, step_s=0.05)
    (only,) = chapters_of(record, timeline_of(record))
    assert " and " in only.title or ", " in only.title


def test_corrections_and_withdrawals_make_no_chapter() -> None:
    record = filmed(3)
    gone = tuple(replace(r, withdrawn=True, supersedes="x") for r in record.readings)
    assert chapters_of(replace(record, readings=gone), timeline_of(record)) == ()


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0:00"), (59.99, "0:59"), (61, "1:01"), (600, "10:00"), (3723.5, "1:02:03")],
)
def test_stamps_are_whole_seconds(seconds: float, text: str) -> None:
    assert stamp(seconds) == text


@given(st.lists(st.text(min_size=1, max_size=80), min_size=1, max_size=8))
def test_joined_titles_keep_within_the_limit(titles: list[str]) -> None:
    told = joined(titles)
    assert len(told) <= LONGEST_TITLE
    assert "\n" not in told


def test_joined_titles_say_what_was_left_out() -> None:
    assert joined(["Outside", "Gasket"]) == "Outside, Gasket"
    long = ["The whole outside of the can", "The gasket and its groove", "Thread"]
    assert joined(long) == "The whole outside of the can and 2 more"


def test_few_chapters_are_noted() -> None:
    some = tuple(Chapter(10.0 * n, "x") for n in range(3))
    assert chapter_notes(some) == ()
    assert "Only 2 chapters" in chapter_notes(some[:2])[0]
    assert "Only one chapter" in chapter_notes(some[:1])[0]
    assert "no chapters" in chapter_notes(())[0]
