"""Sets of rules and records of judging, as they may come: for tests by property."""

from __future__ import annotations

from hypothesis import strategies as st

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.purposes import Purpose
from benchlog.judge.rules import Anchor, AttributeRule, RankValue, Rules, ValueKind
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict import AwardKind
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.strategies import ids, marks, numbers, times, words

anchors = st.builds(Anchor, at=numbers, value=numbers)
rank_values = st.builds(RankValue, key=marks, value=numbers)

attribute_rules = st.builds(
    AttributeRule,
    subject=marks,
    component=st.sampled_from(Component),
    kind=st.sampled_from(ValueKind),
    weight=numbers,
    support=st.sampled_from(Support),
    source=words,
    reason=words,
    unit=words,
    anchors=st.lists(anchors, max_size=3).map(tuple),
    ranks=st.lists(rank_values, max_size=3, unique_by=lambda one: one.key).map(tuple),
    meaningful=numbers,
    meaningful_is_share=st.booleans(),
    compared=st.booleans(),
)

rules = st.builds(
    Rules,
    key=marks,
    label=words,
    version=words,
    smallest_coverage=numbers,
    meaningful_score=numbers,
    entries=st.lists(attribute_rules, max_size=4, unique_by=lambda one: one.subject).map(tuple),
)


def _locked(found: Rules, **more: object) -> RulesLock:
    return RulesLock(rules=found, digest=digest(found), **more)  # type: ignore[arg-type]


def locks(lineup_id: str, after: str = "") -> st.SearchStrategy[RulesLock]:
    """Locks of one line-up's rules."""
    return st.builds(
        _locked,
        rules,
        id=ids,
        lineup_id=st.just(lineup_id),
        at=times,
        reason=words,
        after=st.just(after),
        after_cut=st.booleans(),
    )


def overrulings(lineup_id: str, specimen_ids: tuple[str, ...]) -> st.SearchStrategy[Overruling]:
    """What the reviewer says of components of one line-up."""
    return st.builds(
        Overruling,
        id=ids,
        lineup_id=st.just(lineup_id),
        component=st.sampled_from(Component),
        kind=st.none() | st.sampled_from(AwardKind),
        winners=st.lists(st.sampled_from(specimen_ids), unique=True).map(tuple),
        reason=words,
        at=times,
    )


def blind_runs(lineup_id: str, specimen_ids: tuple[str, ...]) -> st.SearchStrategy[BlindRun]:
    """Blind rounds of one line-up."""
    codes = tuple(
        (name, f"K{letter}") for name, letter in zip(specimen_ids, "ABCDEF", strict=False)
    )
    order = st.permutations([code for _, code in codes]).map(tuple)
    return st.lists(st.tuples(marks, order), min_size=1, max_size=3).flatmap(
        lambda pairs: st.builds(
            BlindRun,
            id=ids,
            lineup_id=st.just(lineup_id),
            attributes=st.just(tuple(name for name, _ in pairs)),
            codes=st.just(codes),
            orders=st.just(tuple(row for _, row in pairs)),
            seed=st.integers(0, 2**63 - 1),
            at=times,
        )
    )


def reveals(lineup_id: str, run_id: str) -> st.SearchStrategy[Reveal]:
    """The opening of one run's codes."""
    return st.builds(Reveal, id=ids, run_id=st.just(run_id), lineup_id=st.just(lineup_id), at=times)


def polls(lineup_id: str, specimen_ids: tuple[str, ...]) -> st.SearchStrategy[Poll]:
    """What viewers picked in one line-up."""
    votes = st.tuples(st.sampled_from(specimen_ids), st.integers(0, 10**9))
    return st.builds(
        Poll,
        id=ids,
        lineup_id=st.just(lineup_id),
        question=words,
        votes=st.lists(votes, max_size=6).map(tuple),
        before_reveal=st.booleans(),
        at=times,
    )


purposes = st.builds(
    Purpose,
    key=marks,
    label=words,
    weights=st.lists(st.tuples(marks, numbers), max_size=4).map(tuple),
    left_open=st.lists(marks, max_size=3).map(tuple),
    open_share=numbers,
    support=st.sampled_from(Support),
    source=words,
    reason=words,
    criteria=st.lists(attribute_rules, max_size=2).map(tuple),
    version=words,
)


def declarations(lineup_id: str) -> st.SearchStrategy[Declaration]:
    """What one line-up is ranked for."""
    return st.builds(
        Declaration,
        id=ids,
        lineup_id=st.just(lineup_id),
        purpose=st.none() | purposes,
        at=times,
        reason=words,
        after=st.just(""),
        after_cut=st.booleans(),
    )
