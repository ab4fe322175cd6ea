"""What a side-by-side card says beneath its values, and how a line-up is spread over cards."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.measure.state import State
from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.card import Card, Mark, Plate, Words
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.fold import Fold
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import PLAYERS_CORNER, Margin
from benchlog.sheet.cards.strip import Strip
from benchlog.sheet.cards.strip_card import strip_cards
from benchlog.sheet.cards.told import COVERAGE, Deck
from benchlog.tasks.record import Record
from tests.sheet.cards.card_scenes import in_doubt, texts
from tests.sheet.sample_record import MASS, measured, record, state


def strip(shown: Record, subject: str, units: str = METRIC, **more: object) -> Strip:
    return Strip(Deck(shown, Frame(), units), subject, shown.lineup.specimens, units, **more)  # type: ignore[arg-type]


def cards_of(shown: Record, subject: str, units: str = METRIC, **more: object) -> tuple[Card, ...]:
    return strip_cards(Deck(shown, Frame(**more), units), subject)  # type: ignore[arg-type]


def order_of_tags(card: Card) -> list[str]:
    means = (item.means for item in card.items if isinstance(item, Mark))
    return list(dict.fromkeys(means))


@pytest.mark.parametrize(
    ("subject", "line"),
    [
        ("mass", "n = 3, 1, 1 readings · 1 filter of each part cut · ± at 95 %"),
        ("pleats", "n = 1 reading each · 1 filter of each part cut"),
        ("exposed_area", "n = 1 reading behind it each · 1 filter of each part cut · ± at 95 %"),
        ("spring_kind", "1 filter of each part cut"),
    ],
)
def test_count_line_tells_readings_filters_and_doubt(subject: str, line: str) -> None:
    assert strip(record(3), subject).count_line.replace("\u00a0", " ") == line


def test_same_part_cut_twice_is_counted() -> None:
    # The sixth is another filter of the first one's part number.
    assert "1 to 2 filters of each part cut" in strip(record(6), "mass").count_line
    assert "1 filter of each part cut" in strip(record(5), "mass").count_line


def test_coverage_is_said_where_a_doubt_is_shown() -> None:
    shown = record(2)
    for subject in ("mass", "pleats", "gasket_hardness"):
        told = strip(shown, subject)
        has = any("±" in line for value in told.values for line in value.lines)
        assert (COVERAGE in told.count_line) == has


def test_only_the_last_of_several_counts() -> None:
    first, last = (strip(record(2), "mass", fold=Fold(n, 2)) for n in (1, 2))
    assert first.count_line == ""
    assert last.count_line == strip(record(2), "mass").count_line
    assert (first.heading, last.heading) == (
        "Whole weight as received (1 of 2)", "Whole weight as received (2 of 2)",
    )  # fmt: skip


def test_part_of_a_line_up_says_so() -> None:
    assert strip(record(2), "mass", part="1 of 2").heading == "Whole weight as received (1 of 2)"


def test_doubt_names_whose_it_is() -> None:
    told = strip(in_doubt(record(2)), "can_wall")
    assert "Alder's reading is in doubt" in told.unlike
    assert not any("In doubt" in words for words in told.cautions), "once is enough"


def test_lone_doubt_is_a_caution_of_its_own() -> None:
    shown = record(2)
    findings = {**shown.findings, ("can_wall", "s2"): replace(
        shown.findings["can_wall", "s2"], state=State.COULD_NOT_TELL, quantity=None)}  # fmt: skip
    told = strip(in_doubt(replace(shown, findings=findings)), "can_wall")
    assert told.unlike == ""
    assert told.cautions[-1] == "In doubt: a check of the instrument failed (Alder)."


def test_sentence_beside_a_figure_is_a_caution() -> None:
    shown = record(2)
    kind = replace(shown.figures["exposed_area", "s1"].kind, beside="Estimated, not measured.")
    figures = {key: replace(f, kind=kind) for key, f in shown.figures.items()}
    told = strip(replace(shown, figures=figures), "exposed_area")
    assert told.cautions == ("Estimated, not measured.",)
    assert "Estimated, not measured." in told.spoken


def test_values_under_unlike_feet_say_so() -> None:
    told = strip(record(3), "thickness")
    assert told.unlike.startswith("Not to be compared: ")
    assert "foot 2, 2, 50\u00a0kPa in this order" in told.count_line


def test_spoken_has_every_name_and_value() -> None:
    spoken = strip(record(3), "mass").spoken
    for words in ("Alder (circle): 287.40", "Birch (square): 301.20", "(triangle): 244.90"):
        assert words in spoken
    assert spoken.endswith(".")


@pytest.mark.parametrize("count", range(2, 7))
def test_specimens_keep_the_order_of_the_bench(count: int) -> None:
    shown = record(count)
    shapes = [f"tag: {s.shape.value}" for s in shown.lineup.specimens]
    for subject in ("mass", "pleats", "turns", "spring_kind"):
        (card,) = cards_of(shown, subject)
        assert order_of_tags(card) == shapes


@pytest.mark.parametrize("count", [2, 3])
def test_short_values_stand_in_columns(count: int) -> None:
    (card,) = cards_of(record(count), "pleats")
    digits = [w for w in card.items if isinstance(w, Words) and w.said in {"60", "55", "45"}]
    assert len(digits) == count
    assert len({w.baseline for w in digits}) == 1
    assert sorted(w.x for w in digits) == [w.x for w in digits]


def test_four_stand_in_rows_with_digits_aligned() -> None:
    (card,) = cards_of(record(4), "pleats")
    digits = [w for w in card.items if isinstance(w, Words) and w.said in {"60", "55", "45", "49"}]
    assert len({w.baseline for w in digits}) == 4
    assert len({round(w.x + w.width, 3) for w in digits}) == 1


def test_value_and_name_of_a_row_stand_on_one_line() -> None:
    (card,) = cards_of(record(4), "mass")
    words = [item for item in card.items if isinstance(item, Words)]
    name = next(w for w in words if w.said == "Damson")
    value = next(w for w in words if w.said.startswith("281.0"))
    assert name.baseline == pytest.approx(value.baseline)
    assert value.face == BOLD


def test_lone_specimen_has_nothing_beside_it() -> None:
    assert cards_of(record(1), "mass") == ()


def test_both_units_stand_on_one_card_where_there_is_room() -> None:
    (card,) = cards_of(record(2), "can_wall", BOTH)
    said = texts(card)
    assert "0.510 ± 0.012 mm" in said
    assert "in" in said.split()
    assert faults(card) == []


def test_six_in_both_units_take_a_card_for_each() -> None:
    cards = cards_of(record(6), "can_wall", BOTH)
    assert [card.name for card in cards] == [
        f"side_by_side_can_wall_{unit}" for unit in (METRIC, INCH)
    ]
    assert {card.title.rpartition(", ")[2] for card in cards} == {METRIC, INCH}
    assert cards[0].readings == cards[1].readings


def test_readings_are_those_of_the_values_shown() -> None:
    shown = record(3)
    (card,) = cards_of(shown, "mass")
    expected = [r.id for s in shown.lineup.specimens for r in shown.findings["mass", s.id].readings]
    assert list(card.readings) == expected
    assert len(expected) == 5


@pytest.mark.parametrize("which", [one for one in State if not one.has_value])
def test_state_is_told_in_its_words(which: State) -> None:
    shown = record(2)
    findings = {**shown.findings, ("mass", "s2"): state("s2", MASS, which)}
    told = strip(replace(shown, findings=findings), "mass")
    assert not told.values[1].is_number
    words = told.values[1].lines[0]
    # What nobody answered is no state that somebody chose.
    assert words == ("no answer yet" if which is State.NOT_MEASURED else which.value)
    (card,) = cards_of(replace(shown, findings=findings), "mass")
    assert words in texts(card)


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.floats(0.001, 99999), min_size=2, max_size=6),
    st.floats(0.0001, 300),
    st.sampled_from(Margin),
)
def test_any_numbers_find_room_and_stay_whole(
    numbers: list[float], doubt: float, margin: Margin
) -> None:
    shown = record(len(numbers))
    found = {("mass", s.id): measured(s.id, MASS, n, doubt)
             for s, n in zip(shown.lineup.specimens, numbers, strict=True)}  # fmt: skip
    shown = replace(shown, findings={**shown.findings, **found})
    cards = cards_of(shown, "mass", margin=margin)
    said = " ".join(texts(card) for card in cards)
    for value in strip(shown, "mass").values:
        assert all(line.replace("\u00a0", " ") in said for line in value.lines)
    assert [fault for card in cards for fault in faults(card)] == []
    plates = [i.area for card in cards for i in card.items if isinstance(i, Plate)]
    assert not any(area.meets(PLAYERS_CORNER) for area in plates)
