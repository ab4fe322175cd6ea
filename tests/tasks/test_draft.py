from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks import draft as drafts
from benchlog.tasks.draft import Draft
from benchlog.tasks.plan import usual_attributes
from benchlog.tasks.walk import Teardown
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Shape
from tests.small_trade import LOT, SMALL, HandClock, small_lineup


@pytest.fixture
def plan() -> Draft:
    return Draft(small_lineup())


def order(draft: Draft) -> list[str]:
    return [s.id for s in draft.lineup.specimens]


def test_fresh_draft_has_three_and_no_name() -> None:
    fresh = drafts.fresh_draft(HandClock(), "R. Hallam", "EUR")
    assert fresh.lineup.name == ""
    assert fresh.lineup.reviewer == "R. Hallam"
    assert [s.currency for s in fresh.lineup.specimens] == ["EUR"] * 3


@given(st.decimals(min_value=0, max_value=10_000, places=2))
def test_price_comes_back_as_typed(price: Decimal) -> None:
    assert drafts.price_said(f" {price} ") == price
    assert drafts.price_said(f"{price}".replace(".", ",")) == price


@pytest.mark.parametrize("typed", ["eight", "8.9.0", "8 EUR", "NaN", "Infinity", "1,234.50"])
def test_what_is_no_price_is_refused(typed: str) -> None:
    with pytest.raises(PlanRefused, match="no price"):
        drafts.price_said(typed)


def test_empty_price_is_none() -> None:
    assert drafts.price_said("  ") is None


def test_price_is_owed_its_currency(plan: Draft) -> None:
    bare = drafts.with_specimen(plan, "s-b", price_text="9.50", currency=" ", bought_on="")
    assert drafts.remarks_on(bare, "s-b") == {"currency": "Say the currency."}
    said = drafts.with_specimen(bare, "s-b", currency="EUR")
    assert drafts.remarks_on(said, "s-b") == {}
    free = drafts.with_specimen(bare, "s-b", price_text=" ")
    assert drafts.remarks_on(free, "s-b") == {}


def test_word_for_a_day_is_remarked_and_kept(plan: Draft, shelf: SqlShelf) -> None:
    vague = drafts.with_specimen(plan, "s-b", bought_on="yesterday")
    assert "2026-03-02" in drafts.remarks_on(vague, "s-b")["bought_on"]
    assert drafts.save_draft(shelf, vague).specimens[1].bought_on == "yesterday"


@given(st.dates(min_value=date(1900, 1, 1)))
def test_days_months_and_years_are_dates(day: date) -> None:
    text = day.isoformat()
    assert all(drafts.is_date(said) for said in (text, f" {text} ", text[:7], text[:4]))


@pytest.mark.parametrize("said", ["yesterday", "2.3.2026", "2026-13", "2026-02-30", "26", "March"])
def test_what_is_no_date(said: str) -> None:
    assert not drafts.is_date(said)


def test_typed_price_stays_as_typed_until_settled(plan: Draft) -> None:
    typed = drafts.with_specimen(plan, "s-b", price_text="9,5")
    assert typed.price_text("s-b") == "9,5"
    assert typed.price_text("s-a") == "8.90"
    assert drafts.settled(typed).specimens[1].price == Decimal("9.5")


def test_refused_price_names_whose_it_is(plan: Draft) -> None:
    typed = drafts.with_specimen(plan, "s-b", price_text="dear")
    with pytest.raises(PlanRefused, match="Cobalt: 'dear'") as refusal:
        drafts.settled(typed)
    assert (refusal.value.field, refusal.value.specimen_id) == ("price", "s-b")


def test_added_specimen_has_a_tag_of_its_own(plan: Draft) -> None:
    more, fresh = drafts.with_added(plan, "EUR")
    assert more.specimen(fresh).shape not in {s.shape for s in plan.lineup.specimens}
    assert more.specimen(fresh).currency == "EUR"
    for _ in range(2):
        more, _ = drafts.with_added(more)
    with pytest.raises(PlanRefused, match="at most 6"):
        drafts.with_added(more)


