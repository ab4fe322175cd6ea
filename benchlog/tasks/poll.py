"""A viewers' poll: entered by hand, shown beside the bench's result."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from benchlog.errors import PlanRefused
from benchlog.judge.blind import Poll
from benchlog.tasks.cut import is_cut
from benchlog.tasks.judge_blind import unrevealed
from benchlog.tasks.lock import moment_text
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup

GONE = "one that is no longer in the line-up"


@dataclass(frozen=True)
class PollRow:
    """One specimen in a poll: its votes and their share of all, 0 to 1."""

    specimen_id: str
    nickname: str
    votes: int
    share: float


def is_before_reveal(shelf: Shelf, lineup_id: str, sequence: Sequence | None = None) -> bool:
    """Whether a poll that is entered now comes before the reveal.

    That is so while nothing was published, no codes were opened and either a blind run goes on or
    the cut has not been made: without a blind run, every award shows as soon as there are readings
    behind the cut. What of other components the reviewer had seen by then is not asked.
    """
    if shelf.publications(lineup_id) or shelf.reveals(lineup_id):
        return False
    if unrevealed(shelf, lineup_id):
        return True
    return not is_cut(shelf, lineup_id, sequence)


def enter_poll(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    question: str,
    votes: Mapping[str, int],
    sequence: Sequence | None = None,
) -> Poll:
    """Keep what viewers picked: votes by specimen id, in bench order; who is not named has none.

    Raises PlanRefused without a question or any vote, for votes below zero, and for a specimen
    that is not in the line-up.
    """
    lineup = shelf.lineup(lineup_id)
    if not question.strip():
        raise PlanRefused("The poll has no question.", "Type what viewers were asked.")
    known = [specimen.id for specimen in lineup.specimens]
    if not set(votes) <= set(known):
        raise PlanRefused("A vote is for nobody in this line-up.", "Choose one of its specimens.")
    if any(isinstance(count, bool) or count < 0 for count in votes.values()):
        raise PlanRefused("Votes are counted from 0 up.", "Type how many there were.")
    if not sum(votes.values()):
        raise PlanRefused("Nobody voted.", "Enter the poll once there are votes.")
    poll = Poll(
        new_id(),
        lineup_id,
        question.strip(),
        tuple((name, votes.get(name, 0)) for name in known),
        is_before_reveal(shelf, lineup_id, sequence),
        clock.now(),
    )
    shelf.add_poll(poll)
    return poll


def poll_rows(poll: Poll, lineup: Lineup) -> tuple[PollRow, ...]:
    """Return a poll as it is shown, most votes first; equal votes in bench order."""
    names = {specimen.id: specimen.nickname for specimen in lineup.specimens}
    total = sum(count for _, count in poll.votes)
    rows = (
        PollRow(name, names.get(name, GONE), count, count / total) for name, count in poll.votes
    )
    return tuple(sorted(rows, key=lambda row: -row.votes))


def poll_story(poll: Poll, lineup: Lineup) -> str:
    """Return a poll in one sentence, with when it was entered and what it is not."""
    total = sum(count for _, count in poll.votes)
    shares = ", ".join(f"{row.nickname} {row.share:.0%}" for row in poll_rows(poll, lineup))
    when = "before" if poll.before_reveal else "after"
    voters = "1 viewer" if total == 1 else f"{total} viewers"
    return (
        f"“{poll.question}”: {shares} of {voters} who chose to vote, entered"
        f" {moment_text(poll.at)}, {when} the reveal (the cut, or the opening of blind codes)."
        " Opinions, not measurements."
    )
