from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QStackedWidget

from benchlog.judge.verdict import AwardKind
from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.trade.component import Component
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import Person, settle

ALT = Qt.KeyboardModifier.AltModifier
SPOKEN = Qt.ItemDataRole.AccessibleTextRole


@pytest.fixture
def judge(sample_desk, sit) -> Person:
    """Someone at the verdict of the sample line-up."""
    person = sit(VerdictPlace, sample_desk)
    person.until(lambda: person.place.watch.record is not None)
    settle()
    return person


def spoken_row(person: Person, component: Component) -> list[str]:
    table = person.place.scores
    for row in range(table.rowCount()):
        words = [table.item(row, c).data(SPOKEN) for c in range(table.columnCount())]
        if words[0].startswith(component.value):
            return words
    raise AssertionError(component)


def go_to(person: Person, component: Component) -> None:
    """Walk down the components with the arrow keys."""
    person.place.scores.setFocus()
    for _ in range(person.place.scores.rowCount()):
        if person.place.scores.component is component:
            return
        person.press(Qt.Key.Key_Down)
    raise AssertionError(component)


def worked_out(person: Person):
    return person.qtbot.waitSignal(person.place.watch.worked_out, timeout=15_000)


def correct_first(person: Person, text: str, reason: str) -> None:
    """Open the dialog on the reading that is chosen, by keys, and answer it."""
    person.press(Qt.Key.Key_Return)
    dialog = person.place.dialog
    person.until(lambda: person.focus is dialog.text)
    person.type(text)
    person.press(Qt.Key.Key_Tab)
    person.type(reason)
    person.press(Qt.Key.Key_Return)


def choose_reading(person: Person, label: str, nickname: str) -> None:
    table = person.place.readings.table
    for row in range(table.rowCount()):
        if (table.item(row, 0).text(), table.item(row, 1).text()) == (nickname, label):
            table.setCurrentCell(row, 2)
            return
    raise AssertionError((label, nickname))


def test_rows_and_marks_are_there_as_words(judge: Person) -> None:
    record = judge.place.watch.record
    table = judge.place.scores
    assert table.rowCount() == len(record.verdict.awards)
    assert [table.item(r, 0).data(SPOKEN).split(":")[0] for r in range(table.rowCount())] == [
        award.component.value for award in record.verdict.awards
    ]
    for award in record.verdict.awards:
        words = spoken_row(judge, award.component)
        assert award.kind.value in words[0]
        for specimen, said in zip(record.lineup.specimens, words[2:], strict=True):
            marked = award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS)
            assert said.endswith(award.kind.value) is (marked and specimen.id in award.winners)


def test_score_is_told_with_interval_and_count(judge: Person) -> None:
    record = judge.place.watch.record
    score = record.verdict.score(Component.THREAD, record.lineup.specimens[2].id)
    said = spoken_row(judge, Component.THREAD)[4]
    assert f"{score.value:.1f} of 10, {score.low:.1f} to {score.high:.1f}" in said
    assert f"counted {score.counted} of {score.of}" in said


def test_row_shows_values_worth_and_reason(judge: Person) -> None:
    go_to(judge, Component.CAN)
    record = judge.place.watch.record
    award = next(a for a in record.verdict.awards if a.component is Component.CAN)
    why = judge.place.why
    assert why.reason.text() == award.reason
    assert award.would_change in why.would_change.text()
    cells = [why.values.item(0, c).text() for c in range(why.values.columnCount())]
    assert cells[0].startswith("Can wall thickness")
    assert "mm" in cells[1]
    assert "worth 6." in cells[1]
    assert cells[-1] == "0.05 mm"


def test_figure_lays_its_sum_open(judge: Person) -> None:
    go_to(judge, Component.MEDIA)
    judge.press(Qt.Key.Key_2, ALT)
    assert judge.focus is judge.place.sums.figures
    shown = judge.place.sums.sum.toPlainText()
    assert "Amber · Exposed media area" in shown
    assert "of the variance" in shown
    judge.press(Qt.Key.Key_Right)
    assert "Cobalt · Exposed media area" in judge.place.sums.sum.toPlainText()


