from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from benchlog.sheet.front_page import FrontPage
from benchlog.sheet.pictures import Pictures
from benchlog.sheet.typography import PAPERS, use_fonts
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.sheet.drawn_boxes import Box, Noting
from tests.sheet.reading_back import pages, write
from tests.sheet.sample_record import record


def test_answer_stands_on_page_one(tmp_path: Path) -> None:
    text = pages(write(record(), tmp_path))[0]
    for said in (
        "Three for the same mount", "Which of these would go on the same engine mount?",
        "Alder", "Birch", "Copper beech from the market", "NF-2140", "L2611-07",
        "bought by the reviewer", "given by the maker", "given by a viewer", "n = 1",
        "2026-03-07", "revision 2", record().digest[:12],
        "There is no overall total. One filter of each part number was cut",
    ):  # fmt: skip
        assert said in text


def test_every_component_has_its_row(tmp_path: Path) -> None:
    text = pages(write(record(), tmp_path))[0]
    for award in record().verdict.awards:
        assert award.component.value.capitalize() in text
        assert award.kind.value in text


def test_scores_have_one_decimal(tmp_path: Path) -> None:
    text = pages(write(record(), tmp_path))[0].split()
    for score in record().verdict.scores:
        if score.value is not None:
            assert f"{score.value:.1f}" in text


def test_key_names_every_mark(tmp_path: Path) -> None:
    text = pages(write(record(), tmp_path))[0]
    for words in ("winner", "joint winner: nobody clearly beats it", "tie: too close to call",
                  "different, not better", "cannot separate", "not judged"):  # fmt: skip
        assert words in text


def test_two_of_a_part_number_count(tmp_path: Path) -> None:
    text = pages(write(record(6), tmp_path))[0]
    assert text.count("n = 2") == 2
    assert text.count("n = 1") == 4
    assert "One filter of each part number" not in text


def boxes_of(shown: Record, paper: str) -> tuple[list[Box], FrontPage]:
    use_fonts()
    canvas = Noting()
    page = FrontPage(shown, PAPERS[paper], Pictures())
    page.drawOn(canvas, 0, 0)
    return canvas.boxes, page


def crowded(count: int) -> Record:
    """Return a record with all components and names far longer than their columns."""
    shown = record(count)
    long = "Extraordinarily-long-hyphenated-name of a filter nobody can pronounce quickly " * 3
    specimens = tuple(
        replace(s, nickname=long, maker=long, part_number="X" * 90, lot="0" * 60)
        for s in shown.lineup.specimens
    )
    lineup = replace(shown.lineup, name=long, question=long * 3, specimens=specimens)
    award = shown.verdict.awards[0]
    awards = tuple(replace(award, component=component) for component in Component)
    scores = tuple(
        replace(score, component=component)
        for component in Component
        for score in shown.verdict.scores[:count]
    )
    return replace(shown, lineup=lineup, verdict=replace(shown.verdict, awards=awards,
                                                         scores=scores))  # fmt: skip


@pytest.mark.parametrize("count", [1, 3, 6])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("make", [record, crowded])
def test_nothing_overlaps_or_runs_out(make, paper: str, count: int) -> None:
    boxes, page = boxes_of(make(count), paper)
    assert len(boxes) > 30
    for box in boxes:
        assert box.left >= -0.01
        assert box.right <= page.width + 0.01
        assert box.bottom >= 0
        assert box.top <= page.height
    for one, other in combinations(boxes, 2):
        assert not one.meets(other), (one, other)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_all_components_find_room(paper: str) -> None:
    boxes, _ = boxes_of(crowded(6), paper)
    drawn = {box.text for box in boxes}
    for component in Component:
        assert component.value.capitalize() in drawn


def test_tie_marks_only_those_in_it(tmp_path: Path) -> None:
    sample = record()
    tie = replace(sample.verdict.awards[0], winners=("s1", "s2"))
    scores = tuple(
        replace(s, value=None) if s.specimen_id == "s3" else s
        for s in sample.verdict.scores
        if s.component is tie.component
    )
    shown = replace(sample, verdict=replace(sample.verdict, awards=(tie,), scores=scores))
    boxes, page = boxes_of(shown, "A4")
    out = [b for b in boxes if b.text == "not judged"]
    # once in the key, once in the third specimen's column
    assert sorted(b.left > page.width / 2 for b in out) == [False, True]
