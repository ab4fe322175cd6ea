"""A record's revision is the published one while nothing differs, else a draft of the next."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from benchlog.tasks.publication import Publication
from benchlog.tasks.revision import (
    Standing,
    placed,
    revision_of,
    revision_told,
    revision_words,
    status_of,
)
from tests.tasks.sample_records import sample_record

AT = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)


def published(*digests: str) -> list[Publication]:
    return [
        Publication(f"p-{n}", "l-1", n, AT, digest, "misread" if n > 1 else "")
        for n, digest in enumerate(digests, start=1)
    ]


@pytest.mark.parametrize(
    ("digests", "here", "standing"),
    [
        ((), "a", Standing(1, draft=True)),
        (("a",), "a", Standing(1, draft=False)),
        (("a",), "b", Standing(2, draft=True)),
        (("a", "b"), "b", Standing(2, draft=False, reason="misread")),
        (("a", "b"), "a", Standing(3, draft=True)),
    ],
)
def test_standing_follows_what_was_published(
    digests: tuple[str, ...], here: str, standing: Standing
) -> None:
    assert revision_of(published(*digests), here) == standing
    assert revision_of(reversed(published(*digests)), here) == standing


def test_words_tell_a_draft_from_what_went_out() -> None:
    record = sample_record()
    draft = placed(record, published("other"))
    assert (revision_words(draft), revision_told(draft)) == (
        "draft, not published",
        "draft of revision 2, not published",
    )
    out = placed(record, published("other", record.digest))
    assert (revision_words(out), revision_told(out)) == ("revision 2", "revision 2")
    assert out.revision_reason == "misread"


def test_all_but_the_newest_are_superseded() -> None:
    every = published("a", "b", "c")
    assert [status_of(one, every) for one in every] == [
        "superseded by revision 3",
        "superseded by revision 3",
        "published",
    ]
