"""Markers for the editor, read back: the timeline by its library, the CSV by rows."""

from __future__ import annotations

import builtins
import json
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PublishRefused
from benchlog.sheet.data.csv_text import read_csv
from benchlog.sheet.video.markers import (
    chapter_markers,
    frame_of,
    markers_csv,
    timecode,
    write_otio,
)
from benchlog.tasks.chapters import Chapter
from benchlog.tasks.footage import timeline_of
from benchlog.tasks.subtitles import Marker, markers_of
from tests.tasks.video_scenes import filmed

NTSC = Fraction(30000, 1001)
rates = st.sampled_from([Fraction(24), Fraction(25), Fraction(30), Fraction(60), NTSC])


def test_timeline_is_read_back(tmp_path: Path) -> None:
    otio = pytest.importorskip("opentimelineio")
    record = filmed(20)
    timeline = timeline_of(record)
    markers = markers_of(record, timeline)
    path = write_otio(markers, tmp_path / "m.otio", name="Three", length_s=timeline.length_s)
    back = otio.adapters.read_from_file(str(path))
    (gap,) = back.tracks[0]
    assert back.name == "Three"
    assert [m.name for m in gap.markers] == [m.name for m in markers]
    assert [m.marked_range.start_time.value for m in gap.markers] == [
        frame_of(m.seconds, Fraction(25)) for m in markers
    ]
    assert gap.source_range.duration.to_seconds() == pytest.approx(timeline.length_s, abs=0.04)


def test_timeline_is_json_of_its_own_schema(tmp_path: Path) -> None:
    pytest.importorskip("opentimelineio")
    path = write_otio([Marker(1.0, "x")], tmp_path / "m.otio", name="n", length_s=5.0)
    assert json.loads(path.read_text(encoding="utf-8"))["OTIO_SCHEMA"] == "Timeline.1"


@pytest.mark.parametrize("name", ["a\nb\x00c", "שלום 😀", "", '"quoted" \\ <b>'])
def test_hostile_names_keep_to_one_line(tmp_path: Path, name: str) -> None:
    otio = pytest.importorskip("opentimelineio")
    path = write_otio([Marker(0.0, name)], tmp_path / "m.otio", name=name, length_s=1.0)
    (gap,) = otio.adapters.read_from_file(str(path)).tracks[0]
    assert gap.markers[0].name == " ".join(name.replace("\x00", " ").split())


@given(st.integers(0, 1_000_000), rates)
def test_a_frames_own_beginning_is_that_frame(frame: int, rate: Fraction) -> None:
    assert frame_of(float(frame / rate), rate) == frame


def test_timecodes_by_hand() -> None:
    assert timecode(0.0, Fraction(25)) == "00:00:00:00"
    assert timecode(3661.48, Fraction(25)) == "01:01:01:12"
    # 1000 frames at 30000/1001, counted by 30: 33 s and 10 frames.
    assert timecode(float(1000 / NTSC), NTSC) == "00:00:33:10"


def test_csv_holds_the_same_markers() -> None:
    markers = [Marker(1.5, "=cmd", "note, with comma"), Marker(2.0, "plain")]
    rows = read_csv("m", markers_csv(markers))
    assert [list(r.values()) for r in rows] == [
        ["1.500", "00:00:01:12", "'=cmd", "note, with comma"],
        ["2.000", "00:00:02:00", "plain", ""],
    ]


def test_chapters_become_markers() -> None:
    (one,) = chapter_markers([Chapter(12.0, "Gasket")])
    assert (one.seconds, one.name, one.note) == (12.0, "Gasket", "chapter")


def test_missing_library_points_to_the_csv(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def without(name: str, *rest: object) -> object:
        if name == "opentimelineio":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.delitem(sys.modules, "opentimelineio", raising=False)
    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(PublishRefused, match="does not run on this Python") as refused:
        write_otio([], tmp_path / "m.otio", name="n", length_s=1.0)
    assert "CSV" in refused.value.do


def test_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    pytest.importorskip("opentimelineio")
    with pytest.raises(PublishRefused, match="cannot be written"):
        write_otio([], tmp_path / "none" / "m.otio", name="n", length_s=1.0)
