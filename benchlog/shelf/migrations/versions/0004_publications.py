"""What was published: each revision with its record, frozen whole, and the list of its files.

Append-only, as readings are; the files themselves lie in published/.
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table and its guards."""
    op.create_table(
        "publication",
        sa.Column("seq", sa.Integer(), nullable=False),
        *_words("id", "lineup_id"),
        sa.Column("revision", sa.Integer(), nullable=False),
        *_words("at", "digest", "reason", "record", "outputs"),
        sa.PrimaryKeyConstraint("seq", name="pk_publication"),
        sa.UniqueConstraint("id", name="uq_publication_id"),
        sa.UniqueConstraint("lineup_id", "revision", name="uq_publication_lineup_id_revision"),
        sa.ForeignKeyConstraint(
            ["lineup_id"], ["lineup.id"], name="fk_publication_lineup_id_lineup"
        ),
    )
    op.create_index("ix_publication_lineup_id", "publication", ["lineup_id"])
    _refuse_replacing("replace", "id = NEW.id")
    _refuse_replacing("second", "(lineup_id = NEW.lineup_id AND revision = NEW.revision)")
    for deed, why in (("UPDATE", "changed"), ("DELETE", "deleted")):
        op.execute(
            f"CREATE TRIGGER publication_refuses_{deed.lower()} BEFORE {deed} ON publication"
            f" BEGIN SELECT RAISE(ABORT, 'publication: an entry is never {why}'); END"
        )


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _refuse_replacing(name: str, same: str) -> None:
    """INSERT OR REPLACE deletes without asking the trigger for DELETE; so ask here."""
    op.execute(
        f"CREATE TRIGGER publication_refuses_{name} BEFORE INSERT ON publication"
        f" WHEN EXISTS (SELECT 1 FROM publication WHERE {same} OR seq = NEW.seq)"
        " BEGIN SELECT RAISE(ABORT, 'publication: this id is already used'); END"
    )
