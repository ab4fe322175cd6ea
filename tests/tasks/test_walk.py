from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.errors import AskAgain, EntryRefused, PlanRefused, WorldError
from benchlog.measure.reading import Said, Source, standing
from benchlog.measure.state import WITHOUT_VALUE, State
from benchlog.shelf import SqlShelf
from benchlog.tasks.ports import Steadiness, Weight
from benchlog.tasks.slots import Slot
from benchlog.tasks.walk import Teardown
from tests.small_trade import SMALL, TAPE_2, small_lineup

Sit = Callable[..., Teardown]


def weight(text: str) -> Weight:
    said = Said(text, Decimal(text), "gram")
    return Weight(said, Steadiness.STABLE, None, f"  {text} g\r\n".encode())


def at_media(bench: Teardown) -> Teardown:
    bench.go_to_station("cut")
    bench.say_yes()
    assert bench.view().station.key == "media"
    return bench


def test_round_takes_specimens_in_turn(bench: Teardown) -> None:
    for typed in ("287.4", "301.0 g", "10 oz"):
        bench.accept(typed)
    assert [r.specimen_id for r in bench.readings] == ["s-a", "s-b", "s-c"]
    assert bench.slot == Slot("label_kind", "s-a")


def test_switched_round_stays_with_specimen(bench: Teardown) -> None:
    bench.switch_round()
    bench.accept("287.4")
    assert bench.slot == Slot("label_kind", "s-a")
    bench.accept("1")
    assert bench.slot == Slot("whole_mass", "s-b")


def test_what_was_said_is_kept_beside_si(bench: Teardown) -> None:
    reading = bench.accept("10.5 oz").reading
    assert reading.text == "10.5 oz"
    assert reading.said is not None
    assert (reading.said.value, reading.said.unit) == (Decimal("10.5"), "ounce")
    # 1 oz = 28.349523125 g exactly (NIST SP 811, appendix B.8)
    assert reading.si_value == pytest.approx(10.5 * 0.028349523125, rel=1e-15)
    assert reading.si_unit == "kilogram"
    assert reading.instrument_id == "scale-1"


def test_bare_number_follows_the_reviewers_units(sit_down: Sit) -> None:
    at_media(bench := sit_down(inch=True))
    reading = bench.accept("56.0").reading
    assert reading.said is not None
    assert reading.said.unit == "inch"
    assert reading.si_value == pytest.approx(1.4224)


def test_accepted_reading_is_on_the_shelf(bench: Teardown, shelf: SqlShelf) -> None:
    accepted = bench.accept("287.4")
    assert shelf.readings("l-1") == [accepted.reading]
    assert accepted.message == "Amber · Whole weight: 287.4 g"


def test_unusual_value_wants_one_more_yes(bench: Teardown, shelf: SqlShelf) -> None:
    with pytest.raises(AskAgain) as asked:
        bench.accept("1200 g")
    assert not asked.value.reason_wanted
    assert shelf.readings("l-1") == []
    assert bench.slot == Slot("whole_mass", "s-a")
    bench.accept("1200 g", sure=True)
    assert len(shelf.readings("l-1")) == 1


def test_hard_range_wants_a_typed_reason(bench: Teardown, shelf: SqlShelf) -> None:
    for insisting in (False, True):
        with pytest.raises(AskAgain) as asked:
            bench.accept("9 kg", sure=insisting)
        assert asked.value.reason_wanted
    kept = bench.accept("9 kg", reason="a truck filter")
    assert kept.reading.reason == "a truck filter"
    assert len(shelf.readings("l-1")) == 1


def test_wrong_dimension_names_what_was_expected(bench: Teardown, shelf: SqlShelf) -> None:
    with pytest.raises(EntryRefused) as refused:
        bench.accept("3.5 in")
    assert "mass" in str(refused.value)
    assert shelf.readings("l-1") == []


