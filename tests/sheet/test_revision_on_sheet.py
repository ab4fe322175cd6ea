"""The sheet says which revision it is, or that it is none yet, and what each one corrected."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from pypdf import PdfReader

from tests.sheet.reading_back import pages, plain, words, write
from tests.sheet.sample_record import record

LINES = (
    "Revision 2: digits swapped. Alder · Strip length: 1204 mm → 1240 mm, because digits swapped.",
    "Revision 3: the tape slipped. Alder · Strip length: 1240 mm → 1250 mm.",
)


def test_every_page_says_the_revision(tmp_path: Path) -> None:
    path = write(replace(record(), revision=3, revision_lines=LINES), tmp_path)
    for page in pages(path):
        assert "revision 3" in page
    said = words(path)
    for line in LINES:
        assert plain(line) in said
    assert said.index(LINES[0][:20]) > said.index("Corrections")


def test_draft_says_on_every_page_that_it_is_none(tmp_path: Path) -> None:
    path = write(replace(record(), draft=True), tmp_path)
    for page in pages(path):
        assert "draft, not published" in page
        assert "· revision" not in page
    assert "draft of revision 2, not published" in words(path)
    told = PdfReader(path).metadata
    assert told is not None
    assert str(told.title).endswith("draft, not published")
