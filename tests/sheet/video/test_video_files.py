"""All files for one video: complete, consistent, and none while the disclosure is open."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.sheet.data.csv_text import read_csv, unguarded
from benchlog.sheet.video.write_video import write_video_files
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.footage import timeline_of
from benchlog.trade.specimen import Paid
from tests.sheet.video.vtt_parser import parse
from tests.tasks.video_scenes import filmed


def test_all_files_say_the_same(tmp_path: Path) -> None:
    record = filmed(60)
    timeline = timeline_of(record)
    paths = {p.name: p for p in write_video_files(record, timeline, tmp_path / "v", otio=False)}
    assert set(paths) == {p.name for p in (tmp_path / "v").iterdir()}
    chapters = parse(paths["chapters.vtt"].read_bytes(), chapters=True)
    listed = paths["chapters.txt"].read_text(encoding="utf-8").splitlines()
    assert [line.partition(" ")[2] for line in listed] == [cue.text for cue in chapters]
    assert all(line in paths["description.txt"].read_text(encoding="utf-8") for line in listed)
    markers = read_csv("m", paths["markers.csv"].read_bytes().decode())
    names = [unguarded(row["name"]) for row in markers]
    assert {cue.text for cue in parse(paths["numbers.vtt"].read_bytes())} <= set(names)
    assert {cue.text for cue in chapters} <= set(names)
    assert disclosure_of(record.lineup).spoken in paths["disclosure.txt"].read_text("utf-8")


def test_timeline_stands_beside_them(tmp_path: Path) -> None:
    pytest.importorskip("opentimelineio")
    record = filmed(10)
    *_, last = write_video_files(record, timeline_of(record), tmp_path)
    assert last.name == "markers.otio"
    assert '"Timeline.1"' in last.read_text(encoding="utf-8")


def test_open_disclosure_writes_nothing(tmp_path: Path) -> None:
    record = filmed(5)
    first, *others = record.lineup.specimens
    specimens = (replace(first, paid=Paid.UNANSWERED), *others)
    open_one = replace(record, lineup=replace(record.lineup, specimens=specimens))
    with pytest.raises(PublishRefused, match="Nobody said who paid"):
        write_video_files(open_one, timeline_of(record), tmp_path / "v")
    assert list(tmp_path.iterdir()) == []


def test_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    record = filmed(5)
    with pytest.raises(PublishRefused, match="cannot be written"):
        write_video_files(record, timeline_of(record), tmp_path / "file")
