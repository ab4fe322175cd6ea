from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.text import ELLIPSIS, NO_GLYPH, clean, lines_in, markup, shortened, width_of
from benchlog.sheet.typography import BOLD, FACE, use_fonts


@pytest.fixture(autouse=True)
def fonts() -> None:
    use_fonts()


def test_signs_of_the_field_print() -> None:
    signs = "μm µ cm² in² ± ≤ ≥ × − ° ~ Ø é ß ł"
    assert clean(signs) == signs


def test_missing_glyph_shows_as_box() -> None:
    assert clean("filter \u4e2d") == f"filter {NO_GLYPH}"
    assert clean("\ud800") == NO_GLYPH


def test_controls_and_joiners_vanish() -> None:
    assert clean("a\x00b\tc\u202ed\u200e") == "a b cd"


def test_markup_is_taken_literally() -> None:
    assert markup("<b>5 & 6</b>\nnext") == "&lt;b&gt;5 &amp; 6&lt;/b&gt;<br/>next"


@given(st.text(max_size=300), st.floats(30, 400), st.integers(1, 4), st.sampled_from([FACE, BOLD]))
def test_lines_never_outgrow_their_width(text: str, width: float, most: int, font: str) -> None:
    lines = lines_in(text, font, 9.5, width, most)
    assert len(lines) <= most
    assert all(width_of(line, font, 9.5) <= width + 1e-6 for line in lines)


@given(st.text(st.sampled_from("abc déf"), max_size=80))
def test_folding_loses_nothing_that_fits(text: str) -> None:
    lines = lines_in(text, FACE, 9.5, 120, 50)
    assert "".join(lines).replace(" ", "") == "".join(clean(text).split())


def test_what_is_left_off_shows() -> None:
    assert lines_in("one two three four five six seven eight", FACE, 9.5, 60, 2)[-1].endswith(
        ELLIPSIS
    )
    assert lines_in("short", FACE, 9.5, 60, 2) == ["short"]
    assert lines_in("  ", FACE, 9.5, 60, 2) == []


@given(st.text(max_size=60), st.integers(2, 60))
def test_shortened_keeps_its_limit(text: str, most: int) -> None:
    short = shortened(text, most)
    assert len(short) <= most
    assert short == text or short.endswith(ELLIPSIS)
