"""Check a figure's interval by working it a million times over with drawn inputs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from benchlog.tasks.ports import Progress
from benchlog.tasks.record import Record

if TYPE_CHECKING:
    from benchlog.derive.cross_check import CrossCheck


def check_sum(
    record: Record,
    key: str,
    specimen_id: str,
    progress: Progress,
    *,
    trials: int = 1_000_000,
) -> CrossCheck | None:
    """Return the Monte Carlo check (JCGM 101) of one figure of one specimen.

    None where there is nothing to draw: a word, a refusal, an exact number, or a plain reading,
    whose mean is its whole sum. `progress` is told of every block of draws.
    """
    from benchlog.derive.cross_check import cross_check_of  # noqa: PLC0415 - loads numpy
    from benchlog.tasks.watched_draws import WatchedDraws  # noqa: PLC0415

    figure = record.figures.get((key, specimen_id))
    if figure is None:
        return None
    specimen = next(s for s in record.lineup.specimens if s.id == specimen_id)
    findings = {a: f for (a, s), f in record.findings.items() if s == specimen_id}
    draws = WatchedDraws(trials, progress)
    found = cross_check_of(figure, findings, specimen, record.lineup.conditions, draws)
    if found is None:
        return None
    return replace(found, words=found.words.replace("money", specimen.currency or "money"))
