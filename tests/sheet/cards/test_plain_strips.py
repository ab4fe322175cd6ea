"""What six specimens leave room for, and values that can be read on a phone wherever they can."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.sheet.cards.card import Card, PhotoArea, Words
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.folding import ELLIPSIS, clipped, fold
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD, REGULAR, text_width
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, Margin
from benchlog.sheet.cards.strip_card import strip_cards
from benchlog.sheet.cards.title_picture import title_pictures
from benchlog.sheet.cards.told import LONGEST_NAME, Deck, short_name
from benchlog.tasks.record import Record
from tests.sheet.cards.card_scenes import in_doubt, pictured, sample_cards, texts
from tests.sheet.sample_record import record

LONG = "Copper beech from the market"


def values(card: Card) -> list[Words]:
    """The bold digits of a strip, its heading and names aside."""
    return [w for w in card.items if isinstance(w, Words) and w.face == BOLD and "±" in w.said]


def test_six_keep_the_whole_reason_beside_them() -> None:
    deck = Deck(in_doubt(record(6)), Frame())
    (card,) = strip_cards(deck, "can_wall")
    assert "Not to be compared: Alder's reading is in doubt" in texts(card)
    assert not [text for text in card.shortened if text.startswith("Not to be compared")]
    assert faults(card) == []


@pytest.mark.parametrize("subject", ["exposed_area", "can_wall"])
@pytest.mark.parametrize("count", [2, 3])
def test_values_are_plain_to_read_where_rows_allow(count: int, subject: str) -> None:
    (card,) = strip_cards(Deck(record(count), Frame()), subject)
    assert values(card)
    assert min(w.size for w in values(card)) >= PLAIN_TO_READ


def test_wide_numbers_of_the_sample_stand_in_rows() -> None:
    small = {
        card.name
        for card in sample_cards().cards
        if card.name.startswith("side_by_side")
        and any(w.size < PLAIN_TO_READ for w in values(card))
    }
    # Its long reason why areas may not be compared takes the room that larger digits would need.
    assert small <= {"side_by_side_exposed_area"}


@pytest.mark.parametrize("margin", Margin)
def test_no_line_of_notes_begins_or_ends_in_its_separator(margin: Margin) -> None:
    words = [w.said for card in sample_cards("both", margin).cards for w in card.items
             if isinstance(w, Words)]  # fmt: skip
    assert any("·" in said for said in words)
    assert [said for said in words if said.startswith("·") or said.endswith("·")] == []


@pytest.mark.parametrize("text", ["n = 1 reading · 1 filter cut", "a · b · c · d · e"])
def test_separator_goes_where_a_line_ends(text: str) -> None:
    for width in range(150, 700, 10):
        lines = fold(text, REGULAR, LEAST, width).lines
        assert not any(line.endswith(" ·") or line.startswith("·") for line in lines)
        assert all(text_width(line, REGULAR, LEAST) <= width for line in lines)
        assert "".join(lines).replace("·", "").replace(" ", "") == text.replace("·", "").replace(
            " ", ""
        )


def test_long_text_ends_after_a_whole_word() -> None:
    said = "Not to be compared: the kind of media is not known"
    width = text_width("Not to be compared: the kind of media is not kn…", REGULAR, LEAST) + 1
    shown = clipped(said, REGULAR, LEAST, width, always=True)
    assert shown == f"Not to be compared: the kind of media is not{ELLIPSIS}"


def test_short_room_keeps_the_letters_that_fit() -> None:
    # Back to a space would leave less than three quarters: a name tells more by its letters.
    width = text_width("Copper beec", BOLD, LEAST) + text_width(ELLIPSIS, BOLD, LEAST) + 1
    assert clipped(LONG, BOLD, LEAST, width) == f"Copper beec{ELLIPSIS}"


def names_below(card: Card) -> list[Words]:
    photos = [i for i in card.items if isinstance(i, PhotoArea)]
    bottom = max(p.area.bottom for p in photos)
    return [w for w in card.items if isinstance(w, Words) and w.baseline > bottom]


def long_named(count: int) -> tuple[Record, list[str]]:
    shown, _ = pictured(count)
    specimens = tuple(replace(s, nickname=f"{LONG} {s.id}") for s in shown.lineup.specimens)
    lineup = replace(shown.lineup, specimens=specimens)
    return replace(shown, lineup=lineup), [p.id for p in shown.photos]


@pytest.mark.parametrize("margin", Margin)
def test_long_names_take_more_lines_below_photos(margin: Margin) -> None:
    shown, ids = long_named(2)
    (card,) = title_pictures(Deck(shown, Frame(margin)), ids)
    assert card.shortened == ()
    assert f"{LONG} s1" in texts(card)
    assert faults(card) == []
    heights = {i.area.height for i in card.items if isinstance(i, PhotoArea)}
    assert len(heights) == 1


def test_one_long_name_keeps_photos_alike() -> None:
    shown, _ = pictured(3)
    (card,) = title_pictures(Deck(shown, Frame()), [p.id for p in shown.photos])
    tops = {(i.area.top, i.area.bottom) for i in card.items if isinstance(i, PhotoArea)}
    assert len(tops) == 1
    assert card.shortened == ()
    assert len(names_below(card)) == 5


def test_larger_digits_come_before_a_lower_plate() -> None:
    (card,) = strip_cards(Deck(record(6), Frame()), "gasket_hardness")
    assert min(w.size for w in values(card)) > LEAST
    heading = card.items[2]
    assert isinstance(heading, Words)
    assert heading.size >= max(w.size for w in values(card))


def test_long_name_in_a_sentence_ends_whole() -> None:
    third = record(3).lineup.specimens[2]
    assert short_name(third) == f"Copper beech from the{ELLIPSIS}"
    assert short_name(replace(third, nickname="W" * 40)) == "W" * (LONGEST_NAME - 1) + ELLIPSIS
    assert short_name(replace(third, nickname="W" * LONGEST_NAME)) == "W" * LONGEST_NAME
