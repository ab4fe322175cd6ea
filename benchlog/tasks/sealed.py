"""Which readings belong to a blind run, and which of them are still under seal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchlog.judge.blind import BlindRun, Reveal
from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Shelf


def answers_in(
    run: BlindRun, runs: Sequence[BlindRun], readings: Sequence[Reading]
) -> list[Reading]:
    """Return the blind readings that came in during a run, superseded ones included.

    A run lasts from the reading after which it began to that of the next run; order in the log
    counts, not the clock.
    """
    place = {reading.id: number for number, reading in enumerate(readings, start=1)}
    following = runs[[one.id for one in runs].index(run.id) + 1 :]
    start = place.get(run.after, 0)
    end = place.get(following[0].after, 0) if following else len(readings)
    return [r for r in readings[start:end] if r.blind and r.attribute in run.attributes]


def open_run(runs: Iterable[BlindRun], reveals: Iterable[Reveal]) -> BlindRun | None:
    """Return the run whose codes were not opened yet, None when there is none."""
    opened = {reveal.run_id for reveal in reveals}
    return next((run for run in runs if run.id not in opened), None)


def sealed_readings(
    runs: Sequence[BlindRun], reveals: Iterable[Reveal], readings: Sequence[Reading]
) -> frozenset[str]:
    """Return the ids of blind readings whose codes were not opened yet.

    They are on the shelf for good, yet no finding and no score shows them: that would tell whose
    part it was.
    """
    run = open_run(runs, reveals)
    return frozenset(r.id for r in answers_in(run, runs, readings)) if run else frozenset()


def readings_to_show(shelf: Shelf, lineup_id: str) -> list[Reading]:
    """Return the readings of a line-up without those under seal, in the order they came in."""
    readings = shelf.readings(lineup_id)
    sealed = sealed_readings(shelf.blind_runs(lineup_id), shelf.reveals(lineup_id), readings)
    return [reading for reading in readings if reading.id not in sealed]
