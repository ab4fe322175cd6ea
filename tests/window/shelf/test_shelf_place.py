from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.desk import Desk
from benchlog.window.shelf import rehearsal_feed
from benchlog.window.shelf.shelf_place import ShelfPlace
from benchlog.window.shelf.welcome import STEPS
from tests.window.place_scenes import settle


def planned(desk: Desk, *names: str) -> None:
    for name in names:
        draft = with_heading(fresh_draft(desk.workshop.clock), name=name)
        save_draft(desk.workshop.shelf, draft)


def shown_rows(place: ShelfPlace) -> list[str]:
    rows = place.list.rows
    role = Qt.ItemDataRole.AccessibleTextRole
    return [rows.index(n).data(role) for n in range(rows.rowCount())]


def names(place: ShelfPlace) -> list[str]:
    return [row.split(";")[0] for row in shown_rows(place)]


def test_empty_shelf_explains_places_in_order() -> None:
    assert [name for name, _ in STEPS] == ["Shelf", "Line-up", "Bench", "Verdict", "Sheet"]


def test_empty_shelf_offers_three_beginnings(desk, sit) -> None:
    person = sit(ShelfPlace, desk)
    assert person.place.currentWidget() is person.place.welcome
    offers = person.place.welcome.offers
    assert [offer.accessibleName() for offer in offers] == [
        "Plan a line-up", "Look at the sample line-up", "Rehearse at the bench",
    ]  # fmt: skip
    assert person.focus is offers[0]


def test_empty_shelf_promises_no_lock(desk, sit) -> None:
    words = [label.text() for label in sit(ShelfPlace, desk).place.findChildren(QLabel)]
    assert any("who stands in it" in text for text in words)
    assert not any("before the" in text for text in words)


def test_planning_is_one_key_away(desk, sit) -> None:
    person = sit(ShelfPlace, desk)
    with person.qtbot.waitSignal(desk.plan_wanted):
        person.press(Qt.Key.Key_Space)
    assert person.went == ["lineup"]


def test_sample_fills_in_and_leads_to_verdict(desk, sit) -> None:
    person = sit(ShelfPlace, desk)
    person.tab_to(person.place.welcome.offers[1])
    with person.qtbot.waitSignal(person.place.filled, timeout=120_000):
        person.press(Qt.Key.Key_Space)
        assert person.place.welcome.progress.isVisible()
        assert not person.place.welcome.offers[0].isEnabled()
    assert person.went == ["verdict"]
    assert person.told == []
    assert len(person.shelf.readings(desk.lineup_id)) > 200
    assert "rehearsal · invented" in shown_rows(person.place)[0]


def test_rehearsal_opens_the_bench_with_nothing_read(desk, sit) -> None:
    person = sit(ShelfPlace, desk)
    person.tab_to(person.place.welcome.offers[2])
    person.press(Qt.Key.Key_Space)
    assert person.went == ["bench"]
    assert desk.teardown.lineup.rehearsal
    assert person.shelf.readings(desk.lineup_id) == []


def test_rehearsed_weights_arrive_by_themselves(desk, sit, monkeypatch) -> None:
    monkeypatch.setattr(rehearsal_feed, "PACE_S", 0.0)
    shelf_place = sit(ShelfPlace, desk)
    shelf_place.place.rehearse()
    person = sit(BenchPlace, desk)
    first = desk.teardown.lineup.specimens[0].id
    person.place.bench.hands.go_to("whole_mass", first)

    def weighed() -> list[str]:
        readings = person.shelf.readings(desk.lineup_id)
        return [r.said.text for r in readings if r.attribute == "whole_mass"]

    person.until(lambda: len(weighed()) == 3)
    assert weighed() == ["312.4 g", "347.9 g", "268.1 g"]
    person.place.leave()


def test_bench_of_own_filters_gets_no_rehearsed_weights(desk, sit) -> None:
    planned(desk, "My own")
    desk.open_lineup(desk.workshop.shelf.lineups()[0].id)
    person = sit(BenchPlace, desk)
    assert not person.place.bench.scale.attached


def test_newest_line_up_stands_first(desk, sit) -> None:
    planned(desk, "Older", "Newer")
    person = sit(ShelfPlace, desk)
    assert names(person.place) == ["Newer", "Older"]
    assert "nothing read yet" in shown_rows(person.place)[0]
    assert "Amber (circle), Cobalt (square), Moss (triangle)" in shown_rows(person.place)[0]


def test_enter_takes_a_line_up_to_the_bench(desk, sit) -> None:
    planned(desk, "Older", "Newer")
    person = sit(ShelfPlace, desk)
    assert person.focus is person.place.list
    person.press(Qt.Key.Key_Down)
    person.press(Qt.Key.Key_Return)
    assert desk.teardown.lineup.name == "Older"
    assert person.went == ["bench"]


def test_typing_finds_and_enter_leads_to_the_list(desk, sit) -> None:
    planned(desk, "Winter three", "Summer pair")
    person = sit(ShelfPlace, desk)
    person.press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    person.type("winter")
    assert names(person.place) == ["Winter three"]
    person.press(Qt.Key.Key_Return)
    person.press(Qt.Key.Key_Return)
    assert desk.teardown.lineup.name == "Winter three"


def test_nothing_found_says_so_and_escape_shows_all(desk, sit) -> None:
    planned(desk, "Winter three")
    person = sit(ShelfPlace, desk)
    person.press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    person.type("xyz")
    settle()
    assert person.place.none_found.isVisible()
    assert "“xyz”" in person.place.none_found.text()
    assert not person.place.open_button.isEnabled()
    person.press(Qt.Key.Key_Escape)
    assert names(person.place) == ["Winter three"]
    assert not person.place.none_found.isVisible()


def test_new_line_up_by_key_from_a_full_shelf(desk, sit) -> None:
    planned(desk, "Winter three")
    person = sit(ShelfPlace, desk)
    with person.qtbot.waitSignal(desk.plan_wanted):
        person.press(Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    assert person.went == ["lineup"]


def test_failed_sample_is_told_and_offers_return(desk, sit, monkeypatch) -> None:
    from benchlog import wiring
    from benchlog.errors import ShelfFull

    def full(_workshop, _progress):
        raise ShelfFull("There is no room left on the disk.", "Make room.")

    monkeypatch.setattr(wiring, "rehearse_sample", full)
    person = sit(ShelfPlace, desk)
    person.place.fill_sample()
    person.until(lambda: person.told)
    assert person.told[0].what == "There is no room left on the disk."
    assert all(offer.isEnabled() for offer in person.place.welcome.offers)
