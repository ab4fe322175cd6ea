"""The tables of how a line-up is judged: locks, overrulings, blind runs, polls, purposes.

Every one of them only grows; triggers hold that against any program.
"""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Boolean, Column, ForeignKey, Index, Integer, String, Table, UniqueConstraint
from sqlalchemy.schema import SchemaItem

from benchlog.shelf.columns import Listing, PurposeText, RulesText, UtcTime
from benchlog.shelf.tables import metadata


def _words(*names: str) -> list[Column[str]]:
    return [Column(name, String, nullable=False) for name in names]


def _head() -> list[SchemaItem]:
    """Return what every table of a line-up has: order, id and line-up."""
    return [
        Column("seq", Integer, primary_key=True),
        Column("id", String, nullable=False),
        Column("lineup_id", String, ForeignKey("lineup.id"), nullable=False),
        UniqueConstraint("id"),
        Index(None, "lineup_id"),
    ]


def _at() -> Column[datetime]:
    return Column("at", UtcTime, nullable=False)


rules_lock = Table(
    "rules_lock",
    metadata,
    *_head(),
    Column("rules", RulesText, nullable=False),
    *_words("digest"),
    _at(),
    *_words("reason"),
    Column("after", String, ForeignKey("reading.id")),
    Column("after_cut", Boolean, nullable=False),
)

own_rules = Table(
    "own_rules",
    metadata,
    Column("seq", Integer, primary_key=True),
    *_words("key", "version"),
    Column("rules", RulesText, nullable=False),
    *_words("digest"),
    _at(),
    UniqueConstraint("key", "version"),
)

overruling = Table(
    "overruling",
    metadata,
    *_head(),
    *_words("component"),
    Column("kind", String),
    Column("winners", Listing, nullable=False),
    *_words("reason"),
    _at(),
)
"""A blank `kind` takes an earlier overruling back."""

blind_run = Table(
    "blind_run",
    metadata,
    *_head(),
    *(Column(name, Listing, nullable=False) for name in ("attributes", "codes", "orders")),
    Column("seed", Integer, nullable=False),
    _at(),
    Column("after", String, ForeignKey("reading.id")),
)

reveal = Table(
    "reveal",
    metadata,
    *_head(),
    Column("run_id", String, ForeignKey("blind_run.id"), nullable=False),
    _at(),
    UniqueConstraint("run_id"),
)

poll = Table(
    "poll",
    metadata,
    *_head(),
    *_words("question"),
    Column("votes", Listing, nullable=False),
    Column("before_reveal", Boolean, nullable=False),
    _at(),
)

declaration = Table(
    "declaration",
    metadata,
    *_head(),
    Column("purpose", PurposeText),
    *_words("digest"),
    _at(),
    *_words("reason"),
    Column("after", String, ForeignKey("reading.id")),
    Column("after_cut", Boolean, nullable=False),
)
"""A blank `purpose` takes back what was declared; its `digest` is ""."""
