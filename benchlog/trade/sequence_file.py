"""Reading a teardown sequence: its stations in order, and every attribute asked at them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from benchlog.measure.units import canonical
from benchlog.trade.attribute import Attribute, Choice, Sequence, Station
from benchlog.trade.attribute_rules import check_attribute
from benchlog.trade.material import load_materials
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource, resources_folder
from benchlog.trade.thread import load_threads

FOLDER = Path("sequence")

BEHIND_THE_READINGS = ("contact_pressure", "set_up")
"""Conditions of comparing that are no attributes: the instruments of the readings tell them."""


@dataclass(frozen=True)
class Heading:
    """The `[sequence]` table; `attributes` are files beside it that say what is asked.

    `leave_out` are keys in those files that this kind of filter has no use for.
    """

    label: str
    version: str
    attributes: tuple[str, ...]
    leave_out: tuple[str, ...] = ()


def sequence_keys() -> tuple[str, ...]:
    """Return the keys of the shipped sequences, in alphabetical order."""
    return tuple(sorted(path.stem for path in (resources_folder() / FOLDER).glob("*.toml")))


@cache
def load_sequence(key: str, root: Path | None = None) -> Sequence:
    """Return the sequence 'spin_on' or 'cartridge', from the shipped resources or from `root`.

    Attributes stand in the order of the stations, and within one in the order of the files.
    Raises ResourceFault naming file, line, entry and field.
    """
    file = read_resource(FOLDER / f"{key}.toml", root)
    file.only("sequence", "station")
    top = file.single("sequence")
    heading = file.convert(top, Heading)
    stations = tuple(file.convert(entry, Station) for entry in file.entries("station"))
    if not stations:
        raise file.fault(top, "", "has no stations")
    places = {station.key: place for place, station in enumerate(stations)}
    found = _attributes(file, top, heading, root)
    for part, entry, attribute in found.values():
        if attribute.station not in places:
            raise part.fault(entry, "station", f"there is no station '{attribute.station}'")
        for other in attribute.comparable_when:
            if other not in BEHIND_THE_READINGS and other not in found:
                raise part.fault(entry, "comparable_when", f"there is no attribute '{other}'")
    attributes = sorted((a for _, _, a in found.values()), key=lambda a: places[a.station])
    return Sequence(key, heading.label, heading.version, stations, tuple(attributes))


Found = dict[str, tuple[ResourceFile, Entry, Attribute]]


def _attributes(file: ResourceFile, top: Entry, heading: Heading, root: Path | None) -> Found:
    """Read every attribute of the listed files, with the place where each was found."""
    found: Found = {}
    seen: set[str] = set()
    for relative in heading.attributes:
        part = read_resource(FOLDER / relative, root)
        part.only("attribute")
        for entry in part.entries("attribute"):
            if entry.key in seen:
                raise part.fault(entry, "", "this key is already used in another file")
            seen.add(entry.key)
            if entry.key not in heading.leave_out:
                attribute = _attribute(part, entry, root)
                found[entry.key] = (part, entry, attribute)
    for key in heading.leave_out:
        if key not in seen:
            raise file.fault(top, "leave_out", f"there is no attribute '{key}' to leave out")
    return found


def _attribute(file: ResourceFile, entry: Entry, root: Path | None) -> Attribute:
    """Turn one entry into a checked attribute; lists of a person's file become the records'."""
    fields = dict(entry.fields)
    shared = fields.pop("choices_from", None)
    own = fields.get("choices", {})
    if not isinstance(own, dict):
        raise file.fault(entry, "choices", 'wants lines like key = "what is shown"')
    fields["choices"] = [{"key": key, "label": label} for key, label in own.items()]
    for name in ("soft", "hard"):
        if name in fields:
            fields[name] = _range(file, entry, name, fields[name])
    attribute = file.convert(replace(entry, fields=fields), Attribute)
    if shared is not None:
        common = _shared_choices(file, entry, shared, root)
        attribute = replace(attribute, choices=(*common, *attribute.choices))
    check_attribute(file, entry, attribute)
    if not attribute.is_number:
        return attribute
    return replace(
        attribute, unit=canonical(attribute.unit), inch_unit=canonical(attribute.inch_unit)
    )


def _range(file: ResourceFile, entry: Entry, name: str, given: Any) -> dict[str, Any]:
    """Turn [low, high] into a range's fields."""
    if not isinstance(given, list) or len(given) != 2:
        raise file.fault(entry, name, "wants two numbers, [low, high]")
    return {"low": given[0], "high": given[1]}


def _shared_choices(
    file: ResourceFile, entry: Entry, name: Any, root: Path | None
) -> tuple[Choice, ...]:
    """Return the choices that other files of the trade hold."""
    if name == "threads":
        return tuple(Choice(thread.code, thread.label) for thread in load_threads(root))
    if name == "elastomers":
        return load_materials(root).rubber_choices
    if name == "media_kinds":
        return load_materials(root).media_kinds
    raise file.fault(entry, "choices_from", "wants 'threads', 'elastomers' or 'media_kinds'")
