"""What a blind run keeps from the bench and from viewers until its codes are opened."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchlog.errors import EntryRefused, PublishRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import blind_answer, reveal, start_blind
from benchlog.tasks.publish import write_sheet
from benchlog.tasks.slots import Slot
from benchlog.tasks.tell import tell
from benchlog.tasks.walk import Teardown
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SPIN_ON, spin_on_lineup


class Writer:
    """Remembers what it was given to write."""

    def __init__(self) -> None:
        self.paths: list[Path] = []

    def write(self, _record: object, _shelf: object, path: Path, *_rest: object) -> None:
        self.paths.append(path)


class Still:
    """Hears of steps and does nothing."""

    def step(self, *_told: object) -> None:
        return


@pytest.fixture
def planned(shelf: SqlShelf) -> SqlShelf:
    shelf.save_lineup(spin_on_lineup())
    return shelf


def test_bench_shows_no_sealed_answer(planned: SqlShelf) -> None:
    clock = HandClock()
    run = start_blind(planned, clock, "l-1", ("dents",), seed=7)
    blind_answer(planned, clock, run, "none")
    bench = Teardown(planned, clock, SPIN_ON, "l-1")
    assert bench.readings == ()
    with pytest.raises(EntryRefused, match="nothing to scratch"):
        bench.scratch_last()
    for _ in run.codes[1:]:
        blind_answer(planned, clock, run, "none")
    reveal(planned, clock, run)
    bench.reload()
    assert {r.specimen_id for r in bench.readings} == {"s-a", "s-b", "s-c"}
    assert [r.blind for r in bench.standing_readings(Slot("dents", "s-a"))] == [True]


def test_nothing_is_published_under_seal(planned: SqlShelf, tmp_path: Path) -> None:
    clock, writer = HandClock(), Writer()
    run = start_blind(planned, clock, "l-1", ("dents",), seed=7)
    target = tmp_path / "sheet.pdf"
    with pytest.raises(PublishRefused, match="judged blind"):
        write_sheet(planned, draw_up(planned, "l-1", SPIN_ON), writer, target, "A4", Still())
    assert writer.paths == []
    reveal(planned, clock, run, sure=True)
    write_sheet(planned, draw_up(planned, "l-1", SPIN_ON), writer, target, "A4", Still())
    assert writer.paths == [target]


def test_numbers_tell_no_code_under_seal(planned: SqlShelf) -> None:
    clock = HandClock()
    run = start_blind(planned, clock, "l-1", ("dents",), seed=7)
    blind_answer(planned, clock, run, "deep")
    told = tell(draw_up(planned, "l-1", SPIN_ON))
    assert told["readings"] == []
    (shut,) = told["blind_runs"]
    assert (shut["codes"], shut["orders"], shut["seed"]) == ([], [], None)
    assert not [code for _, code in run.codes if f'"{code}"' in json.dumps(told)]
    reveal(planned, clock, run, sure=True)
    told = tell(draw_up(planned, "l-1", SPIN_ON))
    assert [r["word"] for r in told["readings"]] == ["deep"]
    assert told["blind_runs"][0]["seed"] == 7
