"""Reading resources/scales/templates.toml: every shape checked, down to its examples."""

from __future__ import annotations

import re
from pathlib import Path

from benchlog.instruments.template import (
    GROUPS,
    KINDS,
    MASS_UNITS,
    MOTIONS,
    NO_WEIGHT,
    Template,
    Templates,
)
from benchlog.instruments.template_check import check_examples
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

TEMPLATES = Path("scales") / "templates.toml"


def load_templates(root: Path | None = None) -> Templates:
    """Read the shapes from the shipped resources or another folder of resources.

    Raises ResourceFault with file, line, entry and field: for a fault of form, an unsound
    pattern, an unknown meaning or unit, or an example that does not come to what it says.
    """
    file = read_resource(TEMPLATES, root)
    file.only("units", "template")
    units = _units(file)
    shapes = []
    for entry in file.entries("template"):
        shape = file.convert(entry, Template)
        _check(file, entry, shape)
        shapes.append(shape)
    templates = Templates(tuple(shapes), units, file.name)
    check_examples(file, templates)
    return templates


def _units(file: ResourceFile) -> dict[str, str]:
    entry = file.single("units")
    for spelling, name in entry.fields.items():
        if name not in MASS_UNITS:
            what = f"'{name}' is not one of: {', '.join(MASS_UNITS)}"
            raise file.fault(entry, spelling, what)
    return dict(entry.fields)


def _check(file: ResourceFile, entry: Entry, shape: Template) -> None:
    """Refuse a shape whose pattern or meanings cannot be understood."""
    try:
        groups = set(shape.compiled.groupindex)
    except re.error as error:
        raise file.fault(entry, "pattern", f"is not a sound pattern: {error}") from error
    if strangers := groups - GROUPS:
        what = f"the group '{min(strangers)}' is not one of: {', '.join(sorted(GROUPS))}"
        raise file.fault(entry, "pattern", what)
    if "number" not in groups:
        raise file.fault(entry, "pattern", "has no group 'number'")
    for name, table, known in (
        ("motion", shape.motion, [*MOTIONS, NO_WEIGHT]),
        ("kind", shape.kind, list(KINDS)),
    ):
        for meaning in table.values():
            if meaning not in known:
                what = f"'{meaning}' is not one of: {', '.join(known)}"
                raise file.fault(entry, name, what)
    if not shape.examples:
        raise file.fault(entry, "examples", "wants one example at least")