def test_weight_from_scale_keeps_its_raw_line(bench: Teardown) -> None:
    reading = bench.accept_weight(weight("287.40")).reading
    assert reading.raw == b"  287.40 g\r\n"
    assert reading.source is Source.SCALE
    assert reading.said is not None
    assert str(reading.said.value) == "287.40"


def test_weight_is_refused_where_none_is_asked(bench: Teardown) -> None:
    bench.go_to("label_kind", "s-a")
    with pytest.raises(EntryRefused, match="Label kind"):
        bench.accept_weight(weight("287.40"))
    assert bench.readings == ()


def test_all_repeats_are_asked_and_kept(bench: Teardown) -> None:
    at_media(bench).go_to("pleat_count", "s-a")
    bench.accept("52")
    assert bench.slot == Slot("pleat_count", "s-a")
    asked = bench.view().asked
    assert asked is not None
    assert (asked.ordinal, asked.wanted) == (2, 2)
    bench.accept("53", sure=True)
    assert [r.ordinal for r in bench.readings] == [1, 2]
    assert bench.slot == Slot("pleat_count", "s-b")


def test_one_more_repeat_can_be_added(bench: Teardown) -> None:
    at_media(bench)
    for typed in ("52", "53"):
        bench.go_to("pleat_count", "s-a")
        bench.accept(typed, sure=True)
    bench.go_to("pleat_count", "s-a")
    assert bench.accept("52").reading.ordinal == 3


@pytest.mark.parametrize("state", WITHOUT_VALUE)
def test_missing_value_is_a_state(bench: Teardown, state: State) -> None:
    reading = bench.no_value(state, "seen twice").reading
    assert (reading.state, reading.said, reading.word) == (state, None, None)
    assert bench.slot == Slot("whole_mass", "s-b")
    assert bench.view().table[0].cells[0].text == state.value


def test_state_word_may_be_typed(bench: Teardown) -> None:
    assert bench.accept("Not marked").reading.state is State.NOT_MARKED


def test_estimate_carries_an_interval(bench: Teardown) -> None:
    reading = bench.estimate("290").reading
    assert reading.state is State.ESTIMATE
    assert reading.si_low is not None
    assert reading.si_high is not None
    assert reading.si_low < 0.290 < reading.si_high
    assert bench.view().table[0].cells[0].text == "~290 g"


def test_scratch_returns_to_the_slot(bench: Teardown, shelf: SqlShelf) -> None:
    bench.accept("287.4")
    bench.accept("301")
    assert "Cobalt" in bench.scratch_last()
    assert bench.slot == Slot("whole_mass", "s-b")
    assert [r.text for r in standing(shelf.readings("l-1"))] == ["287.4"]
    assert len(shelf.readings("l-1")) == 3


def test_scratch_goes_further_back(bench: Teardown) -> None:
    bench.accept("287.4")
    bench.accept("301")
    bench.scratch_last()
    bench.scratch_last()
    assert standing(list(bench.readings)) == []
    with pytest.raises(EntryRefused, match="nothing to scratch"):
        bench.scratch_last()


def test_scratch_can_be_put_back(bench: Teardown) -> None:
    bench.accept("287.4")
    bench.scratch_last()
    back = bench.put_back().reading
    assert (back.text, back.si_value) == ("287.4", pytest.approx(0.2874))
    assert [r.id for r in standing(list(bench.readings))] == [back.id]
    with pytest.raises(EntryRefused):
        bench.put_back()


def test_put_back_keeps_the_reason_given(bench: Teardown) -> None:
    bench.accept("9 kg", reason="a truck filter")
    bench.scratch_last()
    assert bench.put_back().reading.reason == "a truck filter"


def test_cut_waits_for_the_yes(bench: Teardown) -> None:
    bench.go_to_station("cut")
    assert bench.view().yes_wanted
    bench.next()
    assert bench.view().station.key == "cut"
    with pytest.raises(EntryRefused):
        bench.accept("5")
    bench.say_yes()
    assert bench.view().station.key == "media"
    assert {row.key: row.passed for row in bench.view().stations}["cut"]