def test_last_specimen_cannot_go(plan: Draft) -> None:
    one = drafts.without(drafts.without(plan, "s-a"), "s-b")
    with pytest.raises(PlanRefused, match="at least one"):
        drafts.without(one, "s-c")


def test_specimen_with_readings_cannot_go(plan: Draft) -> None:
    with pytest.raises(PlanRefused, match="Amber has readings"):
        drafts.without(plan, "s-a", {"s-a", "s-c"})
    assert order(drafts.without(plan, "s-b", {"s-a", "s-c"})) == ["s-a", "s-c"]


@given(st.sampled_from(["s-a", "s-b", "s-c"]), st.integers(-4, 4))
def test_moving_keeps_everyone_and_stops_at_the_ends(who: str, by: int) -> None:
    before = Draft(small_lineup())
    after = drafts.moved(before, who, by)
    assert sorted(order(after)) == sorted(order(before))
    assert order(after).index(who) == min(max(order(before).index(who) + by, 0), 2)
    assert [s for s in order(after) if s != who] == [s for s in order(before) if s != who]


def test_asked_attributes_keep_the_order_of_the_work(plan: Draft) -> None:
    asked = drafts.asking(plan, SMALL, ["pleat_count", "whole_mass"])
    assert asked.lineup.attributes == ("whole_mass", LOT.key, "pleat_count")


def test_other_kind_asks_for_its_usual_attributes(plan: Draft) -> None:
    cartridge = load_sequence("cartridge")
    changed = drafts.of_kind(plan, cartridge)
    assert changed.lineup.sequence == "cartridge"
    assert changed.lineup.attributes == usual_attributes(cartridge)


def test_saved_draft_is_on_the_shelf(plan: Draft, shelf: SqlShelf) -> None:
    named = drafts.with_heading(plan, name="Renamed")
    assert drafts.save_draft(shelf, named) == shelf.lineup("l-1")
    assert shelf.lineup("l-1").name == "Renamed"


def test_kind_stays_after_the_first_reading(plan: Draft, shelf: SqlShelf, bench: Teardown) -> None:
    other = replace(plan, lineup=replace(plan.lineup, sequence="cartridge"))
    drafts.save_draft(shelf, other)
    drafts.save_draft(shelf, plan)
    bench.accept("287.4")
    with pytest.raises(PlanRefused, match="kind of filter") as refusal:
        drafts.save_draft(shelf, other)
    assert refusal.value.field == "sequence"
    assert shelf.lineup("l-1").sequence == "small"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"nickname": " "}, "nickname"),
        ({"nickname": "amber"}, "nickname"),
        ({"shape": Shape.CIRCLE}, "shape"),
        ({"price_text": "-1"}, "price"),
    ],
)
def test_refusal_names_field_and_specimen(
    plan: Draft, shelf: SqlShelf, changes: dict[str, object], field: str
) -> None:
    with pytest.raises(PlanRefused) as refusal:
        drafts.save_draft(shelf, drafts.with_specimen(plan, "s-b", **changes))
    assert (refusal.value.field, refusal.value.specimen_id) == (field, "s-b")


def test_shared_tag_is_blamed_on_the_one_in_sight(plan: Draft) -> None:
    shared = drafts.with_specimen(plan, "s-a", shape=Shape.SQUARE)
    refusal = PlanRefused("shared", field="shape", specimen_id="s-b")
    assert drafts.at_fault(shared, refusal, "s-a") == "s-a"
    assert drafts.at_fault(shared, refusal, "s-c") == "s-b"
    assert drafts.at_fault(shared, PlanRefused("no name", field="name"), "s-a") == ""


def test_owed_are_those_of_whom_nobody_said_who_paid(plan: Draft) -> None:
    assert drafts.owed(plan.lineup) == ()
    assert len(drafts.owed(drafts.fresh_draft(HandClock()).lineup)) == 3
