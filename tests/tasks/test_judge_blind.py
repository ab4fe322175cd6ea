"""Judging by eye under codes: shuffled, balanced, sealed until the reveal."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import AskAgain, EntryRefused, PlanRefused
from benchlog.judge.blind import BlindRun
from benchlog.measure.state import State
from benchlog.shelf import SqlShelf
from benchlog.tasks.blind_codes import LETTERS, codes_for, orders_for
from benchlog.tasks.correct import correct
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import (
    blind_answer,
    blind_next,
    blind_take_back,
    judged_by_eye,
    reveal,
    start_blind,
    unrevealed,
)
from benchlog.tasks.reading_view import SEALED, reading_rows
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Judged, Kind
from tests.small_trade import HandClock, specimens
from tests.strategies import specimens as any_specimen
from tests.tasks.fair_scenes import SPIN_ON, read_dents, spin_on_lineup

EYE = ("dents", "rattle")


def begun(shelf: SqlShelf, clock: HandClock, *attributes: str, seed: int = 7) -> BlindRun:
    return start_blind(shelf, clock, "l-1", attributes or ("dents",), seed=seed)


def answer_all(
    shelf: SqlShelf, clock: HandClock, run: BlindRun, words: dict[str, str]
) -> list[str]:
    """Answer by the specimen's word, as an eye would that sees the part; returns the codes."""
    owners = {code: owner for owner, code in run.codes}
    seen = []
    while (asked := blind_next(shelf, run)) is not None:
        seen.append(asked.code)
        blind_answer(shelf, clock, run, words[owners[asked.code]])
    return seen


def word(record: Record, specimen: str, attribute: str = "dents") -> str | None:
    return record.findings[attribute, specimen].word


WORDS = {"s-a": "deep", "s-b": "none", "s-c": "light"}

# --- codes and orders -------------------------------------------------------------------------


@given(
    st.lists(any_specimen, min_size=1, max_size=6, unique_by=lambda one: one.id),
    st.integers(0, 2**53),
)
def test_codes_are_apart_and_say_nothing(people, seed: int) -> None:
    codes = codes_for(people, ["KT"], Random(seed))
    assert set(codes) == {one.id for one in people}
    assert len({code[0] for code in codes.values()}) == len(people)
    for code in codes.values():
        assert len(code) == 2
        assert code[0] != code[1]
        assert set(code) <= set(LETTERS)
        assert code != "KT"
        assert code[0] not in {one.nickname.strip()[:1].upper() for one in people}
    assert not {"I", "O"} & set(LETTERS)


def test_codes_do_not_follow_bench_order() -> None:
    """Over many runs each specimen has the alphabetically first code about equally often."""
    first: Counter[str] = Counter()
    for seed in range(600):
        codes = codes_for(specimens(), (), Random(seed))
        first[min(codes, key=codes.__getitem__)] += 1
    # 600 draws, each with 1/3: five standard deviations are 58.
    assert all(abs(count - 200) < 58 for count in first.values())


@given(st.integers(2, 6), st.integers(1, 12), st.integers(0, 2**32))
def test_nobody_is_always_first(size: int, rounds: int, seed: int) -> None:
    codes = [f"{letter}X" for letter in "ABCDEF"[:size]]
    orders = orders_for(codes, rounds, Random(seed))
    firsts = Counter(dict.fromkeys(codes, 0)) + Counter(order[0] for order in orders)
    assert all(sorted(order) == codes for order in orders)
    assert max(firsts.values()) - min(firsts.get(code, 0) for code in codes) <= 1
    if rounds > 1:
        assert len({order[0] for order in orders}) > 1


# --- starting ---------------------------------------------------------------------------------


def test_only_words_of_the_eye_are_judged_blind() -> None:
    found = judged_by_eye(spin_on_lineup(), SPIN_ON)
    assert {"dents", "rattle"} <= {attribute.key for attribute in found}
    for attribute in found:
        assert attribute.kind in (Kind.CHOICE, Kind.PRESENCE)
        assert attribute.instrument == ""
        assert attribute.judged not in (Judged.INPUT, Judged.IDENTITY)
    assert judged_by_eye(spin_on_lineup(attributes=("whole_mass",)), SPIN_ON) == ()


