"""What a ranking comes to, as plain data; it is worked out in `ranking`, which loads numpy."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.declared import Declaration
from benchlog.judge.parties import Party
from benchlog.judge.purposes import Purpose
from benchlog.judge.rules import AttributeRule

TRIALS = 100_000
SEED = 20_010_301
"""Fixed, so that a sheet can be worked out again to the last digit."""


@dataclass(frozen=True)
class Criterion:
    """One criterion of a purpose and the entries on which all who are ranked have a value."""

    key: str
    share: float
    basis: tuple[AttributeRule, ...]


@dataclass(frozen=True)
class RankShares:
    """How often each of several specimens takes each rank.

    All are in the order in which the specimens came. `acceptability[i][r]` is the share of
    trials in which specimen i takes rank r, 0 being the first: every row and every column sums
    to 1. `before[i][j]` is the share in which i comes before j. `central[i]` are the mean
    weights of those trials in which i is first, the weights that typically speak for it, and
    `confidence[i]` is the share of trials in which it is first under just those weights; None
    where it is never first. `leads[i][j]` is by how many points of 10 i is ahead of j in the mean
    of all trials, below 0 where it trails. Specimens level with each other share their ranks
    evenly.
    """

    acceptability: tuple[tuple[float, ...], ...]
    before: tuple[tuple[float, ...], ...]
    central: tuple[tuple[float, ...] | None, ...]
    confidence: tuple[float | None, ...]
    trials: int
    leads: tuple[tuple[float, ...], ...] = ()


@dataclass(frozen=True)
class Ranking:
    """Ranks under one purpose.

    `ids` are the specimens ranked, one for each of `parties`, `criteria` what they were ranked by
    and `shares` the outcome, None when `refused` says why there is none. `left_out` says, by
    criterion or specimen id, why something was kept out; `coverage` is the part of the purpose's
    weight that `criteria` hold.
    """

    purpose: Purpose
    ids: tuple[str, ...]
    criteria: tuple[Criterion, ...]
    shares: RankShares | None
    left_out: dict[str, str]
    coverage: float
    refused: str = ""
    seed: int = SEED
    parties: tuple[Party, ...] = ()

    def party(self, specimen_id: str) -> Party:
        """Return who is ranked together with one of `ids`, itself the first."""
        found = (party for party in self.parties if party[0] == specimen_id)
        return next(found, (specimen_id,))


@dataclass(frozen=True)
class DeclaredRanks:
    """The declaration that stands in a line-up, and the ranks worked out for its purpose."""

    declaration: Declaration
    ranking: Ranking
