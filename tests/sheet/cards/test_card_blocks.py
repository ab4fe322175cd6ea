"""Paragraphs and parts set below and beside each other: nothing leaves its width or its height."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.sheet.cards.block import TAG_SHARE, Block, NoRoom, Para, Ready, settle
from benchlog.sheet.cards.card import Mark, Words, ink_of
from benchlog.sheet.cards.folding import ELLIPSIS
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import GAP, INK, LEAST, PITCH, PLAIN_TO_READ, QUIET, Area
from benchlog.sheet.cards.marked import BEHIND, lead, marked, place
from benchlog.sheet.cards.pile import Grid, Pile, name_para, one_size, tagged_names
from tests.sheet.sample_record import SPECIMENS

WORDS = st.lists(st.text("abcgW", min_size=1, max_size=12), min_size=1, max_size=14).map(" ".join)
LONG = "A sentence of some length for a narrow plate."


def words(block: Block) -> list[Words]:
    return [item for item in block.items if isinstance(item, Words)]


def part(text: str, size: float = LEAST, width: float = 600.0) -> Ready:
    return settle([Para(text, size, size)], width, 1000)


@given(WORDS, st.floats(200, 900), st.floats(80, 400))
def test_settled_words_stay_in_width_and_height(text: str, width: float, height: float) -> None:
    try:
        ready = settle([Para(text, 120, LEAST, may_shorten=True)], width, height)
    except NoRoom:
        return
    assert ready.height <= height
    block = ready.at(100, 50)
    room = Area(100, 50, 100 + width, 50 + height)
    # Letters lean out of their advance by a little on either side.
    for item in block.items:
        area = ink_of(item)
        assert area is None or room.holds(area, slack=8)
    assert block.bottom <= 50 + height + 1e-6
    assert block.widest <= width + 1e-6


@given(WORDS)
def test_no_size_falls_below_the_least(text: str) -> None:
    ready = settle([Para(text, 150, 70, may_shorten=True)], 500, 200)
    assert all(70 <= word.size <= 150 for word in words(ready.at(0, 0)))


def test_baselines_are_a_pitch_apart() -> None:
    one, two, *_ = words(settle([Para(LONG, LEAST)], 500, 900).at(0, 0))
    assert one.baseline == LEAST
    assert two.baseline - one.baseline == pytest.approx(PITCH * LEAST)


def test_gap_before_stands_above() -> None:
    plain, gapped = (settle([Para("Moss", before=gap)], 500, 900) for gap in (0.0, 30.0))
    assert gapped.height - plain.height == 30
    assert words(gapped.at(0, 0))[0].baseline - words(plain.at(0, 0))[0].baseline == 30


def test_text_to_the_right_ends_at_the_width() -> None:
    (word,) = words(settle([Para("12.5", right=True)], 500, 900).at(40, 0))
    assert word.x + word.width == pytest.approx(540)


def test_tag_stands_before_the_first_line_alone() -> None:
    para = Para(LONG, LEAST, specimen=SPECIMENS[0])
    block = settle([para], 500, 900).at(0, 0)
    tags = [item for item in block.items if isinstance(item, Mark)]
    assert {mark.means for mark in tags} == {"tag: circle"}
    assert len(tags) == 2
    indents = {word.x for word in words(block)}
    assert indents == {1.4 * TAG_SHARE * LEAST}
    assert all((ink_of(mark) or Area(0, 0, 9e9, 0)).right < min(indents) for mark in tags)


def test_paragraph_without_leave_takes_the_lines_it_needs() -> None:
    ready = settle([Para(LONG, 100, LEAST, most=1)], 500, 900)
    assert ready.shortened == ()
    assert len(words(ready.at(0, 0))) > 1
    cut = settle([Para(LONG, 100, LEAST, most=1, may_shorten=True)], 500, 900)
    assert cut.shortened == (LONG,)
    assert words(cut.at(0, 0))[0].said.endswith(ELLIPSIS)


def test_longest_of_two_is_shortened_first() -> None:
    paras = [Para("word " * n, LEAST, may_shorten=True) for n in (12, 30)]
    ready = settle(paras, 700, 500)
    assert ready.shortened == (paras[1].text,)


def test_strict_word_that_would_break_is_refused() -> None:
    with pytest.raises(NoRoom):
        settle([Para("W" * 30, LEAST, strict=True)], 400, 900)
    assert settle([Para("W" * 30, LEAST)], 400, 900).height > 2 * PITCH * LEAST


def test_colour_and_face_are_the_paragraphs() -> None:
    (one, two) = words(settle([Para("a", face=BOLD), Para("b", colour=QUIET)], 500, 900).at(0, 0))
    assert (one.face, one.colour) == (BOLD, INK)
    assert two.colour == QUIET


def test_grid_fills_row_by_row() -> None:
    grid = Grid(tuple(part(t) for t in ("one", "two", "three")), 2, 650.0)
    one, two, three = words(grid.at(10, 20))
    assert one.baseline == two.baseline
    assert (one.x, two.x, three.x) == (10, 660, 10)
    assert three.baseline - one.baseline == pytest.approx(PITCH * LEAST)
    assert grid.height == pytest.approx(2 * PITCH * LEAST)
    assert grid.at(10, 20).bottom == pytest.approx(20 + grid.height)


def test_row_is_as_high_as_its_highest() -> None:
    grid = Grid((part("one"), part("two", 120), part("three")), 2, 650.0)
    assert grid.height == pytest.approx(PITCH * (120 + LEAST))
    third = words(grid.at(0, 0))[-1]
    assert third.baseline == pytest.approx(PITCH * 120 + LEAST)


def test_pile_stands_below_itself() -> None:
    pile = Pile((part("one"), Grid((part("two"), part("three")), 2, 650.0), part("four")))
    lines = sorted({word.baseline for word in words(pile.at(0, 0))})
    assert len(lines) == 3
    assert pile.at(0, 7).bottom == pytest.approx(7 + pile.height)
    assert pile.at(0, 0).widest == pytest.approx(650 + part("three").at(0, 0).widest)


@settings(max_examples=20)
@given(st.lists(WORDS, min_size=1, max_size=5))
def test_parts_of_a_pile_never_meet(texts: list[str]) -> None:
    pile = Pile(tuple(part(text, width=1400) for text in texts))
    bottoms = 0.0
    for one in pile.parts:
        block = one.at(0, bottoms)
        assert min(w.baseline for w in words(block)) > bottoms
        bottoms = block.bottom
    assert bottoms == pytest.approx(pile.height)


@pytest.mark.parametrize(
    ("count", "size", "columns"),
    [(1, 96, 1), (2, 96, 2), (5, 96, 2), (2, LEAST, 2), (3, LEAST, 3), (6, LEAST, 3)],
)
def test_small_names_stand_in_more_columns(count: int, size: float, columns: int) -> None:
    short = tuple(replace(s, nickname=s.nickname[:3]) for s in SPECIMENS[:count])
    grid = tagged_names(short, 1300, size)
    assert (grid.columns, len(grid.parts)) == (columns, count)
    assert grid.pitch * columns == pytest.approx(1300 + GAP)
    assert grid.at(0, 0).widest <= 1300


def test_names_share_the_largest_size_that_fits_all() -> None:
    short, long = SPECIMENS[:2], SPECIMENS[:3]
    assert one_size(short, 900, PLAIN_TO_READ) == PLAIN_TO_READ
    assert LEAST < one_size(long, 1100, 96) < 96
    assert one_size(long, 300, PLAIN_TO_READ) == LEAST


def test_name_is_bold_behind_its_tag() -> None:
    para = name_para(SPECIMENS[1], 96, least=LEAST)
    assert (para.text, para.face, para.most, para.may_shorten) == ("Birch", BOLD, 1, True)
    assert para.specimen is SPECIMENS[1]
    assert name_para(replace(SPECIMENS[1], nickname=" \n"), 96, least=LEAST).text == "no nickname"


def test_mark_has_room_beside_the_words() -> None:
    found = place(part("winner"), part("why"), Frame().tall, 96)
    winner, why = (item for item in found.items if isinstance(item, Words))
    assert winner.x - found.x == pytest.approx(96 + BEHIND)
    assert lead(96) == 2 * 96 + BEHIND
    assert why.x == found.x - 96
    assert why.baseline - LEAST > found.y + 95


def test_low_head_stands_level_with_its_mark() -> None:
    found = place(part("winner"), part("why"), Frame().tall, 96)
    winner = next(item for item in found.items if isinstance(item, Words))
    top = winner.baseline - LEAST
    assert top + PITCH * LEAST / 2 == pytest.approx(found.y)


def test_words_too_many_for_the_tall_room_try_the_wide() -> None:
    head = [Para("W" * 24, LEAST, strict=True)]
    found = marked(Frame(), head, [Para("why")], 60)
    outer = ink_of(found.items[0])
    assert outer is not None
    assert outer.bottom == round(Frame().wide.bottom)
    with pytest.raises(NoRoom):
        marked(Frame(), [Para("W" * 60, LEAST, strict=True)], [Para("why")], 60)
