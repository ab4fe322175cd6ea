"""Readings that are doubted before they are stored, and doubts that stand in a record."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import AskAgain
from benchlog.judge.rules_file import load_rules
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.state import State
from benchlog.shelf import SqlShelf, open_shelf
from benchlog.tasks.correct import correct
from benchlog.tasks.doubt import standing_doubts
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.look import shown
from benchlog.tasks.walk import Teardown
from benchlog.trade.sequence_file import load_sequence
from tests.made_shelves import fresh_shelf
from tests.small_trade import SCALE, HandClock, small_lineup
from tests.tasks.sample_records import sample_record

SPIN_ON = load_sequence("spin_on")
CALLIPER = Instrument("cal-1", "Calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.03)
Put = Callable[..., object]


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[SqlShelf]:
    with open_shelf(fresh_shelf(tmp_path / "shelf")) as opened:
        keys = tuple(a.key for a in SPIN_ON.attributes)
        opened.save_instrument(SCALE)
        opened.save_instrument(CALLIPER)
        opened.save_lineup(small_lineup(sequence="spin_on", attributes=keys))
        yield opened


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> Teardown:
    """A bench past both of its one-way steps."""
    down = Teardown(shelf, clock, SPIN_ON, "l-1")
    for station in ("cut", "unfold"):
        down.go_to_station(station)
        down.say_yes()
    return down


@pytest.fixture
def put(bench: Teardown) -> Put:
    """Answer one slot after another: attribute=text, of the specimen in hand."""

    def answered(specimen: str = "s-a", *, sure: bool = False, reason: str = "", **texts: str):
        done = None
        for key, text in texts.items():
            bench.go_to(key, specimen)
            done = bench.accept(text, sure=sure, reason=reason)
        return done

    return answered


def asked(put: Put, **texts: str) -> str:
    with pytest.raises(AskAgain) as caught:
        put(**texts)
    return f"{caught.value}"


def test_contradiction_is_asked_about(bench: Teardown, put: Put) -> None:
    put(can_diameter="76.1 mm")
    question = asked(put, element_outside="3 1/8 in")
    assert question == (
        "The element is 3 1/8 in across and the can that held it 76.1 mm. Read both again, and "
        "look at their units. Correct it, or accept once more if it is right."
    )
    assert [r.attribute for r in bench.readings] == ["can_diameter"]


def test_one_more_yes_keeps_it(put: Put, bench: Teardown) -> None:
    put(can_diameter="76.1 mm")
    put(element_outside="80 mm", sure=True)
    assert bench.readings[-1].text == "80 mm"
    assert bench.readings[-1].reason == ""


def test_typed_reason_is_kept_with_the_reading(put: Put, bench: Teardown) -> None:
    put(can_diameter="76.1 mm")
    put(element_outside="80 mm", reason="swollen, seen twice")
    assert bench.readings[-1].reason == "swollen, seen twice"


def test_what_stood_before_is_not_asked_again(put: Put) -> None:
    put(can_diameter="76.1 mm")
    put(element_outside="80.0 mm", sure=True)
    put(element_outside="80.1 mm")
    assert "heavier" not in asked(put, element_height="500 mm")


def test_other_specimens_do_not_matter(put: Put) -> None:
    put("s-a", can_diameter="76.1 mm")
    put("s-b", element_outside="80 mm")
    put("s-b", can_height="90 mm")


def test_either_reading_may_come_first(put: Put) -> None:
    put(spring_free_length="24.0 mm")
    assert "a pressed spring is the shorter one" in asked(put, spring_height="26.0 mm")
    put("s-b", spring_height="26.0 mm")
    with pytest.raises(AskAgain, match="a pressed spring is the shorter one"):
        put("s-b", spring_free_length="24.0 mm")


def test_a_chosen_word_may_contradict(put: Put) -> None:
    put(outlet_bore="17.42 mm")
    assert "narrower than the thread M22x1.5 can have" in asked(put, thread_code="M22x1.5")
    put(thread_code="3/4-16 UNF")


def test_unit_is_guessed_where_it_would_settle_it(put: Put) -> None:
    # 3 N and 3 lbf (13.3 N) are both usual forces; on 113 mm² they are 27 and 118 kPa, and
    # only the second is anywhere near the 200 kPa marked.
    put(bypass_seat="12.0 mm", bypass_marked="200 kPa")
    question = asked(put, bypass_force="3 N")
    assert "3 N on a seat 12.0 mm across is far less than the marked 200 kPa" in question
    assert "Did you mean 3 lbf?" in question


def test_unit_is_guessed_once_only(put: Put) -> None:
    # 0.62 in are 15.7 mm; the range asks, and the contradiction does not ask again.
    put(media_length="1368 mm", media_width="58.5 mm", media_mass="11.8 g")
    question = asked(put, media_thickness="0.62 in")
    assert "lighter than loose wadding" in question
    assert question.count("Did you mean") == 1
    assert "Did you mean 0.62 mm?" in question


def test_range_and_contradiction_are_asked_together(put: Put) -> None:
    put(can_diameter="76.1 mm")
    with pytest.raises(AskAgain) as caught:
        put(element_outside="120 mm")
    assert "outside the usual" in caught.value.what
    assert "The element is 120 mm across" in caught.value.what
    assert not caught.value.reason_wanted


def test_impossible_value_still_wants_its_reason(put: Put, bench: Teardown) -> None:
    put(can_diameter="76.1 mm")
    for sure in (False, True):
        with pytest.raises(AskAgain) as caught:
            put(element_outside="300 mm", sure=sure)
        assert caught.value.reason_wanted
        assert "The element is 300 mm across" in caught.value.what
    put(element_outside="300 mm", reason="an odd one")
    assert bench.readings[-1].reason == "an odd one"


def test_no_value_contradicts_nothing(bench: Teardown, put: Put) -> None:
    put(can_diameter="76.1 mm")
    bench.go_to("element_outside", "s-a")
    assert bench.no_value(State.SPOILED).reading.state is State.SPOILED


def test_scratched_reading_contradicts_no_more(bench: Teardown, put: Put) -> None:
    put(can_diameter="46.1 mm", sure=True)
    bench.scratch_last()
    put(element_outside="66.1 mm")


# --- repeats -----------------------------------------------------------------------------------


def test_repeats_far_apart_are_asked_about(put: Put, bench: Teardown) -> None:
    put(spring_free_length="31.2 mm")
    question = asked(put, spring_free_length="36.2 mm")
    assert "These 2 repeats lie 5 mm apart" in question
    assert "keep it beside the others" in question
    put(spring_free_length="36.2 mm", sure=True)
    assert [r.text for r in bench.readings] == ["31.2 mm", "36.2 mm"]
    # One between the two adds no disagreement of its own.
    put(spring_free_length="33.0 mm")


def test_uneven_part_is_no_disagreement(put: Put) -> None:
    # 4 % apart: more than the calliper explains, less than an uneven part does (common practice).
    put(spring_free_length="31.2 mm")
    put(spring_free_length="32.4 mm")


def test_counts_must_agree(put: Put) -> None:
    put(pleat_count="52")
    assert "The counts are 52 and 53. Count once more" in asked(put, pleat_count="53")
    put(pleat_count="53", sure=True)
    put(pleat_count="53")


def test_estimates_are_not_set_against_one_another(put: Put) -> None:
    put(spring_free_length="~30 mm")
    put(spring_free_length="~38 mm")


def test_known_scatter_is_stricter(shelf: SqlShelf, clock: HandClock, put: Put) -> None:
    """Repeats of an earlier line-up tell how far such readings usually lie apart."""
    close = iter(("31.20", "31.21", "24.00", "24.01", "28.50", "28.51"))
    for specimen in ("s-a", "s-b", "s-c"):
        put(specimen, spring_free_length=next(close))
        put(specimen, spring_free_length=next(close))
    keys = shelf.lineup("l-1").attributes
    later = small_lineup(id="l-2", sequence="spin_on", attributes=keys)
    shelf.save_lineup(replace(later, created_at=clock.now()))
    bench = Teardown(shelf, clock, SPIN_ON, "l-2")
    bench.go_to_station("cut")
    bench.say_yes()
    for text in ("31.2 mm", "32.4 mm"):
        bench.go_to("spring_free_length", "s-a")
        if text == "32.4 mm":
            with pytest.raises(AskAgain, match="95 times in 100"):
                bench.accept(text)
        else:
            bench.accept(text)


# --- corrections and records -------------------------------------------------------------------


def test_correction_is_doubted_too(
    shelf: SqlShelf, clock: HandClock, put: Put, bench: Teardown
) -> None:
    put(can_diameter="76.1 mm", element_outside="66.1 mm")
    old = bench.readings[-1].id
    with pytest.raises(AskAgain, match="80 mm across and the can"):
        correct(shelf, clock, SPIN_ON, "l-1", old, "80 mm", "misread")
    fresh = correct(shelf, clock, SPIN_ON, "l-1", old, "80 mm", "misread", sure=True)
    assert (fresh.text, fresh.reason) == ("80 mm", "misread")


def test_correction_that_settles_a_doubt_is_not_asked(
    shelf: SqlShelf, clock: HandClock, put: Put, bench: Teardown
) -> None:
    put(can_diameter="76.1 mm")
    put(element_outside="80 mm", sure=True)
    correct(shelf, clock, SPIN_ON, "l-1", bench.readings[-1].id, "66.1 mm", "misread")
    assert standing_doubts(record_of(shelf)) == ()


def record_of(shelf: SqlShelf):
    return draw_up(shelf, "l-1", SPIN_ON, load_rules("bench_rules"))


def test_standing_doubts_are_listed_with_reasons(shelf: SqlShelf, put: Put) -> None:
    put(can_diameter="76.1 mm")
    put(element_outside="80 mm", reason="swollen")
    put("s-b", pleat_count="52")
    put("s-b", pleat_count="53", sure=True)
    across, counts = standing_doubts(record_of(shelf))
    assert across.specimen_id == "s-a"
    assert across.attributes == ("element_outside", "can_diameter")
    assert across.reasons == ("swollen",)
    assert across.source == "geometry"
    assert (counts.specimen_id, counts.attributes) == ("s-b", ("pleat_count",))
    assert counts.what.startswith("Pleat count: The counts are 52 and 53.")


def test_sample_line_up_contradicts_nothing() -> None:
    doubts = standing_doubts(sample_record())
    # One gasket is uneven on purpose; it disagrees with itself and with nothing else.
    assert {d.attributes for d in doubts} == {("gasket_proud",)}


def test_question_stays_short_where_much_speaks_against(put: Put) -> None:
    put(whole_mass="312.4 g", media_length="1369 mm", media_width="58.3 mm")
    put(media_thickness="0.62 mm")
    question = asked(put, media_mass="400 g")
    assert "outside anything expected" in question
    assert "heavier than the whole filter of 312.4 g" in question
    assert "Other readings speak against it too." in question
    assert "pressed paper" not in question
    assert len(question) < 300


def test_impossible_value_needs_no_word_on_repeats(put: Put) -> None:
    put(whole_mass="312.4 g")
    question = asked(put, whole_mass="31 g")
    assert "outside anything expected" in question
    assert "repeats" not in question


def test_repeats_without_an_instrument_may_disagree(put: Put, bench: Teardown) -> None:
    # no thickness gauge is on this shelf: 0.92 is 39 % of the mean away, an uneven sheet some %
    put(media_thickness="0.62 mm")
    question = asked(put, media_thickness="0.92 mm")
    assert "These 2 repeats lie 0.3 mm apart; that is more than 10 % of their mean." in question
    put(media_thickness="0.64 mm")
    assert [r.text for r in bench.readings] == ["0.62 mm", "0.64 mm"]


@pytest.mark.parametrize(
    ("key", "typed", "shown_as"),
    [
        ("media_air_flow", "102 cfm/ft2", "102 ft/min"),
        ("media_air_flow", "500 L/m2/s", "500 L/(m²·s)"),
        ("can_height", "3 7/16 in", "3 7/16 in"),
        ("can_height", '3 7/16"', "3 7/16 in"),
        ("can_height", "3 1/4 to 3 1/2 in", "3.25 to 3.5 in"),
        ("whole_mass", "1/2 lb", "1/2 lb"),
        ("tube_open_area", "1 1/2 in2", "1 1/2 in²"),
    ],
)
def test_fraction_is_shown_as_said_and_a_unit_once(
    put: Put, bench: Teardown, key: str, typed: str, shown_as: str
) -> None:
    put(**{key: typed}, sure=True)
    assert shown(bench.readings[-1], SPIN_ON.attribute(key)) == shown_as
