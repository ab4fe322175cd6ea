"""Nothing cut off and everything named, at each place, size and theme."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.draft import Draft, save_draft, with_added, with_specimen
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.lineup.lineup_place import LineupPlace
from benchlog.window.sheet.sheet_place import SheetPlace
from benchlog.window.shelf.shelf_place import ShelfPlace
from benchlog.window.theme import apply_theme
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_fixtures import desk, sample_desk, sit  # noqa: F401
from tests.window.place_scenes import SIZES, cut_off, settle, unnamed

PLACES = (ShelfPlace, LineupPlace, VerdictPlace, SheetPlace)
BY_NAME = {"argvalues": PLACES, "ids": [place.__name__ for place in PLACES]}


def ready(person) -> None:
    """Wait until a place shows all that it has to show."""
    watch = getattr(person.place, "watch", None)
    if watch is not None and person.desk.teardown is not None:
        person.until(lambda: watch.record is not None)
    settle()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("make", **BY_NAME)
def test_nothing_is_cut_off_with_the_sample(sample_desk, sit, make, size: str) -> None:  # noqa: F811
    person = sit(make, sample_desk, size)
    ready(person)
    assert cut_off(person.place) == []


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("make", **BY_NAME)
def test_nothing_is_cut_off_on_an_empty_shelf(desk, sit, make, size: str) -> None:  # noqa: F811
    person = sit(make, desk, size)
    assert cut_off(person.place) == []


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_off_with_six_specimens(sample_desk, sit, size: str) -> None:  # noqa: F811
    draft = Draft(sample_desk.teardown.lineup)
    for _ in range(3):
        draft, fresh = with_added(draft)
        draft = with_specimen(draft, fresh, maker="Larkfield and Sons of the Northern Shore")
    save_draft(sample_desk.workshop.shelf, draft)
    sample_desk.reload()
    for make in PLACES:
        person = sit(make, sample_desk, size)
        ready(person)
        assert cut_off(person.place) == [], make.__name__


@pytest.mark.parametrize("make", **BY_NAME)
def test_everything_has_an_accessible_name(sample_desk, sit, make) -> None:  # noqa: F811
    person = sit(make, sample_desk)
    ready(person)
    assert unnamed(person.place) == []


@pytest.mark.parametrize("make", **BY_NAME)
def test_everything_is_reached_by_tab(sample_desk, sit, make) -> None:  # noqa: F811
    person = sit(make, sample_desk)
    ready(person)
    wanted = {
        widget
        for widget in person.place.findChildren(QPushButton)
        if widget.isVisible() and widget.isEnabled()
    }
    seen: set[QWidget] = set()
    for _ in range(60):
        seen.add(person.focus)
        person.press(Qt.Key.Key_Tab)
    assert [w.accessibleName() for w in wanted - seen] == []


@pytest.mark.parametrize("make", **BY_NAME)
def test_light_and_dark_both_draw(sample_desk, sit, themed, make) -> None:  # noqa: F811
    person = sit(make, sample_desk)
    ready(person)
    grounds = []
    for theme in ("dark", "light"):
        apply_theme(themed, theme)
        settle()
        image = person.place.grab().toImage()
        grounds.append(image.pixelColor(2, image.height() - 2).lightness())
    apply_theme(themed, "dark")
    assert grounds[0] < 60
    assert grounds[1] > 200


def test_a_cut_label_would_be_noticed(qtbot, themed) -> None:
    root = QWidget()
    qtbot.addWidget(root)
    label = QLabel("many words that want more room", root)
    label.setGeometry(0, 0, 20, 20)
    root.resize(200, 100)
    assert len(cut_off(root)) == 1
    label.setGeometry(0, 0, 190, 20)
    label.setText("few")
    assert cut_off(root) == []


def test_a_nameless_button_would_be_noticed(qtbot, themed) -> None:
    root = QWidget()
    qtbot.addWidget(root)
    button = QPushButton("press")
    QVBoxLayout(root).addWidget(button)
    assert unnamed(root) == ["QPushButton in QWidget"]
    button.setAccessibleName("press")
    assert unnamed(root) == []


def test_bench_with_nothing_in_hand_leads_to_the_shelf_at_once(desk, sit) -> None:  # noqa: F811
    person = sit(BenchPlace, desk)
    assert person.focus is person.place.to_shelf
    person.press(Qt.Key.Key_Space)
    assert person.went == ["shelf"]
