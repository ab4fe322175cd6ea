"""The code of the data's address, read back as a phone would."""

from __future__ import annotations

from pathlib import Path

import cv2
import numpy as np
import pytest

from benchlog.sheet.address_code import LEAST_MODULE, LONGEST, code_size
from benchlog.sheet.large_print import write_large_print
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from tests.sheet.reading_back import words, write
from tests.sheet.rendered import page_in_grey
from tests.sheet.sample_record import record

SHORT = "https://example.org/d"
LONG = f"https://example.org/teardowns/2026/{'three-for-one-mount-' * 6}?lot=7K2&all=yes"
PHONE = 200
"""Dots an inch: less than a phone's camera resolves at reading distance."""


def read_back(path: Path) -> str:
    grey = page_in_grey(path, 0, PHONE)
    text, *_ = cv2.QRCodeDetector().detectAndDecode(np.dstack([grey] * 3))
    return text


@pytest.mark.parametrize("address", [SHORT, LONG], ids=["short", "long"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_front_page_leads_to_the_data(tmp_path: Path, address: str, paper: str) -> None:
    sheet = write(record(3), tmp_path, paper, wishes=SheetWishes(address=address))
    assert read_back(sheet) == address


def test_large_print_leads_to_the_data(tmp_path: Path) -> None:
    path = tmp_path / "large.pdf"
    write_large_print(record(2), path, "A4", LONG)
    assert read_back(path) == LONG


def test_address_is_printed_too(tmp_path: Path) -> None:
    assert f"The data: {SHORT}" in words(
        write(record(3), tmp_path, wishes=SheetWishes(address=SHORT))
    )


@pytest.mark.parametrize("made", [record(1), record(6)], ids=["one", "six"])
def test_no_address_no_code(tmp_path: Path, made: Record) -> None:
    sheet = write(made, tmp_path)
    assert read_back(sheet) == ""
    assert "The data:" not in words(sheet)


def test_squares_stay_large_enough() -> None:
    assert code_size(SHORT, 66.0) == 66.0
    # Version 9 at least for 180 signs (ISO/IEC 18004, table 7): 53 squares and the empty edge.
    assert code_size("x" * 180, 66.0) >= LEAST_MODULE * (53 + 8)


def test_address_too_long_for_a_code(tmp_path: Path) -> None:
    endless = "https://example.org/" + "x" * LONGEST
    assert code_size(endless, 66.0) == 0.0
    sheet = write(record(2), tmp_path, wishes=SheetWishes(address=endless))
    assert read_back(sheet) == ""
    assert "The data: https://example.org/xxx" in words(sheet)
