"""Reading one file of resources/: plain TOML that a person can edit, faults named by line.

A file holds keyed tables (`[attribute.media_length]`, `[rule.can_wall]`) and single tables
(`[sequence]`). Each becomes an `Entry`, and each entry one frozen dataclass. Whatever is wrong
raises ResourceFault with file, line, entry and field.
"""

from __future__ import annotations

import dataclasses
import difflib
import re
import tomllib
from dataclasses import dataclass
from enum import Enum
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeVar, get_args, get_type_hints

import msgspec

from benchlog.errors import ResourceFault

T = TypeVar("T")

PLAIN_KINDS = {
    "str": "text",
    "float": "a number",
    "int": "a whole number",
    "bool": "true or false",
    "array": "a list",
    "object": "a table",
    "null": "nothing",
}


@dataclass(frozen=True)
class Entry:
    """One table of a file: `[table.key]`, or `[table]` with an empty `key`."""

    table: str
    key: str
    fields: dict[str, Any]

    @property
    def name(self) -> str:
        """What a fault calls this entry."""
        return self.key or self.table

    def having(self, **fields: Any) -> Entry:
        """Return the same entry with some fields put in another form."""
        return dataclasses.replace(self, fields={**self.fields, **fields})


@dataclass(frozen=True)
class ResourceFile:
    """One file, read: `name` is how faults call it, `text` what stands in it."""

    name: str
    text: str
    tables: dict[str, Any]

    def entries(self, table: str) -> tuple[Entry, ...]:
        """Return the entries `[table.*]` in the order of the file; none when there are none."""
        found = self.tables.get(table, {})
        if not isinstance(found, dict):
            raise self.fault(Entry(table, "", {}), "", f"wants tables like [{table}.name]")
        for key, fields in found.items():
            if not isinstance(fields, dict):
                raise self.fault(Entry(table, "", found), key, f"wants a table [{table}.{key}]")
        return tuple(Entry(table, key, fields) for key, fields in found.items())

    def single(self, table: str) -> Entry:
        """Return the one table `[table]`; raises ResourceFault when the file has none."""
        found = self.tables.get(table)
        if not isinstance(found, dict):
            raise ResourceFault(self.name, f"the table [{table}] is missing", entry=table)
        return Entry(table, "", found)

    def only(self, *tables: str) -> None:
        """Refuse any top-level table or value beside these."""
        for table in self.tables:
            if table not in tables:
                fault = Entry(table, "", {})
                raise self.fault(fault, "", f"is not known here{_nearest(table, tables)}")

    def convert(self, entry: Entry, into: type[T]) -> T:
        """Return the entry as that dataclass; a keyed entry lends its key to a field `key`."""
        hints = _hints(into)
        fields = entry.fields
        if entry.key and "key" in hints:
            if "key" in fields:
                raise self.fault(entry, "key", "the key stands in the heading, not in a field")
            fields = {"key": entry.key, **fields}
        stranger = _stranger(fields, into)
        if stranger:
            field, name, known = stranger
            raise self.fault(entry, field, f"'{name}' is not a known field{_nearest(name, known)}")
        try:
            return msgspec.convert(fields, into)
        except msgspec.ValidationError as error:
            field, what = _plain(str(error), hints)
            raise self.fault(entry, field, what) from error

    def fault(self, entry: Entry, field: str, what: str) -> ResourceFault:
        """Return (to raise) the fault of that entry and field, with its line in the file."""
        line = self._line(entry, field)
        return ResourceFault(self.name, what, entry=entry.name, field=field, line=line)

    def _line(self, entry: Entry, field: str) -> int | None:
        """Find the field's line; the entry's heading when the field does not stand in it."""
        heading = f"{entry.table}.{entry.key}" if entry.key else entry.table
        start: int | None = None
        here = ""
        for number, line in enumerate(self.text.splitlines(), start=1):
            if match := re.match(r"\s*\[+\s*([^\]]+?)\s*\]", line):
                here = match[1].replace('"', "").replace("'", "")
                if here == heading or (start is None and here.startswith(f"{heading}.")):
                    start = number
                if field and here == f"{heading}.{field}":
                    return number
            elif here == heading and field and re.match(rf'\s*"?{re.escape(field)}"?\s*[=.]', line):
                return number
        return start


