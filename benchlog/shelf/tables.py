"""The tables of the newest layout; migrations/versions/ says how a file came to have them.

Each table has a running number `seq` (or a `position`), so that order never hangs on a clock.
"""

from __future__ import annotations

from sqlalchemy import (
    Boolean,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    UniqueConstraint,
)

from benchlog.shelf.columns import ConditionsText, DecimalText, Listing, Real, UtcTime

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _words(*names: str) -> list[Column[str]]:
    return [Column(name, String, nullable=False) for name in names]


def _seq() -> Column[int]:
    return Column("seq", Integer, primary_key=True)


def _of_lineup() -> Column[str]:
    return Column("lineup_id", String, ForeignKey("lineup.id"), nullable=False)


def _of_specimen() -> ForeignKeyConstraint:
    """Hold a specimen to its line-up; a blank specimen (none in particular) is let through."""
    return ForeignKeyConstraint(["lineup_id", "specimen_id"], ["specimen.lineup_id", "specimen.id"])


meta = Table(
    "meta",
    metadata,
    Column("key", String, primary_key=True),
    *_words("value"),
)

lineup = Table(
    "lineup",
    metadata,
    _seq(),
    *_words("id", "name", "question", "sequence", "rules"),
    Column("created_at", UtcTime, nullable=False),
    Column("attributes", Listing, nullable=False),
    *_words("reviewer"),
    Column("rehearsal", Boolean, nullable=False),
    Column("conditions", ConditionsText),
    Column("balanced", Boolean, nullable=False),
    UniqueConstraint("id"),
)

specimen = Table(
    "specimen",
    metadata,
    Column("lineup_id", String, ForeignKey("lineup.id"), primary_key=True),
    Column("id", String, primary_key=True),
    Column("position", Integer, nullable=False),
    *_words("nickname", "shape", "colour", "maker", "part_number", "lot"),
    *_words("origin_box", "origin_can", "origin_inferred", "paid", "giver"),
    Column("price", DecimalText),
    *_words("currency", "bought_on", "note"),
)

instrument = Table(
    "instrument",
    metadata,
    _seq(),
    *_words("id", "name", "kind", "unit"),
    Column("resolution", Real, nullable=False),
    Column("permissible_error", Real, nullable=False),
    Column("contact_pressure_kpa", Real),
    *_words("note", "accuracy_class"),
    Column("verification_interval", Real, nullable=False),
    UniqueConstraint("id"),
)

reading = Table(
    "reading",
    metadata,
    _seq(),
    *_words("id", "lineup_id", "specimen_id", "attribute"),
    Column("ordinal", Integer, nullable=False),
    *_words("state", "text"),
    Column("at", UtcTime, nullable=False),
    Column("session_s", Real, nullable=False),
    *_words("source"),
    Column("said_text", String),
    Column("said_value", DecimalText),
    Column("said_unit", String),
    Column("said_low", DecimalText),
    Column("said_high", DecimalText),
    Column("said_approximate", Boolean),
    Column("word", String),
    Column("si_value", Real),
    Column("si_low", Real),
    Column("si_high", Real),
    *_words("si_unit"),
    Column("instrument_id", String, ForeignKey("instrument.id")),
    Column("raw", LargeBinary),
    *_words("reason"),
    Column("supersedes", String, ForeignKey("reading.id")),
    Column("withdrawn", Boolean, nullable=False),
    Column("group", String, ForeignKey("group_correction.id", use_alter=True)),
    Column("blind", Boolean, nullable=False),
    UniqueConstraint("id"),
    UniqueConstraint("supersedes"),
    _of_specimen(),
    Index(None, "lineup_id"),
)

instrument_check = Table(
    "instrument_check",
    metadata,
    _seq(),
    *_words("id"),
    _of_lineup(),
    Column("instrument_id", String, ForeignKey("instrument.id"), nullable=False),
    *_words("moment"),
    Column("known", Real, nullable=False),
    Column("tolerance", Real, nullable=False),
    *_words("said_text"),
    Column("said_value", DecimalText, nullable=False),
    *_words("said_unit"),
    Column("said_low", DecimalText),
    Column("said_high", DecimalText),
    Column("said_approximate", Boolean, nullable=False),
    Column("at", UtcTime, nullable=False),
    Column("session_s", Real, nullable=False),
    Column("after", String, ForeignKey("reading.id")),
    *_words("standard", "note"),
    UniqueConstraint("id"),
    Index(None, "lineup_id"),
)

group_correction = Table(
    "group_correction",
    metadata,
    _seq(),
    *_words("id"),
    _of_lineup(),
    Column("instrument_id", String, ForeignKey("instrument.id"), nullable=False),
    Column("check_id", String, ForeignKey("instrument_check.id"), nullable=False),
    *_words("remedy"),
    Column("shift", Real, nullable=False),
    *_words("reason"),
    Column("at", UtcTime, nullable=False),
    Column("takes_back", String, ForeignKey("group_correction.id")),
    UniqueConstraint("id"),
    UniqueConstraint("takes_back"),
    Index(None, "lineup_id"),
)

photo = Table(
    "photo",
    metadata,
    _seq(),
    *_words("id"),
    _of_lineup(),
    Column("specimen_id", String),
    *_words("station", "name", "media_type"),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("at", UtcTime, nullable=False),
    *_words("caption"),
    _of_specimen(),
    Index(None, "lineup_id"),
    Index(None, "id"),
)

moment = Table(
    "moment",
    metadata,
    _seq(),
    *_words("id"),
    _of_lineup(),
    Column("at", UtcTime, nullable=False),
    Column("session_s", Real, nullable=False),
    *_words("label"),
    UniqueConstraint("id"),
    Index(None, "lineup_id"),
)

remark = Table(
    "remark",
    metadata,
    _seq(),
    *_words("id"),
    _of_lineup(),
    *_words("component"),
    Column("specimen_id", String),
    *_words("text"),
    Column("at", UtcTime, nullable=False),
    UniqueConstraint("id"),
    _of_specimen(),
    Index(None, "lineup_id"),
)

place = Table(
    "place",
    metadata,
    Column("lineup_id", String, ForeignKey("lineup.id"), primary_key=True),
    *_words("station", "attribute", "specimen_id"),
    Column("by_specimen", Boolean, nullable=False),
    *_words("half_typed"),
    Column("passed", Listing, nullable=False),
    Column("tools", Listing, nullable=False),
    Column("turn", Integer, nullable=False),
)
"""`turn` grows with every saving: the largest is the place that was saved last."""

change = Table(
    "change",
    metadata,
    _seq(),
    *_words("entity", "entity_id", "field"),
    Column("old", String),
    Column("new", String),
    Column("at", UtcTime, nullable=False),
    Index(None, "entity", "entity_id"),
)
