"""A viewers' poll stands beside the bench's result, and says when it was entered."""

from __future__ import annotations

import pytest

from benchlog.errors import PlanRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import reveal, start_blind
from benchlog.tasks.poll import enter_poll, is_before_reveal, poll_rows, poll_story
from benchlog.tasks.publish_revision import publish_revision
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SPIN_ON, make_cut, read_dents
from tests.tasks.publishing_scenes import Steps, WordsWriter

ASK = "Which would you buy?"


def test_votes_are_kept_in_bench_order(fair: SqlShelf, clock: HandClock) -> None:
    poll = enter_poll(fair, clock, "l-1", f" {ASK} ", {"s-c": 30, "s-a": 10})
    assert poll.votes == (("s-a", 10), ("s-b", 0), ("s-c", 30))
    assert (poll.question, poll.before_reveal) == (ASK, True)
    assert fair.polls("l-1") == [poll]
    assert draw_up(fair, "l-1", SPIN_ON).polls == (poll,)


def test_poll_is_shown_most_votes_first(fair: SqlShelf, clock: HandClock) -> None:
    poll = enter_poll(fair, clock, "l-1", ASK, {"s-c": 30, "s-a": 10, "s-b": 10})
    rows = poll_rows(poll, fair.lineup("l-1"))
    assert [(row.nickname, row.votes, row.share) for row in rows] == [
        ("Moss", 30, 0.6),
        ("Amber", 10, 0.2),
        ("Cobalt", 10, 0.2),
    ]
    assert poll_story(poll, fair.lineup("l-1")) == (
        "“Which would you buy?”: Moss 60%, Amber 20%, Cobalt 20% of 50 viewers who chose to vote,"
        " entered 2026-05-04 09:30 UTC, before the reveal (the cut, or the opening of blind"
        " codes). Opinions, not measurements."
    )


def test_single_vote_is_one_viewer(fair: SqlShelf, clock: HandClock) -> None:
    make_cut(fair, clock)
    poll = enter_poll(fair, clock, "l-1", ASK, {"s-b": 1})
    told = poll_story(poll, fair.lineup("l-1"))
    assert "of 1 viewer who" in told
    assert "after the reveal" in told


@pytest.mark.parametrize(
    ("question", "votes", "told"),
    [
        (" ", {"s-a": 1}, "no question"),
        (ASK, {"s-z": 1}, "nobody in this line-up"),
        (ASK, {"s-a": -1, "s-b": 4}, "from 0 up"),
        (ASK, {"s-a": True}, "from 0 up"),
        (ASK, {"s-a": 0}, "Nobody voted"),
        (ASK, {}, "Nobody voted"),
    ],
)
def test_unfit_poll_is_refused(
    fair: SqlShelf, clock: HandClock, question: str, votes: dict[str, int], told: str
) -> None:
    with pytest.raises(PlanRefused, match=told):
        enter_poll(fair, clock, "l-1", question, votes)
    assert fair.polls("l-1") == []


def test_before_reveal_follows_cut_and_codes(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    assert is_before_reveal(fair, "l-1")
    make_cut(fair, clock)
    assert not is_before_reveal(fair, "l-1")
    run = start_blind(fair, clock, "l-1", ("dents",))
    assert is_before_reveal(fair, "l-1")
    reveal(fair, clock, run, sure=True)
    assert not is_before_reveal(fair, "l-1")
    start_blind(fair, clock, "l-1", ("dents",))
    assert not is_before_reveal(fair, "l-1")


def test_published_result_is_no_secret(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    publish_revision(fair, clock, draw_up(fair, "l-1", SPIN_ON), [WordsWriter()], None, Steps())
    assert not is_before_reveal(fair, "l-1")
    start_blind(fair, clock, "l-1", ("dents",))
    assert not is_before_reveal(fair, "l-1")
