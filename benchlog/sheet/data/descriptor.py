"""datapackage.json: what is in the package, for programs that read Data Packages.

The profile is version 2 (`$schema`). What version 1 also asks stands beside it where version 2
allows that: lower-case names, a `profile` on each table, an array as primary key. The package as a
whole names no version 1 profile, because it also holds files that are no tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from benchlog.sheet.data.licence import Licence
from benchlog.sheet.data.table import Field, Table
from benchlog.tasks.digest import plain
from benchlog.tasks.record import Record

PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
DIALECT = {
    "delimiter": ",",
    "lineTerminator": "\r\n",
    "quoteChar": '"',
    "doubleQuote": True,
    "header": True,
}


@dataclass(frozen=True)
class Written:
    """One file of the package: its path in it, its size, and the SHA-256 of its bytes."""

    path: str
    size: int
    sha256: str
    media_type: str


def descriptor_of(
    record: Record, licence: Licence, tables: dict[str, Table], files: tuple[Written, ...]
) -> dict[str, Any]:
    """Return the descriptor; `tables` are keyed by the paths of their files."""
    lineup = record.lineup
    made: dict[str, Any] = {
        "$schema": PROFILE,
        "name": f"teardown-{record.digest[:12]}",
        "id": record.digest,
        "title": lineup.name or "Teardown",
        "description": lineup.question or "A teardown of filters, with every reading.",
        "version": f"{record.revision}-draft" if record.draft else str(record.revision),
        "created": plain(max((r.at for r in record.readings), default=lineup.created_at)),
        "licenses": [{"name": licence.name, "title": licence.title, "path": licence.path}],
        "resources": [_resource(one, tables.get(one.path)) for one in files],
    }
    if lineup.reviewer:
        made["contributors"] = [{"title": lineup.reviewer, "roles": ["creator"]}]
    return made


def _resource(file: Written, table: Table | None) -> dict[str, Any]:
    stem, _, ending = file.path.rpartition(".")
    made: dict[str, Any] = {
        "name": stem.replace("/", "-").replace("_", "-").lower(),
        "path": file.path,
        "format": ending,
        "mediatype": file.media_type,
        "bytes": file.size,
        "hash": f"sha256:{file.sha256}",
    }
    if table is None:
        return made
    return {
        **made,
        "title": table.title,
        "type": "table",
        "profile": "tabular-data-resource",
        "encoding": "utf-8",
        "dialect": DIALECT,
        "schema": {
            "fields": [_field(one) for one in table.fields],
            "primaryKey": list(table.key),
            "missingValues": [""],
        },
    }


def _field(field: Field) -> dict[str, Any]:
    said = f"{field.about}, in {field.unit}" if field.unit else field.about
    made: dict[str, Any] = {
        "name": field.name,
        "type": field.kind.value,
        "description": f"{said} ({field.source})" if field.source else said,
    }
    if field.kind.value == "datetime":
        made["format"] = "%Y-%m-%dT%H:%M:%S.%fZ"
    if field.required:
        made["constraints"] = {"required": True}
    return made
