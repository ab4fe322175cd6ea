from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from benchlog.errors import ShelfDamaged, ShelfFull, ShelfLocked, ShelfNewer, ShelfReadOnly
from benchlog.settings import Settings, load_settings
from benchlog.window import main_window as module
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.places import PLACES
from benchlog.wiring import open_workshop
from tests.window.bench_scenes import desk_over, planned, workshop_in

QUIET = Settings(sounds=False)


@pytest.fixture
def window_on(qtbot, themed) -> Iterator[Callable[..., MainWindow]]:
    made: list[MainWindow] = []

    def make(folder: Path, **more: object) -> MainWindow:
        window = MainWindow(folder, QUIET, Faults(), **more)
        qtbot.addWidget(window)
        made.append(window)
        return window

    yield make
    for window in made:
        window.close()


def shown(qtbot, window: MainWindow) -> MainWindow:
    with qtbot.waitSignal(window.opened):
        window.show()
    return window


def test_shell_paints_before_the_shelf_opens(qtbot, window_on, tmp_path: Path) -> None:
    happened: list[str] = []

    def opener(folder: Path) -> object:
        happened.append("opening")
        return open_workshop(folder)

    window = window_on(tmp_path / "shelf", opener=opener)
    window.first_painted.connect(lambda: happened.append("painted"))
    assert window.waiting.text() == "Opening the shelf…"
    shown(qtbot, window)
    assert happened == ["painted", "opening"]


