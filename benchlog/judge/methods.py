"""Whether two values were taken alike, and whether their readings can be trusted."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.judge.evidence import Evidence
from benchlog.measure.instrument import InstrumentKind

NOT_NAMED = ""
"""Stands among the kinds of instrument where a reading names none."""


def unlike_methods(subject: str, first: str, second: str, evidence: Evidence) -> str:
    """Return in what way two values were taken unalike, "" when they were taken alike.

    Of a figure, every input that both have is looked at. A mix of instruments is like the same
    mix only. Where neither says what it was taken with, nothing speaks against comparing them.
    """
    mine, yours = (dict(evidence.outcome(subject, s).methods) for s in (first, second))
    for attribute in (key for key in mine if key in yours):
        one, other = _named(mine[attribute]), _named(yours[attribute])
        if one == other:
            continue
        label = evidence.label_within(attribute)
        verb = "were" if label.endswith("s") and not label.endswith("ss") else "was"
        names = (evidence.nickname(first), evidence.nickname(second))
        if one and other:
            return (
                f"the {label} {verb} taken with {_kinds(one)} for {names[0]} "
                f"and {_kinds(other)} for {names[1]}"
            )
        (told, untold) = names if one else reversed(names)
        return (
            f"the {label} {verb} taken with {_kinds(one or other)} for {told}, and with what for "
            f"{untold} is not recorded"
        )
    return ""


def doubt_in(subject: str, specimen: str, evidence: Evidence) -> str:
    """Return why a value is in doubt, "" when it is not or when there is none."""
    outcome = evidence.outcome(subject, specimen)
    if evidence.in_doubt.isdisjoint(outcome.readings):
        return ""
    kinds = {
        kind
        for attribute, taken_with in outcome.methods
        if _is_doubtful(attribute, specimen, evidence)
        for kind in _named(taken_with)
    }
    instrument = kinds.pop() if len(kinds) == 1 else "instrument"
    if instrument == InstrumentKind.OTHER:
        instrument = "instrument"
    return (
        f"{evidence.nickname(specimen)}'s reading is in doubt: the closing check of its "
        f"{instrument} failed"
    )


def _is_doubtful(attribute: str, specimen: str, evidence: Evidence) -> bool:
    finding = evidence.findings.get((attribute, specimen))
    readings = finding.readings if finding else ()
    return any(reading.id in evidence.in_doubt for reading in readings)


def _named(kinds: tuple[str, ...]) -> tuple[str, ...]:
    """Return nothing where no reading names its instrument, else all kinds, the blank too."""
    return kinds if any(kind != NOT_NAMED for kind in kinds) else ()


def _kinds(kinds: Iterable[str]) -> str:
    return " and ".join(_kind(kind) for kind in kinds)


def _kind(kind: str) -> str:
    if kind == NOT_NAMED:
        return "something not recorded"
    if kind == InstrumentKind.OTHER:
        return "another kind of instrument"
    return f"a {kind}"