def resources_folder() -> Path:
    """Return the folder of the shipped resources: inside the wheel, or the checkout's own."""
    packed = Path(str(files("benchlog"))) / "_resources"
    if packed.is_dir():
        return packed
    return Path(str(files("benchlog"))).parent / "resources"


def read_resource(relative: str | Path, root: Path | None = None) -> ResourceFile:
    """Read a file of the resources folder, of another folder `root`, or by its absolute path."""
    path = (root or resources_folder()) / relative
    name = str(relative)
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise ResourceFault(name, "is not plain UTF-8 text") from error
    except OSError as error:
        raise ResourceFault(name, f"cannot be read ({error.strerror})") from error
    try:
        return ResourceFile(name, text, tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise _broken(name, text, str(error)) from error


def _broken(name: str, text: str, message: str) -> ResourceFault:
    """Say what the parser said, with the entry and field that stand around its line."""
    lines = text.splitlines()
    place = re.search(r" ?\(at (?:line (\d+), column \d+|end of document)\)", message)
    what = message.replace(place[0], "") if place else message
    line = int(place[1]) if place and place[1] else max(len(lines), 1)
    entry = field = ""
    for earlier in lines[:line]:
        if match := re.match(r"\s*\[+\s*([^\]]+?)\s*\]", earlier):
            entry, field = match[1].split(".", 1)[-1], ""
        elif match := re.match(r"\s*([\w-]+)\s*=", earlier):
            field = match[1]
    return ResourceFault(name, f"is not sound TOML: {what}", entry=entry, field=field, line=line)


def _stranger(fields: dict[str, Any], into: type[Any]) -> tuple[str, str, list[str]] | None:
    """Find a field that the dataclass does not have, in it or in a dataclass inside it."""
    hints = _hints(into)
    for name, value in fields.items():
        if name not in hints:
            return name, name, list(hints)
        inner = _dataclass_in(hints[name])
        for part in value if isinstance(value, list) else [value]:
            if inner and isinstance(part, dict) and (found := _stranger(part, inner)):
                return name, found[1], found[2]
    return None


_HINTS: dict[Any, dict[str, Any]] = {}


def _hints(into: type[Any]) -> dict[str, Any]:
    """Return the types of a dataclass's fields; slow to find out, and asked for every entry."""
    if into not in _HINTS:
        _HINTS[into] = get_type_hints(into)
    return _HINTS[into]


def _dataclass_in(hint: Any) -> type[Any] | None:
    """Return the dataclass that a hint is, or holds as in `Range | None`, `tuple[Choice, ...]`."""
    if isinstance(hint, type) and dataclasses.is_dataclass(hint):
        return hint
    return next(filter(None, map(_dataclass_in, get_args(hint))), None)


def _plain(message: str, hints: dict[str, Any]) -> tuple[str, str]:
    """Turn the converter's message into a field and plain words."""
    place = re.search(r" - at `\$\.?(\w*)[^`]*`", message)
    field = place[1] if place else ""
    what = message.replace(place[0], "") if place else message
    if missing := re.match(r"Object missing required field `(\w+)`", what):
        return field or missing[1], f"'{missing[1]}' is missing"
    if wrong := re.match(r"Expected `([\w |]+)`, got `(\w+)`", what):
        wanted = " or ".join(PLAIN_KINDS.get(k, k) for k in wrong[1].split(" | ") if k != "null")
        return field, f"wants {wanted}, not {PLAIN_KINDS.get(wrong[2], wrong[2])}"
    hint = hints.get(field)
    if what.startswith("Invalid enum value") and isinstance(hint, type) and issubclass(hint, Enum):
        given = what.removeprefix("Invalid enum value ")
        return field, f"{given} is not one of: {', '.join(str(m.value) for m in hint)}"
    return field, what


def _nearest(name: str, known: Any) -> str:
    """Suggest the known name that was probably meant."""
    near = difflib.get_close_matches(name, list(known), n=1)
    return f"; '{near[0]}' was probably meant" if near else ""