def test_escape_leads_back_to_the_components(judge: Person) -> None:
    judge.press(Qt.Key.Key_Return)
    assert judge.focus is judge.place.why.values
    judge.press(Qt.Key.Key_Escape)
    assert judge.focus is judge.place.scores


def test_correction_changes_the_score(judge: Person) -> None:
    go_to(judge, Component.CAN)
    before = spoken_row(judge, Component.CAN)[2]
    digest = judge.place.watch.record.digest
    judge.press(Qt.Key.Key_3, ALT)
    choose_reading(judge, "Dents", "Amber")
    with worked_out(judge):
        correct_first(judge, "2", "seen again in the light")
    after = spoken_row(judge, Component.CAN)[2]
    assert after != before
    old, new = (
        judge.place.watch.record.readings[-1].supersedes,
        judge.place.watch.record.readings[-1],
    )
    assert (new.reason, new.supersedes) == ("seen again in the light", old)
    assert judge.place.watch.record.digest != digest


def test_focus_returns_to_the_corrected_row(judge: Person) -> None:
    go_to(judge, Component.CAN)
    judge.press(Qt.Key.Key_3, ALT)
    choose_reading(judge, "Dents", "Amber")
    readings = judge.place.readings
    judge.tab_to(readings.correct)
    with worked_out(judge):
        correct_first(judge, "2", "seen again")
    assert judge.place.focusWidget() is readings.table  # has the keys once its window has them
    chosen = readings.table.item(readings.table.currentRow(), 2)
    assert "Amber, Dents" in chosen.data(SPOKEN)
    assert "reason: seen again" in chosen.data(SPOKEN)
    assert readings.correct.isEnabled()


def test_focus_returns_when_nothing_was_corrected(judge: Person) -> None:
    judge.press(Qt.Key.Key_3, ALT)
    readings = judge.place.readings
    judge.tab_to(readings.correct)
    judge.press(Qt.Key.Key_Return)
    judge.until(lambda: judge.focus is judge.place.dialog.text)
    judge.press(Qt.Key.Key_Escape)
    assert judge.place.focusWidget() is readings.table  # has the keys once its window has them


def test_superseded_reading_stays_struck_through(judge: Person) -> None:
    go_to(judge, Component.CAN)
    judge.press(Qt.Key.Key_3, ALT)
    choose_reading(judge, "Dents", "Amber")
    with worked_out(judge):
        correct_first(judge, "2", "seen again")
    table = judge.place.readings.table
    rows = [
        (table.item(r, 2).font().strikeOut(), table.item(r, 2).data(SPOKEN))
        for r in range(table.rowCount())
        if "Amber, Dents" in table.item(r, 2).data(SPOKEN)
    ]
    assert [struck for struck, _ in rows] == [True, False]
    assert "no longer stands" in rows[0][1]
    choose_reading(judge, "Dents", "Amber")
    assert not judge.place.readings.correct.isEnabled()


def test_correction_without_reason_is_refused_in_place(judge: Person) -> None:
    go_to(judge, Component.CAN)
    judge.press(Qt.Key.Key_3, ALT)
    count = len(judge.place.watch.record.readings)
    correct_first(judge, "2", "")
    dialog = judge.place.dialog
    assert dialog.isVisible()
    assert "needs its reason" in dialog.told.text()
    assert dialog.text.text() == "2"
    assert judge.focus is dialog.reason
    judge.press(Qt.Key.Key_Escape)
    assert len(judge.shelf.readings(judge.desk.lineup_id)) == count


def test_correction_that_makes_no_sense_is_refused_in_place(judge: Person) -> None:
    go_to(judge, Component.MEDIA)
    judge.press(Qt.Key.Key_3, ALT)
    choose_reading(judge, "Strip length, unfolded (1)", "Amber")
    correct_first(judge, "12 psi", "misread")
    assert judge.place.dialog.told.isVisible()
    assert judge.focus is judge.place.dialog.text
    judge.press(Qt.Key.Key_Escape)


def test_own_sentence_is_kept_on_leaving(judge: Person) -> None:
    go_to(judge, Component.CAN)
    judge.place.why.own.setFocus()
    judge.type("The seam is clean on all three.")
    with worked_out(judge):
        judge.press(Qt.Key.Key_Tab)
    remark = judge.place.watch.record.remarks[("can", "")]
    assert remark.text == "The seam is clean on all three."


