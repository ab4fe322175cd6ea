"""Tables of what was declared, and of the ranks under the purpose that stands; none without."""

from __future__ import annotations

from benchlog.judge.purposes_json import purpose_digest
from benchlog.judge.ranked import DeclaredRanks, RankShares
from benchlog.sheet.data.plan_tables import SPECIMEN_ID
from benchlog.sheet.data.table import Table, moment, number, row, text, whole, yes_no
from benchlog.tasks.record import Record

DECIMALS = 6
"""Decimals of means: of a hundred thousand draws no further one says anything."""

SMAA = "Lahdelma and Salminen, Operations Research 49 (2001) 444"
ONE_OF = (
    "the specimen, as in specimens.csv; of several of one part that are ranked as one, the first"
)


def rank_tables(record: Record) -> tuple[Table, ...]:
    """Return the tables that there are: none where nothing was declared."""
    if not record.declarations:
        return ()
    declared = record.declared
    if declared is None or declared.ranking.shares is None:
        return (purposes_table(record),)
    shares = declared.ranking.shares
    return (
        purposes_table(record),
        ranks_table(declared, shares),
        rank_pairs_table(declared, shares),
        rank_weights_table(declared, shares),
    )


def purposes_table(record: Record) -> Table:
    """Return every declaration, the latest of which stands."""
    fields = (
        text("id", "names the declaration", required=True),
        moment("at", "when it was declared or taken back"),
        text("purpose", "the purpose by its key; empty where the one before was taken back"),
        text("label", "what it is called"),
        text("version", "the version of the shipped purposes; empty for own weights"),
        text("digest", "SHA-256 of the purpose's canonical JSON; the purpose is in record.json"),
        text("weights", "criterion: weight, of which only the proportions count"),
        text("left_open", "criteria whose weight is left open"),
        number("open_share", "the part of the whole that is left open"),
        text("support", "how well such weights are supported"),
        text("reason", "why it was declared or taken back"),
        text("after", "the latest reading at that moment; empty before the first"),
        yes_no("after_cut", "whether the cut had been made by then"),
        yes_no("stands", "whether the ranks are worked out under it"),
    )
    standing = record.declared.declaration.id if record.declared else None
    rows = []
    for one in record.declarations:
        purpose = one.purpose
        told = (
            (
                *(purpose.key, purpose.label, purpose.version or None, purpose_digest(purpose)),
                "; ".join(f"{key}: {weight!r}" for key, weight in purpose.weights),
                *(purpose.left_open, purpose.open_share, purpose.support),
            )
            if purpose
            else (None,) * 8
        )
        own = (one.reason, one.after, one.after_cut, one.id == standing)
        rows.append(row(one.id, one.at, *told, *own))
    return Table("purposes", "What it was declared to be judged for", fields, tuple(rows), ("id",))


def ranks_table(declared: DeclaredRanks, shares: RankShares) -> Table:
    """Return how often each takes each rank, with the number of draws and the seed."""
    fields = (
        text("specimen_id", ONE_OF, required=True),
        whole("rank", "the rank, 1 for the first"),
        number("share", "the share of draws in which it takes that rank", source=SMAA),
        text("specimens", "all who are ranked in this row"),
        whole("draws", "how many draws were made"),
        whole("seed", "the seed of the draws"),
        number("coverage", "the part of the purpose's weight that could be compared"),
    )
    ranking = declared.ranking
    rows = tuple(
        row(
            *(one, place + 1, share, ranking.party(one)),
            *(shares.trials, ranking.seed, ranking.coverage),
        )
        for one, own in zip(ranking.ids, shares.acceptability, strict=True)
        for place, share in enumerate(own)
    )
    title = "Ranks under the declared purpose, as shares of draws"
    return Table("ranks", title, fields, rows, ("specimen_id", "rank"))


def rank_pairs_table(declared: DeclaredRanks, shares: RankShares) -> Table:
    """Return how often each comes before each other, and by how much it leads in the mean."""
    fields = (
        text("specimen_id", ONE_OF, required=True),
        text("other_id", "the one that it is held against", required=True),
        number("before", "the share of draws in which it comes before the other"),
        number("lead", "its mean lead over the other, below 0 where it trails", "points of 10"),
    )
    ids = declared.ranking.ids
    rows = tuple(
        row(one, other, shares.before[i][j], _rounded(shares.leads[i][j]))
        for i, one in enumerate(ids)
        for j, other in enumerate(ids)
        if i != j
    )
    key = ("specimen_id", "other_id")
    return Table("rank_pairs", "Who comes before whom", fields, rows, key)


def rank_weights_table(declared: DeclaredRanks, shares: RankShares) -> Table:
    """Return the weights under which each comes first, in the mean."""
    fields = (
        SPECIMEN_ID,
        text("criterion", "a component, or a criterion of the purpose alone", required=True),
        number("weight", "its weight under the purpose, of all that could be compared"),
        yes_no("is_open", "whether that weight is left open, and is a mean"),
        number(
            "central_weight",
            "its mean weight in the draws in which the specimen is first; empty where it never is",
            source=SMAA,
        ),
        number(
            "confidence",
            "the share of draws in which it is first under just these weights",
            source=SMAA,
        ),
    )
    ranking = declared.ranking
    whole_share = sum(criterion.share for criterion in ranking.criteria)
    rows = tuple(
        row(
            *(one, criterion.key, _rounded(criterion.share / whole_share)),
            criterion.key in ranking.purpose.left_open,
            *(None if central is None else _rounded(central[n]), sure),
        )
        for one, central, sure in zip(ranking.ids, shares.central, shares.confidence, strict=True)
        for n, criterion in enumerate(ranking.criteria)
    )
    key = ("specimen_id", "criterion")
    return Table("rank_weights", "For which weights each comes first", fields, rows, key)


def _rounded(mean: float) -> float:
    return round(mean, DECIMALS) + 0.0
