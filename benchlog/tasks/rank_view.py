"""Ranks under a declared purpose, in plain words. Nothing is worked out before it is asked for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import fsum

from benchlog.judge.award_words import called, listed, opening
from benchlog.judge.purposes import Purpose
from benchlog.judge.ranked import SEED, TRIALS, Ranking, RankShares
from benchlog.tasks.ports import Progress
from benchlog.tasks.purpose_view import criterion_label
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import evidence_of

PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
TOGETHER = (
    "Several specimens of one part stand as one, by their mean, which is as sure as they agree and "
    "never beyond 0 and 10; a single one stands for itself. "
)
NOTHING_TO_RANK = (
    "Nothing to rank yet: nothing was read at the bench. Ranks appear here as readings come in."
)
NOISE = 1e-9
"""By so much a mean of many draws may miss none or all of it, as sums do in their last digits."""

LEVEL = 0.005
"""Shares closer than this are named in one breath."""


@dataclass(frozen=True)
class RankRow:
    """One specimen's part, or that of several of one part, of which it is the first.

    `shares` are its chances of each rank, the first rank first.

    `before` are its chances of coming before each ranked specimen, None beside itself. `central`
    says which weights speak for it, "" when it never comes first, and `confidence` how often it
    is first under just those. `leads` are its leads over each ranked specimen in the mean of all
    draws, in points of 10, None beside itself. `party` are all who are ranked in this row.
    """

    specimen_id: str
    nickname: str
    shares: tuple[float, ...]
    before: tuple[float | None, ...]
    sentence: str
    central: str
    confidence: str
    leads: tuple[float | None, ...] = ()
    party: tuple[str, ...] = ()


@dataclass(frozen=True)
class RanksShown:
    """Ranks under one purpose, to be drawn.

    Of `rows` the likeliest first stands on top, the others follow by their mean rank. `summary`
    says it in a sentence, `made` how it was worked out; `left_out` says what and who was kept out
    and why. `lead` says by how much the likeliest first leads the others. Without rows `refused`
    says why there are no ranks.
    """

    purpose: Purpose
    rows: tuple[RankRow, ...]
    summary: str
    made: str
    left_out: tuple[str, ...]
    refused: str
    lead: str = ""


def ranks_shown(
    record: Record,
    purpose: Purpose,
    progress: Progress | None = None,
    trials: int = TRIALS,
    seed: int = SEED,
) -> RanksShown:
    """Rank a record's specimens under a purpose; `progress` may stop it by raising.

    Before the first reading there are no ranks: prices alone say nothing of what is inside.
    """
    if not record.readings:
        return _nothing_yet(purpose)
    if progress is not None:
        progress.step(0, trials, "draws")
    ranking = _ranking(record, purpose, trials, seed)
    if progress is not None:
        progress.step(trials, trials, "draws")
    return ranks_told(record, ranking)


def _ranking(record: Record, purpose: Purpose, trials: int, seed: int) -> Ranking:
    """Return the ranking that the record has already, where it is this one."""
    known = record.declared.ranking if record.declared else None
    if known and (known.purpose, known.seed) == (purpose, seed) and trials == TRIALS:
        return known
    from benchlog.judge.ranking import ranking_of  # noqa: PLC0415 - loads numpy, seldom needed

    return ranking_of(purpose, record.rules, evidence_of(record), trials, seed)


def ranks_told(record: Record, ranking: Ranking) -> RanksShown:
    """Return a ranking of a record as it is shown; nothing is worked out."""
    purpose = ranking.purpose
    if not record.readings:
        return _nothing_yet(purpose)
    left_out = tuple(
        f"{_name(record, key)} was left out: {why}." for key, why in ranking.left_out.items()
    )
    if ranking.shares is None:
        return RanksShown(purpose, (), "", "", left_out, ranking.refused)
    rows = _rows(record, ranking, ranking.shares)
    trials = ranking.shares.trials
    return RanksShown(
        purpose, rows, _summary(rows, trials), _made(ranking, trials), left_out, "", _lead(rows)
    )


def _nothing_yet(purpose: Purpose) -> RanksShown:
    return RanksShown(purpose, (), "", "", (), NOTHING_TO_RANK)


def percent(share: float) -> str:
    """Return a share as a whole per cent; what is not quite none or all says so."""
    if NOISE < share < 0.005:
        return "under 1 %"
    if 0.995 <= share < 1.0 - NOISE:
        return "over 99 %"
    return f"{100 * share:.0f} %"


def _rows(record: Record, ranking: Ranking, shares: RankShares) -> tuple[RankRow, ...]:
    found, evidence = [], evidence_of(record)
    for place, specimen in enumerate(ranking.ids):
        own, party = shares.acceptability[place], ranking.party(specimen)
        name = called(party, evidence)
        before: list[float | None] = list(shares.before[place])
        before[place] = None
        leads: list[float | None] = list(shares.leads[place])
        leads[place] = None
        confidence = shares.confidence[place]
        found.append(
            RankRow(
                specimen_id=specimen,
                nickname=name,
                shares=own,
                before=tuple(before),
                sentence=f"{opening(name, party)}: {ranks_in_words(own)}.",
                central=_central(ranking, shares.central[place]),
                confidence="" if confidence is None else percent(confidence),
                leads=tuple(leads),
                party=party,
            )
        )
    best = max(range(len(found)), key=lambda n: (found[n].shares[0], -_mean_rank(found[n])))
    order = sorted(range(len(found)), key=lambda n: (n != best, _mean_rank(found[n]), n))
    return tuple(_seen_in(order, found[n]) for n in order)


def _mean_rank(row: RankRow) -> float:
    return fsum(rank * share for rank, share in enumerate(row.shares))


def _seen_in(order: list[int], row: RankRow) -> RankRow:
    """Return a row whose pairs stand in the order of the rows."""
    before, leads = (tuple(own[n] for n in order) for own in (row.before, row.leads))
    return replace(row, before=before, leads=leads)


def ranks_in_words(shares: tuple[float, ...]) -> str:
    """Return chances as they are told: "first in 62 %, second in 30 % and third in 8 %"."""
    held = [f"{PLACES[rank]} in {percent(share)}" for rank, share in enumerate(shares) if share > 0]
    return listed(held)


def _central(ranking: Ranking, weights: tuple[float, ...] | None) -> str:
    if weights is None:
        return ""
    pairs = sorted(zip(weights, ranking.criteria, strict=True), key=lambda one: -one[0])
    return ", ".join(f"{criterion_label(c.key)} {percent(weight)}" for weight, c in pairs)


def _summary(rows: tuple[RankRow, ...], trials: int) -> str:
    best = rows[0].shares[0]
    level = [row.nickname for row in rows if best - row.shares[0] < LEVEL]
    drawn = f"{trials:,}".replace(",", " ")
    each = " each" if len(level) > 1 else ""
    return (
        f"{opening(listed(level), rows[0].party)}{each} first in {percent(best)} of {drawn} draws."
    )


def _made(ranking: Ranking, trials: int) -> str:
    drawn = f"{trials:,}".replace(",", " ")
    opened = "over the weights left open and " if ranking.purpose.left_open else ""
    return (
        f"{drawn} draws {opened}over what the readings leave open, seed {ranking.seed}; "
        f"{percent(ranking.coverage)} of what counts under this purpose could be compared. "
        "How often one comes first says nothing of by how much. "
        f"{TOGETHER if any(len(party) > 1 for party in ranking.parties) else ''}"
        "Rank acceptability after SMAA-2 (Lahdelma and Salminen 2001)."
    )


def _lead(rows: tuple[RankRow, ...]) -> str:
    """Return by how much the likeliest first leads each other in the mean, as far as printed."""
    best = rows[0]
    told = []
    for row, lead in zip(rows, best.leads, strict=True):
        if lead is None:
            continue
        size = f"{abs(lead):.1f}"
        way = "level with" if float(size) == 0 else f"{size} {'behind' if lead < 0 else 'ahead of'}"
        told.append(f"{way} {row.nickname}")
    verb = "is" if len(best.party) == 1 else "are"
    return f"In the mean of all draws {best.nickname} {verb}, in points of 10, {listed(told)}."


def _name(record: Record, key: str) -> str:
    names = {s.id: s.nickname for s in record.lineup.specimens}
    return names.get(key) or criterion_label(key)
