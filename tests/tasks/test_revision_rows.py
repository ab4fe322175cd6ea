"""The list of revisions, what changed in each, and a folder with its files."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.published_folder import files_of, revision_folder
from benchlog.tasks.revision_rows import FIRST, revision_rows, what_changed
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import publish, put_right, read_two, record_now


@pytest.fixture(autouse=True)
def two_readings(shelf: SqlShelf, clock: HandClock) -> None:
    read_two(shelf, clock)


def test_draft_stands_before_what_was_published(shelf: SqlShelf, clock: HandClock) -> None:
    (draft,) = revision_rows(shelf, record_now(shelf))
    assert (draft.revision, draft.draft, draft.status) == (1, True, "draft, not published")
    made = publish(shelf, clock)
    (only,) = revision_rows(shelf, record_now(shelf))
    assert (only.revision, only.draft, only.status) == (1, False, "published")
    assert only.digest == made.digest[:12]
    assert only.files.startswith("3 files, ")
    put_right(shelf, clock)
    assert [(r.revision, r.draft) for r in revision_rows(shelf, record_now(shelf))] == [
        (2, True),
        (1, False),
    ]


def test_superseded_revision_says_by_which(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    put_right(shelf, clock)
    publish(shelf, clock)
    second, first = revision_rows(shelf, record_now(shelf))
    assert first.status == "superseded by revision 2"
    assert (second.status, second.reason) == ("published", "read a mark too low")


def test_changes_are_told_of_draft_and_revision_alike(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    put_right(shelf, clock)
    record = record_now(shelf)
    draft, first = revision_rows(shelf, record)
    assert what_changed(shelf, record, first) == (FIRST, ())
    head, before = what_changed(shelf, record, draft)
    assert head.endswith("from revision 1 to the draft of revision 2")
    assert any("1204 mm → 1240 mm, because read a mark too low" in line for line in before)
    publish(shelf, clock)
    record = record_now(shelf)
    head, after = what_changed(shelf, record, revision_rows(shelf, record)[0])
    assert head == "1 change from revision 1 to revision 2"
    assert after == before


def test_files_are_handed_out_once(shelf: SqlShelf, clock: HandClock, tmp_path: Path) -> None:
    made = publish(shelf, clock)
    lineup = record_now(shelf).lineup
    place = files_of(shelf, lineup, 1, tmp_path)
    assert place.name == "revision-1"
    assert {p.relative_to(place).as_posix() for p in place.rglob("*") if p.is_file()} == {
        output.name for output in made.outputs
    }
    assert files_of(shelf, lineup, 1, tmp_path) == place


def test_changed_files_are_left_and_others_made(
    shelf: SqlShelf, clock: HandClock, tmp_path: Path
) -> None:
    publish(shelf, clock)
    lineup = record_now(shelf).lineup
    place = files_of(shelf, lineup, 1, tmp_path)
    (place / "sheet.txt").write_text("changed by hand")
    other = files_of(shelf, lineup, 1, tmp_path)
    assert other.name == "revision-1-2"
    assert (other / "sheet.txt").read_bytes() == shelf.publication_file("l-1", 1, "sheet.txt")
    assert (place / "sheet.txt").read_text() == "changed by hand"


def test_folder_is_a_free_one(shelf: SqlShelf, tmp_path: Path) -> None:
    lineup = record_now(shelf).lineup
    first = revision_folder(tmp_path, lineup, 3)
    assert first.parent.parent == tmp_path
    first.mkdir(parents=True)
    assert revision_folder(tmp_path, lineup, 3) == first
    (first / "a").touch()
    assert revision_folder(tmp_path, lineup, 3).name == "revision-3-2"
    with pytest.raises(PublishRefused, match="Nothing of this line-up"):
        files_of(shelf, lineup, 1, tmp_path)
