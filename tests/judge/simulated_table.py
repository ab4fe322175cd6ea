"""Print false winners and power over 10,000 line-ups: `python -m tests.judge.simulated_table`.

The power stated is that of a known uncertainty, or of repeats alone whose scatter is one; two
scatters that are told apart (Welch) find a little less.
"""

from __future__ import annotations

import math
import sys

from benchlog.judge.chance import power
from tests.judge.simulated import Way, share_found, share_with_a_lead, uncertainty_of_a_gap

WAYS = {
    "scatter known": Way(repeats=0),
    "5 repeats": Way(repeats=5),
    "3 repeats": Way(repeats=3),
    "3 repeats, coarse step": Way(repeats=3, limit=0.015),
    "5 repeats, shared error": Way(repeats=5, limit=0.005, shared=0.02),
    "5 repeats, 3 attributes": Way(repeats=5, limit=0.005, shared=0.02, subjects=3),
}


def main(lineups: int) -> None:
    """Print a line for every way of measuring and every size of line-up."""
    print(f"{lineups} line-ups each; shares in %")
    print(f"{'measured with':26}{'filters':>8}{'false lead':>12}{'3 u found':>11}{'stated':>8}")
    for name, way in WAYS.items():
        for count in (2, 3, 6):
            false = share_with_a_lead(way, count, lineups, seed=1)
            gap = 3 * uncertainty_of_a_gap(way)
            found = share_found(way, count, gap, lineups, seed=2)
            line = f"{name:26}{count:8}{100 * false:12.2f}{100 * found:11.1f}"
            freedom = 2 * (way.repeats - 1) if way.repeats and not way.limit else math.inf
            print(f"{line}{100 * power(3, count, freedom):8.1f}", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
