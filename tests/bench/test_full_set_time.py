"""What a whole revision takes: its memory, and its time against encoding the cards alone.

The baseline is measured in the same process: the PNG encoding of every card from ready pixels,
which no way of drawing can do without. Where nothing is timed, the cards, which take longest, are
left out and the memory is held all the same.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

ROOT = Path(__file__).parents[2]
MOST_MB = 400


@pytest.mark.benchmark(group="publishing")
def test_full_set(tmp_path: Path, benchmark: BenchmarkFixture) -> None:
    cards = [] if benchmark.disabled else ["cards"]

    def write() -> dict[str, float]:
        run = subprocess.run(
            [sys.executable, "-m", "tests.bench.full_set", str(tmp_path), *cards],
            cwd=ROOT, capture_output=True, text=True, check=True,
        )  # fmt: skip
        told: dict[str, float] = json.loads(run.stdout)
        return told

    told = benchmark.pedantic(write, rounds=1, iterations=1)
    assert told["photos"] == 24
    assert told["files"] > (150 if cards else 2)
    assert told["steps"] > 24 + 40 * len(cards), "every photo and card is a step to stop at"
    assert told["peak_mb"] < MOST_MB
    if not cards:
        return
    ratio = told["cpu_s"] / told["bare_s"]
    benchmark.extra_info.update(told)
    benchmark.extra_info["ratio_to_bare_encoding"] = round(ratio, 2)
    print(
        f"\nfull set: {told['files']:.0f} files in {told['cpu_s']:.1f} s of processor time, "
        f"{ratio:.2f} times the bare encoding of its cards; {told['peak_mb']:.0f} MB at most"
    )
