"""A desk to sit down at, and someone at the verdict of the sample line-up."""

from __future__ import annotations

import pytest

from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_fixtures import desk, sample_desk, sit  # noqa: F401
from tests.window.place_scenes import Person, settle


@pytest.fixture
def judge(sample_desk, sit) -> Person:  # noqa: F811
    """Someone at the verdict of the sample line-up."""
    person = sit(VerdictPlace, sample_desk)
    person.until(lambda: person.place.watch.record is not None)
    settle()
    return person
