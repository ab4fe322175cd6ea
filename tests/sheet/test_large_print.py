"""The large-print page: one page, no small letter, and all that must be on it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from benchlog.errors import PublishRefused
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.large_page import LARGE
from benchlog.sheet.large_print import write_large_print
from benchlog.sheet.outputs import SheetOutput
from benchlog.sheet.typography import PAPERS
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid
from tests.sheet.reading_back import words
from tests.sheet.sample_record import PictureShelf, Told, record
from tests.sheet.text_boxes import runs_of
from tests.sheet.worked_record import worked


def large(made: Record, folder: Path, paper: str = "A4", address: str = "") -> Path:
    path = folder / "large.pdf"
    write_large_print(made, path, paper, address)
    return path


def renamed(made: Record, nickname: str) -> Record:
    lineup = made.lineup
    specimens = tuple(
        replace(s, nickname=f"{nickname} {n}") for n, s in enumerate(lineup.specimens, 1)
    )
    return replace(made, lineup=replace(lineup, name=nickname, question=nickname,
                                        specimens=specimens))  # fmt: skip


def all_joint(made: Record) -> Record:
    ids = tuple(s.id for s in made.lineup.specimens)
    awards = tuple(
        replace(a, kind=AwardKind.JOINT_WINNERS, winners=ids) for a in made.verdict.awards
    )
    return replace(made, verdict=replace(made.verdict, awards=awards))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("count", [1, 3, 6])
def test_one_page_in_large_letters(tmp_path: Path, count: int, paper: str) -> None:
    path = large(record(count), tmp_path, paper)
    pages = runs_of(path)
    assert len(pages) == 1
    assert min(run.size for run in pages[0]) >= LARGE
    right = PAPERS[paper].width - PAPERS[paper].side
    assert max(run.right for run in pages[0]) <= right + 0.5
    assert not any(a.meets(b) for n, a in enumerate(pages[0]) for b in pages[0][n + 1 :])


def test_tells_who_paid_and_every_outcome(tmp_path: Path) -> None:
    said = words(large(record(3), tmp_path))
    assert "Who paid · Free from the maker: Birch" in said
    assert "Can: Alder" in said
    assert "Thread: joint winners Alder, Birch" in said
    assert "Tie, too close to call: gasket, end caps" in said
    assert "Not judged: anti-drain-back valve, bypass valve" in said
    assert "no overall total" in said


def test_tie_says_who_was_not_judged(tmp_path: Path) -> None:
    made = record(3)
    scores = tuple(
        replace(s, value=None, low=None, high=None)
        if s.component is Component.GASKET and s.specimen_id == made.lineup.specimens[2].id
        else s
        for s in made.verdict.scores
    )
    said = words(large(replace(made, verdict=replace(made.verdict, scores=scores)), tmp_path))
    left = made.lineup.specimens[2].nickname
    assert f"Tie, too close to call: gasket ({left} not judged), end caps" in said
    assert "One filter of each part number was cut" in said


def test_every_component_of_a_worked_record(tmp_path: Path) -> None:
    made = worked()
    said = words(large(made, tmp_path)).casefold()
    assert [a.component.value for a in made.verdict.awards if a.component.value not in said] == []
    assert "rehearsal: invented data" in said


@settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(name=st.text(st.characters(codec="utf-8"), max_size=80), paper=st.sampled_from(list(PAPERS)))
def test_long_names_never_need_a_second_page(tmp_path: Path, name: str, paper: str) -> None:
    made = all_joint(renamed(record(6), name))
    pages = runs_of(large(made, tmp_path, paper, "https://example.org/d"))
    assert len(pages) == 1
    assert min(run.size for run in pages[0]) >= LARGE
    assert min(run.y for run in pages[0]) >= PAPERS[paper].bottom - LARGE


def test_crowded_page_still_tells_who_paid(tmp_path: Path) -> None:
    said = words(large(all_joint(renamed(worked(), "W" * 200)), tmp_path))
    assert "Who paid: 2 bought by the reviewer, 1 given by the maker" in said
    assert "Media: joint winners" in said


def test_same_record_same_bytes(tmp_path: Path) -> None:
    first = large(record(3), tmp_path).read_bytes()
    assert large(record(3), tmp_path).read_bytes() == first


def test_who_paid_comes_first(tmp_path: Path) -> None:
    lineup = record(2).lineup
    unanswered = replace(lineup.specimens[0], paid=Paid.UNANSWERED)
    open_one = replace(record(2), lineup=replace(lineup, specimens=(unanswered,)))
    with pytest.raises(PublishRefused, match="who paid"):
        large(open_one, tmp_path)


@pytest.mark.parametrize(("wanted", "files"), [(False, 1), (True, 2)])
def test_goes_out_beside_the_sheet(tmp_path: Path, wanted: bool, files: int) -> None:
    output = SheetOutput("Letter", SheetWishes(large_print=wanted))
    made = output.write(record(2), PictureShelf({}), tmp_path, Told())  # type: ignore[arg-type]
    assert made == ("sheet.pdf", "large-print.pdf")[:files]
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted(made)
    assert [len(PdfReader(tmp_path / name).pages) for name in made[1:]] == [1] * (files - 1)
