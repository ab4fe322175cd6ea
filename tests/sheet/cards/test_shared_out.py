"""Sentences too long for one card are shared out among several, and nothing of them is lost."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.cards.all_cards import CardSet, CardWishes, all_cards
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.fold import ALL, MOST, folds, shared_out
from benchlog.sheet.cards.look import Margin
from tests.sheet.cards.card_scenes import texts
from tests.tasks.sample_records import sample_record

LONG = ("solidity", "porosity", "area_per_price", "pressure_drop_estimated", "gasket_rubber")


def long_cards() -> CardSet:
    return all_cards(sample_record(), CardWishes(Margin.TEN, subjects=LONG))


@given(st.lists(st.text("ab.", min_size=1, max_size=9), max_size=30), st.integers(1, MOST))
def test_nothing_is_lost_or_said_twice(words: list[str], count: int) -> None:
    text = " ".join(words)
    parts = shared_out(text, count)
    assert len(parts) == count
    assert "".join("".join(parts).replace("…", "").split()) == "".join(text.split())


def test_sentences_stay_whole_where_there_are_enough() -> None:
    text = "One thing is so. Another is not so. A third is open."
    assert shared_out(text, 3) == ("One thing is so.", "Another is not so.", "A third is open.")
    assert shared_out(text, 1) == (text,)
    first, second = shared_out("one lone sentence without an end", 2)
    assert first.endswith(" …")
    assert second.startswith("… ")


def test_folds_are_numbered() -> None:
    assert [fold.words for fold in folds(2)] == ["1 of 2", "2 of 2"]
    assert folds(1) == (ALL,)
    assert (ALL.words, ALL.mark) == ("", "")


def test_long_sentences_find_room_within_wide_margins() -> None:
    made = long_cards()
    assert made.left_out == ()
    assert [fault for card in made.cards for fault in faults(card)] == []
    names = [card.name for card in made.cards]
    assert len(names) == len(set(names))


def test_number_stands_on_each_with_its_part_of_the_sentence() -> None:
    record = sample_record()
    amber = record.lineup.specimens[0]
    beside = record.figures["solidity", amber.id].kind.beside
    own = [c for c in long_cards().cards if c.name.startswith("number_solidity_circle")]
    assert len(own) > 1
    value = own[0].spoken.partition(": ")[2].partition(".  ")[0][:30]
    assert all(value in card.spoken for card in own)
    assert all(f"{n} of {len(own)}" in texts(card) for n, card in enumerate(own, start=1))
    told = " ".join(card.spoken for card in own)
    assert all(word in told for word in beside.split())
    assert all(card.readings == own[0].readings for card in own)
