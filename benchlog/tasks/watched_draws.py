"""Draws that tell how far they have come. Loads numpy; import it only where draws are wanted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from benchlog.measure.monte_carlo import Draws
from benchlog.tasks.ports import Progress


class WatchedDraws(Draws):
    """The same draws; each block is told, and may be the last when `progress` raises."""

    def __init__(self, trials: int, progress: Progress) -> None:
        super().__init__(trials)
        self._progress = progress

    def blocks(self, numbers: Mapping[str, Any]) -> Iterator[tuple[slice, dict[str, Any]]]:
        """Yield the draws block by block, telling each."""
        for here, values in super().blocks(numbers):
            yield here, values
            self._progress.step(here.stop, self.trials, "draws")
