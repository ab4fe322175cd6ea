"""Ranks stand on the sheet under a declared purpose, and nowhere without one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.ranked import DeclaredRanks, Ranking, RankShares
from benchlog.sheet.ranks_part import ShareBar, ranks_part
from benchlog.sheet.typography import PAPERS
from benchlog.tasks.own_purpose import own_purpose, weights_typed
from benchlog.tasks.rank_view import percent, ranks_told
from benchlog.tasks.record import Record
from tests.sheet.reading_back import plain, words, write
from tests.sheet.sample_record import record as small
from tests.tasks.sample_records import WHY, sample_for, sample_record

PRICE = next(p for p in load_purposes() if p.key == "price")
OWN = own_purpose({"media": "3", "can": "1", "gasket": "open"})
HEADING = "For price, declared by the reviewer"


@pytest.fixture(scope="module")
def priced(tmp_path_factory: pytest.TempPathFactory) -> str:
    return words(write(sample_for(PRICE), tmp_path_factory.mktemp("priced")))


def test_declared_purpose_opens_the_part(priced: str) -> None:
    at = priced.index(HEADING)
    assert priced.index("Why, component by component") < at < priced.index("Method Enough")
    part = priced[at : priced.index("Method Enough")]
    assert "Outside it this sheet has no total and no rank." in part
    assert "By the reviewer on 2026-05-04 12:00 UTC, before the cut." in part
    assert f"Reviewer’s why {WHY}." in part
    assert "Support Opinion only; common practice, no source." in part


def test_every_chance_is_printed(priced: str) -> None:
    declared = sample_for(PRICE).declared
    assert declared is not None
    shown = ranks_told(sample_for(PRICE), declared.ranking)
    part = priced[priced.index(HEADING) : priced.index("Method Enough")]
    for sentence in (shown.summary, shown.lead, *shown.left_out, shown.made):
        assert plain(sentence) in part
    for row in shown.rows:
        assert plain(" ".join([row.nickname, *map(percent, row.shares)])) in part
        assert plain(f"{percent(row.shares[0])}") in part
    best, other = shown.rows[0], shown.rows[1]
    assert other.before[0] is not None
    assert f"{percent(other.before[0])}, −{best.leads[1]:.1f}" in part


def test_weights_are_told_with_what_is_open(priced: str) -> None:
    assert "price paid 55 % 55 % none 55 %" in priced
    assert "media 9 % open" in priced
    assert "First under just these" in priced


def test_no_purpose_prints_no_rank(tmp_path: Path) -> None:
    text = words(write(sample_record(), tmp_path))
    assert "declared by the reviewer" not in text
    assert "Chance of each rank" not in text
    assert ranks_part(sample_record(), PAPERS["A4"]) == []


def test_what_was_declared_before_stays_on_the_sheet(tmp_path: Path) -> None:
    text = words(write(sample_for(PRICE, OWN, None), tmp_path))
    assert "declared by the reviewer" not in text
    kept = text[text.index("How the verdict was kept fair") :]
    assert "Purpose Declared on 2026-05-04 12:00 UTC, before the cut: “Price”, version 1." in kept
    assert f"to the reviewer's own weights ({weights_typed(OWN)})." in kept
    assert f"Taken back on 2026-05-04 14:00 UTC, before the cut. Reason: {WHY}." in kept


def test_own_weights_are_printed_whole(tmp_path: Path) -> None:
    text = words(write(sample_for(OWN), tmp_path))
    assert "For own weights, declared by the reviewer" in text
    assert f"Your own weights: {weights_typed(OWN)}" not in text
    assert f"Own weights {weights_typed(OWN)}." in text


def test_no_ranks_say_why_on_the_sheet(tmp_path: Path) -> None:
    declared = sample_for(PRICE).declared
    assert declared is not None
    why = "Fewer than two specimens have values for what counts under this purpose."
    refused = replace(declared.ranking, shares=None, refused=why)
    shown = replace(sample_for(PRICE), declared=replace(declared, ranking=refused))
    text = words(write(shown, tmp_path))
    assert f"No ranks {why}" in text
    assert "Chance of each rank" not in text


@settings(
    max_examples=4, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    st.integers(2, 6),
    st.sampled_from(["A4", "Letter"]),
    st.text(max_size=40) | st.just("W" * 200),
    st.data(),
)
def test_no_ranks_stop_a_sheet(
    tmp_path: Path, count: int, paper: str, name: str, data: st.DataObject
) -> None:
    shown = ranked(small(6), count, name, data)
    text = words(write(shown, tmp_path, paper))
    part = text[text.index(HEADING) :]
    assert "Chance of each rank" in part
    assert "First under just these" in part


def ranked(bare: Record, count: int, name: str, data: st.DataObject) -> Record:
    """A record of so many ranked specimens, all shares as they may come."""
    specimens = tuple(replace(s, nickname=name) for s in bare.lineup.specimens[:count])
    declared = sample_for(PRICE).declared
    assert declared is not None
    row = st.tuples(*[st.floats(0, 1)] * count)
    criteria = declared.ranking.criteria
    weights = st.none() | st.tuples(*[st.floats(0, 1)] * len(criteria))
    shares = RankShares(
        acceptability=tuple(data.draw(row) for _ in specimens),
        before=tuple(data.draw(row) for _ in specimens),
        central=(central := tuple(data.draw(weights) for _ in specimens)),
        confidence=tuple(None if own is None else data.draw(st.floats(0, 1)) for own in central),
        trials=100,
        leads=tuple(data.draw(st.tuples(*[st.floats(-10, 10)] * count)) for _ in specimens),
    )
    ids = tuple(s.id for s in specimens)
    parties = tuple((one,) for one in ids)
    ranking = Ranking(PRICE, ids, criteria, shares, {}, 1.0, parties=parties)
    lineup = replace(bare.lineup, specimens=specimens)
    return replace(bare, lineup=lineup, declared=DeclaredRanks(declared.declaration, ranking))


def test_parts_of_several_bear_every_tag(tmp_path: Path) -> None:
    bare = sample_for(PRICE)
    assert bare.declared is not None
    assert bare.declared.ranking.shares is not None
    one, two, three = bare.lineup.specimens
    twins = [replace(s, maker="Larkfield", part_number="LF-9", origin_can="") for s in (one, two)]
    twins = [replace(s, origin_box="", origin_inferred="") for s in twins]
    lineup = replace(bare.lineup, specimens=(*twins, three))
    shares = RankShares(
        ((0.75, 0.25), (0.25, 0.75)), ((0.5, 0.75), (0.25, 0.5)),
        (None, None), (None, None), 100, ((0.0, 0.4), (-0.4, 0.0)),
    )  # fmt: skip
    ids, parties = (one.id, three.id), ((one.id, two.id), (three.id,))
    ranking = Ranking(PRICE, ids, (), shares, {}, 1.0, parties=parties)
    declared = DeclaredRanks(bare.declared.declaration, ranking)
    text = words(write(replace(bare, lineup=lineup, declared=declared), tmp_path))
    assert "These two Larkfield LF-9 parts first in 75 % of 100 draws." in text
    assert "are, in points of 10, 0.4 ahead of Moss" in text
    assert "Amber, Cobalt 75 % 25 %" in text
    assert "Several specimens of one part stand as one" in text


def test_bar_is_told_in_words() -> None:
    assert ShareBar(0.4, "40 %", 60).told() == "40 %"
