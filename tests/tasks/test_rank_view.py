"""Ranks in words, on the sample line-up, whose readings are invented."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.judge.evidence import Evidence
from benchlog.judge.ranking import ranking_of
from benchlog.tasks.purpose_view import criterion_label, purposes_offered, weights_in_words
from benchlog.tasks.rank_view import NOTHING_TO_RANK, RanksShown, percent, ranks_shown, ranks_told
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import evidence_of
from tests.tasks.sample_records import sample_record

TRIALS = 4_000


@pytest.fixture(scope="module")
def record() -> Record:
    return sample_record()


def under(record: Record, key: str, **more: object) -> RanksShown:
    purpose = next(o.purpose for o in purposes_offered() if o.purpose.key == key)
    return ranks_shown(record, purpose, trials=TRIALS, **more)


def test_rows_hold_what_the_ranking_gave(record: Record) -> None:
    shown = under(record, "price")
    evidence = Evidence(record.findings, record.figures, record.sequence, record.lineup.specimens)
    ranking = ranking_of(shown.purpose, record.rules, evidence, TRIALS)
    by_id = dict(zip(ranking.ids, ranking.shares.acceptability, strict=True))
    assert {row.specimen_id: row.shares for row in shown.rows} == by_id
    for row in shown.rows:
        assert sum(row.shares) == pytest.approx(1.0)


def test_likeliest_first_stands_on_top(record: Record) -> None:
    for offer in purposes_offered():
        shown = under(record, offer.purpose.key)
        firsts = [row.shares[0] for row in shown.rows]
        assert firsts[0] == max(firsts)
        ranks = [sum(n * share for n, share in enumerate(row.shares)) for row in shown.rows[1:]]
        assert ranks == sorted(ranks)


def test_pairs_follow_the_order_of_rows(record: Record) -> None:
    rows = under(record, "price").rows
    for r, row in enumerate(rows):
        assert row.before[r] is None
        for c, other in enumerate(rows):
            if c != r:
                assert row.before[c] + other.before[r] == pytest.approx(1.0)


def test_summary_says_share_and_draws(record: Record) -> None:
    shown = under(record, "price")
    best = shown.rows[0]
    said = f"{best.nickname} first in {percent(best.shares[0])} of 4 000 draws."
    assert shown.summary == said
    assert "seed 20010301" in shown.made
    assert "says nothing of by how much" in shown.made
    assert "4 000 draws over the weights left open" in shown.made


def test_level_ones_are_named_together(record: Record) -> None:
    one, two, three = record.lineup.specimens
    figures = {(k, two.id if s == two.id else s): f for (k, s), f in record.figures.items()}
    figures.update({(k, two.id): f for (k, s), f in record.figures.items() if s == one.id})
    findings = dict(record.findings)
    findings.update({(k, two.id): f for (k, s), f in record.findings.items() if s == one.id})
    twin = replace(two, price=one.price, currency=one.currency)
    lineup = replace(record.lineup, specimens=(one, twin, three))
    level = replace(record, lineup=lineup, findings=findings, figures=figures)
    shown = under(level, "first_fill")
    assert shown.summary.startswith("Amber and Cobalt each first in 50 % of")


def test_what_is_left_out_is_told(record: Record) -> None:
    shown = under(record, "cold_starts")
    assert any(words.startswith("bypass valve was left out:") for words in shown.left_out)


def test_no_ranks_say_why(record: Record) -> None:
    alone = replace(record.lineup, specimens=record.lineup.specimens[:1])
    shown = under(replace(record, lineup=alone), "price")
    assert shown.rows == ()
    assert "Fewer than two specimens" in shown.refused


def test_never_first_has_no_weights(record: Record) -> None:
    last = under(record, "long_interval").rows[-1]
    assert last.shares[0] == 0
    assert (last.central, last.confidence) == ("", "")


def test_progress_may_stop_it(record: Record) -> None:
    class Stop(Exception):
        pass

    class Impatient:
        def step(self, _done: int, _total: int, _what: str) -> None:
            raise Stop

    with pytest.raises(Stop):
        under(record, "price", progress=Impatient())


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (0.0, "0 %"),
        (0.004, "under 1 %"),
        (0.836, "84 %"),
        (0.9951, "over 99 %"),
        (1.0, "100 %"),
        (1.0 - 1e-12, "100 %"),
        (1e-12, "0 %"),
    ],
)
def test_per_cent_never_hides_a_chance(share: float, said: str) -> None:
    assert percent(share) == said


def test_offers_say_weights_and_what_is_open() -> None:
    by_key = {offer.purpose.key: offer for offer in purposes_offered()}
    price = by_key["price"]
    assert price.weights.startswith("price paid 50 %; 50 % left open among media, pleats")
    assert "opinion only" in price.support
    assert weights_in_words(by_key["nothing_put_first"].purpose).startswith("100 % left open")


def test_criteria_are_called_by_their_names() -> None:
    assert criterion_label("media") == "media"
    assert criterion_label("price") == "price paid"
    assert criterion_label("O-rings") == "O-rings"


def test_prices_alone_rank_nothing(record: Record) -> None:
    """Prices stand in the plan, before anything is read."""
    assert all(specimen.price is not None for specimen in record.lineup.specimens)
    unread = replace(record, readings=(), findings={}, figures={})
    for offer in purposes_offered():
        shown = under(unread, offer.purpose.key)
        assert (shown.rows, shown.summary, shown.made, shown.left_out) == ((), "", "", ())
        assert shown.refused == NOTHING_TO_RANK
        ranking = ranking_of(offer.purpose, unread.rules, evidence_of(unread), TRIALS)
        assert ranks_told(unread, ranking) == shown
