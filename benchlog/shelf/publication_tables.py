"""The table of what was published; it only grows, and triggers hold that against any program."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Index, Integer, String, Table, UniqueConstraint

from benchlog.shelf.columns import Listing, UtcTime
from benchlog.shelf.tables import metadata

publication = Table(
    "publication",
    metadata,
    Column("seq", Integer, primary_key=True),
    Column("id", String, nullable=False),
    Column("lineup_id", String, ForeignKey("lineup.id"), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("at", UtcTime, nullable=False),
    Column("digest", String, nullable=False),
    Column("reason", String, nullable=False),
    Column("record", String, nullable=False),
    Column("outputs", Listing, nullable=False),
    UniqueConstraint("id"),
    UniqueConstraint("lineup_id", "revision"),
    Index(None, "lineup_id"),
)
"""`record` is the frozen record as JSON; `outputs` hold name, kind, SHA-256 and bytes of each."""
