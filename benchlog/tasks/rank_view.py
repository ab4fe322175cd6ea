"""Ranks under a declared purpose, in plain words. Nothing of it is worked out before it is asked.

Loads numpy; import it only where ranks are wanted.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.award_words import listed
from benchlog.judge.evidence import Evidence
from benchlog.judge.purposes import Purpose
from benchlog.judge.ranking import SEED, TRIALS, Ranking, ranking_of
from benchlog.judge.ranks import RankShares
from benchlog.tasks.own_purpose import own_weights_said
from benchlog.tasks.ports import Progress
from benchlog.tasks.purpose_view import criterion_label
from benchlog.tasks.record import Record

PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
LEVEL = 0.005
"""Shares closer than this are named in one breath."""


@dataclass(frozen=True)
class RankRow:
    """One specimen's part: `shares` are its chances of each rank, the first rank first.

    `before` are its chances of coming before each ranked specimen, None beside itself. `central`
    says which weights speak for it, "" when it never comes first, and `confidence` how often it
    is first under just those.
    """

    specimen_id: str
    nickname: str
    shares: tuple[float, ...]
    before: tuple[float | None, ...]
    sentence: str
    central: str
    confidence: str


@dataclass(frozen=True)
class RanksShown:
    """Ranks under one purpose, to be drawn; rows stand with the likeliest first rank on top.

    `summary` says it in a sentence, `made` how it was worked out; `left_out` says what and who
    was kept out and why. Without rows `refused` says why there are no ranks.
    """

    purpose: Purpose
    rows: tuple[RankRow, ...]
    summary: str
    made: str
    left_out: tuple[str, ...]
    refused: str


def ranks_shown(
    record: Record,
    purpose: Purpose,
    progress: Progress | None = None,
    trials: int = TRIALS,
    seed: int = SEED,
) -> RanksShown:
    """Rank a record's specimens under a purpose; `progress` may stop it by raising."""
    if progress is not None:
        progress.step(0, trials, "draws")
    evidence = Evidence(
        record.findings, record.figures, record.sequence, record.lineup.specimens, record.in_doubt
    )
    ranking = ranking_of(purpose, record.rules, evidence, trials, seed)
    if progress is not None:
        progress.step(trials, trials, "draws")
    left_out = tuple(
        f"{_who(record, key)} was left out: {why}." for key, why in ranking.left_out.items()
    )
    if ranking.shares is None:
        return RanksShown(purpose, (), "", "", left_out, ranking.refused)
    rows = _rows(record, ranking, ranking.shares)
    return RanksShown(purpose, rows, _summary(rows, trials), _made(ranking, trials), left_out, "")


def percent(share: float) -> str:
    """Return a share as a whole per cent; what is not quite none or all says so."""
    if 0.0 < share < 0.005:
        return "under 1 %"
    if 0.995 <= share < 1.0:
        return "over 99 %"
    return f"{100 * share:.0f} %"


def _rows(record: Record, ranking: Ranking, shares: RankShares) -> tuple[RankRow, ...]:
    found = []
    for place, specimen in enumerate(ranking.ids):
        own, name = shares.acceptability[place], _who(record, specimen)
        before: list[float | None] = list(shares.before[place])
        before[place] = None
        confidence = shares.confidence[place]
        found.append(
            RankRow(
                specimen_id=specimen,
                nickname=name,
                shares=own,
                before=tuple(before),
                sentence=f"{name}: {_ranks_in_words(own)}.",
                central=_central(record, ranking, shares.central[place]),
                confidence="" if confidence is None else percent(confidence),
            )
        )
    order = sorted(range(len(found)), key=lambda n: (*(-s for s in found[n].shares), n))
    return tuple(_seen_in(order, found[n]) for n in order)


def _seen_in(order: list[int], row: RankRow) -> RankRow:
    """Return a row whose pairs stand in the order of the rows."""
    before = tuple(row.before[n] for n in order)
    return RankRow(
        row.specimen_id, row.nickname, row.shares, before, row.sentence, row.central, row.confidence
    )


def _ranks_in_words(shares: tuple[float, ...]) -> str:
    held = [f"{PLACES[rank]} in {percent(share)}" for rank, share in enumerate(shares) if share > 0]
    return listed(held)


def _central(record: Record, ranking: Ranking, weights: tuple[float, ...] | None) -> str:
    if weights is None:
        return ""
    pairs = sorted(zip(weights, ranking.criteria, strict=True), key=lambda one: -one[0])
    return ", ".join(f"{_who(record, c.key)} {percent(weight)}" for weight, c in pairs)


def _summary(rows: tuple[RankRow, ...], trials: int) -> str:
    best = rows[0].shares[0]
    level = [row.nickname for row in rows if best - row.shares[0] < LEVEL]
    drawn = f"{trials:,}".replace(",", " ")
    if len(level) > 1:
        return f"{listed(level)} each first in {percent(best)} of {drawn} draws."
    return f"{level[0]} first in {percent(best)} of {drawn} draws."


def _made(ranking: Ranking, trials: int) -> str:
    drawn = f"{trials:,}".replace(",", " ")
    opened = "over the weights left open and " if ranking.purpose.left_open else ""
    own = own_weights_said(ranking.purpose)
    return (
        f"{own}{'. ' if own else ''}"
        f"{drawn} draws {opened}over what the readings leave open, seed {ranking.seed}; "
        f"{percent(ranking.coverage)} of what counts under this purpose could be compared. "
        "How often one comes first says nothing of by how much. "
        "Rank acceptability after SMAA-2 (Lahdelma and Salminen 2001)."
    )


def _who(record: Record, key: str) -> str:
    names = {s.id: s.nickname for s in record.lineup.specimens}
    return names.get(key) or criterion_label(key)
