"""Whether two values may be compared at all."""

from __future__ import annotations

from itertools import combinations

from benchlog.judge.evidence import Evidence
from benchlog.judge.methods import doubt_in, unlike_methods

PRESSURE = "contact_pressure"
CURRENCY = "currency"
SET_UP = "set_up"
FEWEST_FIELDS = 2
CONDITION_WORDS = {
    PRESSURE: "the gauge's foot pressure",
    CURRENCY: "the currency paid in",
    SET_UP: "the microscope's set-up",
    "media_state": "the state of the media",
    "media_kind": "the kind of media",
}


def unlike(subject: str, first: str, second: str, evidence: Evidence) -> str:
    """Return why two specimens' values may not be compared, "" when they may.

    A reading in doubt is compared with nothing, and values are compared only where what is behind
    them was taken alike: with the same kinds of instrument and under the conditions that the
    subject names.
    """
    key = subject, first, second
    if key not in evidence.unlike_known:
        evidence.unlike_known[key] = _unlike(subject, first, second, evidence)
    return evidence.unlike_known[key]


def _unlike(subject: str, first: str, second: str, evidence: Evidence) -> str:
    reason = next(filter(None, (doubt_in(subject, s, evidence) for s in (first, second))), "")
    reason = reason or unlike_methods(subject, first, second, evidence)
    if reason:
        return reason
    for condition in evidence.comparable_when(subject):
        reason = _unlike_in(condition, subject, (first, second), evidence)
        if reason:
            return reason
    return ""


def unlike_among(subject: str, specimen_ids: tuple[str, ...], evidence: Evidence) -> str:
    """Return why the values of several specimens may not all be compared, "" when they may."""
    pairs = combinations(specimen_ids, 2)
    return next(filter(None, (unlike(subject, a, b, evidence) for a, b in pairs)), "")


def _unlike_in(condition: str, subject: str, pair: tuple[str, str], evidence: Evidence) -> str:
    """Compare one condition; not knowing it is as good as knowing that it differs."""
    what = CONDITION_WORDS.get(condition) or f"'{evidence.label(condition)}'"
    stands = [_standing(condition, subject, specimen, evidence) for specimen in pair]
    for specimen, (known, shown) in zip(pair, stands, strict=True):
        if known is None:
            return f"{what} is not known for {evidence.nickname(specimen)} ({shown})"
    if stands[0][0] == stands[1][0]:
        return _few_fields(subject, pair, evidence) if condition == SET_UP else ""
    names = [evidence.nickname(specimen) for specimen in pair]
    if stands[0][1] == stands[1][1]:
        return f"{what} differs: it was calibrated anew between {names[0]} and {names[1]}"
    return f"{what} differs: {names[0]} {stands[0][1]}, {names[1]} {stands[1][1]}"


def _standing(
    condition: str, subject: str, specimen: str, evidence: Evidence
) -> tuple[object | None, str]:
    """Return what a condition is for one specimen (None if not known), and how it is shown."""
    if condition == PRESSURE:
        outcome = evidence.outcome(subject, specimen)
        kpa = outcome.contact_pressure_kpa
        if kpa is None:
            return None, "more than one" if outcome.mixed_pressure else "not recorded"
        return kpa, f"{kpa:g} kPa"
    if condition == SET_UP:
        set_ups = evidence.outcome(subject, specimen).set_ups
        if len(set_ups) != 1:
            return None, "more than one" if set_ups else "not recorded"
        return set_ups[0][0], f"“{set_ups[0][1]}”"
    if condition == CURRENCY:
        currency = next(s.currency for s in evidence.specimens if s.id == specimen)
        return currency or None, currency or "not answered"
    outcome = evidence.outcome(condition, specimen)
    if outcome.word is None:
        return None, outcome.why_not or "not measured"
    if outcome.word == "could_not_tell":
        return None, evidence.word_label(condition, outcome.word)
    return outcome.word, evidence.word_label(condition, outcome.word)


def _few_fields(subject: str, pair: tuple[str, str], evidence: Evidence) -> str:
    """Return who was looked at in one field alone, "" when nobody was."""
    for specimen in pair:
        if evidence.outcome(subject, specimen).repeats < FEWEST_FIELDS:
            return (
                f"only one field of {evidence.nickname(specimen)} was measured, and fields of one "
                "medium differ"
            )
    return ""
