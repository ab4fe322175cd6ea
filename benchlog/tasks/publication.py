"""What is kept of a published revision: its number, the record's digest, its files."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class Output:
    """One file of a revision: `name` is its path in the revision's folder, parts joined by "/".

    `kind` says what it belongs to: "sheet", "cards", "data", "chapters" or "description".
    """

    name: str
    kind: str
    sha256: str
    bytes: int


@dataclass(frozen=True)
class Publication:
    """One published revision of a line-up; revisions count from 1 without a gap.

    `digest` is that of the record as it was published. `reason` says why there is a further
    revision, "" for the first. The record itself lies beside it on the shelf, frozen.
    """

    id: str
    lineup_id: str
    revision: int
    at: datetime
    digest: str
    reason: str = ""
    outputs: tuple[Output, ...] = ()
