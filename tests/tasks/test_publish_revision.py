"""Publishing is all or nothing, counts revisions, and leaves what went out as it was."""

from __future__ import annotations

import errno
import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import OurFault, PublishRefused, ShelfReadOnly
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from benchlog.tasks.changed import ReadingChange
from benchlog.tasks.frozen_record import frozen_text, thawed
from benchlog.tasks.ports import Photo
from benchlog.tasks.publish_revision import changes_of, hand_out, next_revision
from benchlog.tasks.revision_lines import revision_line
from benchlog.trade.specimen import Paid
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import (
    CARDS,
    SHEET,
    FailingWriter,
    Steps,
    StopAskedError,
    WordsWriter,
    publish,
    put_right,
    read_two,
    record_now,
)


@pytest.fixture(autouse=True)
def two_readings(shelf: SqlShelf, clock: HandClock) -> None:
    read_two(shelf, clock)


def nothing_published(shelf: SqlShelf) -> bool:
    left = [p for p in (shelf.folder / "published").rglob("*") if p.is_file()]
    return shelf.publications("l-1") == [] and left == []


def test_first_revision_holds_every_output(
    shelf: SqlShelf, clock: HandClock, tmp_path: Path
) -> None:
    assert record_now(shelf).draft
    made = publish(shelf, clock, folder=tmp_path / "out")
    assert (made.revision, made.reason) == (1, "")
    assert [(o.name, o.kind) for o in made.outputs] == [
        ("sheet.txt", "sheet"), ("cards/one.txt", "cards"), ("cards/two.txt", "cards"),
    ]  # fmt: skip
    for output in made.outputs:
        data = shelf.publication_file("l-1", 1, output.name)
        assert data.decode().splitlines()[:1] == ["revision 1"]
        assert (tmp_path / "out" / output.name).read_bytes() == data
    record = record_now(shelf)
    assert (record.revision, record.draft, record.digest) == (1, False, made.digest)
    assert thawed(shelf.published_record("l-1", 1))["digest"] == made.digest
    assert record.revision_lines == ()


def test_correction_makes_a_second_revision(shelf: SqlShelf, clock: HandClock) -> None:
    first = publish(shelf, clock)
    put_right(shelf, clock)
    draft = record_now(shelf)
    assert (draft.revision, draft.draft) == (2, True)
    second = publish(shelf, clock)
    assert (second.revision, second.reason) == (2, "read a mark too low")
    assert second.digest != first.digest
    changes = thawed(shelf.published_record("l-1", 2))["changes"]
    assert changes[0] == ("Amber · Strip length: 1204 mm → 1240 mm, because read a mark too low")
    # What went out first stays as it was, bytes and record.
    assert b"1204" in shelf.publication_file("l-1", 1, "sheet.txt")
    assert b"1240" in shelf.publication_file("l-1", 2, "sheet.txt")
    assert thawed(shelf.published_record("l-1", 1))["changes"] == []


