"""The sum behind a number, opened from the verdict with the keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from benchlog.tasks.budget_view import BudgetRow
from benchlog.tasks.figure_view import Sum, SumInput
from benchlog.trade.component import Component
from benchlog.window.dialogs.sum_dialog import NOTHING_DRAWN, SumDialog
from benchlog.window.theme import apply_theme
from benchlog.window.verdict.budget_table import LAST, spoken_row
from benchlog.window.verdict.sum_view import NO_BUDGET, SumView
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def judge(sample_desk, sit) -> Person:
    """Someone at the verdict of the sample line-up, with the media chosen."""
    person = sit(VerdictPlace, sample_desk)
    person.until(lambda: person.place.watch.record is not None)
    scores = person.place.scores
    scores.setFocus()
    while scores.component is not Component.MEDIA:
        person.press(Qt.Key.Key_Down)
    settle()
    return person


@pytest.fixture
def dialog_of(judge: Person, qtbot):
    def opened(key: str, specimen: int = 0) -> SumDialog:
        record = judge.place.watch.record
        who = record.lineup.specimens[specimen].id
        dialog = SumDialog(judge.desk, record, key, who, judge.place)
        qtbot.addWidget(dialog)
        with qtbot.waitActive(dialog):
            dialog.open()
        settle()
        return dialog

    return opened


def opened(person: Person) -> SumDialog:
    person.until(lambda: person.focus.window() is person.place.sum_dialog)
    return person.place.sum_dialog


def test_enter_on_a_figure_opens_its_sum(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    judge.press(Qt.Key.Key_Right)
    judge.press(Qt.Key.Key_Return)
    view = opened(judge).view
    assert view.title.text() == "Cobalt · Exposed media area"
    assert "cm²" in view.result.text()
    assert view.formula.text().startswith("A = L × (W − h)")


def test_enter_on_a_value_opens_its_sum(judge: Person) -> None:
    judge.press(Qt.Key.Key_1, ALT)
    values = judge.place.why.values
    subject = judge.place.why.number_here()
    judge.press(Qt.Key.Key_Return)
    dialog = opened(judge)
    assert values.item(0, 0).text().split("\n")[0] in dialog.view.title.text()
    assert subject == (dialog._key, dialog._specimen_id)


def test_key_on_a_reading_opens_the_sum_of_its_value(judge: Person) -> None:
    judge.press(Qt.Key.Key_3, ALT)
    chosen = judge.place.readings.number_here()
    judge.press(Qt.Key.Key_F12)
    dialog = opened(judge)
    assert (dialog._key, dialog._specimen_id) == chosen
    assert dialog.view.inputs.rowCount() == 1


def test_escape_closes_and_gives_the_focus_back(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    judge.press(Qt.Key.Key_F12)
    opened(judge)
    judge.press(Qt.Key.Key_Escape)
    judge.until(lambda: judge.place.focusWidget() is judge.place.sums.figures)


def test_button_shows_the_same_sum(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    judge.tab_to(judge.place.show_sum)
    judge.press(Qt.Key.Key_Space)
    assert opened(judge).view.title.text() == "Amber · Exposed media area"


@pytest.mark.parametrize("page", ["why", "sums", "readings"])
def test_context_menu_offers_the_sum(judge: Person, page: str) -> None:
    shown = getattr(judge.place, page)
    judge.place.tabs.setCurrentWidget(shown)
    table = {"why": "values", "sums": "figures", "readings": "table"}[page]
    (action,) = getattr(shown, table).actions()
    assert action.text().startswith("Show the sum")
    action.trigger()
    assert opened(judge)._key == shown.number_here()[0]


def test_double_click_opens_the_sum(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    figures = judge.place.sums.figures
    spot = figures.visualItemRect(figures.item(1, 3)).center()
    QTest.mouseClick(figures.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    QTest.mouseDClick(figures.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert opened(judge).view.title.text().startswith("Moss · ")


def test_budget_shows_its_shares_as_words_and_bars(dialog_of) -> None:
    budget = dialog_of("exposed_area").view.budget
    rows = [budget.item(r, LAST).data(Qt.ItemDataRole.UserRole) for r in range(budget.rowCount())]
    assert sum(share for share, inset in rows if not inset) == pytest.approx(1.0)
    assert budget.item(0, 0).text() == "Strip width, full"
    image = budget.grab().toImage()
    assert image.width() > 300


def test_shared_source_stands_on_a_line_of_its_own(dialog_of) -> None:
    budget = dialog_of("inlet_to_outlet").view.budget
    words = [budget.item(r, 0).text() for r in range(budget.rowCount())]
    (joined,) = [text for text in words if " + " in text]
    assert "cancels in part; apart it would be" in joined


def test_draws_are_told_in_words(judge: Person, dialog_of) -> None:
    dialog = dialog_of("basis_weight")
    judge.tab_to(dialog.check)
    judge.press(Qt.Key.Key_Space)
    assert not dialog.check.isEnabled()
    judge.until(lambda: dialog.words.text().startswith("95 % of the draws"))
    assert not dialog.progress.isVisible()
    assert dialog.check.isEnabled()


def test_dialog_may_close_while_draws_are_under_way(judge: Person, dialog_of) -> None:
    dialog = dialog_of("basis_weight")
    dialog.check.click()
    work = dialog._work
    judge.press(Qt.Key.Key_Escape)
    assert work.stop_asked
    settle()
    assert judge.told == []


def test_failed_draws_are_told(judge: Person, dialog_of, monkeypatch) -> None:
    from benchlog.window.dialogs import sum_dialog

    def fails(*_args: object, **_more: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(sum_dialog, "check_sum", fails)
    dialog = dialog_of("basis_weight")
    dialog.check.click()
    judge.until(lambda: judge.told)
    assert judge.told[0].ours
    assert "could not be worked" in dialog.words.text()


def test_nothing_to_draw_is_said(judge: Person, dialog_of, monkeypatch) -> None:
    from benchlog.window.dialogs import sum_dialog

    monkeypatch.setattr(sum_dialog, "check_sum", lambda *_args, **_more: None)
    dialog = dialog_of("basis_weight")
    dialog.check.click()
    judge.until(lambda: dialog.words.text() == NOTHING_DRAWN)


def test_copied_text_holds_the_whole_sum(judge: Person, dialog_of) -> None:
    dialog = dialog_of("exposed_area")
    judge.tab_to(dialog.copy)
    judge.press(Qt.Key.Key_Space)
    text = QGuiApplication.clipboard().text()
    assert text.startswith("Amber · Exposed media area: ")
    for part in ("A = L × (W − h)", "Inputs", "Uncertainty budget", "coverage factor k ="):
        assert part in text
    assert dialog.words.text() == "Copied as text."


def test_word_has_no_budget_and_nothing_to_check(dialog_of) -> None:
    dialog = dialog_of("media_kind")
    assert dialog.view.nothing.text() == NO_BUDGET
    assert dialog.view.nothing.isVisible()
    assert not dialog.view.budget.isVisible()
    assert not dialog.check.isEnabled()
    assert dialog.view.result.text() == "Blend of cellulose and synthetic fibre"


def test_sum_follows_the_units_chosen(judge: Person, dialog_of) -> None:
    judge.desk.change_settings(units="both")
    metric, inch = judge.place.sums.figures.item(0, 1).text().split("\n")
    assert metric.endswith("cm²")
    assert inch.endswith("in²")
    judge.desk.change_settings(units="inch")
    dialog = dialog_of("exposed_area")
    assert "in²" in dialog.view.result.text()
    assert "cm²" not in dialog.view.result.text()
    assert "in²/in" in dialog.view.budget.item(0, 5).text()
    assert "in²" in dialog.view.coverage.text()


def test_figures_without_input_are_shown_when_asked(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    sums = judge.place.sums
    few = sums.figures.rowCount()
    judge.tab_to(sums.every)
    judge.press(Qt.Key.Key_Space)
    assert sums.figures.rowCount() > few
    judge.press(Qt.Key.Key_Space)
    assert sums.figures.rowCount() == few


def test_warning_of_a_figure_is_marked_and_read_out(judge: Person) -> None:
    judge.press(Qt.Key.Key_2, ALT)
    figures, record = judge.place.sums.figures, judge.place.watch.record
    marked = [
        (r, c)
        for r in range(figures.rowCount())
        for c in range(1, figures.columnCount())
        if figures.item(r, c).text().endswith("⚠")
    ]
    wanted = sum(
        bool(record.figures[row.kind.key, s.id].warnings)
        for row in judge.place.sums._rows
        for s in record.lineup.specimens
    )
    assert len(marked) == wanted > 0
    spoken = figures.item(*marked[0]).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.count(". ") >= 1


@pytest.mark.parametrize("key", ["exposed_area", "can_wall", "media_kind"])
def test_everything_in_the_dialog_has_a_name_and_room(dialog_of, key: str) -> None:
    dialog = dialog_of(key)
    assert unnamed(dialog) == []
    assert cut_off(dialog) == []


LONG = Sum(
    title="Bernstein · Durchflussflächenverhältnisabschätzung der Mittelrohrbohrungen",
    result="1 379,5 bis 2 852,5 kPa · 200,1 bis 413,7 psi und damit weit über dem Betriebsdruck",
    formula="p = 2 × Re × t ÷ Do: zweifache Streckgrenze mal Wanddicke durch Außendurchmesser " * 2,
    inputs=(SumInput("x", "Außendurchmesser des Filtergehäuses", "76,15 ± 0,44 mm", ("1: 76,1",),
                     ("Messschieber, 150 mm, Fehlergrenze ± 0,03 mm",), "Streuung"),),
    rows=(BudgetRow("Außendurchmesser + Gehäusewanddicke", "76,15 mm", "0,14 mm", "rectangular",
                    "∞", "−27,6 kPa/mm", "3,8 kPa", 1.0, "100.0 %",
                    "Fehlergrenze des Messschiebers, gemeinsam: hebt sich teilweise auf"),),
    coverage="u = 410 kPa; effektive Freiheitsgrade 13,6; Erweiterungsfaktor k = 2,16 " * 2,
    shares=(), readings=(), assumed=("Der Stahl ist nicht bekannt. " * 5,),
    warnings=("Bitte ein zweites Mal messen, die beiden Wege stimmen nicht überein. " * 3,),
    beside="Eine Abschätzung für die gerade Wand, keine Berstprüfung. " * 3, source="", note="",
)  # fmt: skip


@pytest.mark.parametrize("size", SIZES)
def test_long_words_are_not_cut(qtbot, themed, size: str) -> None:
    from benchlog.window.theme import rescale

    width, height, unit = SIZES[size]
    view = SumView()
    qtbot.addWidget(view)
    view.resize(width, height)
    rescale(themed, view, unit)
    view.rescaled()
    view.show_sum(LONG)
    view.show()
    settle()
    assert cut_off(view) == []
    for table in (view.inputs, view.budget):
        for row in range(table.rowCount()):
            wanted = max(
                table.itemDelegate().sizeHint(table_option(table, row, c), index).height()
                for c in range(table.columnCount())
                for index in [table.model().index(row, c)]
            )
            assert table.rowHeight(row) >= wanted
    rescale(themed, view, 1.0)


def table_option(table, row: int, column: int):
    from PySide6.QtWidgets import QStyleOptionViewItem

    option = QStyleOptionViewItem()
    table.initViewItemOption(option)
    option.rect = table.visualRect(table.model().index(row, column))
    return option


def test_line_of_a_budget_reads_out_whole() -> None:
    said = spoken_row(LONG.rows[0])
    assert "standard uncertainty 0,14 mm" in said
    assert "100.0 % of the variance" in said
    assert "hebt sich teilweise auf" in said


def test_light_and_dark_both_draw_the_bars(dialog_of, themed) -> None:
    dialog = dialog_of("exposed_area")
    seen = []
    for theme in ("dark", "light"):
        apply_theme(themed, theme)
        settle()
        image = dialog.grab().toImage()
        seen.append(image.pixelColor(3, 3).lightness())
    apply_theme(themed, "dark")
    assert seen[0] < 60
    assert seen[1] > 200
