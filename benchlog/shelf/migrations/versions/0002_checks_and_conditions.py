"""Checks of instruments, corrections of whole groups of readings, and a line-up's conditions.

Checks and group corrections are append-only, as readings are.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

APPEND_ONLY = ("instrument_check", "group_correction")


def upgrade() -> None:
    """Make the two tables with their guards, then the new columns of the old tables."""
    _make_instrument_check()
    _make_group_correction()
    for table in APPEND_ONLY:
        op.create_index(f"ix_{table}_lineup_id", table, ["lineup_id"])
        _refuse(table, "UPDATE", "an entry is never changed")
        _refuse(table, "DELETE", "an entry is never deleted")
        _refuse_replacing(table)
    _add_columns()


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _head(table: str) -> list[sa.schema.SchemaItem]:
    """Return what both tables have: order, id, line-up and instrument."""
    return [
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("id", "lineup_id", "instrument_id"),
        sa.PrimaryKeyConstraint("seq", name=f"pk_{table}"),
        sa.UniqueConstraint("id", name=f"uq_{table}_id"),
        _points(table, "lineup_id", "lineup"),
        _points(table, "instrument_id", "instrument"),
    ]


def _points(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    name = f"fk_{table}_{column}_{target}"
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=name)


def _make_instrument_check() -> None:
    op.create_table(
        "instrument_check",
        *_head("instrument_check"),
        *_words("moment"),
        sa.Column("known", sa.Float(), nullable=False),
        sa.Column("tolerance", sa.Float(), nullable=False),
        *_words("said_text", "said_value", "said_unit"),
        *(sa.Column(f"said_{name}", sa.String()) for name in ("low", "high")),
        sa.Column("said_approximate", sa.Boolean(), nullable=False),
        *_words("at"),
        sa.Column("session_s", sa.Float(), nullable=False),
        sa.Column("after", sa.String()),
        *_words("standard", "note"),
        _points("instrument_check", "after", "reading"),
    )


def _make_group_correction() -> None:
    op.create_table(
        "group_correction",
        *_head("group_correction"),
        *_words("check_id", "remedy"),
        sa.Column("shift", sa.Float(), nullable=False),
        *_words("reason", "at"),
        sa.Column("takes_back", sa.String()),
        _points("group_correction", "check_id", "instrument_check"),
        _points("group_correction", "takes_back", "group_correction"),
        sa.UniqueConstraint("takes_back", name="uq_group_correction_takes_back"),
    )


def _add_columns() -> None:
    """Add columns in place: making a table anew would lose the guards of those that only grow."""
    op.execute(
        'ALTER TABLE reading ADD COLUMN "group" VARCHAR'
        " CONSTRAINT fk_reading_group_group_correction REFERENCES group_correction (id)"
    )
    op.add_column(
        "instrument",
        sa.Column("accuracy_class", sa.String(), nullable=False, server_default=""),
    )
    op.add_column(
        "instrument",
        sa.Column("verification_interval", sa.Float(), nullable=False, server_default="0"),
    )
    op.add_column("lineup", sa.Column("conditions", sa.String()))


def _refuse(table: str, deed: str, why: str) -> None:
    op.execute(
        f"CREATE TRIGGER {table}_refuses_{deed.lower()} BEFORE {deed} ON {table}"
        f" BEGIN SELECT RAISE(ABORT, '{table}: {why}'); END"
    )


def _refuse_replacing(table: str) -> None:
    """INSERT OR REPLACE deletes without asking the trigger for DELETE; so ask here."""
    op.execute(
        f"CREATE TRIGGER {table}_refuses_replace BEFORE INSERT ON {table}"
        f" WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id OR seq = NEW.seq)"
        f" BEGIN SELECT RAISE(ABORT, '{table}: this id is already used'); END"
    )