def test_missing_counts_fall_as_values_come(bench: Teardown) -> None:
    before = bench.view()
    assert (before.stations[0].missing, before.stations[0].asked) == (6, 6)
    bench.accept("287.4")
    bench.no_value(State.SPOILED)
    after = bench.view()
    assert after.stations[0].missing == 4
    assert after.missing == before.missing - 2


def test_bench_opens_where_it_stood(bench: Teardown, sit_down: Sit) -> None:
    at_media(bench).go_to("pleat_count", "s-b")
    bench.accept("52")
    bench.switch_round()
    bench.keep_half_typed("5")
    again = sit_down()
    assert again.view() == bench.view().__class__(**{**vars(bench.view()), "last": ""})
    assert again.slot == Slot("pleat_count", "s-b")
    assert again.view().half_typed == "5"


def test_accepting_clears_half_typed_text(bench: Teardown, sit_down: Sit) -> None:
    bench.keep_half_typed("287")
    bench.accept("287.4")
    assert sit_down().view().half_typed == ""


def test_tool_in_hand_marks_readings(bench: Teardown, shelf: SqlShelf) -> None:
    at_media(bench)
    shelf.save_instrument(TAPE_2)
    assert bench.accept("1420 mm").reading.instrument_id == "tape-1"
    bench.use_tool("tape-2")
    assert bench.accept("1380 mm").reading.instrument_id == "tape-2"
    with pytest.raises(PlanRefused):
        bench.use_tool("tape-9")


def test_flag_keeps_the_moment(bench: Teardown, shelf: SqlShelf) -> None:
    bench.flag("a loose flake")
    assert [m.label for m in shelf.moments("l-1")] == ["a loose flake"]


def test_specimen_fields_are_not_asked_at_the_bench(bench: Teardown) -> None:
    keys = {row.attribute.key for row in bench.view().table}
    assert keys == {"whole_mass", "label_kind"}


def test_replanned_line_up_mends_the_place(bench: Teardown, shelf: SqlShelf, sit_down: Sit) -> None:
    bench.go_to("label_kind", "s-c")
    shelf.save_lineup(small_lineup(attributes=("whole_mass",)))
    assert sit_down().slot == Slot("whole_mass", "s-a")


def test_next_and_back_are_inverse(bench: Teardown) -> None:
    seen = [bench.slot]
    for _ in range(7):
        bench.next()
        seen.append(bench.slot)
    for slot in reversed(seen[:-1]):
        bench.back()
        assert bench.slot == slot


VERBS = st.sampled_from(
    ["287.4", "~300", "1", "yes", "52", "1400 mm", "nonsense", "", "9 kg", "not marked",
     "NEXT", "BACK", "SCRATCH", "PUT BACK", "ROUND", "YES", "SPOILED"]
)  # fmt: skip


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(VERBS, max_size=30))
def test_no_walk_loses_a_reading(sit_down: Sit, shelf: SqlShelf, verbs: list[str]) -> None:
    bench = sit_down()
    acknowledged = {r.id for r in shelf.readings("l-1")}
    calls = {
        "NEXT": bench.next, "BACK": bench.back, "SCRATCH": bench.scratch_last,
        "PUT BACK": bench.put_back, "ROUND": bench.switch_round, "YES": bench.say_yes,
        "SPOILED": lambda: bench.no_value(State.SPOILED),
    }  # fmt: skip
    for verb in verbs:
        try:
            done = calls[verb]() if verb in calls else bench.accept(verb)
        except WorldError:
            continue
        acknowledged |= {getattr(getattr(done, "reading", None), "id", None)} - {None}
    kept = shelf.readings("l-1")
    assert acknowledged <= {r.id for r in kept}
    assert list(bench.readings) == kept
    again = sit_down()
    assert (again.place, again.slot) == (bench.place, bench.slot)
    assert again.slot is None or again.slot.attribute in {a.key for a in SMALL.attributes}
