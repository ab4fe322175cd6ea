"""The Method tells in full how the verdict was kept fair."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.parties import parties_of
from benchlog.sheet.fairness_part import blind_story
from benchlog.sheet.words import cut_of_same, means_of_parts
from benchlog.tasks.lock import lock_story
from benchlog.tasks.plan_changes import PlanChange
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen
from tests.sheet.fairness_record import LATE_REASON, SEED, fair_record
from tests.sheet.reading_back import plain, words, write
from tests.sheet.sample_record import SPECIMENS, START, record

NOWHERE = {"origin_box": "", "origin_can": "", "origin_inferred": ""}
WELCH = "Specimens of one part are compared by their mean, with the scatter between them (Welch)"


@pytest.fixture(scope="module")
def method(tmp_path_factory: pytest.TempPathFactory) -> str:
    text = words(write(fair_record(), tmp_path_factory.mktemp("method")))
    return text[text.index("How the verdict was kept fair") :]


def of_parts(*parts: tuple[str, str]) -> Record:
    """Return a record of specimens with these makers and part numbers."""
    given = tuple(
        replace(SPECIMENS[i], maker=maker, part_number=number, **NOWHERE)
        for i, (maker, number) in enumerate(parts)
    )
    sample = record(len(parts))
    return replace(sample, lineup=replace(sample.lineup, specimens=given))


def test_lock_story_is_whole(method: str) -> None:
    story = lock_story(fair_record())
    assert len(story) == 2
    for sentence in story:
        assert plain(sentence) in method
    assert f"Reason: {LATE_REASON}. Dents: weight 2 → 9." in method


def test_unlocked_rules_are_told(tmp_path: Path) -> None:
    text = words(write(replace(record(), cut_made=True), tmp_path))
    at = text.index("How the verdict was kept fair")
    assert "were not locked before the cut." in text[at : at + 200]
    for word in ("Judged blind", "Plan changed", "Turns"):
        assert word not in text[at:]


def test_blind_run_tells_order_and_seed(method: str) -> None:
    assert "Judged blind The parts lay under codes, in an order that is balanced" in method
    assert "3 parts: Dents; codes opened 2026-05-04 09:30 UTC" in method
    assert f"seed {SEED}." in method


def test_seed_stays_shut_with_the_codes(tmp_path: Path) -> None:
    shut = fair_record(revealed=False)
    (_, told) = blind_story(shut)
    assert "codes not opened so far" in told
    text = words(write(shut, tmp_path))
    assert str(SEED) not in text
    assert "judged blind;" not in text  # what is under seal marks nothing


def test_plan_changes_stand_with_their_day(method: str) -> None:
    assert (
        "Plan changed 2026-05-31 12:00 UTC: Question: Which of these for the same mount? → "
        "Which can stands a garage floor?" in method
    )


def test_balanced_turns_are_told(tmp_path: Path) -> None:
    sample = record()
    turns = replace(sample, lineup=replace(sample.lineup, balanced=True))
    assert "Turns At the bench the specimens take turns" in words(write(turns, tmp_path))


def test_hundred_hostile_changes_all_print(tmp_path: Path) -> None:
    changes = tuple(
        PlanChange(f"<b>Amber & {i}", "W" * 300, f"new {i}\x00", START) for i in range(100)
    )
    text = words(write(replace(record(), plan_changes=changes), tmp_path))
    for i in range(100):
        assert f"<b>Amber & {i}:" in text
        assert f"→ new {i}" in text


def test_means_are_told_where_parts_repeat(tmp_path: Path) -> None:
    assert f"{WELCH}: Alder, Fir." in words(write(record(6), tmp_path))
    assert means_of_parts(record(3)) == []


def test_one_number_from_elsewhere_is_counted_apart() -> None:
    sample = record(6)
    alder, *others, fir = sample.lineup.specimens
    assert (cut_of_same(sample, alder), len(means_of_parts(sample))) == (2, 1)
    specimens = (alder, *others, replace(fir, origin_can="Norway"))
    sample = replace(sample, lineup=replace(sample.lineup, specimens=specimens))
    assert (cut_of_same(sample, alder), means_of_parts(sample)) == (1, [])


def test_two_of_one_part_alone_have_no_mean() -> None:
    assert means_of_parts(of_parts(("Northfold", "N1"), ("Northfold", "N1"))) == []


def test_spelling_of_a_part_says_nothing() -> None:
    made = of_parts(("Northfold", "nf-1"), (" NORTHFOLD ", "NF-1\t"), ("Quillon", "Q"))
    assert [cut_of_same(made, s) for s in made.lineup.specimens] == [2, 2, 1]
    assert means_of_parts(made) == [f"{WELCH}: Alder, Birch."]


@pytest.mark.parametrize("blank", [("Northfold", " "), ("", "N1"), ("", "")])
def test_blank_part_is_like_no_other(blank: tuple[str, str]) -> None:
    made = of_parts(blank, blank, ("Quillon", "Q"))
    assert [cut_of_same(made, s) for s in made.lineup.specimens] == [1, 1, 1]


WORD = st.sampled_from(["", " ", "NF", "nf ", "Ünder", "ünder", "Straße", "STRASSE", "x"])


@given(st.lists(st.tuples(WORD, WORD), min_size=1, max_size=5))
def test_counts_agree_with_judging(parts: list[tuple[str, str]]) -> None:
    """A lone stranger beside them keeps judging from taking a single party apart."""
    made = of_parts(*parts, ("a stranger", "S-1"))
    specimens: tuple[Specimen, ...] = made.lineup.specimens
    sizes = {one: len(party) for party in parties_of(specimens) for one in party}
    assert {s.id: cut_of_same(made, s) for s in specimens} == sizes
