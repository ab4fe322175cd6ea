"""What must hold within one attribute of a sequence file."""

from __future__ import annotations

import re
from dataclasses import fields

from benchlog.errors import OurFault
from benchlog.measure.dimensions import ALIKE, DIMENSIONS
from benchlog.measure.instrument import InstrumentKind
from benchlog.measure.units import dimension_of
from benchlog.trade.attribute import Attribute, Kind
from benchlog.trade.resource_file import Entry, ResourceFile
from benchlog.trade.specimen import Specimen

SOURCE = re.compile(r"(published [ABC]|common practice|calculated)(: \S.*)?")

KEY = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")


def check_attribute(file: ResourceFile, entry: Entry, attribute: Attribute) -> None:
    """Refuse an attribute that contradicts itself; raises ResourceFault."""
    _check_words(file, entry, attribute)
    if attribute.is_number:
        _check_number(file, entry, attribute)
    else:
        _check_no_number(file, entry, attribute)
    _check_choices(file, entry, attribute)


def _check_words(file: ResourceFile, entry: Entry, attribute: Attribute) -> None:
    """Check key, sentences, source, instrument, repeats and the specimen's field."""
    if not KEY.fullmatch(attribute.key):
        raise file.fault(entry, "", "a key is lower case words joined by _")
    for field in ("label", "help", "method", "source"):
        if not getattr(attribute, field).strip():
            raise file.fault(entry, field, "is empty")
    if not SOURCE.fullmatch(attribute.source):
        wanted = "'published A', 'published B', 'published C', 'common practice' or 'calculated'"
        raise file.fault(entry, "source", f"wants {wanted}, and after a colon where it stands")
    kinds = [kind.value for kind in InstrumentKind]
    if attribute.instrument and attribute.instrument not in kinds:
        known = ", ".join(kinds)
        raise file.fault(entry, "instrument", f"'{attribute.instrument}' is not one of: {known}")
    if attribute.repeats < 1:
        raise file.fault(entry, "repeats", "wants at least 1")
    if attribute.specimen_field and attribute.specimen_field not in _specimen_fields():
        raise file.fault(entry, "specimen_field", "a specimen has no such field")
    if attribute.copied and (not attribute.is_number or attribute.instrument):
        raise file.fault(entry, "copied", "is for numbers that no instrument reads")


def _check_number(file: ResourceFile, entry: Entry, attribute: Attribute) -> None:
    """Check that a number has units of its dimension and ranges in order."""
    if attribute.dimension not in DIMENSIONS:
        known = ", ".join(DIMENSIONS)
        raise file.fault(entry, "dimension", f"'{attribute.dimension}' is not one of: {known}")
    if (attribute.kind == Kind.COUNT) != (attribute.dimension == "count"):
        raise file.fault(entry, "dimension", "a count, and only a count, has dimension 'count'")
    for field in ("unit", "inch_unit"):
        unit = getattr(attribute, field)
        if not unit:
            raise file.fault(entry, field, "a number wants a unit")
        if not _is_of(unit, attribute.dimension):
            raise file.fault(entry, field, f"'{unit}' is not a unit of {attribute.dimension}")
    soft, hard = attribute.soft, attribute.hard
    for field, span in (("soft", soft), ("hard", hard)):
        if span and span.low > span.high:
            raise file.fault(entry, field, "wants the lower end first")
    if soft and hard and not (hard.holds(soft.low) and hard.holds(soft.high)):
        raise file.fault(entry, "soft", "the soft range must lie inside the hard one")


def _check_no_number(file: ResourceFile, entry: Entry, attribute: Attribute) -> None:
    """Check that words carry nothing that belongs to numbers."""
    for field in ("dimension", "unit", "inch_unit", "soft", "hard"):
        if getattr(attribute, field):
            raise file.fault(entry, field, f"does not go with kind '{attribute.kind.value}'")


def _check_choices(file: ResourceFile, entry: Entry, attribute: Attribute) -> None:
    """Check that a choice, and nothing else, has two answers or more, each with its own key."""
    keys = [choice.key for choice in attribute.choices]
    if attribute.kind != Kind.CHOICE:
        if keys:
            raise file.fault(entry, "choices", f"do not go with kind '{attribute.kind.value}'")
        return
    if len(keys) < 2:
        raise file.fault(entry, "choices", "a choice wants two answers or more")
    for key in keys:
        if keys.count(key) > 1:
            raise file.fault(entry, "choices", f"the answer '{key}' stands twice")


def _is_of(unit: str, dimension: str) -> bool:
    """Whether the unit registry knows the unit, and as one of that dimension."""
    try:
        found = dimension_of(unit)
    except OurFault:
        return False
    return found == dimension or frozenset({found, dimension}) in ALIKE


def _specimen_fields() -> set[str]:
    """Return the names of a specimen's fields."""
    return {field.name for field in fields(Specimen)}
