"""The first tables: what was planned, what was read at the bench, and what was said of it.

Readings, remarks and the log of changes are append-only; triggers hold that against any program.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

APPEND_ONLY = ("reading", "remark", "change")


def upgrade() -> None:
    """Make every table, then the guards of those that only grow."""
    _make_plan_tables()
    _make_reading()
    _make_bench_tables()
    _make_change()
    for table in APPEND_ONLY:
        _refuse(table, "UPDATE", "an entry is never changed")
        _refuse(table, "DELETE", "an entry is never deleted")
    _refuse_replacing("reading")
    _refuse_replacing("remark")
    _refuse_second_correction()


def _seq(table: str) -> list[sa.schema.SchemaItem]:
    return [
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name=f"pk_{table}"),
    ]


def _words(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def _own_id(table: str) -> list[sa.schema.SchemaItem]:
    return [*_words("id"), sa.UniqueConstraint("id", name=f"uq_{table}_id")]


def _of_lineup(table: str) -> list[sa.schema.SchemaItem]:
    name = f"fk_{table}_lineup_id_lineup"
    return [
        *_words("lineup_id"),
        sa.ForeignKeyConstraint(["lineup_id"], ["lineup.id"], name=name),
    ]


def _of_specimen(table: str) -> sa.ForeignKeyConstraint:
    name = f"fk_{table}_lineup_id_specimen_id_specimen"
    columns = ["lineup_id", "specimen_id"]
    return sa.ForeignKeyConstraint(columns, ["specimen.lineup_id", "specimen.id"], name=name)


def _index(table: str, *columns: str) -> None:
    op.create_index(f"ix_{table}_{'_'.join(columns)}", table, list(columns))


def _make_plan_tables() -> None:
    op.create_table("meta", *_words("key", "value"), sa.PrimaryKeyConstraint("key", name="pk_meta"))
    op.create_table(
        "lineup",
        *_seq("lineup"),
        *_own_id("lineup"),
        *_words("name", "question", "sequence", "rules", "created_at", "attributes", "reviewer"),
        sa.Column("rehearsal", sa.Boolean(), nullable=False),
    )
    op.create_table(
        "specimen",
        *_of_lineup("specimen"),
        *_words("id"),
        sa.Column("position", sa.Integer(), nullable=False),
        *_words("nickname", "shape", "colour", "maker", "part_number", "lot"),
        *_words("origin_box", "origin_can", "origin_inferred", "paid", "giver"),
        sa.Column("price", sa.String()),
        *_words("currency", "bought_on", "note"),
        sa.PrimaryKeyConstraint("lineup_id", "id", name="pk_specimen"),
    )
    op.create_table(
        "instrument",
        *_seq("instrument"),
        *_own_id("instrument"),
        *_words("name", "kind", "unit"),
        sa.Column("resolution", sa.Float(), nullable=False),
        sa.Column("permissible_error", sa.Float(), nullable=False),
        sa.Column("contact_pressure_kpa", sa.Float()),
        *_words("note"),
    )


def _make_reading() -> None:
    op.create_table(
        "reading",
        *_seq("reading"),
        *_own_id("reading"),
        *_words("lineup_id", "specimen_id", "attribute"),
        sa.Column("ordinal", sa.Integer(), nullable=False),
        *_words("state", "text", "at"),
        sa.Column("session_s", sa.Float(), nullable=False),
        *_words("source"),
        *(sa.Column(f"said_{name}", sa.String()) for name in ("text", "value", "unit")),
        *(sa.Column(f"said_{name}", sa.String()) for name in ("low", "high")),
        sa.Column("said_approximate", sa.Boolean()),
        sa.Column("word", sa.String()),
        *(sa.Column(f"si_{name}", sa.Float()) for name in ("value", "low", "high")),
        *_words("si_unit"),
        sa.Column("instrument_id", sa.String()),
        sa.Column("raw", sa.LargeBinary()),
        *_words("reason"),
        sa.Column("supersedes", sa.String()),
        sa.Column("withdrawn", sa.Boolean(), nullable=False),
        sa.UniqueConstraint("supersedes", name="uq_reading_supersedes"),
        _of_specimen("reading"),
        sa.ForeignKeyConstraint(
            ["instrument_id"], ["instrument.id"], name="fk_reading_instrument_id_instrument"
        ),
        sa.ForeignKeyConstraint(
            ["supersedes"], ["reading.id"], name="fk_reading_supersedes_reading"
        ),
    )
    _index("reading", "lineup_id")


def _make_bench_tables() -> None:
    op.create_table(
        "photo",
        *_seq("photo"),
        *_words("id"),
        *_of_lineup("photo"),
        sa.Column("specimen_id", sa.String()),
        *_words("station", "name", "media_type"),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        *_words("at", "caption"),
        _of_specimen("photo"),
    )
    op.create_table(
        "moment",
        *_seq("moment"),
        *_own_id("moment"),
        *_of_lineup("moment"),
        *_words("at"),
        sa.Column("session_s", sa.Float(), nullable=False),
        *_words("label"),
    )
    op.create_table(
        "remark",
        *_seq("remark"),
        *_own_id("remark"),
        *_of_lineup("remark"),
        *_words("component"),
        sa.Column("specimen_id", sa.String()),
        *_words("text", "at"),
        _of_specimen("remark"),
    )
    op.create_table(
        "place",
        *_of_lineup("place"),
        *_words("station", "attribute", "specimen_id"),
        sa.Column("by_specimen", sa.Boolean(), nullable=False),
        *_words("half_typed", "passed", "tools"),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("lineup_id", name="pk_place"),
    )
    _index("photo", "id")
    for table in ("photo", "moment", "remark"):
        _index(table, "lineup_id")


def _make_change() -> None:
    op.create_table(
        "change",
        *_seq("change"),
        *_words("entity", "entity_id", "field"),
        sa.Column("old", sa.String()),
        sa.Column("new", sa.String()),
        *_words("at"),
    )
    _index("change", "entity", "entity_id")


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


def _refuse_second_correction() -> None:
    op.execute(
        "CREATE TRIGGER reading_refuses_second_correction BEFORE INSERT ON reading"
        " WHEN NEW.supersedes IS NOT NULL"
        " AND EXISTS (SELECT 1 FROM reading WHERE supersedes = NEW.supersedes)"
        " BEGIN SELECT RAISE(ABORT, 'reading: this reading has already been corrected'); END"
    )
