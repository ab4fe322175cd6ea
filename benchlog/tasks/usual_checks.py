"""Which check is due next, by the checks that are usual for a kind of instrument."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from benchlog.measure.bracket import Bracket
from benchlog.measure.check import Check, CheckMoment
from benchlog.measure.instrument import Instrument
from benchlog.tasks.checks import length_standard
from benchlog.trade.check_standard import (
    ZERO,
    Standard,
    StandardKind,
    Tolerance,
    check_weight,
    load_check_standards,
)

Steps = tuple[tuple[StandardKind, ...], ...]


def usual_moment(found: Sequence[Bracket], steps: Steps) -> CheckMoment:
    """Return which end is due: the closing once there are readings, the opening otherwise.

    A closing that is under way stays due until it has every step that the opening had.
    """
    if not found:
        return CheckMoment.OPENING
    last = found[-1]
    if last.closings:
        wanted = steps_made(last.openings, steps) or set(range(len(steps)))
        owed = wanted - steps_made(last.closings, steps)
        return CheckMoment.CLOSING if owed else CheckMoment.OPENING
    return CheckMoment.CLOSING if last.readings else CheckMoment.OPENING


def usual_step(found: Sequence[Bracket], moment: CheckMoment, steps: Steps) -> int:
    """Return the number of the first usual check not made yet at that end; 0 when all are."""
    made: set[int] = set()
    if found and moment is CheckMoment.CLOSING:
        made = steps_made(found[-1].closings, steps)
    elif found and not found[-1].readings and not found[-1].closings:
        made = steps_made(found[-1].openings, steps)
    return next((n for n in range(len(steps)) if n not in made), 0)


def steps_made(checks: Iterable[Check], steps: Steps) -> set[int]:
    """Return the numbers of the usual steps that some checks have made."""
    return {
        n
        for check in checks
        for n, kinds in enumerate(steps)
        if any(is_of(check, k) for k in kinds)
    }


def is_of(check: Check, kind: StandardKind) -> bool:
    """Whether a check was made with a standard of a kind."""
    if kind.tolerance is Tolerance.NONE:
        return not check.standard
    return check.standard.startswith(kind.label)


def put_on(
    kind: StandardKind,
    instrument: Instrument,
    *,
    weight_class: str = "",
    nominal_g: str = "",
    length: str = "",
    tolerance: str = "",
) -> Standard:
    """Return the standard that a form describes; raises EntryRefused for what cannot be one."""
    if kind.tolerance is Tolerance.NONE:
        return ZERO
    if kind.tolerance is Tolerance.CLASS:
        return check_weight(weight_class, Decimal(nominal_g))
    return length_standard(kind, length, tolerance, instrument)


def last_weight(checks: Iterable[Check]) -> tuple[str, str]:
    """Return class and nominal mass in g of the check weight used last, else a usual one."""
    names = {
        check_weight(c.key, grams).name: (c.key, f"{grams:g}")
        for c in load_check_standards().weight_classes
        for grams, _error in c.errors
    }
    used = [names[check.standard] for check in checks if check.standard in names]
    return used[-1] if used else ("M1", "100")


def last_length(checks: Iterable[Check], kind: StandardKind) -> tuple[str, str]:
    """Return length and tolerance of the block or pin used last, in the instrument's unit."""
    used = [check for check in checks if is_of(check, kind)]
    return (f"{used[-1].known:.10g}", f"{used[-1].tolerance:.10g}") if used else ("", "")