def test_own_sentence_belongs_to_its_component(judge: Person) -> None:
    own = judge.place.why.own
    go_to(judge, Component.CAN)
    own.setFocus()
    judge.type("On the can.")
    go_to(judge, Component.BASE_PLATE)
    assert own.toPlainText() == ""
    judge.place.scores.setCurrentCell(0, 0)
    go_to(judge, Component.CAN)
    judge.until(lambda: own.toPlainText() == "On the can.")


def test_half_typed_sentence_survives_a_recomputation(judge: Person) -> None:
    judge.place.why.own.setFocus()
    judge.type("Half a sen")
    with worked_out(judge):
        judge.desk.recorded.emit()
    assert judge.place.why.own.toPlainText() == "Half a sen"


def test_sentence_is_kept_when_the_window_closes(judge: Person) -> None:
    go_to(judge, Component.CAN)
    judge.place.why.own.setFocus()
    judge.type("Last words.")
    judge.place.leave()
    assert judge.shelf.remarks(judge.desk.lineup_id)[-1].text == "Last words."


def test_change_out_of_sight_waits_until_looked_at(judge: Person) -> None:
    first = judge.place.watch.record
    judge.place.hide()
    judge.desk.recorded.emit()
    settle()
    assert judge.place.watch.record is first
    with worked_out(judge):
        judge.place.show()
    assert judge.place.watch.record is not first


def test_working_out_takes_no_focus_from_another_place(sample_desk, qtbot) -> None:
    window, elsewhere = QStackedWidget(), QLineEdit()
    place = VerdictPlace(sample_desk)
    window.addWidget(place)
    window.addWidget(elsewhere)
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    with qtbot.waitSignal(place.watch.worked_out, timeout=15_000):
        place.enter()
        window.setCurrentWidget(elsewhere)
        elsewhere.setFocus()
    settle()
    assert QApplication.focusWidget() is elsewhere


def test_no_line_up_says_where_to_take_one(desk, sit) -> None:
    person = sit(VerdictPlace, desk)
    assert "Nothing to judge yet" in person.place.nothing.words.text()
    assert person.focus is person.place.nothing.go
    person.press(Qt.Key.Key_Space)
    assert person.went == ["shelf"]


def test_nothing_read_leads_to_the_bench(desk, sit) -> None:
    draft = with_heading(fresh_draft(desk.workshop.clock), name="Unread")
    desk.open_lineup(save_draft(desk.workshop.shelf, draft).id)
    person = sit(VerdictPlace, desk)
    person.until(person.place.unread.isVisible)
    assert "nothing was read" in person.place.unread.words.text()
    assert person.place.unread.go.accessibleName() == "Go to the Bench"
    assert person.focus is person.place.unread.go
    person.press(Qt.Key.Key_Return)
    assert person.went == ["bench"]


def test_failed_working_out_is_told(judge: Person, monkeypatch) -> None:
    from benchlog.errors import ShelfDamaged
    from benchlog.window.verdict import record_watch

    def damaged(_workshop, _lineup_id):
        raise ShelfDamaged("The shelf is damaged.", "Bring back a copy.")

    monkeypatch.setattr(record_watch, "record_of", damaged)
    judge.desk.recorded.emit()
    judge.until(lambda: judge.told)
    assert judge.told[0].what == "The shelf is damaged."
    assert not judge.place.working.isVisible()


def test_rehearsal_is_marked_as_invented(judge: Person) -> None:
    assert judge.place.rehearsal.isVisible()
    assert "invented" in judge.place.rehearsal.text()


def test_every_outcome_has_its_own_drawing(themed) -> None:
    from PySide6.QtCore import QPointF
    from PySide6.QtGui import QImage, QPainter

    from benchlog.window.verdict.award_marks import draw_award

    drawn = set()
    for kind in AwardKind:
        image = QImage(40, 40, QImage.Format.Format_Grayscale8)
        image.fill(0)
        painter = QPainter(image)
        draw_award(painter, kind, QPointF(20, 20), 12)
        painter.end()
        drawn.add(bytes(image.constBits()))
    assert len(drawn) == len(AwardKind)
    assert bytes(40 * 40) not in drawn
    assert QApplication.instance() is themed
