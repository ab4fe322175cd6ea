"""Someone at the Sheet who publishes; only what is quickly written goes out unless asked for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog

from benchlog.tasks.correct import correct
from benchlog.tasks.publication import Publication
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.window.desk import Desk
from benchlog.window.sheet.sheet_place import SheetPlace
from benchlog.window.sheet.wishes_kept import keep_wishes
from tests.window.place_fixtures import Sit
from tests.window.place_scenes import Person, settle

CONTROL = Qt.KeyboardModifier.ControlModifier
QUICK = PublishWishes(kinds=("chapters", "description"))


def at_the_sheet(sit: Sit, desk: Desk, folder: Path, wishes: PublishWishes = QUICK) -> Person:
    """Sit down at the Sheet; files of revisions go into `folder`."""
    desk.change_settings(publish_to=str(folder))
    if desk.teardown is not None:
        keep_wishes(desk, wishes)
    person = sit(SheetPlace, desk)
    person.opened = []
    person.place.show_folder = person.opened.append
    ready(person)
    return person


def ready(person: Person) -> None:
    person.until(lambda: person.place.watch.record is not None)
    settle()


def publish(person: Person) -> Publication:
    """Publish with the key, wherever the focus is, and wait until that is told."""
    before = len(person.shelf.publications(person.desk.lineup_id))
    with person.qtbot.waitSignal(person.place.work.published, timeout=120_000):
        person.press(Qt.Key.Key_Return, CONTROL)
    person.until(lambda: not person.place.watch.record.draft)
    settle()
    every = person.shelf.publications(person.desk.lineup_id)
    assert len(every) == before + 1
    return every[-1]


def put_right(person: Person, reason: str = "digits swapped") -> None:
    """Correct Amber's can height, and wait until the draft shows it."""
    teardown = person.desk.teardown
    height = next(r for r in teardown.readings if r.attribute == "can_height")
    correct(
        person.shelf, person.desk.workshop.clock, teardown.sequence, person.desk.lineup_id,
        height.id, "88.8 mm", reason, sure=True,
    )  # fmt: skip
    person.desk.reload()
    person.until(lambda: person.place.watch.record.draft)
    settle()


def ask_another_question(person: Person) -> None:
    """Change the plan, which gives no reason."""
    lineup = person.shelf.lineup(person.desk.lineup_id)
    person.shelf.save_lineup(replace(lineup, question="Which one would you cut next?"))
    person.desk.reload()
    person.until(lambda: person.place.watch.record.draft)
    settle()


def dialog_of(person: Person) -> QDialog:
    """The dialog that was opened last."""
    return person.place.findChildren(QDialog)[-1]
