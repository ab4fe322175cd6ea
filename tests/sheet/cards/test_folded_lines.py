"""Letters and lines: what a face measures, what it cannot draw, and where lines break."""

from __future__ import annotations

import unicodedata
from itertools import pairwise

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.cards.fold import MOST, Fold, folds, shared_out
from benchlog.sheet.cards.folding import ELLIPSIS, clipped, cut_to, fold, printable
from benchlog.sheet.cards.letters import (
    BOLD,
    DEEPEST,
    NO_GLYPH,
    REGULAR,
    TALLEST,
    USUAL_RISE,
    letter,
    outlines,
    prints_as,
    rise,
    text_width,
)
from benchlog.sheet.cards.look import LEAST
from benchlog.sheet.cards.paths import bounds
from benchlog.sheet.cards.right_to_left import END, ISOLATE, isolated
from benchlog.trade.resource_file import resources_folder

FACES = [REGULAR, BOLD]
PLAIN = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=60)
ODD = st.text(max_size=40)
LINE = "the wall is dented all round"


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("character", "aW0±é\u2212\u05d0\ufe8d")
def test_advance_is_the_files_own(face: str, character: str) -> None:
    font = TTFont(resources_folder() / "fonts" / face)
    name = font.getBestCmap()[ord(character)]
    found = letter(face, character)
    assert found is not None
    assert found.advance == font["hmtx"][name][0] / font["head"].unitsPerEm


@pytest.mark.parametrize("face", FACES)
def test_character_without_glyph_has_no_letter(face: str) -> None:
    assert letter(face, "\U0001f98a") is None
    assert outlines("\U0001f98a", face, 62, 0, 0) == ()
    assert text_width("\U0001f98a", face, 62) == 0


@given(PLAIN, st.sampled_from(FACES), st.floats(10, 200))
def test_width_is_the_sum_of_its_letters(text: str, face: str, size: float) -> None:
    assert text_width(text, face, size) == pytest.approx(
        sum(text_width(character, face, size) for character in text)
    )


@given(PLAIN, st.floats(0, 500), st.floats(0, 500))
def test_outlines_start_at_their_pen(text: str, x: float, baseline: float) -> None:
    area = bounds(outlines(text, REGULAR, LEAST, x, baseline))
    if area is None:
        assert not text.strip()
        return
    assert area.left >= x - 0.1 * LEAST
    assert area.right <= x + text_width(text, REGULAR, LEAST) + 0.1 * LEAST
    assert area.top >= baseline - LEAST * rise(text, REGULAR)
    assert area.bottom <= baseline + LEAST * DEEPEST


@pytest.mark.parametrize("face", FACES)
def test_outline_goes_down_the_page(face: str) -> None:
    high, low = (letter(face, c) for c in "'_")
    assert high is not None
    assert low is not None
    above, below = bounds(high.outline), bounds(low.outline)
    assert above is not None
    assert below is not None
    assert above.bottom < 0 < below.bottom


def test_line_rises_no_less_than_usual() -> None:
    assert rise("aceg", REGULAR) == USUAL_RISE
    assert rise("", REGULAR) == USUAL_RISE
    assert USUAL_RISE <= rise("Ẫ", REGULAR) <= TALLEST


@pytest.mark.parametrize(
    ("character", "drawn"),
    [("\t", " "), ("\u2003", " "), ("\u00a0", "\u00a0"), ("\u200d", ""), ("\ufe0f", ""),
     ("\U0001f3fd", ""), ("\u202e", ""), ("漢", NO_GLYPH), ("ø", "ø"), ("\ud800", NO_GLYPH)],
)  # fmt: skip
def test_character_is_drawn_as_itself_or_not(character: str, drawn: str) -> None:
    assert prints_as(character) == drawn


@given(ODD)
def test_printable_text_is_one_line_of_marks_on_letters(text: str) -> None:
    shown = printable(text)
    assert shown == shown.strip(" ")
    assert "  " not in shown
    assert not any(unicodedata.category(c) in ("Cc", "Zl", "Zp", "Cs") for c in shown)
    for before, mark in zip(" " + shown, shown, strict=False):
        if unicodedata.category(mark) == "Mn":
            assert unicodedata.category(before) not in ("Mn", "Zs", "So")


@given(PLAIN)
def test_plain_text_is_only_closed_up(text: str) -> None:
    assert printable(text) == " ".join(text.split())


