"""What the readings of one attribute of one specimen come to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchlog.measure.reading import Reading
from benchlog.measure.state import State

if TYPE_CHECKING:
    from benchlog.measure.units import Quantity


@dataclass(frozen=True)
class Finding:
    """The outcome of one attribute of one specimen.

    `quantity` is a pint quantity over an `uncertainties` number (standard uncertainty), so that
    figures made from the same finding stay correlated; `word` is a choice's key, a text or
    "yes"/"no". Both are None when the state has no value. `low`/`high` hold the interval of an
    estimate or a marked range in the quantity's unit. `contact_pressure_kpa` is the foot
    pressure of the instrument, where it matters; `mixed_pressure` tells that the repeats were
    taken under different ones, so that the finding is comparable with no other.
    `taken_with` are the kinds of the instruments behind the number, sorted, "" among them where
    a reading names none. `scatter` says in a sentence whose scatter of repeats the uncertainty
    holds when a pooled one was at hand, "" otherwise. `set_ups` are id and name of the microscope
    set-ups among the instruments, sorted.
    """

    attribute: str
    specimen_id: str
    state: State
    readings: tuple[Reading, ...] = ()
    quantity: Quantity | None = None
    word: str | None = None
    low: float | None = None
    high: float | None = None
    contact_pressure_kpa: float | None = None
    mixed_pressure: bool = False
    taken_with: tuple[str, ...] = ()
    scatter: str = ""
    set_ups: tuple[tuple[str, str], ...] = ()
