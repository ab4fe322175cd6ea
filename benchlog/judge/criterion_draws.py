"""What criteria are worth, trial by trial, kept until what lies behind them changes.

Loads numpy; import it only where draws are wanted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from math import fsum
from threading import Lock
from typing import Any

import numpy

from benchlog.judge.evidence import Evidence
from benchlog.judge.ranked import Criterion
from benchlog.judge.ranks import Array
from benchlog.judge.rules import AttributeRule
from benchlog.judge.worth_draws import add_worth, number_of
from benchlog.measure.monte_carlo import Draws


class CriterionDraws:
    """Draws of the criteria of the line-up last ranked.

    While readings come in one by one, most of what is ranked stays as it was: a specimen's
    criterion is drawn again only when a value, an uncertainty or a rule behind it has changed.
    What comes out is the same to the last digit as if all were drawn afresh.
    """

    def __init__(self) -> None:
        self._lock = Lock()
        self._values: Array = numpy.zeros((0, 0, 0))
        self._keys: dict[tuple[int, int], Any] = {}
        self.redrawn = 0
        """How many of the specimens' criteria were drawn when last asked."""

    @contextmanager
    def values(
        self,
        criteria: Sequence[Criterion],
        ids: tuple[str, ...],
        evidence: Evidence,
        trials: int,
        seed: int,
    ) -> Iterator[Array]:
        """Lend what each criterion is worth, shaped (specimens, criteria, trials).

        Only to be read, and only inside the `with`: the next one writes over it.
        """
        with self._lock:
            self._fill(criteria, ids, evidence, Draws(trials, seed))
            yield self._values

    def _fill(
        self, criteria: Sequence[Criterion], ids: tuple[str, ...], evidence: Evidence, draws: Draws
    ) -> None:
        numbers = {
            _name(criterion, entry, s): number_of(entry, s, evidence)
            for criterion in criteria
            for entry in criterion.basis
            for s in ids
        }
        keys = {name: draws.key(number) for name, number in numbers.items()}
        shape = (len(ids), len(criteria), draws.trials)
        if self._values.shape != shape:
            self._values, self._keys = numpy.zeros(shape), {}
        stale = {}
        for row, specimen in enumerate(ids):
            for column, criterion in enumerate(criteria):
                behind = [(e.kind, e.anchors, e.weight) for e in criterion.basis]
                drawn = [keys[_name(criterion, e, specimen)] for e in criterion.basis]
                key = draws.seed, behind, drawn
                if self._keys.get((row, column)) != key:
                    stale[row, column] = key
        self._keys = {place: key for place, key in self._keys.items() if place not in stale}
        self._draw(tuple(stale), criteria, ids, numbers, draws)
        self._keys |= stale
        self.redrawn = len(stale)

    def _draw(
        self,
        places: tuple[tuple[int, int], ...],
        criteria: Sequence[Criterion],
        ids: tuple[str, ...],
        numbers: dict[str, Any],
        draws: Draws,
    ) -> None:
        names = [
            _name(criteria[column], entry, ids[row])
            for row, column in places
            for entry in criteria[column].basis
        ]
        if not names:
            return
        weights = {c.key: fsum(entry.weight for entry in c.basis) for c in criteria}
        for here, block in draws.blocks({name: numbers[name] for name in names}):
            for row, column in places:
                total = self._values[row, column, here]
                total[:] = 0.0
                criterion = criteria[column]
                for entry in criterion.basis:
                    drawn = block[_name(criterion, entry, ids[row])]
                    add_worth(total, entry, drawn, entry.weight / weights[criterion.key])


def _name(criterion: Criterion, entry: AttributeRule, specimen: str) -> str:
    return f"{criterion.key}/{entry.subject}/{specimen}"
