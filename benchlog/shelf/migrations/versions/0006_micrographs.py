"""Pictures of the media: microscope set-ups, the fields taken with them, what was measured.

Append-only, as readings are. The pictures themselves lie among the photos.
"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables and their guards."""
    _set_ups()
    _micrographs()
    _answers()
    for table in ("microscope_set_up", "micrograph", "picture_answer"):
        _guard(table)
    op.execute(
        "CREATE TRIGGER micrograph_refuses_second_correction BEFORE INSERT ON micrograph"
        " WHEN NEW.supersedes IS NOT NULL"
        " AND EXISTS (SELECT 1 FROM micrograph WHERE supersedes = NEW.supersedes)"
        " BEGIN SELECT RAISE(ABORT, 'micrograph: this picture has already been replaced'); END"
    )


def _set_ups() -> None:
    table = "microscope_set_up"
    op.create_table(
        table,
        *_head(table),
        *_words("name", "microscope", "objective", "light"),
        *_numbers("um_per_px", "u_um_per_px"),
        *_words("scale_from", "at"),
        sa.Column("width_px", sa.Integer(), nullable=False),
        sa.Column("height_px", sa.Integer(), nullable=False),
        *_numbers("division_um", "division_u_um"),
        *_words("scale_picture", "scale_media_type", "scale_notes"),
        sa.Column("edge_offset_px", sa.Float()),
        *_words("reference_fibre", "note"),
        sa.Column("replaces", sa.String()),
        _points(table, "id", "instrument"),
        _points(table, "replaces", table),
    )


def _micrographs() -> None:
    table = "micrograph"
    op.create_table(
        table,
        *_head(table),
        *_words("lineup_id", "specimen_id", "side"),
        sa.Column("field", sa.Integer(), nullable=False),
        *_words("set_up_id", "photo_id", "at"),
        sa.Column("supersedes", sa.String()),
        sa.Column("withdrawn", sa.Boolean(), nullable=False),
        sa.UniqueConstraint("supersedes", name="uq_micrograph_supersedes"),
        _points(table, "lineup_id", "lineup"),
        _points(table, "set_up_id", "microscope_set_up"),
        _points(table, "supersedes", table),
        sa.ForeignKeyConstraint(
            ["lineup_id", "specimen_id"],
            ["specimen.lineup_id", "specimen.id"],
            name="fk_micrograph_lineup_id_specimen",
        ),
    )
    op.create_index("ix_micrograph_lineup_id", table, ["lineup_id"])


def _answers() -> None:
    table = "picture_answer"
    op.create_table(
        table,
        *_head(table),
        *_words("micrograph_id", "at", "method", "verdict", "light"),
        *_words("reasons", "warnings", "withheld", "gates", "figures"),
        *_numbers("fibres"),
        *_words("edges_um", "shares", "readings"),
        _points(table, "micrograph_id", "micrograph"),
    )
    op.create_index("ix_picture_answer_micrograph_id", table, ["micrograph_id"])


def _head(table: str) -> list[sa.schema.SchemaItem]:
    return [
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("id"),
        sa.PrimaryKeyConstraint("seq", name=f"pk_{table}"),
        sa.UniqueConstraint("id", name=f"uq_{table}_id"),
    ]


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _numbers(*names: str) -> list[sa.Column[float]]:
    return [sa.Column(name, sa.Float(), nullable=False) for name in names]


def _points(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    name = f"fk_{table}_{column}_{target}"
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=name)


def _guard(table: str) -> None:
    for deed, why in (("UPDATE", "changed"), ("DELETE", "deleted")):
        op.execute(
            f"CREATE TRIGGER {table}_refuses_{deed.lower()} BEFORE {deed} ON {table}"
            f" BEGIN SELECT RAISE(ABORT, '{table}: an entry is never {why}'); END"
        )
    # INSERT OR REPLACE deletes without asking the trigger for DELETE; so ask here.
    op.execute(
        f"CREATE TRIGGER {table}_refuses_replace BEFORE INSERT ON {table}"
        f" WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id OR seq = NEW.seq)"
        f" BEGIN SELECT RAISE(ABORT, '{table}: this id is already used'); END"
    )