def test_run_keeps_codes_orders_and_seed(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    run = begun(fair, clock, *EYE)
    assert fair.blind_runs("l-1") == [run]
    assert (set(run.attributes), run.seed) == (set(EYE), 7)
    assert run.after == fair.readings("l-1")[-1].id
    assert tuple(code for _, code in run.codes) == run.orders[0]
    assert len(run.orders) == 2
    assert run.orders[0][0] != run.orders[1][0]
    assert unrevealed(fair, "l-1") == run


def test_all_of_the_eye_is_asked_by_itself(fair: SqlShelf, clock: HandClock) -> None:
    run = start_blind(fair, clock, "l-1")
    wanted = tuple(a.key for a in judged_by_eye(fair.lineup("l-1"), SPIN_ON))
    assert run.attributes == wanted
    assert 0 <= run.seed < 2**53


def test_same_seed_gives_the_same_run(fair: SqlShelf, clock: HandClock) -> None:
    first = begun(fair, clock, *EYE)
    fair.save_lineup(spin_on_lineup(id="l-2"))
    again = start_blind(fair, clock, "l-2", EYE, seed=7)
    assert (first.codes, first.orders) == (again.codes, again.orders)


@pytest.mark.parametrize("attributes", [("whole_mass",), ("dents", "halo")])
def test_what_no_eye_judges_is_refused(
    fair: SqlShelf, clock: HandClock, attributes: tuple[str, ...]
) -> None:
    with pytest.raises(PlanRefused, match="judged by eye"):
        start_blind(fair, clock, "l-1", attributes)
    assert fair.blind_runs("l-1") == []


def test_nothing_of_the_eye_is_refused(fair: SqlShelf, clock: HandClock) -> None:
    fair.save_lineup(spin_on_lineup(attributes=("whole_mass",)))
    with pytest.raises(PlanRefused, match="Nothing is judged by eye"):
        start_blind(fair, clock, "l-1")


def test_one_part_alone_is_refused(fair: SqlShelf, clock: HandClock) -> None:
    fair.save_lineup(spin_on_lineup(id="l-2", specimens=specimens()[:1]))
    with pytest.raises(PlanRefused, match="One part alone"):
        start_blind(fair, clock, "l-2", EYE)


def test_second_run_waits_for_the_reveal(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    with pytest.raises(PlanRefused, match="not been revealed"):
        begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    reveal(fair, clock, run)
    later = begun(fair, clock)
    assert not {code for _, code in run.codes} & {code for _, code in later.codes}


# --- answering --------------------------------------------------------------------------------


def test_questions_follow_the_orders(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock, "dents", "loose_debris")
    asked = []
    while (question := blind_next(fair, run)) is not None:
        asked.append((question.attribute.key, question.code))
        assert (question.done, question.of) == (len(asked) - 1, 6)
        assert question.choices
        blind_answer(fair, clock, run, question.choices[0].key)
    assert asked == [
        (key, code) for key, order in zip(run.attributes, run.orders, strict=True) for code in order
    ]


def test_answer_goes_to_the_right_part(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    assert answer_all(fair, clock, run, WORDS) == list(run.orders[0])
    kept = {r.specimen_id: r for r in fair.readings("l-1")}
    assert {name: reading.word for name, reading in kept.items()} == WORDS
    assert all(r.blind and r.supersedes is None and r.ordinal == 1 for r in kept.values())


def test_answer_tells_nobody_whose_it_is(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    question = blind_next(fair, run)
    answer = blind_answer(fair, clock, run, "deep")
    assert question is not None
    assert answer.code == question.code
    shown = f"{answer} {question}"
    for specimen in specimens():
        for name in (specimen.id, specimen.nickname, specimen.maker):
            assert name not in shown


def test_reasons_for_no_value_are_answers(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    blind_answer(fair, clock, run, "could not tell")
    assert fair.readings("l-1")[0].state is State.COULD_NOT_TELL


@pytest.mark.parametrize("text", ["", "huge"])
def test_no_answer_is_refused(fair: SqlShelf, clock: HandClock, text: str) -> None:
    run = begun(fair, clock)
    with pytest.raises(EntryRefused):
        blind_answer(fair, clock, run, text)
    assert fair.readings("l-1") == []


def test_answer_taken_back_is_asked_again(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    first = blind_next(fair, run)
    given = blind_answer(fair, clock, run, "deep")
    back = blind_take_back(fair, clock, run)
    assert first is not None
    assert back.code == given.code == first.code
    assert blind_next(fair, run) == first
    with pytest.raises(EntryRefused, match="no answer to take back"):
        blind_take_back(fair, clock, run)
    blind_answer(fair, clock, run, "none")
    assert [r.word for r in fair.readings("l-1")] == ["deep", None, "none"]


def test_full_run_asks_no_more(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    with pytest.raises(EntryRefused, match="Every part"):
        blind_answer(fair, clock, run, "none")


# --- the seal and the reveal ------------------------------------------------------------------


def test_answers_are_sealed_until_the_reveal(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    before = draw_up(fair, "l-1", SPIN_ON)
    answer_all(fair, clock, run, WORDS)
    sealed = draw_up(fair, "l-1", SPIN_ON)
    assert sealed.sealed == {r.id for r in fair.readings("l-1")}
    assert sealed.verdict == before.verdict
    assert [word(sealed, name) for name in WORDS] == [None, None, None]
    reveal(fair, clock, run)
    shown = draw_up(fair, "l-1", SPIN_ON)
    assert shown.sealed == frozenset()
    assert {name: word(shown, name) for name in WORDS} == WORDS
    assert shown.reveals[0].run_id == run.id
    assert len({before.digest, sealed.digest, shown.digest}) == 3


def test_list_of_readings_keeps_the_seal(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    rows = reading_rows(draw_up(fair, "l-1", SPIN_ON))
    assert {row.text for row in rows} == {SEALED}
    assert not any(word in row.spoken for row in rows for word in ("Deep", "Light"))
    reveal(fair, clock, run)
    opened = reading_rows(draw_up(fair, "l-1", SPIN_ON))
    assert [row.text.split(":")[0].split()[0] for row in opened] == ["Deep", "None", "Light"]
    assert all("judged blind" in row.spoken for row in opened)


def test_blind_opinion_counts_before_an_open_one(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock, "none none none")
    run = begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    assert [word(draw_up(fair, "l-1", SPIN_ON), name) for name in WORDS] == ["none"] * 3
    reveal(fair, clock, run)
    record = draw_up(fair, "l-1", SPIN_ON)
    assert {name: word(record, name) for name in WORDS} == WORDS
    assert (record.revision, record.draft) == (1, True)
    both = record.findings["dents", "s-a"].readings
    assert [(r.word, r.blind, r.ordinal) for r in both] == [("none", False, 1), ("deep", True, 2)]


def test_later_open_opinion_does_not_displace_it(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    reveal(fair, clock, run)
    read_dents(fair, clock, "light light light")
    record = draw_up(fair, "l-1", SPIN_ON)
    assert {name: word(record, name) for name in WORDS} == WORDS


def test_correction_after_the_reveal_is_not_blind(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    answer_all(fair, clock, run, WORDS)
    reveal(fair, clock, run)
    wrong = fair.readings("l-1")[0]
    fresh = correct(fair, clock, SPIN_ON, "l-1", wrong.id, "none", "pressed the wrong key")
    assert not fresh.blind


def test_second_run_is_a_second_opinion(fair: SqlShelf, clock: HandClock) -> None:
    first = begun(fair, clock)
    answer_all(fair, clock, first, WORDS)
    reveal(fair, clock, first)
    second = begun(fair, clock, seed=8)
    assert blind_next(fair, second) is not None
    answer_all(fair, clock, second, dict.fromkeys(WORDS, "light"))
    assert word(draw_up(fair, "l-1", SPIN_ON), "s-a") == "deep"
    reveal(fair, clock, second)
    assert word(draw_up(fair, "l-1", SPIN_ON), "s-a") == "light"


def test_open_questions_ask_once_more(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    blind_answer(fair, clock, run, "none")
    with pytest.raises(AskAgain, match="2 of the questions"):
        reveal(fair, clock, run)
    reveal(fair, clock, run, sure=True)
    assert unrevealed(fair, "l-1") is None


def test_nothing_is_blind_after_the_reveal(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    blind_answer(fair, clock, run, "none")
    reveal(fair, clock, run, sure=True)
    for deed in (
        lambda: blind_answer(fair, clock, run, "none"),
        lambda: blind_take_back(fair, clock, run),
    ):
        with pytest.raises(EntryRefused, match="opened"):
            deed()
    with pytest.raises(PlanRefused, match="opened before"):
        reveal(fair, clock, run, sure=True)
    assert len(fair.readings("l-1")) == 1


def test_open_reading_meanwhile_is_no_blind_answer(fair: SqlShelf, clock: HandClock) -> None:
    run = begun(fair, clock)
    read_dents(fair, clock)
    asked = blind_next(fair, run)
    assert asked is not None
    assert asked.done == 0
    assert draw_up(fair, "l-1", SPIN_ON).sealed == frozenset()
    assert run == unrevealed(fair, "l-1")
