"""What is shown of overruling, of sets of rules and of blind judging."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.judge.verdict import AwardKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.blind_view import NO_TELLING, blind_offers, codes_by_owner, keyed_choices
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import blind_answer, blind_next, reveal, start_blind
from benchlog.tasks.lock import lock_rules
from benchlog.tasks.overrule import award_of, overrule, take_back_overruling
from benchlog.tasks.overruled_view import award_offers, overruled_in
from benchlog.tasks.own_sets import rescore, save_own_set
from benchlog.tasks.sets_view import look_words, sets_offered, sets_to_look_under
from benchlog.tasks.verdict_view import component_rows, value_rows
from benchlog.trade.component import Component
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, read_dents

REASON = "The dent came from the post, as the film shows."


@pytest.fixture(autouse=True)
def read(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)


def test_overruling_stands_beside_the_rules(fair: SqlShelf, clock: HandClock) -> None:
    record = draw_up(fair, "l-1", SPIN_ON)
    assert overruled_in(record, Component.CAN) is None
    second = record.lineup.specimens[1]
    overrule(fair, clock, record, Component.CAN, AwardKind.WINNER, (second.id,), REASON)
    record = draw_up(fair, "l-1", SPIN_ON)
    said = overruled_in(record, Component.CAN)
    award = award_of(record, Component.CAN)
    assert said.kind is AwardKind.WINNER
    assert said.words.startswith(f"The rules gave: {award.kind}")
    assert said.words.endswith(f"You say: winner, {second.nickname}.")
    assert (said.short, said.reason) == ("you: winner", REASON)
    row = next(r for r in component_rows(record) if r.component is Component.CAN)
    assert (row.award, row.overruled) == (award, said)


def test_taken_back_overruling_is_gone(fair: SqlShelf, clock: HandClock) -> None:
    record = draw_up(fair, "l-1", SPIN_ON)
    overrule(fair, clock, record, Component.CAN, AwardKind.DIFFERENT, (), REASON)
    record = draw_up(fair, "l-1", SPIN_ON)
    assert overruled_in(record, Component.CAN).words.endswith("You say: different, not better.")
    take_back_overruling(fair, clock, record, Component.CAN)
    assert overruled_in(draw_up(fair, "l-1", SPIN_ON), Component.CAN) is None


def test_every_award_is_offered_once() -> None:
    offers = award_offers()
    assert {offer.kind for offer in offers} == set(AwardKind)
    assert len(offers) == len(AwardKind)
    naming = {offer.kind for offer in offers if offer.names_some}
    assert naming == {AwardKind.WINNER, AwardKind.JOINT_WINNERS}


def test_own_sets_are_offered_latest_first(fair: SqlShelf, clock: HandClock) -> None:
    softer = replace(SHIPPED, meaningful_score=0.7)
    save_own_set(fair, clock, softer, "Long trips")
    save_own_set(fair, clock, replace(softer, meaningful_score=0.9), "Long trips")
    labels = [offer.label for offer in sets_offered(fair)]
    assert labels == [
        "“Bench rules”, version 3",
        "“Long trips”, version 2, your own",
        "“Long trips”, version 1, your own",
    ]


def test_set_in_force_is_no_look(fair: SqlShelf, clock: HandClock) -> None:
    assert sets_to_look_under(fair, "l-1") == ()
    own = save_own_set(fair, clock, replace(SHIPPED, meaningful_score=0.7), "Long trips")
    assert [offer.rules for offer in sets_to_look_under(fair, "l-1")] == [own]
    lock_rules(fair, clock, "l-1", own, SPIN_ON)
    assert [offer.rules for offer in sets_to_look_under(fair, "l-1")] == [SHIPPED]


def test_look_says_that_it_is_one(fair: SqlShelf) -> None:
    record = rescore(fair, "l-1", replace(SHIPPED, label="Other", version="9"), SPIN_ON)
    assert "as judged by “Other”, version 9" in look_words(record)
    assert "not the line-up's own verdict" in look_words(record)


def test_offers_tell_what_the_rules_score(fair: SqlShelf) -> None:
    offers = {o.key: o for o in blind_offers(fair, fair.lineup("l-1"), SPIN_ON)}
    assert offers["dents"].counts
    assert {o.counts for o in offers.values()} == {True, False}


def test_each_answer_has_one_key(fair: SqlShelf, clock: HandClock) -> None:
    run = start_blind(fair, clock, "l-1", sequence=SPIN_ON)
    seen = set()
    while (asked := blind_next(fair, run, SPIN_ON)) is not None:
        keyed = keyed_choices(asked)
        assert len({choice.key for choice in keyed}) == len(asked.choices) + 1
        assert keyed[-1].text == NO_TELLING
        seen.add(asked.attribute.key)
        blind_answer(fair, clock, run, keyed[0].text, sequence=SPIN_ON)
    assert seen == set(run.attributes)


def test_codes_stand_by_code_not_by_bench(fair: SqlShelf, clock: HandClock) -> None:
    run = start_blind(fair, clock, "l-1", ("dents",), sequence=SPIN_ON)
    rows = codes_by_owner(run, fair.lineup("l-1"))
    assert [code for code, _ in rows] == sorted(code for _, code in run.codes)
    assert {(owner.id, code) for code, owner in rows} == set(run.codes)


def test_value_is_marked_once_revealed(fair: SqlShelf, clock: HandClock) -> None:
    run = start_blind(fair, clock, "l-1", ("dents",), sequence=SPIN_ON)
    for _ in run.codes:
        blind_answer(fair, clock, run, "1", sequence=SPIN_ON)
    assert marks(fair) == {False}
    reveal(fair, clock, run)
    assert marks(fair) == {True}


def marks(fair: SqlShelf) -> set[bool]:
    rows = value_rows(draw_up(fair, "l-1", SPIN_ON), Component.CAN)
    return {cell.blind for row in rows if row.subject == "dents" for cell in row.cells}
