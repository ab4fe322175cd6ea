"""Nothing on a card overlaps, leaves its place, or is set too small; and faults would be found."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.settings import BOTH, UNITS_SHOWN
from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.card import Card, Mark, Plate, Words
from benchlog.sheet.cards.faults import contrast, faults
from benchlog.sheet.cards.letters import BOLD, REGULAR, letter
from benchlog.sheet.cards.look import INK, LEAST, PLAIN_TO_READ, PLATE, Area, Margin
from benchlog.sheet.cards.paths import bounds, circle
from benchlog.sheet.cards.title_picture import OneNumber
from tests.sheet.cards.card_scenes import (
    in_doubt,
    named,
    overruled,
    pictured,
    sample_cards,
    stand_in,
    texts,
)
from tests.sheet.sample_record import record


@pytest.mark.parametrize("margin", Margin)
@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_sample_is_without_fault(units: str, margin: Margin) -> None:
    made = sample_cards(units, margin)
    assert len(made.cards) > 60
    assert not made.left_out
    assert {card.name: faults(card) for card in made.cards if faults(card)} == {}


@pytest.mark.parametrize("margin", Margin)
@pytest.mark.parametrize("count", range(1, 7))
def test_one_to_six_specimens_find_room(count: int, margin: Margin) -> None:
    shown, _ = pictured(count)
    wishes = CardWishes(margin, BOTH, number=OneNumber("exposed_area", "s1"))
    made = all_cards(in_doubt(overruled(shown)), wishes, [p.id for p in shown.photos])
    assert not made.left_out
    assert [fault for card in made.cards for fault in faults(card)] == []
    strips = [card for card in made.cards if card.name.startswith("side_by_side")]
    assert bool(strips) == (count > 1)


def test_six_stand_on_one_strip() -> None:
    made = all_cards(record(6))
    strip = named(made, "side_by_side_gasket_hardness")
    shapes = [item.means for item in strip.items if isinstance(item, Mark)]
    assert list(dict.fromkeys(shapes)) == [
        f"tag: {shape}" for shape in ["circle", "square", "triangle", "diamond", "cross", "star"]
    ]


def test_values_of_a_strip_share_one_size() -> None:
    for card in sample_cards().cards:
        if card.name.startswith("side_by_side"):
            sizes = {w.size for w in card.items if isinstance(w, Words) and "±" in w.said
                     and w.face == BOLD}  # fmt: skip
            assert len(sizes) <= 1


def test_capitals_are_as_high_as_promised() -> None:
    # 24 of 576 lines are 45 of 1080; phones are given 60.
    for face in (REGULAR, BOLD):
        capital = letter(face, "H")
        assert capital is not None
        area = bounds(capital.outline)
        assert area is not None
        assert area.height * LEAST >= 45
        assert area.height * PLAIN_TO_READ >= 60


def test_outcomes_numbers_and_payers_have_large_capitals() -> None:
    for card in sample_cards().cards:
        largest = max(w.size for w in card.items if isinstance(w, Words))
        if not card.name.startswith(("side_by_side", "title")):
            assert largest >= PLAIN_TO_READ
    paid = named(sample_cards(), "disclosure")
    assert min(w.size for w in paid.items[2:] if isinstance(w, Words)) >= PLAIN_TO_READ


def test_figures_are_all_equally_wide() -> None:
    for face in (REGULAR, BOLD):
        widths = {one.advance for digit in "0123456789" if (one := letter(face, digit))}
        assert len(widths) == 1


def card_of(*items: Plate | Words | Mark) -> Card:
    return Card("planted", "", tuple(items), "")


GROUND = Plate(Area(96, 54, 1500, 800), PLATE)
TEXT = Words("Amber", "Amber", 200, 300, BOLD, 83, INK)


def test_a_sound_card_has_no_fault() -> None:
    assert faults(card_of(GROUND, TEXT)) == []


@pytest.mark.parametrize(
    ("items", "fault"),
    [
        ((GROUND, TEXT, replace(TEXT, said="other", x=230)), "'Amber' meets 'other'"),
        ((GROUND, TEXT, Mark(circle(260, 280, 40), INK, "tie")), "'Amber' meets 'tie'"),
        ((GROUND, replace(TEXT, x=1400)), "'Amber' stands on no plate"),
        ((GROUND, replace(TEXT, size=50)), "'Amber' is set at 50, less than 62"),
        ((GROUND, replace(TEXT, colour="#aaaaaa")), "'Amber' has a contrast of 2.2"),
        ((Plate(Area(0, 54, 1500, 800), PLATE),), "a plate leaves the safe area"),
        ((Plate(Area(96, 54, 1700, 1000), PLATE),), "a plate stands in the players' corner"),
    ],
)
def test_planted_faults_are_found(items, fault: str) -> None:
    assert faults(card_of(*items)) == [fault]


def test_contrast_is_that_of_the_guideline() -> None:
    # WCAG 2.2, "contrast ratio": 21:1 for black on white; #767676 on white is 4.54:1.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def test_shortened_texts_are_named_and_said_whole() -> None:
    long = "A nickname that goes on and on " * 12
    shown = record(2)
    first, second = shown.lineup.specimens
    lineup = replace(shown.lineup, specimens=(replace(first, nickname=long), second))
    made = all_cards(replace(shown, lineup=lineup))
    third = named(made, "lower_third_circle")
    assert len(third.shortened) == 1
    assert "…" in texts(third)
    assert " ".join(long.split()) in third.spoken
    assert named(made, "lower_third_square").shortened == ()


def test_stand_in_cards_are_without_fault_in_any_frame() -> None:
    one = stand_in()
    for margin in Margin:
        made = all_cards(record(2), CardWishes(margin, stand_ins=(one,)))
        cards = [card for card in made.cards if card.name.startswith("stand_in")]
        assert len(cards) > 3
        assert [fault for card in cards for fault in faults(card)] == []
