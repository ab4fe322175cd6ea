"""How a line-up is judged: locked rules, own rules, overrulings, blind runs, reveals and polls.

All of them are append-only, as readings are. Readings tell whether they were made blind, and a
line-up whether its specimens take turns at being first.
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

OF_LINEUP = ("rules_lock", "overruling", "blind_run", "reveal", "poll")


def upgrade() -> None:
    """Make the six tables with their guards, then the new columns of the old tables."""
    _make_rules()
    _make_hand_and_eye()
    for table in OF_LINEUP:
        op.create_index(f"ix_{table}_lineup_id", table, ["lineup_id"])
        _refuse_replacing(table, "id = NEW.id")
    _refuse_replacing("own_rules", '("key" = NEW."key" AND version = NEW.version)')
    _refuse_replacing("reveal", "run_id = NEW.run_id", "second")
    for table in (*OF_LINEUP, "own_rules"):
        _refuse(table, "UPDATE", "an entry is never changed")
        _refuse(table, "DELETE", "an entry is never deleted")
    # In place: making a table anew would lose the guards of those that only grow.
    for table, column in (("reading", "blind"), ("lineup", "balanced")):
        op.add_column(table, sa.Column(column, sa.Boolean(), nullable=False, server_default="0"))


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _head(table: str) -> list[sa.schema.SchemaItem]:
    """Return what every table of a line-up has: order, id, line-up and moment."""
    return [
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("id", "lineup_id", "at"),
        sa.PrimaryKeyConstraint("seq", name=f"pk_{table}"),
        sa.UniqueConstraint("id", name=f"uq_{table}_id"),
        _points(table, "lineup_id", "lineup"),
    ]


def _points(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    name = f"fk_{table}_{column}_{target}"
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=name)


def _make_rules() -> None:
    op.create_table(
        "rules_lock",
        *_head("rules_lock"),
        *_words("rules", "digest", "reason"),
        sa.Column("after", sa.String()),
        sa.Column("after_cut", sa.Boolean(), nullable=False),
        _points("rules_lock", "after", "reading"),
    )
    op.create_table(
        "own_rules",
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("key", "version", "rules", "digest", "at"),
        sa.PrimaryKeyConstraint("seq", name="pk_own_rules"),
        sa.UniqueConstraint("key", "version", name="uq_own_rules_key_version"),
    )


def _make_hand_and_eye() -> None:
    op.create_table(
        "overruling",
        *_head("overruling"),
        *_words("component"),
        sa.Column("kind", sa.String()),
        *_words("winners", "reason"),
    )
    op.create_table(
        "blind_run",
        *_head("blind_run"),
        *_words("attributes", "codes", "orders"),
        sa.Column("seed", sa.Integer(), nullable=False),
        sa.Column("after", sa.String()),
        _points("blind_run", "after", "reading"),
    )
    op.create_table(
        "reveal",
        *_head("reveal"),
        *_words("run_id"),
        _points("reveal", "run_id", "blind_run"),
        sa.UniqueConstraint("run_id", name="uq_reveal_run_id"),
    )
    op.create_table(
        "poll",
        *_head("poll"),
        *_words("question", "votes"),
        sa.Column("before_reveal", sa.Boolean(), nullable=False),
    )


def _refuse(table: str, deed: str, why: str) -> None:
    op.execute(
        f"CREATE TRIGGER {table}_refuses_{deed.lower()} BEFORE {deed} ON {table}"
        f" BEGIN SELECT RAISE(ABORT, '{table}: {why}'); END"
    )


def _refuse_replacing(table: str, same: str, name: str = "replace") -> None:
    """INSERT OR REPLACE deletes without asking the trigger for DELETE; so ask here."""
    op.execute(
        f"CREATE TRIGGER {table}_refuses_{name} BEFORE INSERT ON {table}"
        f" WHEN EXISTS (SELECT 1 FROM {table} WHERE {same} OR seq = NEW.seq)"
        f" BEGIN SELECT RAISE(ABORT, '{table}: this id is already used'); END"
    )
