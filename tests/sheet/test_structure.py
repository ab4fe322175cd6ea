"""The structure of whole sheets: nothing on a page is left out of it, and it is in order."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from benchlog.settings import BOTH
from benchlog.sheet.large_print import write_large_print
from benchlog.tasks.ports import Remark
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.trade.component import Component
from tests.sheet.archive_faults import archive_faults
from tests.sheet.fairness_record import fair_record
from tests.sheet.reading_back import outline, with_photos, write
from tests.sheet.sample_record import LINEUP, START, record
from tests.sheet.structure_faults import structure_faults
from tests.sheet.tagged_reader import marks_of, told, tree_of
from tests.sheet.test_front_page import crowded
from tests.sheet.test_hostile_records import renamed
from tests.sheet.worked_record import worked


@pytest.fixture(scope="module")
def with_sums(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The worked sample's sheet with its sums: tables that run over many pages."""
    wishes = SheetWishes(BOTH, sums=True)
    return write(worked(), tmp_path_factory.mktemp("sums"), wishes=wishes)


def pictured(made: Record, folder: Path) -> Path:
    full, shelf = with_photos(made)
    return write(full, folder, shelf=shelf)


@pytest.mark.parametrize(("make", "count"), [(record, 1), (record, 6), (crowded, 3)])
def test_nothing_is_left_out(tmp_path: Path, make, count: int) -> None:
    assert structure_faults(pictured(make(count), tmp_path)) == []


def test_sums_are_in_it(with_sums: Path) -> None:
    assert structure_faults(with_sums) == []
    assert ("H2", "The sums") in told(with_sums)


def test_overruled_outcomes_are_in_it(tmp_path: Path) -> None:
    path = write(fair_record(), tmp_path)
    assert structure_faults(path) == []
    assert ("TH", "The reviewer says instead") in told(path)


def test_odd_names_are_in_it(tmp_path: Path) -> None:
    odd = renamed(record(2), "a\\b (c\\) <W>", "\ue000 Ωμέγα \U0001f600 " + "W" * 400)
    assert structure_faults(write(odd, tmp_path)) == []


def test_large_print_is_in_it(tmp_path: Path) -> None:
    path = tmp_path / "large.pdf"
    write_large_print(record(), path, "A4", "https://example.org/data")
    assert structure_faults(path) == []
    heard = told(path)
    assert ("H1", "Three for the same mount") in heard
    assert ("Figure", "Square code for phones: https://example.org/data") in heard


def test_address_of_the_data_is_a_link(tmp_path: Path) -> None:
    address = "https://example.org/filters/three-for-the-same-mount"
    path = write(record(2), tmp_path, wishes=SheetWishes(address=address))
    assert structure_faults(path) == []
    assert archive_faults(path) == []
    heard = told(path)
    assert ("Link", f"The data: {address}") in heard
    assert ("Figure", f"Square code for phones: {address}") in heard


def test_words_for_an_address_lead_nowhere(tmp_path: Path) -> None:
    path = write(record(2), tmp_path, wishes=SheetWishes(address="ask the reviewer"))
    assert structure_faults(path) == []
    assert ("P", "The data: ask the reviewer") in told(path)


def test_first_page_is_heard_in_order(tmp_path: Path) -> None:
    heard = told(pictured(record(2), tmp_path))
    assert heard[:13] == [
        ("P", "Oil filters cut open and compared, part by part"),
        ("P", "2026-03-07 · revision 2 · digest af2bdbe1aa9b"),
        ("H1", "Three for the same mount"),
        ("P", "Which of these would go on the same engine mount?"),
        ("Figure", "Photo of Alder, at the station outside: Alder, outside"),
        ("P", "Alder"),
        ("Figure", "Photo of Birch, at the station outside: Birch, outside"),
        ("P", "Birch"),
        ("TH", "Maker"),
        ("TD", "Northfold Filters"),
        ("TD", "Greyharbour Autoparts and Sealing Company"),
        ("TH", "Part number"),
        ("TD", "NF-2140"),
    ]


def test_a_score_is_heard_with_its_mark(tmp_path: Path) -> None:
    heard = told(write(record(3), tmp_path))
    at = heard.index(("P", "Can"))
    assert heard[at + 1 : at + 5] == [
        ("P", "winner"), ("P", "7.8"), ("Figure", "winner"),
        ("Figure", "probably from 7.0 to 8.4 of 10"),
    ]  # fmt: skip


def test_all_printed_words_are_heard(tmp_path: Path) -> None:
    path = write(record(3), tmp_path)
    heard = "".join("".join(text.split()) for _, text in told(path))
    with pikepdf.open(path) as pdf:
        shown = [mark for page in pdf.pages for mark in marks_of(page).marks]
    for mark in shown:
        assert mark.number is None or "Figure" in mark.tag or "".join(mark.text.split()) in heard
    passed_over = {mark.properties.get("/Type") for mark in shown if mark.text and not mark.number}
    assert passed_over <= {"/Pagination", None}


def test_bookmarks_are_the_headings(with_sums: Path) -> None:
    heard, marks = told(with_sums), outline(with_sums)
    headings = [text for kind, text in heard if kind == "H2"]
    assert [title for level, title, _ in marks if level == 0][1:] == headings
    parts = [text for kind, text in heard if kind == "H3"]
    assert [title for level, title, _ in marks if level == 1] == parts


def test_a_table_over_pages_is_one(with_sums: Path) -> None:
    with pikepdf.open(with_sums) as pdf:
        tables = [node for node in tree_of(pdf).walk() if node.kind == "Table"]
        pages_of = [
            {kid[0] for node in table.walk() for kid in node.kids if isinstance(kid, tuple)}
            for table in tables
        ]
    longest = max(range(len(tables)), key=lambda n: len(pages_of[n]))
    assert len(pages_of[longest]) >= 2
    first_cells = [row.children()[0] for row in tables[longest].children()]
    assert len({id(cell) for cell in first_cells}) == len(first_cells)
    heads = [row for row in tables[longest].children()
             if all(cell.attributes.get("/Scope") == "/Column" for cell in row.children()[1:])
             and len(row.children()) > 1]  # fmt: skip
    assert len(heads) == 1


def test_a_paragraph_over_pages_is_one(tmp_path: Path) -> None:
    tale = Remark("m", LINEUP, Component.CAN.value, "", "A long tale of a can. " * 400, START)
    path = write(replace(record(), remarks={(Component.CAN.value, ""): tale}), tmp_path)
    assert structure_faults(path) == []
    assert [text.count("tale") for kind, text in told(path) if "tale" in text] == [400]


def test_lines_part_words(tmp_path: Path) -> None:
    heard = dict.fromkeys(text for _, text in told(write(record(), tmp_path)))
    assert "Copper beech from the market" in heard
    assert any(
        "others of the same part number may differ by more than the bars" in t for t in heard
    )
