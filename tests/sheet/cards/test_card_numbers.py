"""Numbers on cards are the record's own, to the digit, and each card knows its readings."""

from __future__ import annotations

import re

import pytest

from benchlog.settings import UNITS_SHOWN
from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.look import Margin
from benchlog.sheet.cards.number_card import number_cards
from benchlog.sheet.cards.strip_card import strip_cards
from benchlog.sheet.cards.told import Deck, seen, unbroken
from benchlog.tasks.value_text import value_text
from tests.sheet.cards.card_scenes import in_doubt, named, sample_cards, texts
from tests.sheet.sample_record import record
from tests.tasks.sample_records import sample_record

NUMBER_CARD = re.compile(r"number_(?P<subject>\w+)_(?P<shape>[a-z]+)")
STRIP = re.compile(r"side_by_side_(?P<subject>\w+?)(?:_(?P<units>metric|inch))?")


def subjects() -> list[str]:
    shown = sample_record()
    return sorted({key for key, _ in (*shown.figures, *shown.findings)})


@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_values_are_the_records_own(units: str) -> None:
    shown = sample_record()
    deck = Deck(shown, Frame(), units)
    compared = 0
    for subject in subjects():
        for specimen in shown.lineup.specimens:
            found = seen(deck, subject, specimen.id)
            if found.is_number:
                text = value_text(shown, subject, specimen.id, units)
                assert " · ".join(found.lines) == text
                compared += 1
    assert compared > 100


@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_number_cards_print_the_figure(units: str) -> None:
    shown = sample_record()
    by_shape = {s.shape.value: s.id for s in shown.lineup.specimens}
    cards = [c for c in sample_cards(units).cards if c.name.startswith("number_")]
    assert len(cards) > 20
    for card in cards:
        match = NUMBER_CARD.fullmatch(card.name)
        assert match is not None
        text = value_text(shown, match["subject"], by_shape[match["shape"]], units)
        for line in text.split(" · "):
            assert line in texts(card)


@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_strips_print_every_figure(units: str) -> None:
    shown = sample_record()
    cards = [c for c in sample_cards(units).cards if c.name.startswith("side_by_side")]
    assert len(cards) > 10
    for card in cards:
        match = STRIP.fullmatch(card.name)
        assert match is not None
        own = match["units"] or units
        for specimen in shown.lineup.specimens:
            found = seen(Deck(shown, Frame(), own), match["subject"], specimen.id)
            assert all(line in texts(card) for line in found.lines)


def test_every_digit_on_a_value_card_is_accounted_for() -> None:
    card = named(sample_cards(), "number_exposed_area_triangle")
    shown = sample_record()
    moss = shown.lineup.specimens[2].id
    value = value_text(shown, "exposed_area", moss)
    left = texts(card).replace(value, "").replace("from 7 readings", "").replace("1 filter", "")
    assert re.findall(r"\d+", left) == ["95"]


def test_cards_know_their_readings() -> None:
    shown = sample_record()
    every = {reading.id for reading in shown.readings}
    moss = shown.lineup.specimens[2].id
    figure = shown.figures["exposed_area", moss]
    cards = sample_cards()
    assert named(cards, "number_exposed_area_triangle").readings == figure.readings
    strip = set(named(cards, "side_by_side_exposed_area").readings)
    assert strip >= set(figure.readings)
    silent = ("lower_third", "disclosure", "title_picture")
    for card in cards.cards:
        assert set(card.readings) <= every
        if not card.name.startswith("stand_in_caution"):  # a line may be answered by hand
            assert bool(card.readings) != card.name.startswith(silent)


def test_doubt_stands_on_the_card() -> None:
    deck = Deck(in_doubt(record(3)), Frame())
    first, second, _ = deck.record.lineup.specimens
    assert "In doubt" in texts(*number_cards(deck, "can_wall", first))
    assert "In doubt" not in texts(*number_cards(deck, "can_wall", second))
    (strip,) = strip_cards(deck, "can_wall")
    assert "Alder's reading is in doubt" in texts(strip)


def test_foot_and_unlike_feet_are_told() -> None:
    deck = Deck(record(3), Frame())
    (strip,) = strip_cards(deck, "thickness")
    assert "foot 2, 2, 50 kPa in this order" in texts(strip)
    assert "Not to be compared" in texts(strip)
    (alone,) = number_cards(deck, "thickness", deck.record.lineup.specimens[2])
    assert "foot 50 kPa" in texts(alone)
    assert "Not to be compared" not in texts(alone)


@pytest.mark.parametrize("margin", Margin)
def test_sentence_beside_a_figure_comes_along(margin: Margin) -> None:
    shown = sample_record()
    deck = Deck(shown, Frame(margin), "both")
    told, shared = 0, set()
    for (subject, specimen_id), figure in shown.figures.items():
        specimen = next(s for s in shown.lineup.specimens if s.id == specimen_id)
        if not figure.kind.beside or figure.quantity is None:
            continue
        cards = number_cards(deck, subject, specimen)
        assert [fault for card in cards for fault in faults(card)] == []
        for unit in {card.title.partition(", ")[2].partition(", ")[2][:6] for card in cards}:
            own = [card for card in cards if unit in card.title]
            if figure.kind.beside not in texts(own[0]):
                assert len(own) > 1
                shared.add(subject)
                every = " ".join(texts(card) for card in own)
                assert [word for word in figure.kind.beside.split() if word not in every] == []
            told += 1
    assert told > 8
    # Inside 10 % the longest sentences are shared out among cards that all show the number.
    assert ("pressure_drop_estimated" in shared) == (margin is Margin.TEN)


def test_a_state_is_said_and_no_number_made() -> None:
    cards = sample_cards()
    assert "not marked" in texts(named(cards, "side_by_side_bypass_marked"))
    names = {card.name for card in cards.cards}
    assert "number_bypass_marked_square" in names
    assert "number_bypass_marked_circle" not in names


def test_asked_subjects_alone_are_shown() -> None:
    shown = sample_record()
    wanted = ("whole_mass", "outlet_area")
    made = all_cards(shown, CardWishes(subjects=wanted))
    strips = [c.name for c in made.cards if c.name.startswith("side_by_side")]
    assert strips == ["side_by_side_whole_mass", "side_by_side_outlet_area"]


def test_values_break_before_the_unit_alone() -> None:
    assert unbroken("about 540.9 ± 8.1 cm²").split(" ") == ["about", "540.9\u00a0±\u00a08.1", "cm²"]
    assert unbroken("8 to 11 psi").split(" ") == ["8\u00a0to\u00a011", "psi"]
