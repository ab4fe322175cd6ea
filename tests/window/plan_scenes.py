"""Someone planning a line-up, and what a test asks of them."""

from __future__ import annotations

import pytest

from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.window.desk import Desk
from benchlog.window.lineup.lineup_place import LineupPlace
from tests.window.place_scenes import Person


@pytest.fixture
def plan(desk: Desk, sit) -> Person:
    """Someone planning a line-up on an empty shelf."""
    return sit(LineupPlace, desk)


@pytest.fixture
def kept(desk: Desk, sit) -> Person:
    """Someone at the plan of a line-up that is on the shelf, nothing read yet."""
    lineup = save_draft(
        desk.workshop.shelf, with_heading(fresh_draft(desk.workshop.clock), name="Kept")
    )
    desk.open_lineup(lineup.id)
    return sit(LineupPlace, desk)


def on_shelf(person: Person):
    return person.shelf.lineup(person.desk.lineup_id)


def field(person: Person, name: str):
    return person.place.form.fields[name]


def nicknames(person: Person) -> list[str]:
    return [s.nickname for s in on_shelf(person).specimens]


def saved(person: Person):
    return person.qtbot.waitSignal(person.place.planning.saved)
