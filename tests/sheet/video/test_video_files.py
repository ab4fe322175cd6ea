"""All files for one video say the same, in the order in which it goes."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.sheet.data.csv_text import read_csv, unguarded
from benchlog.sheet.outputs import DescriptionOutput, VideoOutput
from benchlog.tasks.record import Record
from tests.sheet.sample_record import PictureShelf, Told
from tests.sheet.video.vtt_parser import parse
from tests.tasks.video_scenes import filmed


def written(record: Record, folder: Path) -> Path:
    """Write what goes with a video, and return the folder of its chapters."""
    for output in (VideoOutput(), DescriptionOutput()):
        output.write(record, PictureShelf({}), folder, Told())  # type: ignore[arg-type]
    return folder / "video"


def test_all_files_say_the_same(tmp_path: Path) -> None:
    made = written(filmed(60), tmp_path)
    chapters = parse((made / "chapters.vtt").read_bytes(), chapters=True)
    listed = (made / "chapters.txt").read_text(encoding="utf-8").splitlines()
    assert [line.partition(" ")[2] for line in listed] == [cue.text for cue in chapters]
    described = (tmp_path / "description.txt").read_text(encoding="utf-8")
    assert all(line in described for line in listed)
    markers = read_csv("m", (made / "markers.csv").read_bytes().decode())
    names = [unguarded(row["name"]) for row in markers]
    assert {cue.text for cue in parse((made / "subtitles.vtt").read_bytes())} <= set(names)
    assert {cue.text for cue in chapters} <= set(names)


def test_markers_come_as_the_video_goes(tmp_path: Path) -> None:
    made = written(filmed(60), tmp_path)
    markers = read_csv("m", (made / "markers.csv").read_bytes().decode())
    seconds = [float(row["seconds"]) for row in markers]
    assert len(seconds) > 60
    assert seconds == sorted(seconds)


def test_timeline_stands_beside_them(tmp_path: Path) -> None:
    pytest.importorskip("opentimelineio")
    made = written(filmed(10), tmp_path)
    assert '"Timeline.1"' in (made / "markers.otio").read_text(encoding="utf-8")
