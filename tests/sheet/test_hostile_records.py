from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from benchlog.judge.verdict import Verdict
from benchlog.settings import BOTH
from benchlog.sheet.pdf_sheet import PdfSheet
from benchlog.tasks.ports import Remark
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.trade.component import Component
from tests.sheet.reading_back import pages, words, write
from tests.sheet.sample_record import LINEUP, LOOK, START, PictureShelf, Told, record, word

NAMES = st.one_of(
    st.text(max_size=40),
    st.text(st.characters(min_codepoint=0x590, max_codepoint=0x6FF), min_size=1, max_size=30),
    st.text(st.characters(min_codepoint=0x1F300, max_codepoint=0x1FAFF), min_size=1, max_size=12),
    st.text(st.sampled_from("<>&/b;\"'%\\()\x00\n\u202e"), max_size=30),
    st.integers(50, 3000).map(lambda n: "W" * n),
)


def renamed(shown: Record, name: str, other: str) -> Record:
    specimens = tuple(
        replace(s, nickname=name, maker=other, part_number=name, lot=other, origin_box=name,
                note=other, colour=other[:7] or "#12")
        for s in shown.lineup.specimens
    )  # fmt: skip
    lineup = replace(shown.lineup, name=name, question=other, reviewer=name, specimens=specimens)
    said = Remark("m", LINEUP, Component.CAN.value, "", other, START)
    look = word("s1", LOOK, name or "x")
    return replace(
        shown, lineup=lineup, remarks={(Component.CAN.value, ""): said},
        findings={**shown.findings, (LOOK.key, "s1"): look},
    )  # fmt: skip


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(NAMES, NAMES, st.sampled_from([1, 3, 6]), st.sampled_from(["A4", "Letter"]))
def test_no_name_stops_a_sheet(
    tmp_path: Path, name: str, other: str, count: int, paper: str
) -> None:
    path = tmp_path / "sheet.pdf"
    hostile = renamed(record(count), name, other)
    wishes = SheetWishes(BOTH, sums=True)
    PdfSheet().write(hostile, PictureShelf({}), path, paper, Told(), wishes)  # type: ignore[arg-type]
    assert len(PdfReader(path).pages) >= 6


def test_letters_beyond_latin_print(tmp_path: Path) -> None:
    text = words(write(renamed(record(), "Фильтр Ωμέγα", "Żółć"), tmp_path))
    assert "Фильтр Ωμέγα" in text
    assert "Żółć" in text


def test_huge_remark_runs_over_pages(tmp_path: Path) -> None:
    long = Remark("m", LINEUP, Component.CAN.value, "", "A long tale of a can. " * 900, START)
    text = words(write(replace(record(), remarks={(Component.CAN.value, ""): long}), tmp_path))
    assert text.count("tale") == 900  # a page may end in the middle of a sentence


def test_huge_word_is_printed_whole(tmp_path: Path) -> None:
    tale = word("s1", LOOK, "grey fibres " * 700)
    sample = record()
    text = words(write(replace(sample, findings={**sample.findings, (LOOK.key, "s1"): tale}),
                       tmp_path))  # fmt: skip
    assert text.count("grey fibres") >= 700


def test_empty_line_up_still_prints(tmp_path: Path) -> None:
    sample = record(1)
    empty = replace(
        sample, lineup=replace(sample.lineup, specimens=(), name="", question="", reviewer=""),
        findings={}, figures={}, readings=(), verdict=Verdict("r", "1", (), ()), instruments=(),
        moments=(), remarks={},
    )  # fmt: skip
    found = pages(write(empty, tmp_path))
    assert "Line-up without a name" in found[0]
    assert "No instrument is recorded" in " ".join(found)


@pytest.mark.parametrize("colour", ["", "red", "#12", "#GGGGGG", "#123456; x"])
def test_odd_colour_falls_back_to_ink(tmp_path: Path, colour: str) -> None:
    sample = record(1)
    specimen = replace(sample.lineup.specimens[0], colour=colour)
    odd = replace(sample, lineup=replace(sample.lineup, specimens=(specimen,)))
    assert "Alder" in pages(write(odd, tmp_path))[0]
