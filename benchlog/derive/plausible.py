"""Readings of one filter that contradict each other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from benchlog.derive.plausible_inside import CARTRIDGE_RULES, INSIDE_RULES
from benchlog.derive.plausible_media import MEDIA_RULES
from benchlog.derive.plausible_outside import BASE_RULES, CAN_RULES
from benchlog.derive.plausible_rule import Rule, Seen, best
from benchlog.measure.finding import Finding
from benchlog.measure.quantities import si_number, value_in
from benchlog.measure.rounding import as_is
from benchlog.measure.units import unit_symbol
from benchlog.trade.attribute import Support
from benchlog.trade.plausibility import Threshold, load_thresholds
from benchlog.trade.specimen import Specimen

RULES: tuple[Rule, ...] = (*CAN_RULES, *BASE_RULES, *INSIDE_RULES, *MEDIA_RULES, *CARTRIDGE_RULES)

SURE = 2.0
"""Standard uncertainties by which a limit must be passed, about 95 % (JCGM 100 6.3.3)."""


@dataclass(frozen=True)
class Contradiction:
    """Readings of one specimen that cannot all be right.

    `attributes` are the keys of the readings set against each other. `what` names them in plain
    words and units as said, `do` says what to do; `support` and `source` are those of the limit.
    """

    key: str
    specimen_id: str
    attributes: tuple[str, ...]
    what: str
    do: str
    support: Support
    source: str


def contradictions(
    findings: Mapping[str, Finding], specimen: Specimen, rules: Iterable[Rule] = RULES
) -> tuple[Contradiction, ...]:
    """Return what the findings of one specimen, keyed by attribute, contradict each other in.

    A rule whose readings are not all there says nothing, nor does one whose limit is passed by
    less than the readings may be off by.
    """
    found = (_judged(rule, findings, specimen.id) for rule in rules)
    return tuple(each for each in found if each is not None)


def rules_of(attribute: str) -> tuple[Rule, ...]:
    """Return the rules that look at an attribute; none for most."""
    return _by_attribute().get(attribute, ())


@cache
def _by_attribute() -> Mapping[str, tuple[Rule, ...]]:
    table: dict[str, tuple[Rule, ...]] = defaultdict(tuple)
    for rule in RULES:
        for attribute in rule.asks:
            table[attribute] = (*table[attribute], rule)
    return dict(table)


def _judged(rule: Rule, findings: Mapping[str, Finding], specimen_id: str) -> Contradiction | None:
    seen = _seen(rule, findings)
    if seen is None:
        return None
    try:
        number = rule.works(seen)
    except ZeroDivisionError:
        return None
    limit = load_thresholds()[rule.key]
    words = None if number is None else _passed(rule, number, limit)
    if not words:
        return None
    return Contradiction(
        rule.key,
        specimen_id,
        (*rule.inputs, *rule.words),
        words.format_map(_as_said(rule, findings)),
        rule.do,
        limit.support,
        limit.source,
    )


def _seen(rule: Rule, findings: Mapping[str, Finding]) -> Seen | None:
    """Return what the rule asks for, None where something is missing or the rule is lifted."""
    if any(_word(findings, key) == answer for key, answer in rule.unless):
        return None
    words = {key: word for key in rule.words if (word := _word(findings, key)) is not None}
    numbers = {
        key: si_number(finding.quantity)
        for key in rule.inputs
        if (finding := findings.get(key)) is not None and finding.quantity is not None
    }
    if len(words) < len(rule.words) or len(numbers) < len(rule.inputs):
        return None
    return Seen(numbers, words)


def _word(findings: Mapping[str, Finding], key: str) -> str | None:
    finding = findings.get(key)
    return None if finding is None else finding.word


def _passed(rule: Rule, number: Any, limit: Threshold) -> str:
    """Return the words for the limit that a number passes for sure, "" for none."""
    value = best(number)
    room = SURE * float(getattr(number, "std_dev", 0.0))
    # A last digit lost in arithmetic passes no limit.
    room += 1e-9 * abs(value)
    least, most = limit.ends_si
    if most is not None and value - room > most:
        return rule.over
    if least is not None and value + room < least:
        return rule.under
    return ""


def _as_said(rule: Rule, findings: Mapping[str, Finding]) -> dict[str, str]:
    return {key: _shown(findings[key]) for key in (*rule.inputs, *rule.words)}


def _shown(finding: Finding) -> str:
    """Return the reading as said, or the mean of several in the unit of the latest."""
    if finding.quantity is None:
        return finding.word or finding.state.value
    said = [r.said for r in finding.readings if r.said is not None]
    unit = said[-1].unit if said else str(finding.quantity.units)
    symbol = unit_symbol(unit)
    if len(said) == 1:
        text = said[0].text.strip()
        return text if not text[-1:].isdigit() else f"{text} {symbol}".rstrip()
    return f"{as_is(float(f'{value_in(finding.quantity, unit):.4g}'))} {symbol}".rstrip()
