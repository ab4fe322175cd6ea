"""Killed at random moments while publishing: a revision is there whole, or not at all."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from benchlog.shelf import check_shelf, open_shelf
from benchlog.tasks.frozen_record import thawed
from tests.journeys.cutting import said_until_cut
from tests.journeys.publish_child import FILES
from tests.small_trade import SCALE, TAPE, HandClock, small_lineup
from tests.tasks.publishing_scenes import publish, put_right, read_two, record_now

CUTS = 8


@pytest.mark.timeout(240)
def test_power_cut_leaves_old_or_new_revision_whole(tmp_path: Path) -> None:
    chance = random.Random(20260504)
    folder = tmp_path / "shelf"
    with open_shelf(folder) as shelf:
        shelf.save_lineup(small_lineup())
        shelf.save_instrument(SCALE)
        shelf.save_instrument(TAPE)
        read_two(shelf, HandClock())
    acknowledged, leftovers = 0, 0
    for _ in range(CUTS):
        # Every step of a publishing is said, so that the cut falls anywhere in one.
        seen = said_until_cut(
            "publish_child", folder, chance.randint(3, 40), chance.uniform(0.0, 0.03)
        )
        done = [int(said[1]) for said in seen if said[0] == "done"]
        acknowledged = max([acknowledged, *done])
        problems = check_shelf(folder)
        assert [one for one in problems if "may be deleted" not in one] == []
        leftovers += bool(problems)
        with open_shelf(folder) as shelf:
            kept = shelf.publications("l-1")
            assert [one.revision for one in kept] == list(range(1, len(kept) + 1))
            # At most the one that was being published when the power went may be there besides.
            assert len(kept) - acknowledged in (0, 1)
            for one in kept:
                assert {o.name for o in one.outputs} == {"sheet.txt", *FILES}
                for output in one.outputs:
                    text = shelf.publication_file("l-1", one.revision, output.name).decode()
                    assert text.startswith(f"revision {one.revision}\n")
                assert thawed(shelf.published_record("l-1", one.revision))["digest"] == one.digest
            assert record_now(shelf).revision - len(kept) in (0, 1)
    assert acknowledged > CUTS // 2
    assert leftovers > 0, "no cut fell into the writing"
    with open_shelf(folder) as shelf:
        put_right(shelf, HandClock(), "1500 mm", "once the power is back")
        assert publish(shelf, HandClock()).revision == len(kept) + 1