@given(PLAIN.map(printable), st.floats(120, 900), st.sampled_from(FACES))
def test_no_word_is_broken_that_fits(text: str, width: float, face: str) -> None:
    folded = fold(text, face, LEAST, width)
    fits = all(text_width(word, face, LEAST) <= width for word in text.split(" "))
    assert folded.broken == (not fits)
    if fits:
        assert " ".join(folded.lines) == text


def test_breaks_are_as_late_as_they_can_be() -> None:
    for width in range(200, 900, 60):
        lines = fold(LINE, REGULAR, LEAST, width).lines
        for line, after in pairwise(lines):
            first = after.partition(" ")[0]
            assert text_width(f"{line} {first}", REGULAR, LEAST) > width


def test_broken_word_goes_on_below() -> None:
    folded = fold("W" * 30, BOLD, LEAST, 400)
    assert folded.broken
    assert "".join(folded.lines) == "W" * 30
    assert len(folded.lines) > 2


@pytest.mark.parametrize("most", [1, 2])
def test_last_line_that_may_stand_ends_in_an_ellipsis(most: int) -> None:
    whole = fold(LINE, REGULAR, LEAST, 300)
    folded = fold(LINE, REGULAR, LEAST, 300, most)
    assert folded.lines[: most - 1] == whole.lines[: most - 1]
    assert len(folded.lines) == most
    assert folded.lines[-1].endswith(ELLIPSIS)
    assert fold(LINE, REGULAR, LEAST, 300, len(whole.lines)) == whole


def test_nothing_folds_to_no_line() -> None:
    assert fold("", REGULAR, LEAST, 300).lines == ()


def test_isolated_name_stays_so_when_cut() -> None:
    name = "אבגדה וזחטי כלמנס"
    folded = fold(f"x {isolated(name)}", REGULAR, LEAST, 220, most=2)
    assert folded.shortened
    assert all(line.count(ISOLATE) == line.count(END) for line in folded.lines)


@given(st.text("ab cdW", min_size=1, max_size=80).map(printable), st.floats(100, 700))
def test_clipped_text_begins_as_it_was(text: str, width: float) -> None:
    shown = clipped(text, REGULAR, LEAST, width)
    assert text_width(shown, REGULAR, LEAST) <= width
    assert text.startswith(shown.removesuffix(ELLIPSIS))
    assert (shown == text) == (text_width(text, REGULAR, LEAST) <= width)


@pytest.mark.parametrize(
    ("kept", "shown"),
    [(28, f"the wall is dented all round{ELLIPSIS}"), (26, f"the wall is dented all{ELLIPSIS}"),
     (17, f"the wall is dente{ELLIPSIS}"), (3, f"the{ELLIPSIS}")],
)  # fmt: skip
def test_cut_ends_after_a_word_where_little_is_lost(kept: int, shown: str) -> None:
    assert cut_to(LINE, kept) == shown


@given(PLAIN, st.integers(0, 60))
def test_cut_keeps_most_of_what_it_may(text: str, kept: int) -> None:
    shown = cut_to(text, kept).removesuffix(ELLIPSIS)
    assert text.startswith(shown)
    assert len(shown) <= kept
    if " " not in text:
        assert shown == text[:kept]


@given(st.lists(st.text("abc", min_size=1, max_size=6), min_size=1, max_size=30),
       st.integers(1, MOST))  # fmt: skip
def test_parts_are_about_equally_long(words: list[str], count: int) -> None:
    parts = shared_out(" ".join(words), count)
    assert len(parts) == count
    kept = [part.replace(ELLIPSIS, "").split() for part in parts]
    assert [word for part in kept for word in part] == words
    longest = max(sum(map(len, part)) for part in kept)
    assert longest <= sum(map(len, words)) / count + 6


@pytest.mark.parametrize("count", range(1, MOST + 1))
def test_each_fold_takes_its_own_part(count: int) -> None:
    text = "One is so. Two is so. Three is so. Four is so."
    told = [fold.of_text(text) for fold in folds(count)]
    assert " ".join(told) == text
    marks = [fold.mark for fold in folds(count)]
    assert marks == ([""] if count == 1 else [str(n) for n in range(1, count + 1)])
    assert Fold(1, count).words == ("" if count == 1 else f"1 of {count}")


@pytest.mark.parametrize("base", ["x", "m", "i"])
def test_mark_stands_over_the_middle_of_its_letter(base: str) -> None:
    alone, marked = (outlines(text, REGULAR, 100, 0, 0) for text in (base, f"{base}\u0302"))
    mark = bounds(marked[len(alone) :])
    assert mark is not None
    middle = text_width(base, REGULAR, 100) / 2
    assert (mark.left + mark.right) / 2 == pytest.approx(middle, abs=0.01)
