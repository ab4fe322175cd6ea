"""The bias check over the Shelf: by keys, in words, drawn."""

from __future__ import annotations

import random
from threading import Event

import pytest
from PySide6.QtCore import Qt

from benchlog.judge.bias import BiasCheck, PastAward, PastLineup, PastSpecimen, bias_check
from benchlog.window.shelf import bias_dialog
from benchlog.window.shelf.bias_dialog import FAILED, BiasDialog
from benchlog.window.shelf.bias_table import BAR
from benchlog.window.shelf.shelf_place import ShelfPlace
from benchlog.window.theme import apply_theme
from tests.window.place_scenes import cut_off, settle, unnamed
from tests.window.shelf.test_shelf_place import planned

SPOKEN = Qt.ItemDataRole.AccessibleTextRole


def leaning() -> BiasCheck:
    """Thirty line-ups in which what was given won a little often; few of them judged blind."""
    chance = random.Random(2)
    past = []
    for n in range(30):
        given = PastSpecimen("a", given=True, first=n % 3 > 0, last=n % 3 == 0)
        bought = PastSpecimen("b", given=False, first=n % 3 == 0, last=n % 3 > 0)
        awards = [
            PastAward(*((("a",), ("b",)) if chance.random() < 0.85 else (("b",), ("a",))),
                      blind=n < 4 if part < 2 else None)
            for part in range(6)
        ]  # fmt: skip
        past.append(PastLineup(str(n), (given, bought), tuple(awards)))
    return bias_check(past)


@pytest.fixture
def opened(desk, sit, monkeypatch):
    """The dialog of a check that is handed over, opened by its key."""

    def open_with(check: object, size: str = "1366 × 768") -> BiasDialog:
        monkeypatch.setattr(bias_dialog, "check_bias", check)
        planned(desk, "one")
        person = sit(ShelfPlace, desk, size)
        person.press(Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
        (dialog,) = person.place.findChildren(BiasDialog)
        person.dialog = dialog
        return person

    return open_with


def shown(person) -> BiasDialog:
    person.until(person.dialog.table.isVisible)
    settle()
    return person.dialog


def test_key_opens_and_escape_closes(opened) -> None:
    person = opened(lambda _shelf, _work: leaning())
    dialog = shown(person)
    assert person.focus is dialog.table
    person.press(Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    assert person.place.isVisible()


def test_table_says_what_the_check_says(opened) -> None:
    check = leaning()
    table = shown(opened(lambda _shelf, _work: check)).table
    assert table.rowCount() == 12
    for n, lean in enumerate(check.leans):
        assert lean.sentence in table.item(4 * n, 0).text()
        assert lean.method in table.item(4 * n, 0).data(SPOKEN)
        assert [table.item(4 * n + k, 0).text() for k in (1, 2, 3)] == [
            lean.one.label, lean.other.label, "difference, −100 to 100 %; 98.3 % interval",
        ]  # fmt: skip
    given = check.leans[0].one.share
    assert table.item(1, 1).text() == f"{round(100 * given.value)} %"
    assert table.item(1, 3).text() == "30"
    assert table.item(1, 4).data(BAR) == (0.0, given.low, given.value, given.high)
    assert table.item(3, 2).text().startswith("+")


def test_limits_stand_beside_the_figures(opened) -> None:
    dialog = shown(opened(lambda _shelf, _work: leaning()))
    assert "chosen by hand and not by lot" in dialog.limits.text()
    assert dialog.limits.isVisible()
    assert dialog.head.text().startswith("Awards of 30 line-ups")


def test_empty_shelf_says_too_few(opened) -> None:
    person = opened(bias_dialog.check_bias)
    table = shown(person).table
    assert "Too few to say" in table.item(0, 0).text()
    assert table.item(1, 1).text() == "—"
    assert table.item(1, 4).data(BAR) is None


def test_failure_is_told(opened) -> None:
    def fail(_shelf: object, _work: object) -> BiasCheck:
        raise OSError("the disk is gone")

    person = opened(fail)
    person.until(lambda: person.told)
    assert person.dialog.head.text() == FAILED
    assert not person.dialog.progress.isVisible()


def test_closed_dialog_hears_nothing_more(opened) -> None:
    closed, told = Event(), []

    def slow(_shelf: object, work: object) -> BiasCheck:
        closed.wait(15)
        told.append(work.stop_asked)
        return leaning()

    person = opened(slow)
    person.dialog.reject()
    closed.set()
    person.until(lambda: told)
    settle()
    assert told == [True]
    assert person.dialog.table.rowCount() == 0


@pytest.mark.parametrize("theme", ["dark", "light"])
@pytest.mark.parametrize("size", ["1366 × 768", "the same at 150 %"])
def test_all_is_named_and_nothing_cut_off(opened, qapp, theme: str, size: str) -> None:
    apply_theme(qapp, theme)
    dialog = shown(opened(lambda _shelf, _work: leaning(), size))
    assert unnamed(dialog) == []
    assert cut_off(dialog) == []
