"""What an instrument is checked against: nothing, a weight of a class, a block or a pin."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import cache
from pathlib import Path

from benchlog.errors import EntryRefused
from benchlog.measure.instrument import InstrumentKind
from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

CHECK_STANDARDS_FILE = "trade/check_standards.toml"
_MILLIGRAMS = Decimal(1000)


class Tolerance(StrEnum):
    """Where the tolerance of a standard comes from."""

    NONE = "none"
    CLASS = "class"
    TYPED = "typed"


@dataclass(frozen=True)
class WeightClass:
    """One class of weights: pairs of nominal mass in g and permissible error in mg, ascending."""

    key: str
    label: str
    errors: tuple[tuple[float, float], ...]
    support: Support
    source: str


@dataclass(frozen=True)
class StandardKind:
    """A kind of standard; `dimension` is "" where any instrument may be checked with it."""

    key: str
    label: str
    dimension: str
    tolerance: Tolerance


@dataclass(frozen=True)
class UsualCheck:
    """The checks that are usual for a kind of instrument: for each step, the standards that do."""

    key: str
    instrument: InstrumentKind
    steps: tuple[tuple[str, ...], ...]
    why: str
    support: Support
    source: str


@dataclass(frozen=True)
class CheckStandards:
    """All that trade/check_standards.toml holds."""

    weight_classes: tuple[WeightClass, ...]
    kinds: tuple[StandardKind, ...]
    usual: tuple[UsualCheck, ...]

    def kind(self, key: str) -> StandardKind:
        """Return a kind of standard; raises KeyError for an unknown one."""
        return {kind.key: kind for kind in self.kinds}[key]

    def steps_for(self, instrument: InstrumentKind) -> tuple[tuple[StandardKind, ...], ...]:
        """Return the usual checks of a kind of instrument in order, none where none is wanted.

        Each step names the standards that do, the usual one first.
        """
        usual = next((u for u in self.usual if u.instrument is instrument), None)
        steps = usual.steps if usual else ()
        return tuple(tuple(self.kind(key) for key in step) for step in steps)


@dataclass(frozen=True)
class Standard:
    """One thing that was put on: its name, what it is, and within what, plus or minus, in `unit`.

    A zero has no name, is 0 within 0, and goes with every unit: its own is "".
    """

    name: str
    known: Decimal
    tolerance: Decimal
    unit: str


ZERO = Standard("", Decimal(0), Decimal(0), "")


@cache
def load_check_standards(root: Path | None = None) -> CheckStandards:
    """Return what trade/check_standards.toml holds; raises ResourceFault."""
    file = read_resource(CHECK_STANDARDS_FILE, root)
    file.only("weight_class", "standard", "usual_check")
    kinds = tuple(file.convert(entry, StandardKind) for entry in file.entries("standard"))
    known = {kind.key for kind in kinds}
    return CheckStandards(
        tuple(_weight_class(file, entry) for entry in file.entries("weight_class")),
        kinds,
        tuple(_usual(file, entry, known) for entry in file.entries("usual_check")),
    )


def tolerance_of(weight_class: str, nominal_g: Decimal | float) -> Decimal:
    """Return within what a weight of a class is known, plus or minus, in grams (OIML R 111-1).

    Raises EntryRefused for a class or a nominal mass that the table does not have.
    """
    classes = {c.key: c for c in load_check_standards().weight_classes}
    if weight_class not in classes:
        raise EntryRefused(
            f"'{weight_class}' is no class of weights known here.",
            f"Choose one of {', '.join(classes)}, or give the weight's own tolerance.",
        )
    errors = {Decimal(str(g)): Decimal(str(mg)) for g, mg in classes[weight_class].errors}
    found = errors.get(Decimal(str(nominal_g)))
    if found is None:
        raise EntryRefused(
            f"Class {weight_class} has no weight of {nominal_g} g.",
            f"Give one of {', '.join(f'{g:f}' for g in _plain(errors))} g, or the weight's own"
            " tolerance.",
        )
    return found / _MILLIGRAMS


def check_weight(weight_class: str, nominal_g: Decimal | float) -> Standard:
    """Return a check weight of a class; raises EntryRefused as `tolerance_of` does."""
    tolerance = tolerance_of(weight_class, nominal_g)
    nominal = Decimal(str(nominal_g))
    name = f"check weight {_plain([nominal])[0]:f} g, class {weight_class}"
    return Standard(name, nominal, tolerance, "gram")


def _plain(masses: Iterable[Decimal]) -> list[Decimal]:
    """Return masses without noughts behind the point: 100, not 100.0 or 1E+2."""
    return [mass.quantize(Decimal(1)) if mass == mass.to_integral() else mass for mass in masses]


def _weight_class(file: ResourceFile, entry: Entry) -> WeightClass:
    made = file.convert(entry, WeightClass)
    masses, errors = zip(*made.errors, strict=True) if made.errors else ((), ())
    if not masses or min(*masses, *errors) <= 0:
        raise file.fault(entry, "errors", "wants pairs of a mass and an error, both above zero")
    if list(masses) != sorted(set(masses)) or list(errors) != sorted(errors):
        raise file.fault(entry, "errors", "wants the smaller masses and errors first, each once")
    return made


def _usual(file: ResourceFile, entry: Entry, known: set[str]) -> UsualCheck:
    made = file.convert(entry, UsualCheck)
    if not made.steps or not all(made.steps):
        raise file.fault(entry, "steps", "wants at least one standard for every step")
    for key in (key for step in made.steps for key in step):
        if key not in known:
            raise file.fault(entry, "steps", f"there is no standard '{key}'")
    return made
