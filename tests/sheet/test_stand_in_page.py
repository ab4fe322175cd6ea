"""The stand-in check on the sheet: every line, its caution, and the handbook's number."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PlanRefused
from benchlog.sheet.stand_in_page import CLOSING
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.tasks.stand_in import LineOutcome, StandInWord, Told
from benchlog.tasks.stand_in_wish import StandInWish, by_hand, first_wish, stand_in_of
from tests.sheet.reading_back import outline, pages, write
from tests.sheet.sample_record import record
from tests.sheet.text_boxes import runs_of
from tests.sheet.worked_record import worked


def wish(**changes: object) -> StandInWish:
    return replace(first_wish(worked().lineup), handbook="HB 77-031", **changes)  # type: ignore[arg-type]


def check_pages(folder: Path, asked: StandInWish, paper: str = "A4") -> list[str]:
    """Return the pages from the check's heading to the next section's."""
    path = write(worked(), folder, paper, wishes=SheetWishes(stand_in=asked))
    begins = {title: page for level, title, page in outline(path) if level == 0}
    return pages(path)[begins["Stand-in check"] : begins["Method"] + 1]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_line_with_its_caution(tmp_path: Path, paper: str) -> None:
    check = stand_in_of(worked(), wish())
    said = " ".join(check_pages(tmp_path, wish(), paper))
    for line in check.lines:
        assert line.line.label in said
        assert line.words in said
        for one in line.subjects:
            assert one.outcome.value in said
    assert {line.outcome for line in check.lines} == set(LineOutcome)


def test_begins_on_a_page_of_its_own(tmp_path: Path) -> None:
    path = write(worked(), tmp_path, wishes=SheetWishes(stand_in=wish()))
    page = next(p for level, title, p in outline(path) if title == "Stand-in check")
    runs = runs_of(path)[page]
    heading = next(run for run in runs if run.text.startswith("Stand-in check"))
    above = {run.text.strip() for run in runs if run.y > heading.y}
    assert above == {"Amber", "Cobalt", "Moss"}, "the names that stand on every page"


def test_word_stands_beside_the_handbook_number(tmp_path: Path) -> None:
    check = stand_in_of(worked(), wish())
    first = check_pages(tmp_path, wish())[0]
    after = first.partition(check.word.value)[2]
    assert "handbook: HB 77-031" in after[:160]
    assert "Cobalt beside Amber, the specified filter" in after[:160]


def test_missing_handbook_number_is_said(tmp_path: Path) -> None:
    first = check_pages(tmp_path, replace(wish(), handbook=" "))[0]
    assert "handbook: not given" in first


def test_three_closing_words_and_no_promise(tmp_path: Path) -> None:
    said = " ".join(check_pages(tmp_path, wish()))
    assert set(CLOSING) == set(StandInWord)
    assert all(f"“{word.value}”" in said for word in StandInWord)
    own = said.partition("Method")[0].casefold().split()
    assert {"fits", "fit", "fitting", "compatible"} & {w.strip(".,;:“”") for w in own} == set()


def test_all_answered_lines_still_promise_nothing(tmp_path: Path) -> None:
    told = {one.key: Told(LineOutcome.MATCH, "looked up") for line in by_hand(worked())
            for one in line.subjects}  # fmt: skip
    said = " ".join(check_pages(tmp_path, wish(told=told)))
    assert "Whether a filter may be used on an engine is for the engine's maker" in said


def test_no_check_unless_it_is_wanted(tmp_path: Path) -> None:
    assert PublishWishes(stand_in=wish()).of_sheet("metric").stand_in is None
    on_sheet = wish(on_sheet=True)
    assert PublishWishes(stand_in=on_sheet).of_sheet("metric").stand_in == on_sheet
    assert "Stand-in check" not in {t for _, t, _ in outline(write(record(2), tmp_path))}


def test_gone_specimen_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PlanRefused, match="gone"):
        write(worked(), tmp_path, wishes=SheetWishes(stand_in=replace(wish(), candidate="x")))
    assert list(tmp_path.iterdir()) == []


def test_nothing_overlaps_or_is_too_small(tmp_path: Path) -> None:
    long = replace(worked(), lineup=replace(worked().lineup, specimens=tuple(
        replace(s, nickname=f"{s.nickname} {'of the long name ' * 6}")
        for s in worked().lineup.specimens)))  # fmt: skip
    path = write(long, tmp_path, wishes=SheetWishes(stand_in=wish()))
    page = next(p for level, title, p in outline(path) if title == "Stand-in check")
    runs = runs_of(path)[page]
    assert min(run.size for run in runs) >= 9
    assert not any(a.meets(b) for n, a in enumerate(runs) for b in runs[n + 1 :])
