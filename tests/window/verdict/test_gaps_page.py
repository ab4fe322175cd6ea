from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from benchlog.tasks.gap_view import SCORE, gap_rows
from benchlog.trade.component import Component
from benchlog.window.theme import colours
from benchlog.window.verdict.gap_cells import draw_gap
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle
from tests.window.verdict.judge_scenes import ALT, SPOKEN, cells, choose, worked_out


def open_gaps(person: Person, component: Component = Component.CAN) -> None:
    choose(person, component)
    person.press(Qt.Key.Key_4, ALT)
    assert person.focus is person.place.gaps.gaps


def drawn(row, width: int = 200) -> QImage:
    image = QImage(width, 40, QImage.Format.Format_RGB32)
    image.fill(QColor("black"))
    painter = QPainter(image)
    draw_gap(painter, row, QRectF(0, 0, width, 40))
    painter.end()
    return image


def test_key_opens_gaps_of_the_chosen_row(judge: Person) -> None:
    open_gaps(judge)
    table = judge.place.gaps.gaps
    rows = gap_rows(judge.place.watch.record, Component.CAN)
    assert table.rowCount() == len(rows)
    for r, row in enumerate(rows):
        assert table.item(r, 1).data(SPOKEN) == row.spoken
        assert cells(table, r)[-1] == row.outcome


def test_gap_says_what_would_change_it(judge: Person) -> None:
    open_gaps(judge)
    award = next(a for a in judge.place.watch.record.verdict.awards if a.component is Component.CAN)
    assert award.would_change in judge.place.gaps.would_change.text()


def test_gaps_follow_a_reading(judge: Person) -> None:
    open_gaps(judge)
    before = cells(judge.place.gaps.gaps, 3)
    bench = judge.desk.teardown
    bench.go_to("can_wall", bench.lineup.specimens[0].id)
    bench.accept("0.50 mm", sure=True)
    with worked_out(judge):
        judge.desk.reload()
    settle()
    assert cells(judge.place.gaps.gaps, 3) != before


def test_row_stays_chosen_by_another_component(judge: Person) -> None:
    open_gaps(judge)
    judge.press(Qt.Key.Key_Down)
    judge.press(Qt.Key.Key_Escape)
    assert judge.focus is judge.place.scores
    judge.press(Qt.Key.Key_Down)
    assert judge.place.gaps.gaps.currentRow() == 1


def test_sum_opens_from_a_gap(judge: Person) -> None:
    open_gaps(judge)
    assert judge.place.gaps.number_here() is None
    for _ in range(3):
        judge.press(Qt.Key.Key_Down)
    assert judge.place.gaps.number_here()[0] == "can_wall"
    judge.press(Qt.Key.Key_F12)
    judge.until(judge.place.sum_dialog.isVisible)
    judge.place.sum_dialog.close()


def test_bar_takes_the_accent_only_beyond_both(judge: Person) -> None:
    rows = gap_rows(judge.place.watch.record, Component.CAN)
    counting = next(r for r in rows if r.counts and r.subject != SCORE)
    short = next(r for r in rows if not r.counts and r.size > 0)
    accent = QColor(colours().accent).rgb()
    for row, wanted in ((counting, True), (short, False)):
        image = drawn(row)
        seen = {image.pixel(x, 20) for x in range(image.width())}
        assert (accent in seen) is wanted


def test_bar_is_as_long_as_the_gap(judge: Person) -> None:
    row = next(
        r for r in gap_rows(judge.place.watch.record, Component.CAN) if r.subject == "can_wall"
    )
    image = drawn(row, 400)
    accent = QColor(colours().accent).rgb()
    bar = [x for x in range(400) if image.pixel(x, 22) == accent]
    share = row.size / (1.12 * max(row.size, row.expanded, row.meaningful))
    assert max(bar) == pytest.approx(400 * share, abs=3)


def test_words_have_no_drawing(judge: Person) -> None:
    row = next(r for r in gap_rows(judge.place.watch.record, Component.CAN) if r.subject == "dents")
    image = drawn(row)
    assert {image.pixel(x, 20) for x in range(image.width())} == {QColor("black").rgb()}


@pytest.mark.parametrize("size", SIZES)
def test_gaps_are_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(VerdictPlace, sample_desk, size)
    person.until(lambda: person.place.watch.record is not None)
    open_gaps(person)
    settle()
    assert cut_off(person.place) == []
