"""How long the ranks of six specimens over 10⁵ draws take, against drawing the numbers alone.

All drawn afresh; `test_live_verdict` has what is asked while readings come in.
"""

from __future__ import annotations

import time
from statistics import median

import numpy
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.judge.criterion_draws import CriterionDraws
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.ranked import TRIALS, Ranking
from benchlog.judge.ranking import ranking_of
from tests.judge.bench_of import SHIPPED
from tests.judge.six_filters import six_filters

ROUNDS = 15


def variables_in(ranking: Ranking, known: object) -> int:
    """Return how many independent variables stand behind what was ranked."""
    found = set()
    for criterion in ranking.criteria:
        for entry in criterion.basis:
            for specimen in ranking.ids:
                quantity = known.outcome(entry.subject, specimen).quantity  # type: ignore[attr-defined]
                found.update(getattr(getattr(quantity, "magnitude", None), "derivatives", ()))
    return len(found)


def bare_draws(count: int) -> None:
    """Draw as many normals as there are variables; nothing else. The baseline."""
    stream = numpy.random.Generator(numpy.random.SFC64(1))
    for _ in range(count):
        stream.standard_normal(TRIALS)


def test_ranking_time(benchmark: BenchmarkFixture, monkeypatch: pytest.MonkeyPatch) -> None:
    known = six_filters()
    (purpose,) = [p for p in load_purposes() if p.key == "long_interval"]
    ranking = ranking_of(purpose, SHIPPED, known)
    count = variables_in(ranking, known)
    bare_s: list[float] = []

    def bare_first() -> tuple[tuple[object, ...], dict[str, object]]:
        began = time.perf_counter()
        bare_draws(count)
        bare_s.append(time.perf_counter() - began)
        monkeypatch.setattr("benchlog.judge.ranking._LAST", CriterionDraws())
        return (purpose, SHIPPED, known), {}

    benchmark.pedantic(ranking_of, setup=bare_first, rounds=ROUNDS, iterations=1)

    assert ranking.shares is not None
    assert ranking.shares.trials == 100_000
    assert count >= 50
    if benchmark.stats is not None:
        benchmark.extra_info["variables"] = count
        benchmark.extra_info["bare_median_ms"] = round(median(bare_s) * 1000, 1)
        benchmark.extra_info["ratio_to_bare_draws"] = round(
            benchmark.stats.stats.median / median(bare_s), 2
        )