def test_given_reason_comes_before_the_readings(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    put_right(shelf, clock)
    assert publish(shelf, clock, reason=" a viewer\n saw it ").reason == "a viewer saw it"
    assert record_now(shelf).revision_reason == "a viewer saw it"


def test_lines_tell_what_each_revision_corrected(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    put_right(shelf, clock)
    change = "Amber · Strip length: 1204 mm → 1240 mm, because read a mark too low"
    before = next_revision(shelf, record_now(shelf))
    (line,) = before.revision_lines
    assert line == f"Revision 2: read a mark too low. {change}."
    readings = [c for c in changes_of(shelf, before) if isinstance(c, ReadingChange)]
    assert [c.sentence for c in readings] == [change]
    publish(shelf, clock)
    assert frozen_text(record_now(shelf)) == frozen_text(before)
    put_right(shelf, clock, "1250", "read again")
    lines = next_revision(shelf, record_now(shelf)).revision_lines
    assert lines[0] == line
    assert lines[1].startswith("Revision 3: read again. Amber · Strip length: 1240 mm → 1250 mm")


def test_long_lists_of_changes_are_counted() -> None:
    line = revision_line(2, "", [f"change {n}" for n in range(9)])
    assert line.startswith("Revision 2. change 0; change 1; change 2; and 6 more")


def test_nothing_changed_is_refused(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    with pytest.raises(PublishRefused, match="Nothing changed since revision 1"):
        publish(shelf, clock, reason="once more")
    assert len(shelf.publications("l-1")) == 1


def test_change_without_a_reason_is_refused(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    shelf.save_lineup(replace(shelf.lineup("l-1"), question="Which one is lighter?"))
    with pytest.raises(PublishRefused, match="Revision 2 needs its reason"):
        publish(shelf, clock)
    made = publish(shelf, clock, reason="the question was unclear")
    (change,) = thawed(shelf.published_record("l-1", 2))["changes"]
    assert change.endswith("→ Which one is lighter?")
    assert made.reason == "the question was unclear"


def test_photo_named_differently_can_be_issued_again(shelf: SqlShelf, clock: HandClock) -> None:
    data = b"a picture of a can"
    name = hashlib.sha256(data).hexdigest()
    photo = Photo(
        name, "l-1", "s-a", "outside", "can.jpg", "image/jpeg", 640, 480, clock.now(), "Amber"
    )
    shelf.add_photo(photo, data)
    publish(shelf, clock)
    shelf.add_photo(replace(photo, caption="Amber, after a fall"), data)
    assert record_now(shelf).draft
    publish(shelf, clock, reason="the dent was ours")
    assert thawed(shelf.published_record("l-1", 2))["changes"] == [
        "Photo of outside, Amber, caption: Amber → Amber, after a fall"
    ]


def test_nobody_said_who_paid_blocks(shelf: SqlShelf, clock: HandClock) -> None:
    lineup = shelf.lineup("l-1")
    first = replace(lineup.specimens[0], paid=Paid.UNANSWERED)
    shelf.save_lineup(replace(lineup, specimens=(first, *lineup.specimens[1:])))
    with pytest.raises(PublishRefused, match="who paid for Amber"):
        publish(shelf, clock)
    assert nothing_published(shelf)


@pytest.mark.parametrize(
    ("writer", "refusal", "told"),
    [
        (FailingWriter(), PublishRefused, "No space left.*nothing was published"),
        (FailingWriter(OSError(errno.EROFS, "Read-only")), PublishRefused, "Read-only"),
        (FailingWriter(PublishRefused("Not yet.")), PublishRefused, "Not yet"),
        (FailingWriter(ValueError("our fault")), ValueError, "our fault"),
    ],
)
def test_one_failing_output_publishes_nothing(
    shelf: SqlShelf,
    clock: HandClock,
    tmp_path: Path,
    writer: FailingWriter,
    refusal: type[Exception],
    told: str,
) -> None:
    with pytest.raises(refusal, match=told):
        publish(shelf, clock, writers=(SHEET, writer, CARDS), folder=tmp_path / "out")
    assert nothing_published(shelf)
    assert not (tmp_path / "out").exists()
    assert publish(shelf, clock).revision == 1


def test_stop_at_any_step_publishes_nothing(shelf: SqlShelf, clock: HandClock) -> None:
    every = Steps()
    put_right(shelf, clock)
    stops = 0
    for stop in range(1, 20):
        steps = Steps(stop)
        try:
            publish(shelf, clock, progress=steps)
        except StopAskedError:
            assert nothing_published(shelf)
            stops += 1
        else:
            every = steps
            break
    assert stops == len(every.told) >= 6
    done = [one[0] / one[1] for one in every.told]
    assert done == sorted(done)
    assert every.told[-1][2] == "freezing revision 1"


def test_read_only_shelf_is_told(shelf: SqlShelf, clock: HandClock) -> None:
    shelf.close()
    with open_shelf(shelf.folder, read_only=True) as view, pytest.raises(ShelfReadOnly):
        publish(view, clock)


def test_full_database_leaves_no_file(shelf: SqlShelf, clock: HandClock) -> None:
    raw = shelf._session.raw
    pages = raw.execute("PRAGMA page_count").fetchone()[0]
    raw.execute(f"PRAGMA max_page_count={pages}")
    with pytest.raises(Exception, match="is full"):
        publish(shelf, clock)
    assert nothing_published(shelf)
    raw.execute(f"PRAGMA max_page_count={pages + 1000}")
    assert publish(shelf, clock).revision == 1
    shelf.close()
    assert check_shelf(shelf.folder) == []


def test_filled_folder_is_refused_at_once(
    shelf: SqlShelf, clock: HandClock, tmp_path: Path
) -> None:
    (tmp_path / "mine.txt").write_text("keep me")
    for folder in (tmp_path, tmp_path / "mine.txt"):
        with pytest.raises(PublishRefused, match="not an empty folder"):
            publish(shelf, clock, folder=folder)
    assert nothing_published(shelf)
    assert (tmp_path / "mine.txt").read_text() == "keep me"


def test_failed_copies_tell_that_it_is_published(
    shelf: SqlShelf, clock: HandClock, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(PublishRefused, match=r"Revision 1 is published.*could not be copied"):
        publish(shelf, clock, folder=tmp_path / "file" / "out")
    (made,) = shelf.publications("l-1")
    paths = hand_out(shelf, made, tmp_path / "other")
    assert [p.read_bytes() for p in paths] == [
        shelf.publication_file("l-1", 1, o.name) for o in made.outputs
    ]


@pytest.mark.parametrize("name", ["../sheet.txt", "/tmp/benchlog-outside.txt"])
def test_output_outside_its_folder_is_our_fault(
    shelf: SqlShelf, clock: HandClock, name: str
) -> None:
    with pytest.raises(OurFault, match="outside"):
        publish(shelf, clock, writers=(_Claims(name),))
    assert nothing_published(shelf)


class _Claims(WordsWriter):
    """Claims to have written a file that is not in its folder."""

    def __init__(self, name: str) -> None:
        super().__init__(files=(name,))

    def write(self, *_given: object) -> tuple[str, ...]:
        return self.files


def test_no_output_is_refused(shelf: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(PublishRefused, match="nothing to publish"):
        publish(shelf, clock, writers=())
