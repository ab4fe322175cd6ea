"""Scripts that run right to left or join their letters, by the published rules."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.cards.folding import fold, printable
from benchlog.sheet.cards.joined import joined
from benchlog.sheet.cards.letters import REGULAR, text_width
from benchlog.sheet.cards.right_to_left import END, ISOLATE, drawn_order, isolated

ARABIC = st.text("ابتثجحدرسعفقكلمنهوي", max_size=12)
HEBREW = st.text("אבגדהוזחטי", min_size=1, max_size=12)


def forms(text: str) -> list[str]:
    """The place of each letter in its word, as its presentation form tells it."""
    return [unicodedata.decomposition(c).split()[0].strip("<>") for c in joined(text)]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        # The Unicode Standard, section 9.2, "Cursive Joining": dual-joining letters join on both
        # sides, right-joining ones (alef, dal, reh, waw) to the letter before alone.
        ("ببب", ["initial", "medial", "final"]),
        ("ب", ["isolated"]),
        ("باب", ["initial", "final", "isolated"]),
        ("دار", ["isolated", "isolated", "isolated"]),
        ("بد", ["initial", "final"]),
        ("وب", ["isolated", "isolated"]),
    ],
)
def test_letters_join_on_their_own_sides(text: str, places: list[str]) -> None:
    assert forms(text) == places


@pytest.mark.parametrize(
    ("text", "ligature"),
    # Unicode code chart FE70: lam with alef is one sign, alone and at a word's end.
    [("لا", "\ufefb"), ("لأ", "\ufef7"), ("لإ", "\ufef9"), ("لآ", "\ufef5")],
)
def test_lam_and_alef_are_one_sign(text: str, ligature: str) -> None:
    assert joined(text) == ligature
    assert joined(f"ب{text}")[-1] == chr(ord(ligature) + 1)


def test_space_parts_words() -> None:
    assert joined("بب بب") == f"{joined('بب')} {joined('بب')}"


def test_marks_do_not_part_letters() -> None:
    plain, pointed = joined("بب"), joined("ب\u064eب")
    assert pointed.replace("\u064e", "") == plain


def test_stretcher_joins_both_neighbours() -> None:
    assert joined("بـ")[0] == "\ufe91"
    assert joined("ـب")[-1] == "\ufe90"


@given(ARABIC)
def test_joining_keeps_every_letter(text: str) -> None:
    assert unicodedata.normalize("NFKC", joined(text)) == text


@given(st.text(st.characters(max_codepoint=0x5FF, exclude_categories=["Cs"]), max_size=20))
def test_other_scripts_are_left_alone(text: str) -> None:
    assert joined(text) == text


@given(HEBREW)
def test_one_word_is_drawn_backwards(word: str) -> None:
    assert drawn_order(word, sentence=False) == word[::-1]
    assert drawn_order(word, sentence=True) == word[::-1]


@given(st.lists(HEBREW, min_size=2, max_size=4))
def test_words_run_from_the_right(words: list[str]) -> None:
    drawn = drawn_order(" ".join(words), sentence=False)
    assert drawn.split(" ") == [word[::-1] for word in reversed(words)]


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        # UAX #9: W2, a number behind an Arabic letter is an Arabic one; W4, its comma goes along.
        ("ا 1,2", "1,2 ا"),
        # W2, W5: a sign goes with a European number and stays apart from an Arabic one.
        ("א 5%", "5% א"),
        ("ا 5%", "5 ا%"),
        # W5: a currency sign beside a European number; W6: alone it is neutral.
        ("א 5€", "5€ א"),
        ("א € ב", "ב € א"),
        # W7: a number behind Latin letters stays with them.
        ("abc 12 אב", "abc 12 בא"),
        # N1: between two words of one direction a sign takes theirs; N2: else the line's.
        ("א-ב", "ב-א"),
        ("abc - אב", "abc - בא"),
        # L1: blanks at a line's end keep the line's direction.
        ("abc אב  ", "abc בא  "),
        # L4: signs that have a mirror are drawn as it.
        ("א < ב", "ב > א"),
        ("«אב»", "«בא»"),
        ("abc (x)", "abc (x)"),
    ],
)
def test_signs_and_numbers_follow_the_rules(text: str, drawn: str) -> None:
    assert drawn_order(text) == drawn


def test_number_in_a_right_to_left_line_reads_forwards() -> None:
    # N1: beside a blank a number counts as right to left, so that blank keeps the line's way.
    assert drawn_order("אב 12.5 mm", sentence=False) == "mm 12.5 בא"
    assert drawn_order("12.5 אב", sentence=False) == "בא 12.5"


def test_two_isolates_keep_their_places() -> None:
    text = f"{isolated('אב')} is ahead of {isolated('גד')}."
    assert drawn_order(text) == "בא is ahead of דג."
    assert drawn_order(f"{isolated('x')} {isolated('y')}") == "x y"


def test_isolates_in_a_right_to_left_line_are_drawn_in_its_order() -> None:
    text = f"א {isolated('one')} ב {isolated('two')}"
    assert drawn_order(text, sentence=False) == "two ב one א"


def test_lone_isolate_signs_vanish() -> None:
    assert drawn_order(f"a{ISOLATE}b") == "ab"
    assert drawn_order(f"a{END}b") == "ab"
    assert drawn_order("") == ""


@given(st.text(st.sampled_from("אבab 1.-()"), max_size=16), st.booleans())
def test_order_keeps_every_sign(text: str, sentence: bool) -> None:
    drawn = drawn_order(text, sentence=sentence)
    assert sorted(drawn.replace(")", "(")) == sorted(text.replace(")", "("))


@given(HEBREW, HEBREW)
def test_folded_name_stays_apart_on_each_line(one: str, two: str) -> None:
    text = f"Ahead of {isolated(f'{one} {two}')} by 0.7 points"
    width = max(text_width(w, REGULAR, 62) for w in ("Ahead of", one, two, "by 0.7 points")) + 1
    lines = fold(printable(text), REGULAR, 62, width).lines
    for line in lines:
        assert line.count(ISOLATE) == line.count(END)
    assert "".join(lines).replace(ISOLATE, "").replace(END, "").replace(" ", "") == (
        f"Aheadof{one}{two}by0.7points"
    )
