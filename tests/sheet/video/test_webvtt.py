"""Chapters and subtitles as WebVTT, read back by a parser written from the W3C's text."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from benchlog.errors import OurFault, PublishRefused
from benchlog.sheet.video.webvtt import (
    chapters_webvtt,
    cue_text,
    subtitles_webvtt,
    timestamp,
    write_webvtt,
)
from benchlog.tasks.chapters import Chapter, chapters_of
from benchlog.tasks.footage import timeline_of
from benchlog.tasks.subtitles import Subtitle, subtitles_of
from tests.sheet.video.vtt_parser import NotWebVtt, parse
from tests.tasks.video_scenes import filmed

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)


def test_chapters_are_read_back() -> None:
    record = filmed(60)
    timeline = timeline_of(record)
    chapters = chapters_of(record, timeline)
    cues = parse(chapters_webvtt(chapters, timeline.length_s).encode(), chapters=True)
    assert [(c.start, c.text) for c in cues] == [
        (round(1000 * one.seconds), one.title) for one in chapters
    ]
    assert cues[-1].end == round(1000 * timeline.length_s)


def test_numbers_are_read_back() -> None:
    record = filmed(60)
    told = subtitles_of(record, timeline_of(record))
    cues = parse(subtitles_webvtt(told).encode())
    assert [(c.start, c.text) for c in cues] == [(round(1000 * s.start_s), s.text) for s in told]


@given(texts)
@example("a --> b")
@example("<c.red>&amp; \r\n\r\n00:00.000 --> 00:01.000")
@example("\0")
@example("")
@example("NOTE no comment")
def test_no_text_breaks_out_of_its_cue(text: str) -> None:
    (cue,) = parse(subtitles_webvtt([Subtitle(0.0, 4.0, text)]).encode())
    assert cue.text == (" ".join(text.split()).replace("\0", "\ufffd") or "–")
    assert "-->" not in cue_text(text)


@given(st.floats(0, 400_000))
def test_times_have_the_formats_shape(seconds: float) -> None:
    # W3C WebVTT 4.3, a timestamp: two or more digits of hours, two, two, and three decimals.
    hours, minutes, rest = timestamp(seconds).split(":")
    assert len(hours) >= 2
    assert (len(minutes), len(rest)) == (2, 6)
    back = int(hours) * 3600 + int(minutes) * 60 + float(rest)
    assert back == pytest.approx(seconds, abs=0.00051)


def test_times_by_hand() -> None:
    # The first is the example that stands in the specification's chapters.
    assert timestamp(10.7) == "00:00:10.700"
    assert timestamp(59.9996) == "00:01:00.000"
    assert timestamp(360_000) == "100:00:00.000"


@settings(max_examples=40)
@given(st.lists(st.floats(10, 500), max_size=12), st.floats(0, 100))
def test_chapters_never_overlap(gaps: list[float], rest: float) -> None:
    seconds, chapters = 0.0, [Chapter(0.0, "Start")]
    for gap in gaps:
        seconds += gap
        chapters.append(Chapter(seconds, "More"))
    cues = parse(chapters_webvtt(tuple(chapters), seconds + rest).encode(), chapters=True)
    assert len(cues) == len(chapters)


def test_no_chapters_is_an_empty_track() -> None:
    assert parse(chapters_webvtt((), 10.0).encode()) == []


@pytest.mark.parametrize(
    "cues",
    [
        [Subtitle(5.0, 5.0, "x")],
        [Subtitle(5.0, 4.0, "x")],
        [Subtitle(5.0, 6.0, "x"), Subtitle(4.0, 7.0, "y")],
        [Subtitle(-1.0, 1.0, "x")],
    ],
)
def test_cues_out_of_order_are_our_fault(cues: list[Subtitle]) -> None:
    with pytest.raises(OurFault):
        subtitles_webvtt(cues)


def test_track_is_written_as_it_stands(tmp_path: Path) -> None:
    text = subtitles_webvtt([Subtitle(0, 1, "é 😀 שלום")])
    assert write_webvtt(text, tmp_path / "n.vtt").read_bytes() == text.encode()
    with pytest.raises(PublishRefused, match="cannot be written"):
        write_webvtt(text, tmp_path / "none" / "n.vtt")


GOOD = "WEBVTT\n\nn\n00:00:00.000 --> 00:00:01.000\ntext\n"


def test_parser_takes_a_conforming_file() -> None:
    assert [c.text for c in parse(GOOD.encode())] == ["text"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("WEBVTT", "WEBVT"),
        ("WEBVTT\n\n", "WEBVTT\n"),
        ("00:00:01.000", "00:00:00.000"),
        ("00:00:01.000", "0:00:01.000"),
        ("00:00:01.000", "00:00:01.00"),
        ("00:00:01.000", "00:60:01.000"),
        (" --> ", "-->"),
        ("text", "a --> b"),
        ("text", "<b>"),
        ("text", "a & b"),
    ],
)
def test_parser_refuses_what_does_not_conform(old: str, new: str) -> None:
    assert old in GOOD
    with pytest.raises(NotWebVtt):
        parse(GOOD.replace(old, new, 1).encode())


def test_parser_refuses_chapters_that_overlap() -> None:
    more = GOOD + "\nm\n00:00:00.500 --> 00:00:02.000\nmore\n"
    assert len(parse(more.encode())) == 2
    with pytest.raises(NotWebVtt, match="overlap"):
        parse(more.encode(), chapters=True)
