"""The data's licence changed: a revision of its own, though nothing in the record did."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.changed import DATA, LicenceChange, outputs_touched
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.frozen_record import frozen, thawed
from benchlog.tasks.going_out import going_out
from benchlog.tasks.publication import Publication
from benchlog.tasks.publications import changes_between_revisions
from benchlog.tasks.publish_revision import publish_revision
from benchlog.tasks.publish_wishes import PublishWishes
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import Steps, WordsWriter, put_right, read_two, record_now

BY, FREE = "CC-BY-4.0", "CC0-1.0"
PACKAGE = WordsWriter("data package", "data", ("data.txt",))


@pytest.fixture(autouse=True)
def two_readings(shelf: SqlShelf, clock: HandClock) -> None:
    read_two(shelf, clock)


def publish_under(shelf: SqlShelf, clock: HandClock, licence: str, folder: Path | None = None,
                  reason: str = "") -> Publication:  # fmt: skip
    record = record_now(shelf)
    return publish_revision(shelf, clock, record, [PACKAGE], folder, Steps(), reason, licence)


def test_another_licence_is_a_revision(shelf: SqlShelf, clock: HandClock, tmp_path: Path) -> None:
    first = publish_under(shelf, clock, BY)
    second = publish_under(shelf, clock, FREE, tmp_path / "two")
    assert (first.revision, second.revision) == (1, 2)
    assert first.digest == second.digest
    assert second.reason == "licence of the data: CC0-1.0"
    told = (tmp_path / "two" / "data.txt").read_text(encoding="utf-8")
    assert told.startswith("revision 2")
    (change,) = changes_between_revisions(shelf, "l-1", 1, 2)
    assert change == LicenceChange("Licence of the data", BY, FREE)
    assert outputs_touched(change) == (DATA,)


def test_own_reason_comes_before_the_lent_one(shelf: SqlShelf, clock: HandClock) -> None:
    publish_under(shelf, clock, BY)
    made = publish_under(shelf, clock, FREE, reason="a viewer asked for it")
    assert made.reason == "a viewer asked for it"
    assert "CC-BY-4.0 → CC0-1.0" in thawed(shelf.published_record("l-1", 2))["changes"][0]


@pytest.mark.parametrize("licence", [BY, ""])
def test_same_or_no_licence_is_none(shelf: SqlShelf, clock: HandClock, licence: str) -> None:
    publish_under(shelf, clock, BY)
    with pytest.raises(PublishRefused, match="Nothing changed"):
        publish_under(shelf, clock, licence)


def test_data_that_stayed_out_may_follow(shelf: SqlShelf, clock: HandClock) -> None:
    publish_under(shelf, clock, "")
    assert publish_under(shelf, clock, BY).revision == 2
    with pytest.raises(PublishRefused, match="Nothing changed"):
        publish_under(shelf, clock, BY)


def test_correction_and_licence_in_one_revision(shelf: SqlShelf, clock: HandClock) -> None:
    publish_under(shelf, clock, BY)
    put_right(shelf, clock)
    made = publish_under(shelf, clock, FREE)
    assert (made.revision, made.reason) == (2, "read a mark too low; licence of the data: CC0-1.0")


def test_window_is_told_before(shelf: SqlShelf, clock: HandClock) -> None:
    publish_under(shelf, clock, BY)

    def standing(licence: str) -> tuple[int, bool, str, bool]:
        told = going_out(shelf, record_now(shelf), PublishWishes(licence=licence))
        return told.revision, told.changed, told.standing, told.needs_reason

    assert standing(BY) == (1, False, "revision 1 is published; nothing changed since", False)
    words = "revision 1 is published; the data would go out under CC0-1.0 now"
    assert standing(FREE) == (2, True, words, False)


def test_records_frozen_before_say_nothing(shelf: SqlShelf) -> None:
    record = record_now(shelf)
    older = frozen(replace(record, revision=1))
    del older["licence"]
    assert changed_between(older, frozen(record, licence=FREE)) == ()