def test_nothing_heavy_is_imported_before_the_paint(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path\n"
        "from benchlog.settings import Settings\n"
        "from benchlog.window.app import start\n"
        f"app, window = start(Path({str(tmp_path)!r}), Settings())\n"
        "def painted():\n"
        "    print(*sorted(sys.modules), flush=True)\n"
        "    window.open_shelf = lambda: app.exit(0)\n"
        "window.first_painted.connect(painted)\n"
        "window.show(); app.exec()\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    loaded = set(ran.stdout.split())
    heavy = {"pint", "sqlalchemy", "alembic", "reportlab", "numpy", "PIL", "uncertainties"}
    assert "PySide6.QtWidgets" in loaded
    assert not heavy & loaded
    assert not [name for name in loaded if name.startswith(("benchlog.tasks", "benchlog.shelf."))]


def test_empty_shelf_stands_at_the_shelf(qtbot, window_on, tmp_path: Path) -> None:
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    assert window.pages.currentWidget() is window.place("shelf")
    assert window.where.text() == "no line-up in hand"
    assert window.windowTitle() == "benchlog"


def test_last_lineup_stands_at_its_bench(qtbot, window_on, tmp_path: Path) -> None:
    workshop = workshop_in(tmp_path / "shelf")
    lineup = planned(workshop)
    desk = desk_over(workshop)
    desk.open_lineup(lineup)
    desk.teardown.go_to_station("media")
    desk.teardown.keep_half_typed("25")
    workshop.close()
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    bench = window.place("bench").bench
    assert window.pages.currentWidget() is window.place("bench")
    assert bench.view.station.key == "media"
    assert bench.parts.entry.field.text() == "25"
    assert window.where.text() == "Three for one mount  ·  rules not locked"
    assert window.windowTitle() == "Three for one mount — benchlog"


def test_places_by_number(qtbot, window_on, tmp_path: Path) -> None:
    window = window_on(tmp_path / "shelf")
    with qtbot.waitActive(window):
        shown(qtbot, window)
        window.activateWindow()
    for number, place in enumerate(PLACES, 1):
        key = Qt.Key(Qt.Key.Key_0 + number)
        QTest.keyClick(window, key, Qt.KeyboardModifier.ControlModifier)
        qtbot.waitUntil(lambda key=place.key: window.pages.currentWidget() is window.place(key))
        assert window.bar.stop(place.key).isChecked()


def test_five_places_in_the_order_of_the_work() -> None:
    assert [place.name for place in PLACES] == ["Shelf", "Line-up", "Bench", "Verdict", "Sheet"]


@pytest.mark.parametrize("kind", [ShelfLocked, ShelfFull, ShelfReadOnly, ShelfDamaged, ShelfNewer])
def test_shelf_fault_is_told_on_a_page(qtbot, window_on, tmp_path: Path, kind: type) -> None:
    faults = [kind("The shelf cannot be opened.", "Do this about it.")]

    def opener(folder: Path) -> object:
        if faults:
            raise faults.pop()
        return open_workshop(folder)

    window = window_on(tmp_path / "shelf", opener=opener)
    with qtbot.waitSignal(window.refused):
        window.show()
    page = window.fault_page
    assert window.pages.currentWidget() is page
    assert page.what.text() == "The shelf cannot be opened."
    assert page.do.text() == "Do this about it."
    with qtbot.waitSignal(window.opened):
        page.again.click()
    assert window.pages.currentWidget() is window.place("shelf")


def test_shelf_held_by_another_is_refused_in_words(qtbot, window_on, tmp_path: Path) -> None:
    held = open_workshop(tmp_path / "shelf")
    window = window_on(tmp_path / "shelf")
    with qtbot.waitSignal(window.refused) as refused:
        window.show()
    assert isinstance(refused.args[0], ShelfLocked)
    held.close()
    with qtbot.waitSignal(window.opened):
        window.fault_page.again.click()


def test_another_folder_may_be_chosen(qtbot, window_on, tmp_path: Path) -> None:
    held = open_workshop(tmp_path / "shelf")
    window = window_on(tmp_path / "shelf")
    with qtbot.waitSignal(window.refused):
        window.show()
    window.ask_folder = lambda: tmp_path / "other"
    with qtbot.waitSignal(window.opened):
        window.fault_page.elsewhere.click()
    assert window.desk.workshop.folder == tmp_path / "other"
    held.close()


def test_own_mistake_is_admitted_without_a_traceback(
    qtbot, window_on, tmp_path: Path, caplog
) -> None:
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    with window.faults.guarded():
        raise ZeroDivisionError("planted")
    assert window.notice.isVisible()
    assert "This program made a mistake" in window.notice.words.text()
    assert "planted" not in window.notice.words.text()
    assert any(record.exc_info for record in caplog.records)
    window.notice.close_button.click()
    assert not window.notice.isVisible()


def test_closing_keeps_the_size_and_lets_the_shelf_go(qtbot, window_on, tmp_path: Path) -> None:
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    window.resize(820, 520)
    window.close()
    assert load_settings().geometry
    open_workshop(tmp_path / "shelf").close()
    again = MainWindow(tmp_path / "shelf", load_settings(), Faults())
    qtbot.addWidget(again)
    assert (again.width(), again.height()) == (820, 520)


def test_first_window_takes_the_whole_screen(qtbot, window_on, tmp_path: Path) -> None:
    window = window_on(tmp_path / "shelf")
    with qtbot.waitSignal(window.opened):
        window.appear()
    assert window.isMaximized()


@pytest.mark.parametrize(("less", "whole"), [(0, True), (30, True), (60, False)])
def test_window_too_large_for_its_frame_takes_the_screen(
    qtbot, themed, tmp_path: Path, less: int, whole: bool
) -> None:
    before = MainWindow(tmp_path / "shelf", QUIET, Faults())
    before.setMinimumSize(300, 200)
    room = before.screen().availableGeometry().size()
    before.resize(room.width() - 40, room.height() - less)
    kept = bytes(before.saveGeometry().toBase64()).decode()
    window = MainWindow(tmp_path / "shelf", replace(QUIET, geometry=kept), Faults())
    window.setMinimumSize(300, 200)
    window.resize(before.size())
    qtbot.addWidget(before)
    qtbot.addWidget(window)
    with qtbot.waitSignal(window.opened):
        window.appear()
    assert window.isMaximized() is whole
    window.close()


def test_unmaximised_first_window_leaves_room_for_its_frame(window_on, tmp_path: Path) -> None:
    window = window_on(tmp_path / "shelf")
    room = window.screen().availableGeometry().height()
    assert window.height() <= room - module.FRAME.height()


def test_letters_grow_with_the_window(qtbot, window_on, tmp_path: Path) -> None:
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    window.resize(1366, 768)
    qtbot.waitUntil(lambda: module.theme.unit() == pytest.approx(1.0))
    small = window.where.font().pixelSize()
    window.resize(2049, 1152)
    qtbot.waitUntil(lambda: module.theme.unit() == pytest.approx(1.5, abs=0.01))
    assert window.where.font().pixelSize() == pytest.approx(small * 1.5, abs=0.6)


def test_theme_setting_changes_the_window(qtbot, window_on, tmp_path: Path) -> None:
    window = shown(qtbot, window_on(tmp_path / "shelf"))
    window.desk.change_settings(theme="light")
    light = window.palette().window().color().lightness()
    window.desk.change_settings(theme="dark")
    assert light > 200
    assert window.palette().window().color().lightness() < 60
    assert load_settings().theme == "dark"


def test_unfurnished_place_says_so(themed, qtbot) -> None:
    page = module._unfurnished("Sheet")
    qtbot.addWidget(page)
    assert isinstance(page, QLabel)
    assert page.text().startswith("Sheet: there is nothing to show")
