"""Text on cards: right to left, joined letters, what has no glyph, and lines that fit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.cards.block import NoRoom, Para, settle
from benchlog.sheet.cards.folding import ELLIPSIS, clipped, fold, printable
from benchlog.sheet.cards.joined import joined
from benchlog.sheet.cards.letters import (
    BOLD,
    NO_GLYPH,
    REGULAR,
    letter,
    outlines,
    prints_as,
    rise,
    text_width,
)
from benchlog.sheet.cards.paths import bounds
from benchlog.sheet.cards.right_to_left import drawn_order, isolated

ALPHABET = "אבגדה"


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        # UAX #9, section 3.4, "Reordering Resolved Levels", its examples in Hebrew letters.
        ("car means אבג.", "car means גבא."),
        ("no rule speaks of them", "no rule speaks of them"),
        # Numbers keep their own direction (W2, I1): "12" stays readable inside the words.
        ("אב 12 גד", "דג 12 בא"),
        # L4: brackets turn with their words.
        ("אב (גד)", "(דג) בא"),
        # W4, W5: a separator and a sign inside and beside a number go with it.
        ("אב 1,5% גד", "דג 1,5% בא"),
    ],
)
def test_drawn_order_follows_the_published_rules(text: str, drawn: str) -> None:
    assert drawn_order(text, sentence=False) == drawn


def test_base_direction_is_the_sentences_or_the_first_letters() -> None:
    assert drawn_order("אב abc", sentence=False) == "abc בא"
    assert drawn_order("אב abc", sentence=True) == "בא abc"


def test_isolated_name_lends_no_direction() -> None:
    bare = "Ahead of אב 0.7 points"
    apart = f"Ahead of {isolated('אב')} 0.7 points"
    assert drawn_order(bare) == "Ahead of 0.7 בא points"
    assert drawn_order(apart) == "Ahead of בא 0.7 points"


def test_marks_stay_behind_their_letter() -> None:
    assert drawn_order("ש\u05b8ל", sentence=False) == "לש\u05b8"


@given(st.text(st.sampled_from("abc אבג 12.5%()ابج\u0301"), max_size=20))
def test_order_loses_no_character(text: str) -> None:
    mirrored = str.maketrans("()", "((")
    drawn = drawn_order(text, sentence=False)
    assert sorted(drawn.translate(mirrored)) == sorted(text.translate(mirrored))


@given(st.text(st.characters(max_codepoint=0x24F, exclude_categories=["Cs", "Cc"]), max_size=30))
def test_left_to_right_text_stays_as_it_is(text: str) -> None:
    assert drawn_order(text) == text


def test_arabic_letters_take_their_forms() -> None:
    # The Unicode Standard, table "Arabic Presentation Forms-B": seen initial, lam-alef final,
    # meem isolated, since alef joins nothing after it.
    assert joined("سلام") == "\ufeb3\ufefc\ufee1"
    assert joined("ببب") == "\ufe91\ufe92\ufe90"
    assert joined("ب") == "\ufe8f"
    assert joined("دب") == "\ufea9\ufe8f"


def test_other_text_is_not_joined() -> None:
    assert joined("Amber אב") == "Amber אב"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("👨\u200d👩\u200d👧 Ash", f"{NO_GLYPH} Ash"),
        ("a\x00b\u202ec\n d", "a bc d"),
        ("漢字", NO_GLYPH),
        ("e\u0301\u0302", "\u00e9\u0302"),
        ("  Moss  ", "Moss"),
        ("\ud800", NO_GLYPH),
        ("👍\U0001f3fd", NO_GLYPH),
    ],
)
def test_what_has_no_glyph_leaves_a_box(text: str, shown: str) -> None:
    assert printable(text) == shown


@given(st.text(max_size=40))
def test_printable_text_can_be_drawn(text: str) -> None:
    shown = printable(text)
    assert printable(shown) == shown
    for character in shown:
        assert prints_as(character) == character or character in "\u2066\u2067\u2068\u2069"


def test_every_drawn_letter_keeps_to_its_line() -> None:
    for code in range(0x20, 0x2FF):
        shown = prints_as(chr(code))
        for face in (REGULAR, BOLD):
            found = letter(face, shown) if len(shown) == 1 else None
            area = bounds(found.outline) if found else None
            assert area is None or (area.top >= -rise(shown, face) and area.bottom <= 0.25)


def test_mark_sits_over_its_letter() -> None:
    plain, marked = (bounds(outlines(t, REGULAR, 100, 0, 0)) for t in ("x", "x\u0302"))
    assert plain is not None
    assert marked is not None
    assert marked.top < plain.top - 5
    assert text_width("x\u0302", REGULAR, 100) == text_width("x", REGULAR, 100)


@given(
    st.text(st.sampled_from("aWi .é±אب\u00a0"), max_size=80).map(printable),
    st.floats(150, 900),
)
def test_folded_lines_fit_and_lose_nothing(text: str, width: float) -> None:
    folded = fold(text, REGULAR, 62, width)
    assert all(text_width(line, REGULAR, 62) <= width + 1e-6 for line in folded.lines)
    assert "".join(folded.lines).replace(" ", "") == text.replace(" ", "")
    assert not folded.shortened


@given(st.text("ab c", min_size=1, max_size=200).map(printable), st.integers(1, 3))
def test_too_many_lines_end_in_an_ellipsis(text: str, most: int) -> None:
    whole, cut = fold(text, BOLD, 62, 300), fold(text, BOLD, 62, 300, most)
    assert cut.shortened == (len(whole.lines) > most)
    assert len(cut.lines) <= most
    assert cut.shortened == bool(cut.lines and cut.lines[-1].endswith(ELLIPSIS))
    assert all(text_width(line, BOLD, 62) <= 300 for line in cut.lines)


def test_short_line_is_not_clipped() -> None:
    assert clipped("Moss", BOLD, 62, 400) == "Moss"
    assert clipped("Moss and Amber", BOLD, 62, 200).endswith(ELLIPSIS)


def test_type_shrinks_before_text_is_shortened() -> None:
    para = Para("A sentence of some length for a narrow plate.", 100, 62, may_shorten=True)
    ready = settle([para], 700, 260)
    assert not ready.shortened
    assert ready.height <= 260
    cut = settle([para], 700, 90)
    assert cut.shortened == (para.text,)


def test_what_may_not_be_shortened_is_refused() -> None:
    para = Para("A sentence of some length for a narrow plate.", 100, 62)
    with pytest.raises(NoRoom):
        settle([para], 700, 90)
    with pytest.raises(NoRoom):
        settle([Para("123.4 ± 0.5", 100, 100, most=1, strict=True)], 300, 900)


def test_empty_paragraphs_take_no_room() -> None:
    assert settle([Para(""), Para("  ")], 500, 10).height == 0
