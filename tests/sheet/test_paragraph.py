"""Paragraphs that keep their lines, and a face that keeps its widths."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import Paragraph

from benchlog.sheet.paragraph import Face, Text
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import FACE, FONT_FILES, STYLES, use_fonts
from benchlog.trade.resource_file import resources_folder
from tests.sheet.reading_back import write
from tests.sheet.sample_record import record

FILE = str(resources_folder() / "fonts" / FONT_FILES[FACE])
LONG = "A can of 88.8 mm and a strip of 1204 mm, seen from the side. " * 9


@settings(max_examples=40)
@given(st.text(max_size=60), st.sampled_from((9.0, 9.5, 21.0)))
def test_widths_as_reportlab_has_them(text: str, size: float) -> None:
    use_fonts()
    face = pdfmetrics.getFont(FACE)
    bare = TTFont.stringWidth(face, text, size)
    assert isinstance(face, Face)
    assert face.stringWidth(text, size) == pytest.approx(bare)
    assert face.stringWidth(text, size) == pytest.approx(bare), "told again from memory"


def test_widths_forgotten_when_many(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Face, "MOST_WORDS", 3)
    face = Face("SheetTryOut", FILE)
    for word in ("one", "two", "three", "four", "five"):
        assert face.stringWidth(word, 10) > 0
    assert len(face._widths) <= 3


def test_same_width_breaks_once(monkeypatch: pytest.MonkeyPatch) -> None:
    use_fonts()
    broken: list[object] = []
    bare = Paragraph.breakLines
    monkeypatch.setattr(
        Text, "breakLines", lambda self, widths: (broken.append(widths), bare(self, widths))[1]
    )
    text = para(LONG)
    sizes = {text.wrap(200, 800), text.wrap(200, 400)}
    assert len(sizes) == 1
    assert len(broken) == 1
    assert text.wrap(300, 800) not in sizes
    assert len(broken) == 2


@pytest.mark.parametrize("width", [90.0, 200.0, 500.0])
def test_size_as_reportlab_has_it(width: float) -> None:
    use_fonts()
    style = STYLES["body"]
    bare = Paragraph(markup(LONG), style)
    text = Text(markup(LONG), style)
    text.wrap(width / 2, 800)
    assert text.wrap(width, 800) == bare.wrap(width, 800)


def test_halves_of_split_hold_all(monkeypatch: pytest.MonkeyPatch) -> None:
    use_fonts()
    text = para(LONG)
    _, whole = text.wrap(200, 800)
    assert text.split(200, 1) == [], "no line fits"
    first, second = text.split(200, whole / 2)
    heights = [half.wrap(200, 800)[1] for half in (first, second)]
    assert sum(heights) == pytest.approx(whole)


def test_read_markup_gives_the_same_sheet(tmp_path: Path) -> None:
    Text._read.clear()
    first = write(record(3), tmp_path).read_bytes()
    assert Text._read
    assert write(record(3), tmp_path).read_bytes() == first


def test_read_markup_is_not_kept_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    use_fonts()
    monkeypatch.setattr(Text, "MOST_READ", 3)
    Text._read.clear()
    for n in range(9):
        assert para(f"word {n}").frags[0].text == f"word {n}"
        assert para(f"word {n}", "label").frags[0].fontName != para(f"word {n}").frags[0].fontName
    assert len(Text._read) <= 3
