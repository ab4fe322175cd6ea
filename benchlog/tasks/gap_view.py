"""How each two specimens stand to each other in a component: gaps beside both of their limits."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from benchlog.judge.award_words import called
from benchlog.judge.comparisons import Comparison, ring_of
from benchlog.judge.differences import Difference, difference
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import NOT_COMPARED, AttributeRule
from benchlog.judge.rules_within import asked_in
from benchlog.measure.rounding import MINUS, rounded
from benchlog.measure.units import convert, unit_symbol
from benchlog.settings import METRIC
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import label_of
from benchlog.tasks.verdict_view import inch_unit_of, meaningful_text, value_rows
from benchlog.trade.component import Component

SCORE = ""
"""The subject of a row about the score as a whole."""

TOGETHER = "All of it together"
POINTS = "points"
EXACT = "known exactly"


@dataclass(frozen=True)
class GapRow:
    """Two specimens in one subject, or in the score as a whole.

    Specimens of one part stand together: `first` and `second` are the first of theirs then, and
    `names` what both sides are called.

    `gap`, `uncertainty` and `limit` are in words, "" where there is none; `size`, `expanded` and
    `meaningful` are the same as numbers in one unit, to be drawn. `counts` tells that the gap is
    beyond both limits. `outcome` says what it comes to, `spoken` all of it.
    """

    subject: str
    label: str
    first: str
    second: str
    names: tuple[str, str]
    gap: str
    uncertainty: str
    limit: str
    outcome: str
    counts: bool
    size: float
    expanded: float
    meaningful: float
    spoken: str


def gap_rows(record: Record, component: Component, units: str = METRIC) -> tuple[GapRow, ...]:
    """Return every pair of specimens, in the score first and then subject by subject.

    Subjects stand in the order of `value_rows`; pairs in bench order.
    """
    evidence = Evidence(
        record.findings, record.figures, record.sequence, record.lineup.specimens, record.in_doubt
    )
    rules = asked_in(record.rules, record.sequence)
    ids = tuple(specimen.id for specimen in record.lineup.specimens)
    scored = (record.verdict.score(component, one) for one in ids)
    judged = tuple(score.specimen_id for score in scored if score.value is not None)
    found = [
        _score_row(pair, evidence) for pair in ring_of(component, judged, rules, evidence).pairs
    ]
    by_subject = {rule.subject: rule for rule in rules.of(component)}
    for row in value_rows(record, component, units):
        rule = by_subject.get(row.subject)
        if rule is None:
            continue
        for first, second in combinations(evidence.parties, 2):
            pair = difference(rule, first[0], second[0], evidence)
            found.append(_value_row(record, rule, pair, evidence, units))
    return tuple(found)


def _score_row(pair: Comparison, evidence: Evidence) -> GapRow:
    if not pair.comparable:
        why = "not compared: too little is known of both"
        return _row((SCORE, TOGETHER), pair, evidence, ("", "", ""), why)
    gap = _signed(f"{pair.gap:.1f}".replace("-", MINUS))  # no score is known finer than a tenth
    known = f"± {pair.expanded:.1f} {POINTS}" if pair.expanded >= 0.05 else "under ± 0.1 points"
    known = known if pair.expanded else EXACT
    words = (f"{gap} {POINTS}", known, f"{pair.limit:g} {POINTS}")
    numbers = (abs(pair.gap), pair.expanded, pair.limit)
    outcome = _outcome(numbers, POINTS, counts=bool(pair.ahead))
    if abs(pair.gap) > pair.needed and not pair.ahead:
        outcome = "too close: no single value in it differs clearly"
    return _row((SCORE, TOGETHER), pair, evidence, words, outcome, numbers, bool(pair.ahead))


def _value_row(
    record: Record, rule: AttributeRule, pair: Difference, evidence: Evidence, units: str
) -> GapRow:
    about = (rule.subject, label_of(record, rule.subject))
    if pair.refused:
        why = pair.refused if pair.refused == NOT_COMPARED else f"not compared: {pair.refused}"
        return _row(about, pair, evidence, ("", "", ""), why)
    if pair.gap is None:
        outcome = "another answer" if pair.differs else "the same answer"
        return _row(about, pair, evidence, ("", "", ""), outcome, counts=pair.differs)
    inch = inch_unit_of(record, rule.subject, units)
    unit = inch or pair.unit
    factor = convert(1.0, pair.unit, unit) - convert(0.0, pair.unit, unit) if inch else 1.0
    size, expanded, limit = (factor * x for x in (pair.gap, pair.expanded, pair.meaningful))
    sign = unit_symbol(unit) if unit else ""
    gap, uncertainty = rounded(size, expanded)
    words = (
        f"{_signed(gap)} {sign}".rstrip(),
        f"± {uncertainty} {sign}".rstrip() if expanded else EXACT,
        meaningful_text(rule, inch),
    )
    numbers = (abs(size), expanded, limit)
    outcome = _outcome(numbers, sign, counts=pair.differs)
    return _row(about, pair, evidence, words, outcome, numbers, pair.differs)


def _outcome(numbers: tuple[float, float, float], sign: str, *, counts: bool) -> str:
    """Say by how much a gap is beyond the larger limit, or short of it and of which."""
    size, expanded, limit = numbers
    spare = abs(size - max(expanded, limit))
    much = f"{spare:.2g} {sign}".rstrip()
    if counts:
        return f"counts: {much} beyond both limits"
    if size == 0:
        return "level"
    short = "their uncertainty" if expanded >= limit else "what counts"
    return f"{much} short of {short}"


def _signed(number: str) -> str:
    if not number.strip(f"{MINUS}0."):
        return number.lstrip(MINUS)
    return number if number.startswith(MINUS) else f"+{number}"


def _row(
    about: tuple[str, str],
    pair: Comparison | Difference,
    evidence: Evidence,
    words: tuple[str, str, str],
    outcome: str,
    numbers: tuple[float, float, float] = (0.0, 0.0, 0.0),
    counts: bool = False,
) -> GapRow:
    first, second = (called(evidence.party(one), evidence) for one in (pair.first, pair.second))
    gap, uncertainty, limit = words
    measured = f" {gap}, uncertainty {uncertainty}, counts from {limit};" if gap else ""
    spoken = f"{about[1]}, {first} less {second}:{measured} {outcome}"
    return GapRow(
        *about, pair.first, pair.second, (first, second), *words, outcome, counts, *numbers, spoken
    )
