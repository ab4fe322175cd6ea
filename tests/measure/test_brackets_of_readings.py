"""Which readings stand between which checks, and which of them are in doubt."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.measure.bracket import Bracket, BracketState, brackets
from benchlog.measure.reading import standing
from benchlog.measure.state import State
from tests.measure.bench_checks import (
    CALLIPER,
    CLOSING,
    OPENING,
    SCALE,
    check,
    correction,
    reading,
)


def only(readings, checks, corrections=()) -> Bracket:
    (found,) = brackets(readings, checks, corrections, [CALLIPER])
    return found


def ids(bracket: Bracket) -> list[str]:
    return [one.id for one in bracket.readings]


def test_passed_bracket_has_no_doubt() -> None:
    opened, closed = check("o", OPENING, "0.00"), check("c", CLOSING, "0.02", "b")
    found = only([reading("a"), reading("b")], [opened, closed])
    assert (found.state, ids(found)) == (BracketState.PASSED, ["a", "b"])
    assert (found.opening, found.closing) == (opened, closed)
    assert (found.failed, found.in_doubt) == ((), frozenset())


def test_failed_closing_doubts_the_whole_bracket() -> None:
    closed = check("c", CLOSING, "0.05", "b")
    found = only([reading("a"), reading("b")], [check("o", OPENING, "0.00"), closed])
    assert found.state is BracketState.CLOSING_FAILED
    assert (found.failed, found.in_doubt) == ((closed,), {"a", "b"})


@pytest.mark.parametrize(
    ("checks", "state"),
    [
        ([], BracketState.NOT_CHECKED),
        ([check("o", OPENING, "0.00")], BracketState.OPEN),
        ([check("o", OPENING, "0.05")], BracketState.OPENING_FAILED),
        ([check("c", CLOSING, "0.00", "a")], BracketState.PASSED),
        ([check("o", OPENING, "0.05"), check("c", CLOSING, "0.00", "a")],
         BracketState.OPENING_FAILED),
        ([check("o", OPENING, "0.05"), check("c", CLOSING, "0.05", "a")],
         BracketState.CLOSING_FAILED),
    ],
)  # fmt: skip
def test_state_follows_from_both_ends(checks, state: BracketState) -> None:
    found = only([reading("a")], checks)
    assert found.state is state
    failed = state in (BracketState.OPENING_FAILED, BracketState.CLOSING_FAILED)
    assert found.in_doubt == ({"a"} if failed else set())


def test_only_readings_between_the_checks_are_doubted() -> None:
    every = [reading(name) for name in "abcd"]
    checks = [
        check("o1", OPENING, "0.00"),
        check("c1", CLOSING, "0.01", "a"),
        check("o2", OPENING, "0.00", "a"),
        check("c2", CLOSING, "0.05", "c"),
        check("o3", OPENING, "0.00", "c"),
    ]
    found = brackets(every, checks, [], [CALLIPER])
    assert [ids(b) for b in found] == [["a"], ["b", "c"], ["d"]]
    assert [b.state for b in found] == [
        BracketState.PASSED, BracketState.CLOSING_FAILED, BracketState.OPEN,
    ]  # fmt: skip
    assert [b.in_doubt for b in found] == [set(), {"b", "c"}, set()]


def test_opening_repeated_after_setting_counts() -> None:
    checks = [check("o1", OPENING, "0.05"), check("o2", OPENING, "0.00")]
    found = only([reading("a")], checks)
    assert found.state is BracketState.OPEN
    assert found.openings == tuple(checks)


def test_second_closing_makes_nothing_good() -> None:
    checks = [check("c1", CLOSING, "0.05", "a"), check("c2", CLOSING, "0.00", "a")]
    found = only([reading("a")], checks)
    assert found.state is BracketState.CLOSING_FAILED
    assert found.closing == checks[0]


def test_any_failed_standard_fails_the_end() -> None:
    zero = check("z", CLOSING, "0.00", "a")
    block = check("k", CLOSING, "10.06", "a", known=10.0)
    found = only([reading("a")], [zero, block])
    assert found.failed == (block,)
    assert found.closing == block
    opening = only(
        [reading("a")], [check("z", OPENING, "0.05"), check("k", OPENING, "10", known=10)]
    )
    assert opening.state is BracketState.OPENING_FAILED


def test_closing_opens_what_follows() -> None:
    bad = check("c", CLOSING, "0.05", "a")
    first, second = brackets([reading("a"), reading("b")], [bad], [], [CALLIPER])
    assert (first.in_doubt, second.in_doubt) == ({"a"}, {"b"})
    assert (second.openings, second.state) == ((bad,), BracketState.OPENING_FAILED)
    good = replace(bad, said=replace(bad.said, value=bad.said.value * 0))
    _, after = brackets([reading("a"), reading("b")], [good], [], [CALLIPER])
    assert after.state is BracketState.OPEN


def test_correction_keeps_the_place_of_what_it_corrects() -> None:
    every = [reading("a"), reading("b"), reading("a2", "12.53", supersedes="a")]
    first, second = brackets(every, [check("c", CLOSING, "0.05", "a")], [], [CALLIPER])
    assert (ids(first), ids(second)) == (["a2"], ["b"])


def test_scratched_readings_are_not_doubted() -> None:
    every = [reading("a"), reading("w", supersedes="a", withdrawn=True)]
    assert only(every, [check("c", CLOSING, "0.05", "w")]).in_doubt == set()
    back = [*every, reading("a3", supersedes="w")]
    assert only(back, [check("c", CLOSING, "0.05", "w")]).in_doubt == {"a3"}


def test_other_instruments_and_dimensions_are_untouched() -> None:
    every = [
        reading("mine"),
        reading("eye", tool=None),
        reading("weight", "12.0", "gram", tool=SCALE),
        reading("count", "12", "count"),
        reading("force", "8", "newton", tool=SCALE),
    ]
    checks = [
        check("c", CLOSING, "0.05", "force"),
        check("s", CLOSING, "5.0", "force", tool=SCALE),
    ]
    found = brackets(every, checks, [], [CALLIPER, SCALE])
    assert [b.in_doubt for b in found] == [{"mine"}, {"weight"}]


def test_correction_ends_the_doubt_until_taken_back() -> None:
    bad = check("c", CLOSING, "0.05", "a")
    shifted = reading("a2", "12.30", supersedes="a", group="g")
    done = [correction("g", "c")]
    assert only([reading("a"), shifted], [bad], done).in_doubt == set()
    retyped = reading("a3", "12.03", supersedes="a2")
    assert only([reading("a"), shifted, retyped], [bad], done).in_doubt == set()
    restored = reading("a4", supersedes="a2", group="h")
    undone = [*done, correction("h", "c", takes_back="g")]
    assert only([reading("a"), shifted, restored], [bad], undone).in_doubt == {"a4"}


def test_spoiled_readings_stay_in_their_bracket() -> None:
    spoiled = reading("a2", supersedes="a", group="g", state=State.SPOILED)
    found = only(
        [reading("a"), spoiled], [check("c", CLOSING, "0.05", "a")], [correction("g", "c")]
    )
    assert (ids(found), found.in_doubt) == (["a2"], set())


def test_reading_put_back_after_correction_is_in_doubt() -> None:
    bad = check("c", CLOSING, "0.05", "w")
    every = [reading("a"), reading("b"), reading("w", supersedes="b", withdrawn=True)]
    every += [reading("a2", supersedes="a", group="g"), reading("b2", supersedes="w")]
    assert only(every, [bad], [correction("g", "c")]).in_doubt == {"b2"}


def test_check_after_nothing_known_is_our_fault() -> None:
    with pytest.raises(OurFault, match="not here"):
        brackets([reading("a")], [check("c", CLOSING, "0", "z")], [], [CALLIPER])


shows = st.sampled_from(["0.00", "0.05"])
steps = st.lists(
    st.one_of(st.just("read"), st.tuples(st.sampled_from([OPENING, CLOSING]), shows)), max_size=25
)


@given(steps)
def test_every_reading_is_in_one_bracket(log) -> None:
    readings, checks = [], []
    for number, step in enumerate(log):
        if step == "read":
            readings.append(reading(f"r{number}"))
        else:
            after = readings[-1].id if readings else ""
            checks.append(check(f"c{number}", step[0], step[1], after))
    found = brackets(readings, checks, [], [CALLIPER])
    assert [r for b in found for r in b.readings] == standing(readings)
    for bracket in found:
        ends = (*bracket.openings, *bracket.closings)
        assert set(bracket.failed) <= {c for c in ends if c.said.text == "0.05"}
        assert bracket.in_doubt == (set(ids(bracket)) if bracket.failed else set())
        assert all(c.moment is CLOSING for c in bracket.closings)
    told = {c.id for b in found for c in (*b.openings, *b.closings)}
    assert told == {c.id for c in checks}
