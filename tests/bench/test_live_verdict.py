"""How long judging six specimens takes while readings come in: every score and award, and the
ranks over 10⁵ draws. Against drawing the numbers alone, in the same run."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from itertools import cycle
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.judge.evidence import Evidence
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.ranked import Ranking
from benchlog.judge.ranking import ranking_of
from benchlog.judge.verdict import Verdict
from benchlog.judge.verdict_of import judge
from tests.bench.test_ranking_time import bare_draws, variables_in
from tests.derive.found import number
from tests.judge.bench_of import SHIPPED, SPIN_ON
from tests.judge.six_filters import six_filters

ROUNDS = 15
(PURPOSE,) = (p for p in load_purposes() if p.key == "long_interval")


def judged(known: Evidence) -> Verdict:
    """Judge everything."""
    return judge(known.specimens, known.findings, known.figures, SHIPPED, SPIN_ON)


def ranked(known: Evidence) -> Ranking:
    """Rank under one purpose."""
    return ranking_of(PURPOSE, SHIPPED, known)


def both(known: Evidence) -> tuple[Verdict, Ranking]:
    """What one redraw of the Verdict place asks for."""
    return judged(known), ranked(known)


def readings_in_turn(known: Evidence, ranking: Ranking) -> Callable[[], Evidence]:
    """Return what makes the next state of the bench: one value more is read anew each time."""
    places = cycle(
        (entry.subject, specimen)
        for criterion in ranking.criteria
        for entry in criterion.basis
        for specimen in ranking.ids
        if (entry.subject, specimen) in known.findings
        and known.findings[entry.subject, specimen].quantity is not None
    )
    findings = dict(known.findings)

    def following() -> Evidence:
        key = next(places)
        quantity = findings[key].quantity
        assert quantity is not None
        size, u = quantity.magnitude.nominal_value, quantity.magnitude.std_dev
        findings[key] = number(key[0], size * 1.001, str(quantity.units), u, key[1])
        return replace(known, findings=dict(findings))

    return following


@pytest.mark.parametrize("work", [judged, ranked, both], ids=["judge", "rank", "both"])
def test_live_verdict_time(benchmark: BenchmarkFixture, work: Callable[[Evidence], object]) -> None:
    known = six_filters()
    ranking = ranked(known)
    following = readings_in_turn(known, ranking)
    count = variables_in(ranking, known)
    bare_s: list[float] = []

    def one_reading_more() -> tuple[tuple[object, ...], dict[str, object]]:
        began = time.perf_counter()
        bare_draws(count)
        bare_s.append(time.perf_counter() - began)
        return (following(),), {}

    outcome = benchmark.pedantic(work, setup=one_reading_more, rounds=ROUNDS, iterations=1)

    verdict, shown = outcome if isinstance(outcome, tuple) else (outcome, outcome)
    if isinstance(verdict, Verdict):
        assert len({score.specimen_id for score in verdict.scores}) == 6
    if isinstance(shown, Ranking):
        assert shown.shares is not None
        assert shown.shares.trials == 100_000
    if benchmark.stats is not None:
        benchmark.extra_info["bare_median_ms"] = round(median(bare_s) * 1000, 1)
        benchmark.extra_info["ratio_to_bare_draws"] = round(
            benchmark.stats.stats.median / median(bare_s), 2
        )
