"""Which marks a cell of the first page carries, for the rules' outcome and for the reviewer's."""

from __future__ import annotations

import pytest

from benchlog.judge.verdict import AwardKind, Score
from benchlog.sheet import front_cell
from benchlog.sheet.shown_award import ShownAward
from benchlog.sheet.typography import use_fonts
from benchlog.trade.component import Component
from tests.sheet.drawn_boxes import Noting
from tests.sheet.sample_record import SPECIMENS

ME, OTHER = SPECIMENS[0], SPECIMENS[1]
SCORE = Score(Component.CAN, ME.id, 7.5, 7.0, 8.0, 1, 1, 1.0, ())
HAND = "hand"
NAMING = (AwardKind.WINNER, AwardKind.JOINT_WINNERS, AwardKind.TIE)


@pytest.fixture
def marks(monkeypatch: pytest.MonkeyPatch) -> list[AwardKind | str]:
    """Every mark that is drawn, in order."""
    use_fonts()
    drawn: list[AwardKind | str] = []
    monkeypatch.setattr(
        front_cell, "draw_award", lambda _c, kind, *_at, **_told: drawn.append(kind)
    )
    monkeypatch.setattr(front_cell, "draw_by_hand", lambda *_at, **_told: drawn.append(HAND))
    return drawn


def draw(shown: ShownAward, *, score: Score | None = SCORE) -> Noting:
    canvas = Noting()
    front_cell.draw_cell(canvas, ME, shown, score, 0.0, 50.0, 120.0)
    return canvas


@pytest.mark.parametrize("kind", NAMING)
@pytest.mark.parametrize("by_hand", [False, True])
def test_named_cells_carry_the_mark(
    marks: list[AwardKind | str], kind: AwardKind, by_hand: bool
) -> None:
    draw(ShownAward(kind, (ME.id,), by_hand))
    assert marks == ([kind, HAND] if by_hand else [kind])
    marks.clear()
    draw(ShownAward(kind, (OTHER.id,), by_hand))
    assert marks == []


@pytest.mark.parametrize("kind", [AwardKind.DIFFERENT, AwardKind.CANNOT_SEPARATE])
def test_nobodys_outcome_marks_all(marks: list[AwardKind | str], kind: AwardKind) -> None:
    draw(ShownAward(kind, ()))
    draw(ShownAward(kind, (), by_hand=True))
    assert marks == [kind, kind, HAND]


def test_not_judged_by_hand_keeps_the_score(marks: list[AwardKind | str]) -> None:
    draw(ShownAward(AwardKind.NOT_JUDGED, ()))
    assert marks == []
    boxes = draw(ShownAward(AwardKind.NOT_JUDGED, (), by_hand=True)).boxes
    assert marks == [AwardKind.NOT_JUDGED, HAND]
    assert [box.text for box in boxes] == ["7.5"]


@pytest.mark.parametrize("kind", NAMING)
def test_hand_marks_what_has_no_score(marks: list[AwardKind | str], kind: AwardKind) -> None:
    assert draw(ShownAward(kind, (ME.id,), by_hand=True), score=None).boxes == []
    assert marks == [kind, HAND]


def test_rules_leave_no_score_unmarked(marks: list[AwardKind | str]) -> None:
    boxes = draw(ShownAward(AwardKind.TIE, (ME.id, OTHER.id)), score=None).boxes
    assert marks == [AwardKind.NOT_JUDGED]
    assert [box.text for box in boxes] == ["not judged"]
