"""What a line-up is ranked for: each purpose as it was declared, whole, and each taking back.

Append-only, as readings are.
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table and its guards."""
    op.create_table(
        "declaration",
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("id", "lineup_id"),
        sa.Column("purpose", sa.String()),
        *_words("digest", "at", "reason"),
        sa.Column("after", sa.String()),
        sa.Column("after_cut", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_declaration"),
        sa.UniqueConstraint("id", name="uq_declaration_id"),
        _points("lineup_id", "lineup"),
        _points("after", "reading"),
    )
    op.create_index("ix_declaration_lineup_id", "declaration", ["lineup_id"])
    for deed, why in (("UPDATE", "changed"), ("DELETE", "deleted")):
        op.execute(
            f"CREATE TRIGGER declaration_refuses_{deed.lower()} BEFORE {deed} ON declaration"
            f" BEGIN SELECT RAISE(ABORT, 'declaration: an entry is never {why}'); END"
        )
    # INSERT OR REPLACE deletes without asking the trigger for DELETE; so ask here.
    op.execute(
        "CREATE TRIGGER declaration_refuses_replace BEFORE INSERT ON declaration"
        " WHEN EXISTS (SELECT 1 FROM declaration WHERE id = NEW.id OR seq = NEW.seq)"
        " BEGIN SELECT RAISE(ABORT, 'declaration: this id is already used'); END"
    )


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _points(column: str, target: str) -> sa.ForeignKeyConstraint:
    name = f"fk_declaration_{column}_{target}"
    return sa.ForeignKeyConstraint([column], [f"{target}.id"], name=name)
