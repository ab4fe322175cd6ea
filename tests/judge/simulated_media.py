"""Media whose true openings are known, looked at by chance fields in unknown light, and judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy

from benchlog.judge.differences import Difference, difference
from benchlog.judge.evidence import Evidence
from benchlog.measure.finding import Finding
from benchlog.measure.observe import Observer
from benchlog.measure.picture_doubt import OWN_LIGHT
from benchlog.tasks.picture_doubts import picture_doubts, spreads_of
from benchlog.tasks.set_ups import instrument_of_set_up
from tests.judge.bench_of import first, unscored
from tests.small_media import SET_UP, SPIN_ON, fields

LIGHT = 0.05
D50 = "opening_d50_in"
RULE = unscored(D50, meaningful=0.05, meaningful_is_share=True)


@dataclass(frozen=True)
class Looked:
    """How media are looked at: fields of each, their true spread as a share, and the stated one."""

    fields: int = 3
    spread: float = 0.06
    stated: float = 0.06


def findings_of_fields(
    media: dict[str, Sequence[float]], stated: float = 0.06
) -> dict[tuple[str, str], Finding]:
    """Return what the D50 of fields by specimen come to, by the way that a record goes."""
    readings, micrographs, answers = [], [], []
    for specimen, d50s in media.items():
        made = fields(specimen, d50s, sampling=stated)
        readings += made[0]
        micrographs += made[1]
        answers += made[2]
    doubts = picture_doubts(readings, micrographs, answers)
    observer = Observer(
        [instrument_of_set_up(SET_UP)],
        pictures=doubts,
        fields=spreads_of(readings, SPIN_ON, doubts),
    )
    return {
        (D50, specimen): observer.observe(
            D50, specimen, [r for r in readings if r.specimen_id == specimen], "micrometer"
        )
        for specimen in media
    }


def judged(media: dict[str, Sequence[float]], stated: float = 0.06) -> Difference:
    """Return how the first two of some specimens stand to each other."""
    bench = Evidence(findings_of_fields(media, stated), {}, SPIN_ON, first(len(media)))
    one, other = tuple(media)[:2]
    return difference(RULE, one, other, bench)


def called_different(truths: Sequence[float], way: Looked, trials: int, seed: int = 11) -> float:
    """Return the share of trials in which the first two media are called different.

    Light shifts all by one amount and each by one of its own, as far as is allowed for.
    """
    rng = numpy.random.default_rng(seed)
    own = OWN_LIGHT["above"]
    names = [specimen.id for specimen in first(len(truths))]
    called = 0
    for _ in range(trials):
        light = (1.0 - own**2) ** 0.5 * LIGHT * rng.uniform(-1.0, 1.0)
        media = {}
        for name, truth in zip(names, truths, strict=True):
            seen = truth * (1.0 + light + own * LIGHT * rng.uniform(-1.0, 1.0))
            media[name] = list(seen * (1.0 + way.spread * rng.standard_normal(way.fields)))
        called += judged(media, way.stated).differs
    return called / trials
