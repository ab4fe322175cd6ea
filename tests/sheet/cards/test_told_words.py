"""What cards say of a record: values, counts, names in sentences, and what is in doubt."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlog.sheet.cards.folding import ELLIPSIS
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.right_to_left import END, ISOLATE
from benchlog.sheet.cards.told import (
    LONGEST_NAME,
    NO_NAME,
    Deck,
    Seen,
    cut_words,
    first_sentence,
    foot_words,
    label,
    name_of,
    seen,
    short_name,
    unbroken,
    unlike_words,
    with_short_names,
)
from benchlog.tasks.value_text import value_text
from tests.sheet.cards.card_scenes import in_doubt
from tests.sheet.sample_record import SPECIMENS, record

DECK = Deck(record(3), Frame())
NAMES = st.text(st.sampled_from("abc .W"), max_size=60)


def test_number_has_its_lines_count_and_readings() -> None:
    found = seen(DECK, "mass", "s1")
    assert found.lines == ("287.40 ± 0.12 g",)
    assert (found.is_number, found.known, found.count, found.derived) == (True, True, 3, False)
    assert found.readings == ("s1-mass-1", "s1-mass-2", "s1-mass-3")
    assert found.counted_words == "n = 3 readings"


def test_worked_out_figure_says_so() -> None:
    found = seen(DECK, "exposed_area", "s1")
    assert found.derived
    assert found.counted_words == "worked out from 1 reading"


def test_word_is_known_and_no_number() -> None:
    found = seen(DECK, "spring_kind", "s1")
    assert (found.lines, found.is_number, found.known) == (("coil",), False, True)
    assert found.counted_words == ""


def test_choice_is_told_by_its_label() -> None:
    assert seen(DECK, "gasket_section", "s2").lines == ("square cut",)


def test_state_is_not_known() -> None:
    found = seen(DECK, "adbv_material", "s2")
    assert (found.lines, found.known) == (("could not tell",), False)


def test_refused_figure_is_told_short() -> None:
    found = seen(DECK, "exposed_area", "s3")
    assert (found.is_number, found.known) == (False, False)
    assert len(found.lines[0]) < len("The hidden width could not be told.")


def test_subject_that_nobody_asked_has_no_answer() -> None:
    assert seen(DECK, "nothing_of_the_kind", "s1").lines == ("no answer yet",)


def test_both_units_are_two_lines_of_one_value() -> None:
    found = seen(DECK, "can_wall", "s1", "both")
    assert len(found.lines) == 2
    assert found.lines[0].endswith("mm")
    assert found.lines[1].endswith("in")
    assert " · ".join(found.lines) == value_text(DECK.record, "can_wall", "s1", "both")


def test_units_of_a_card_come_before_the_decks() -> None:
    inch = Deck(DECK.record, Frame(), "inch")
    assert seen(inch, "can_wall", "s1").lines[0].endswith("in")
    assert seen(inch, "can_wall", "s1", "metric").lines[0].endswith("mm")


def test_foot_comes_with_thickness_alone() -> None:
    assert seen(DECK, "thickness", "s3").foot_kpa == 50.0
    assert seen(DECK, "mass", "s1").foot_kpa is None


def test_doubt_follows_the_readings() -> None:
    deck = Deck(in_doubt(record(3)), Frame())
    assert seen(deck, "can_wall", "s1").doubted
    assert not seen(deck, "can_wall", "s2").doubted
    assert not seen(deck, "mass", "s1").doubted


@pytest.mark.parametrize(
    ("count", "derived", "words"),
    [(0, False, ""), (1, False, "n = 1 reading"), (2, False, "n = 2 readings"),
     (1, True, "worked out from 1 reading"), (7, True, "worked out from 7 readings")],
)  # fmt: skip
def test_count_is_told_in_words(count: int, derived: bool, words: str) -> None:
    found = Seen(("1",), is_number=True, known=True, count=count, derived=derived)
    assert found.counted_words == words


@pytest.mark.parametrize(
    ("pressures", "words"),
    [([], ""), ([None], ""), ([2.0], "foot 2 kPa"), ([2.0, 2.0], "foot 2 kPa"),
     ([0.5, 50.0], "foot 0.5, 50 kPa in this order"),
     ([None, 2.0], "foot none, 2 kPa in this order")],
)  # fmt: skip
def test_feet_are_said_once_or_in_order(pressures: list[float | None], words: str) -> None:
    assert foot_words(pressures).replace("\u00a0", " ") == words


def test_filters_of_a_part_are_counted() -> None:
    six, two = record(6), record(2)
    first, second, *_, last = six.lineup.specimens
    assert cut_words(six, (first,)) == cut_words(six, (last,)) == "2 filters cut"
    assert cut_words(six, (second,)) == "1 filter cut"
    assert cut_words(two, two.lineup.specimens) == "1 filter of each part cut"


def test_unknown_parts_are_not_taken_for_one() -> None:
    shown = record(2)
    bare = tuple(replace(s, maker=" ", part_number="") for s in shown.lineup.specimens)
    shown = replace(shown, lineup=replace(shown.lineup, specimens=bare))
    assert cut_words(shown, bare) == "1 filter of each part cut"


@pytest.mark.parametrize(("typed", "shown"), [("  Old\n Moss ", "Old Moss"), (" \t", NO_NAME)])
def test_name_stands_on_one_line(typed: str, shown: str) -> None:
    assert name_of(replace(SPECIMENS[0], nickname=typed)) == shown


@given(NAMES)
def test_short_name_is_short_and_true(typed: str) -> None:
    one = replace(SPECIMENS[0], nickname=typed)
    found = short_name(one)
    assert len(found) <= LONGEST_NAME
    assert name_of(one).startswith(found.removesuffix(ELLIPSIS))
    assert (found == name_of(one)) == (len(name_of(one)) <= LONGEST_NAME)


def test_label_is_the_attributes_or_the_figures() -> None:
    assert label(DECK, "mass") == "Whole weight as received"
    assert label(DECK, "exposed_area") == "Exposed media area"
    assert label(DECK, "odd_one") == "odd one"


def test_value_breaks_at_its_unit_alone() -> None:
    assert unbroken("12.5 ± 0.3 mm").split(" ") == ["12.5\u00a0±\u00a00.3", "mm"]


def test_comparable_values_have_no_caution() -> None:
    assert unlike_words(DECK, "mass") == ""
    assert unlike_words(DECK, "thickness").startswith("Not to be compared: ")
    assert unlike_words(DECK, "thickness").endswith(".")
    assert unlike_words(Deck(record(1), Frame()), "thickness") == ""


def test_long_names_in_sentences_are_cut() -> None:
    told = with_short_names("Copper beech from the market is ahead.", SPECIMENS)
    assert told == f"Copper beech from the{ELLIPSIS} is ahead."


def test_name_within_a_word_is_no_name() -> None:
    shown = (replace(SPECIMENS[0], nickname="Al"),)
    assert with_short_names("Aluminium and Al.", shown) == "Aluminium and Al."
    long = (replace(SPECIMENS[0], nickname="A" * 40),)
    assert "A" * 41 in with_short_names("A" * 41, long)


def test_name_within_another_is_not_taken_for_it() -> None:
    pair = tuple(replace(s, nickname=n) for s, n in zip(SPECIMENS, ("Moss", "Old Moss"),
                                                        strict=False))  # fmt: skip
    assert with_short_names("Old Moss beside Moss", pair) == "Old Moss beside Moss"


def test_right_to_left_names_are_set_apart() -> None:
    shown = (replace(SPECIMENS[0], nickname="אלון"),)
    assert with_short_names("x אלון y", shown) == f"x {ISOLATE}אלון{END} y"


@given(st.lists(NAMES, min_size=1, max_size=6))
def test_first_sentence_begins_the_reason(names: list[str]) -> None:
    shown = tuple(replace(s, nickname=n) for s, n in zip(SPECIMENS, names, strict=False))
    award = replace(record(1).verdict.awards[0], reason="They tie here. More follows.")
    assume(not any(name.strip() in award.reason for name in names if name.strip()))
    assert first_sentence(award, shown) == "They tie here."
