"""Killed while fields are retaken and measured: every step whole or not there, none forgotten."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from benchlog.measure.reading import standing
from benchlog.shelf import check_shelf, open_shelf
from tests.journeys.cutting import said_until_cut
from tests.journeys.picture_child import READINGS
from tests.shelf import picture_scenes, scenes

CUTS = 6
CUT_FILES = ("still being written", "belongs to no record")
"""What a cut may leave behind: a photo's file without its record, whole or half."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A shelf with a line-up and a set-up."""
    with open_shelf(tmp_path / "shelf") as shelf:
        scenes.set_up(shelf)
        shelf.add_set_up(
            picture_scenes.SET_UP, picture_scenes.MICROSCOPE, picture_scenes.SCALE_PICTURE
        )
    return tmp_path / "shelf"


@pytest.mark.timeout(120)
def test_power_cut_leaves_whole_fields(folder: Path) -> None:
    chance = random.Random(20261125)
    acknowledged: set[str] = set()
    for _ in range(CUTS):
        seen = said_until_cut("picture_child", folder, 1, chance.uniform(0.02, 0.3))
        acknowledged |= {" ".join(line) for line in seen[1:]}
        problems = check_shelf(folder)
        assert [one for one in problems if not any(words in one for words in CUT_FILES)] == []
        with open_shelf(folder, read_only=True) as view:
            micrographs, answers = view.micrographs("spring"), view.picture_answers("spring")
            readings = view.readings("spring")
        assert acknowledged <= {one.id for one in (*micrographs, *answers)}
        made = [name for one in answers for name in one.readings]
        assert len(made) == READINGS * len(answers)
        assert sorted(made) == sorted(one.id for one in readings if not one.withdrawn)
        last = {one.micrograph_id: one for one in answers}.get(micrographs[-1].id)
        assert [one.id for one in standing(readings)] == list(last.readings if last else ())
    assert len(acknowledged) > 2 * CUTS
