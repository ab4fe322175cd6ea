"""Run by Alembic for each upgrade, on a connection that is already inside one transaction.

To write a new step: copy the newest file of versions/ under the next number, set its `revision`
and `down_revision`, set HEAD in benchlog/shelf/migrate.py, and keep a file of the layout before
it in tests/shelf/old/.
"""

from __future__ import annotations

from alembic import context

from benchlog.shelf import judging_tables, picture_tables, publication_tables

LATEST = (
    judging_tables.declaration,
    publication_tables.publication,
    picture_tables.picture_answer,
)
"""One of each file of tables, so that none is forgotten."""

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=LATEST[-1].metadata,
    render_as_batch=True,
    transactional_ddl=True,
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
