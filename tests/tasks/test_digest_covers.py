"""What the digest of a record covers: all that the sheet says it does, and no flagged moment."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from benchlog.tasks.contents import Contents, contents_of
from benchlog.tasks.work_out import worked_out
from tests.tasks.sample_records import sample_record

LISTED = ("readings", "instruments", "checks", "corrections", "photos", "remarks", "locks")


def contents() -> Contents:
    return contents_of(sample_record())


def digest_with(**changes: object) -> str:
    return worked_out(replace(contents(), **changes)).digest  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def plain() -> str:
    return worked_out(contents()).digest


@pytest.mark.parametrize("field", LISTED)
def test_one_less_is_another_digest(plain: str, field: str) -> None:
    there = getattr(contents(), field)
    # The first instrument of the sample is in use; a new name is as good as one less.
    fewer = (
        (replace(there[0], name="another"), *there[1:]) if field == "instruments" else there[:-1]
    )
    assert there
    assert digest_with(**{field: fewer}) != plain


def test_caption_and_plan_are_covered(plain: str) -> None:
    made = contents()
    photos = (replace(made.photos[0], caption="seen from below"), *made.photos[1:])
    lineup = replace(made.lineup, question="Which would you cut next?")
    assert plain not in (digest_with(photos=photos), digest_with(lineup=lineup))
    assert digest_with(cut_made=not made.cut_made) != plain


def test_flagged_moments_are_not(plain: str) -> None:
    made = contents()
    later = tuple(replace(m, at=m.at + timedelta(seconds=9)) for m in made.moments)
    assert digest_with(moments=later) == plain
    assert digest_with(moments=()) == plain
    assert digest_with(revision=9, draft=False) == plain
