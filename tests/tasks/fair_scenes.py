"""A spin-on line-up of three on a real shelf, for what is locked, judged blind or overruled."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from benchlog.judge.rules_file import load_rules
from benchlog.shelf import SqlShelf, open_shelf
from benchlog.tasks.plan import usual_attributes
from benchlog.tasks.walk import Teardown
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Lineup
from tests.made_shelves import fresh_shelf
from tests.small_trade import SCALE, TAPE, HandClock, small_lineup

SPIN_ON = load_sequence("spin_on")
SHIPPED = load_rules()
BEFORE_ALL = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)


def spin_on_lineup(**more: object) -> Lineup:
    """The three invented specimens, asked for all that is usual of a spin-on filter."""
    settled = {"sequence": "spin_on", "attributes": usual_attributes(SPIN_ON)}
    return small_lineup(**(settled | more))


class WallTime:
    """What the shelf notes as the time of a change; a test moves it on."""

    def __init__(self) -> None:
        self.at = BEFORE_ALL

    def __call__(self) -> datetime:
        return self.at

    def later(self, days: int = 30) -> None:
        self.at += timedelta(days=days)


def fair_shelf(folder: Path, wall: WallTime | None = None) -> SqlShelf:
    """An open shelf with the line-up 'l-1' and two instruments."""
    shelf = open_shelf(fresh_shelf(folder), now=wall or WallTime())
    shelf.save_instrument(SCALE)
    shelf.save_instrument(TAPE)
    shelf.save_lineup(spin_on_lineup())
    return shelf


def read_dents(shelf: SqlShelf, clock: HandClock, words: str = "none light deep") -> None:
    """Say at the bench how dented each can is; dents are seen before the cut."""
    bench = Teardown(shelf, clock, SPIN_ON, "l-1")
    for specimen, word in zip(shelf.lineup("l-1").specimens, words.split(), strict=True):
        bench.go_to("dents", specimen.id)
        bench.accept(word)


def make_cut(shelf: SqlShelf, clock: HandClock) -> None:
    """Give the deliberate yes of the cut."""
    bench = Teardown(shelf, clock, SPIN_ON, "l-1")
    bench.go_to_station("cut")
    bench.say_yes()
