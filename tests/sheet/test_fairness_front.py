"""The first page says when the rules were locked, what was overruled and what was revised."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations
from pathlib import Path

import pytest

from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.lock_line import lock_line
from benchlog.sheet.shown_award import overruled_line, shown_award
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.sheet.fairness_record import fair_record
from tests.sheet.reading_back import pages, write
from tests.sheet.sample_record import LINEUP, RULES, START, record
from tests.sheet.test_front_page import boxes_of, crowded

LATER = replace(RULES, meaningful_score=2.0)
WHY = "the seam, which no rule looks at"


def lock(rules: Rules = RULES, *, after_cut: bool = False, day: int = 1) -> RulesLock:
    at = datetime(2026, 3, day, 8, 0, tzinfo=UTC)
    return RulesLock(f"k{day}", LINEUP, rules, digest(rules), at, "said why", after_cut=after_cut)


def overruled(shown: Record, kind: AwardKind, *winners: str, where: Component) -> Record:
    said = Overruling("o", LINEUP, where, kind, winners, WHY, START)
    return replace(shown, overrulings={**shown.overrulings, where: said})


def everything(shown: Record) -> Record:
    """Return the record overruled everywhere, locked late, changed and revised at length."""
    for award in shown.verdict.awards:
        shown = overruled(shown, AwardKind.WINNER, shown.lineup.specimens[0].id,
                          where=award.component)  # fmt: skip
    reading = shown.readings[0].id if shown.readings else "r1"
    return replace(
        shown, cut_made=True, rules=LATER, in_doubt=frozenset({reading}),
        locks=(lock(), lock(LATER, day=2), lock(after_cut=True, day=3)),
        revision_lines=("Revision 2: " + "digits swapped at the scale; " * 20,),
    )  # fmt: skip


def test_lock_before_the_cut_is_told() -> None:
    shown = replace(record(), locks=(lock(),), cut_made=True)
    said = f"Rules locked 2026-03-01 08:00 UTC, before the cut, digest {digest(RULES)[:12]}."
    assert lock_line(shown) == said


@pytest.mark.parametrize(("cut", "when"), [(True, "before the cut"), (False, "so far")])
def test_no_lock_is_told_too(cut: bool, when: str) -> None:
    said = lock_line(replace(record(), cut_made=cut))
    assert said == f"Rules not locked {when}, digest {digest(RULES)[:12]}."


def test_late_first_lock_is_no_lock() -> None:
    shown = replace(record(), locks=(lock(after_cut=True),), cut_made=True)
    assert lock_line(shown).startswith("Rules not locked before the cut, put down 2026-03-01")


@pytest.mark.parametrize(
    ("late", "said"),
    [
        ((False,), "; changed before the cut: see Method; digest"),
        ((True,), "; changed after the cut: see Method; digest"),
        ((False, True), "; changed before and after the cut: see Method; digest"),
    ],
)
def test_change_points_to_method(late: tuple[bool, ...], said: str) -> None:
    later = tuple(lock(LATER, after_cut=one, day=5 + i) for i, one in enumerate(late))
    line = lock_line(replace(record(), rules=LATER, locks=(lock(), *later), cut_made=True))
    assert said in line
    assert line.endswith(f"{digest(LATER)[:12]}.")


def test_other_rules_than_locked_show() -> None:
    assert "other rules than those in force" in lock_line(
        replace(record(), rules=LATER, locks=(lock(),))
    )


def test_page_one_of_a_fair_record(tmp_path: Path) -> None:
    first = pages(write(fair_record(), tmp_path))[0]
    assert "Rules locked 2026-05-04 09:30 UTC, before the cut; changed after the cut" in first
    assert "1 of 12 outcomes was overruled by the reviewer" in first
    assert "Can winner" in first  # the rules gave joint winners
    assert "the reviewer says so, against the rules" in first


def test_overruling_shows_the_reviewers_mark() -> None:
    shown = overruled(record(), AwardKind.TIE, "s1", "s2", "s3", where=Component.CAN)
    award = next(a for a in shown.verdict.awards if a.component is Component.CAN)
    mine = shown_award(shown, award)
    assert (mine.kind, mine.winners, mine.by_hand, mine.why) == (
        AwardKind.TIE, ("s1", "s2", "s3"), True, WHY,
    )  # fmt: skip
    drawn = {box.text for box in boxes_of(shown, "A4")[0]}
    before = {box.text for box in boxes_of(record(), "A4")[0]}
    assert "winner" in before
    assert {"the reviewer says so, against the rules"} <= drawn - before


def test_taken_back_overruling_counts_not() -> None:
    said = Overruling("o", LINEUP, Component.CAN, None, (), "", START)
    shown = replace(record(), overrulings={Component.CAN: said})
    assert overruled_line(shown) == ""
    assert not any(shown_award(shown, award).by_hand for award in shown.verdict.awards)


def test_many_overrulings_are_counted() -> None:
    shown = overruled(record(), AwardKind.TIE, where=Component.CAN)
    shown = overruled(shown, AwardKind.NOT_JUDGED, where=Component.MEDIA)
    assert overruled_line(shown).startswith("2 of 9 outcomes were overruled by the reviewer;")


def test_nothing_done_prints_nothing(tmp_path: Path) -> None:
    first = pages(write(record(), tmp_path))[0]
    for word in ("overrul", "the reviewer says", "Revision 2"):
        assert word not in first


def test_revision_is_told_near_the_top() -> None:
    line = "Revision 2: digits swapped. Alder · strip length: 1204 mm → 1240 mm."
    revised = replace(record(), revision_lines=("Revision 1: older.", line))
    boxes, page = boxes_of(revised, "A4")
    (box,) = [b for b in boxes if b.text == line]
    assert box.bottom > page.height * 0.85
    for other in (replace(revised, draft=True), replace(revised, revision=1)):
        assert not [b for b in boxes_of(other, "A4")[0] if b.text.startswith("Revision")]


@pytest.mark.parametrize("count", [1, 3, 6])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("make", [record, crowded])
def test_all_of_it_finds_room(make, paper: str, count: int) -> None:
    boxes, page = boxes_of(everything(make(count)), paper)
    for box in boxes:
        assert box.left >= -0.01
        assert box.right <= page.width + 0.01
        assert box.bottom >= 0
        assert box.top <= page.height
    for one, other in combinations(boxes, 2):
        assert not one.meets(other), (one, other)
