"""Judging by eye without knowing whose part it is: codes, their order, and the reveal."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class BlindRun:
    """One round of judging by eye under codes.

    `attributes` are judged in that order. `codes` pair each specimen's id with its code, in the
    order in which the parts are shown for the first attribute; `orders` give for every attribute
    the order of codes, balanced so that nobody is always first. `seed` makes it the same again.
    `after` is the id of the line-up's latest reading when the run began, "" before the first:
    blind readings that came in after it, and before a later run, are this run's answers.
    """

    id: str
    lineup_id: str
    attributes: tuple[str, ...]
    codes: tuple[tuple[str, str], ...]
    orders: tuple[tuple[str, ...], ...]
    seed: int
    at: datetime
    after: str = ""


@dataclass(frozen=True)
class Reveal:
    """The moment at which the codes of a blind run were opened; nothing is blind after it."""

    id: str
    run_id: str
    lineup_id: str
    at: datetime


@dataclass(frozen=True)
class Poll:
    """What viewers picked, entered beside the bench's result.

    `question` is theirs; `votes` pair specimen ids with numbers of votes. `before_reveal` tells
    whether it was entered before the codes of a blind run were opened or, without such a run,
    before the cut; never so once a result was published.
    """

    id: str
    lineup_id: str
    question: str
    votes: tuple[tuple[str, int], ...]
    before_reveal: bool
    at: datetime
