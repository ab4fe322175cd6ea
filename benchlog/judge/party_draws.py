"""What parties are worth, trial by trial, from what their specimens are. Loads numpy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import blake2b
from itertools import combinations
from math import sqrt

import numpy

from benchlog.judge.parties import Party
from benchlog.judge.ranks import Array

TOP = 10.0


def party_values(
    values: Array, ids: Sequence[str], parties: Sequence[Party], names: Sequence[str], seed: int
) -> Array:
    """Return values shaped (parties, criteria, trials) from those of specimens.

    `ids` name the specimens and `names` the criteria. A party is worth the mean of its specimens,
    and that mean is as sure as they agree: scatter between them beyond what their own measuring
    scatters is drawn as Student's t with n - 1 degrees of freedom, by s²/n as in `groups`, and
    kept within 0 and 10. What the specimens share stays in the mean and is no scatter. Without
    a party of several the very same values are returned.
    """
    if all(len(party) == 1 for party in parties):
        return values
    place = {specimen: row for row, specimen in enumerate(ids)}
    found = numpy.empty((len(parties), *values.shape[1:]))
    for row, party in enumerate(parties):
        members = [place[specimen] for specimen in party]
        if len(members) == 1:
            found[row] = values[members[0]]
            continue
        numpy.mean(values[members], axis=0, out=found[row])
        for column, name in enumerate(names):
            size = _beyond_measuring([values[m, column] for m in members])
            if size > 0.0:
                stream = _stream(seed, "/".join((name, *sorted(party))))
                scatter = stream.standard_t(len(members) - 1, values.shape[2])
                found[row, column] += size * scatter
                numpy.clip(found[row, column], 0.0, TOP, out=found[row, column])
    return found


def _beyond_measuring(drawn: Sequence[Array]) -> float:
    """Return the standard deviation that scatter between specimens adds to their mean."""
    means = numpy.array([float(one.mean()) for one in drawn])
    between = float(means.var(ddof=1))
    measured = float(numpy.mean(list(_half_squares(drawn))))
    return sqrt(max(between - measured, 0.0) / len(drawn))


def _half_squares(drawn: Sequence[Array]) -> Iterator[float]:
    """Yield half the variance of each difference: what two have in common is not in it."""
    for one, other in combinations(drawn, 2):
        yield float((one - other).var()) / 2.0


def _stream(seed: int, name: str) -> numpy.random.Generator:
    words = numpy.frombuffer(blake2b(name.encode(), digest_size=16).digest(), numpy.uint32)
    return numpy.random.Generator(numpy.random.SFC64([seed, 0x70, *map(int, words)]))
