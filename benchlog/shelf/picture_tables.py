"""The tables of pictures through a microscope: set-ups, fields, and what was measured on them.

Every one of them only grows; triggers hold that against any program.
"""

from __future__ import annotations

from sqlalchemy import (
    Boolean,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    String,
    Table,
    UniqueConstraint,
)

from benchlog.shelf.columns import Listing, Real, UtcTime
from benchlog.shelf.tables import metadata


def _words(*names: str) -> list[Column[str]]:
    return [Column(name, String, nullable=False) for name in names]


microscope_set_up = Table(
    "microscope_set_up",
    metadata,
    Column("seq", Integer, primary_key=True),
    Column("id", String, ForeignKey("instrument.id"), nullable=False),
    *_words("name", "microscope", "objective", "light"),
    Column("um_per_px", Real, nullable=False),
    Column("u_um_per_px", Real, nullable=False),
    *_words("scale_from"),
    Column("at", UtcTime, nullable=False),
    Column("width_px", Integer, nullable=False),
    Column("height_px", Integer, nullable=False),
    Column("division_um", Real, nullable=False),
    Column("division_u_um", Real, nullable=False),
    *_words("scale_picture", "scale_media_type"),
    Column("scale_notes", Listing, nullable=False),
    Column("edge_offset_px", Real),
    *_words("reference_fibre", "note"),
    Column("replaces", String, ForeignKey("microscope_set_up.id")),
    UniqueConstraint("id"),
)
"""`scale_media_type` says under which name the picture of the scale lies among the photos."""

micrograph = Table(
    "micrograph",
    metadata,
    Column("seq", Integer, primary_key=True),
    *_words("id"),
    Column("lineup_id", String, ForeignKey("lineup.id"), nullable=False),
    *_words("specimen_id", "side"),
    Column("field", Integer, nullable=False),
    Column("set_up_id", String, ForeignKey("microscope_set_up.id"), nullable=False),
    *_words("photo_id"),
    Column("at", UtcTime, nullable=False),
    Column("supersedes", String, ForeignKey("micrograph.id")),
    Column("withdrawn", Boolean, nullable=False),
    UniqueConstraint("id"),
    UniqueConstraint("supersedes"),
    ForeignKeyConstraint(["lineup_id", "specimen_id"], ["specimen.lineup_id", "specimen.id"]),
    Index(None, "lineup_id"),
)

picture_answer = Table(
    "picture_answer",
    metadata,
    Column("seq", Integer, primary_key=True),
    *_words("id"),
    Column("micrograph_id", String, ForeignKey("micrograph.id"), nullable=False),
    Column("at", UtcTime, nullable=False),
    *_words("method", "verdict", "light"),
    *(
        Column(name, Listing, nullable=False)
        for name in ("reasons", "warnings", "withheld", "gates", "figures")
    ),
    Column("fibres", Real, nullable=False),
    *(Column(name, Listing, nullable=False) for name in ("edges_um", "shares", "readings")),
    UniqueConstraint("id"),
    Index(None, "micrograph_id"),
)
"""`gates` and `figures` hold the fields of each, in their order."""
