"""Past awards are gathered from the shelf as they were published."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from benchlog.judge.overruling import Overruling
from benchlog.judge.verdict import Award, AwardKind
from benchlog.tasks.bias_check import check_bias, past_lineup, spoken, told
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import blind_answer, blind_next, reveal, start_blind
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SPIN_ON, fair_shelf, read_dents, spin_on_lineup
from tests.tasks.sample_records import sample_record

WON = (AwardKind.WINNER, AwardKind.JOINT_WINNERS)


class Steps:
    """Progress that remembers."""

    def __init__(self) -> None:
        self.seen: list[tuple[int, int, str]] = []

    def step(self, done: int, total: int, what: str) -> None:
        self.seen.append((done, total, what))


def paid(record: Record, *ways: Paid) -> Record:
    """The same record, its specimens paid for otherwise."""
    turned = tuple(
        replace(s, paid=way) for s, way in zip(record.lineup.specimens, ways, strict=True)
    )
    return replace(record, lineup=replace(record.lineup, specimens=turned))


def decided(record: Record) -> Award:
    return next(award for award in record.verdict.awards if award.kind in WON)


def test_awards_are_those_of_the_record() -> None:
    record = sample_record()
    past = past_lineup(record)
    expected = [(a.winners, a.behind) if a.kind in WON else ((), ()) for a in record.verdict.awards]
    assert [(a.winners, a.behind) for a in past.awards] == expected
    assert any(a.winners for a in past.awards)


def test_first_and_last_are_those_of_the_bench() -> None:
    past = past_lineup(sample_record())
    assert [(s.first, s.last) for s in past.specimens] == [
        (True, False), (False, False), (False, True),
    ]  # fmt: skip


def test_balanced_order_has_neither() -> None:
    record = sample_record()
    past = past_lineup(replace(record, lineup=replace(record.lineup, balanced=True)))
    assert not any(s.first or s.last for s in past.specimens)


def test_given_is_what_a_gainer_gave() -> None:
    record = paid(sample_record(), Paid.GIVEN_BY_MAKER, Paid.BOUGHT, Paid.GIVEN_BY_SELLER)
    assert [s.given for s in past_lineup(record).specimens] == [True, False, True]
    record = paid(sample_record(), Paid.LENT, Paid.GIVEN_BY_VIEWER, Paid.UNANSWERED)
    assert [s.given for s in past_lineup(record).specimens] == [None, None, None]


@pytest.mark.parametrize("kind", [AwardKind.WINNER, AwardKind.TIE])
def test_overruled_award_counts_as_published(kind: AwardKind) -> None:
    record = sample_record()
    award = decided(record)
    last = record.lineup.specimens[-1].id
    winners = (last,) if kind is AwardKind.WINNER else tuple(s.id for s in record.lineup.specimens)
    said = Overruling(
        "o",
        record.lineup.id,
        award.component,
        kind,
        winners,
        "why",
        record.lineup.created_at,
    )
    past = past_lineup(replace(record, overrulings={award.component: said}))
    found = past.awards[record.verdict.awards.index(award)]
    assert found.winners == ((last,) if kind is AwardKind.WINNER else ())
    assert (last in found.behind) is False
    assert bool(found.behind) is (kind is AwardKind.WINNER)


def can_award(record: Record) -> bool | None:
    awards = zip(record.verdict.awards, past_lineup(record).awards, strict=True)
    return next(past.blind for award, past in awards if award.component is Component.CAN)


def test_open_eyes_are_not_blind(tmp_path) -> None:
    shelf = fair_shelf(tmp_path / "fair")
    read_dents(shelf, HandClock())
    assert can_award(draw_up(shelf, "l-1", SPIN_ON)) is False


def test_revealed_codes_are_blind(tmp_path) -> None:
    shelf, clock = fair_shelf(tmp_path / "fair"), HandClock()
    run = start_blind(shelf, clock, "l-1", ("dents",), seed=7)
    while blind_next(shelf, run) is not None:
        blind_answer(shelf, clock, run, "none")
    assert can_award(draw_up(shelf, "l-1", SPIN_ON)) is None
    reveal(shelf, clock, run)
    assert can_award(draw_up(shelf, "l-1", SPIN_ON)) is True


def test_award_not_judged_is_neither(tmp_path) -> None:
    shelf = fair_shelf(tmp_path / "fair")
    read_dents(shelf, HandClock())
    record = draw_up(shelf, "l-1", SPIN_ON)
    awards = tuple(replace(a, kind=AwardKind.NOT_JUDGED) for a in record.verdict.awards)
    assert can_award(replace(record, verdict=replace(record.verdict, awards=awards))) is None


def test_rehearsals_and_empty_lineups_are_left_out(tmp_path) -> None:
    shelf, steps = fair_shelf(tmp_path / "fair"), Steps()
    read_dents(shelf, HandClock())
    shelf.save_lineup(spin_on_lineup(id="l-2", name="not read yet"))
    shelf.save_lineup(spin_on_lineup(id="l-3", name="rehearsed", rehearsal=True))
    check_bias(shelf, steps)
    assert [what for _, _, what in steps.seen] == [shelf.lineup("l-1").name, ""]
    assert steps.seen[-1][:2] == (1, 1)


def test_check_is_told_as_json_and_in_sentences(tmp_path) -> None:
    check = check_bias(fair_shelf(tmp_path / "fair"))
    written = json.loads(json.dumps(told(check), allow_nan=False))
    assert [one["key"] for one in written["checks"]] == ["given", "order", "blind"]
    assert all(not one["leans"] and one["difference"] is None for one in written["checks"])
    assert written["checks"][1]["first"] is None
    said = spoken(check).splitlines()
    assert len(said) == 4
    assert said[0].startswith("Given against bought. Too few to say")
    assert said[-1] == written["limits"]
