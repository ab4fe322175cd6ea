"""Why, component by component: both hands side by side, flips of rules, blind or open, polls."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.judge.blind import Poll
from benchlog.judge.overruling import Overruling
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.blind_words import blind_line, blind_mark
from benchlog.tasks.poll import poll_story
from benchlog.tasks.record import Record
from benchlog.tasks.rule_flip import would_change_rules
from benchlog.trade.component import Component
from tests.sheet.fairness_record import BY_HAND, fair_record
from tests.sheet.reading_back import plain, words, write
from tests.sheet.sample_record import LINEUP, START, record
from tests.sheet.text_boxes import runs_of


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> str:
    return words(write(fair_record(), tmp_path_factory.mktemp("fair")))


def poll(*votes: tuple[str, int], before: bool = True, question: str = "Which one?") -> Poll:
    return Poll("p", LINEUP, question, votes, before, START)


def judged(blind: str, *, only: str = "") -> Record:
    """Return the fair record with dents judged blind for these specimens, openly for others.

    `only` leaves a value to these alone.
    """
    made = fair_record()
    findings = dict(made.findings)
    for one in ("s-a", "s-b", "s-c"):
        found = findings["dents", one]
        last = replace(found.readings[-1], blind=one in blind.split())
        kept = replace(found, readings=(*found.readings[:-1], last))
        findings["dents", one] = kept if not only or one in only.split() else replace(
            kept, word=None, readings=())  # fmt: skip
    return replace(made, findings=findings)


def test_both_hands_stand_side_by_side(sheet: str) -> None:
    assert "By the rules The reviewer says instead joint winners: Amber, Cobalt" in sheet
    assert "judged blind winner: Cobalt" in sheet
    assert f"Reviewer’s why {BY_HAND}" in sheet


def test_both_hands_share_one_height(tmp_path: Path) -> None:
    found = [
        run
        for runs in runs_of(write(fair_record(), tmp_path))
        for run in runs
        if plain(run.text).strip() in ("By the rules", "The reviewer says instead")
    ]
    assert len(found) == 2
    assert found[0].y == pytest.approx(found[1].y)


def test_awards_of_the_rules_stand_alone(tmp_path: Path) -> None:
    text = words(write(record(), tmp_path))
    for word in ("By the rules The", "reviewer says instead", "Reviewer’s why", "Judged by eye",
                 "judged blind", "Viewers’ poll"):  # fmt: skip
        assert word not in text


def test_change_of_rules_follows_readings(sheet: str) -> None:
    awards = fair_record().verdict.awards
    told = {one: would_change_rules(fair_record(), one) for one in awards}
    assert any(told.values())
    for award, change in told.items():
        assert plain(f"{award.would_change} {change}") in sheet


@pytest.mark.parametrize(
    ("blind", "mark", "line"),
    [
        ("s-a s-b s-c", "judged blind", "By eye and under codes: Dents."),
        ("s-a", "partly judged blind",
         "By eye and under codes: Dents (Amber). "
         "By eye, knowing whose part it was: Dents (Cobalt, Moss)."),
        ("", "", ""),
    ],
)  # fmt: skip
def test_blind_or_open_is_told(blind: str, mark: str, line: str) -> None:
    made = judged(blind)
    assert blind_mark(made, Component.CAN) == mark
    assert blind_line(made, Component.CAN) == line
    assert blind_mark(made, Component.GASKET) == ""


def test_only_what_has_a_value_is_told() -> None:
    made = judged("s-a s-b", only="s-a s-b")
    assert blind_line(made, Component.CAN) == "By eye and under codes: Dents."


def test_poll_stands_beside_the_bench(sheet: str) -> None:
    made = fair_record()
    assert plain(poll_story(made.polls[0], made.lineup)) in sheet
    assert "Viewers, before the reveal 62% (n = 31) 24% (n = 12) 14% (n = 7)" in sheet
    assert "The bench: winner in none none none" in sheet
    assert "joint winner in can (overruled) can (overruled) none" in sheet


def test_poll_after_the_reveal_says_so(tmp_path: Path) -> None:
    late = poll(("s1", 3), ("s2", 1), ("s3", 0), before=False)
    text = words(write(replace(record(), polls=(late,)), tmp_path))
    assert "Viewers, after the reveal 75% (n = 3) 25% (n = 1) 0% (n = 0)" in text


def test_several_polls_are_numbered(tmp_path: Path) -> None:
    asked = (poll(("s1", 3), question="Before?"), poll(("s1", 1), ("s2", 1), before=False))
    text = words(write(replace(record(), polls=asked), tmp_path))
    assert "Poll 1: “Before?”: Alder 100%" in text
    assert "Poll 2, after the reveal 50% (n = 1) 50% (n = 1) not asked about" in text


def test_poll_outlives_its_specimens(tmp_path: Path) -> None:
    gone = poll(("s1", 1), ("s9", 3))
    text = words(write(replace(record(), polls=(gone,)), tmp_path))
    assert "one that is no longer in the line-up 75%" in text
    assert "25% (n = 1) not asked about not asked about" in text


@pytest.mark.parametrize("count", [1, 6])
def test_hostile_words_are_printed(tmp_path: Path, count: int) -> None:
    hostile = "<b>&amp; \x00 " + "W" * 400 + " seam tale" * 900
    said = Overruling("o", LINEUP, Component.CAN, AwardKind.WINNER, ("s9", "s1"), hostile, START)
    asked = tuple(poll(("s1", 1), question=hostile) for _ in range(3))
    made = replace(record(count), overrulings={Component.CAN: said}, polls=asked)
    path = write(made, tmp_path, "Letter")
    assert words(path).count("seam") >= 900
    assert min(run.size for runs in runs_of(path) for run in runs) >= 9.0
