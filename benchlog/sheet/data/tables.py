"""All tables of a record, in the order in which they are read."""

from __future__ import annotations

from collections.abc import Mapping

from benchlog.sheet.data import meaning_tables, plan_tables, reading_tables, value_tables
from benchlog.sheet.data.hand_tables import hand_tables
from benchlog.sheet.data.picture_tables import picture_tables
from benchlog.sheet.data.rank_tables import rank_tables
from benchlog.sheet.data.table import Table
from benchlog.tasks.record import Record


def tables_of(record: Record, photo_paths: Mapping[str, str] | None = None) -> tuple[Table, ...]:
    """Return every table of a record; `photo_paths` say where pictures lie, by their SHA-256.

    Raises PublishRefused while it is not said of every specimen who paid.
    """
    told = (
        plan_tables.specimens_table(record),
        value_tables.awards_table(record),
        value_tables.scores_table(record),
        value_tables.polls_table(record),
        *hand_tables(record),
        *rank_tables(record),
        value_tables.findings_table(record),
        value_tables.figures_table(record),
        reading_tables.readings_table(record),
        plan_tables.instruments_table(record),
        reading_tables.checks_table(record),
        reading_tables.corrections_table(record),
        plan_tables.rules_table(record),
        plan_tables.locks_table(record),
        plan_tables.plan_changes_table(record),
        reading_tables.remarks_table(record),
        reading_tables.photos_table(record, photo_paths or {}),
        *picture_tables(record, photo_paths or {}),
        reading_tables.moments_table(record),
        meaning_tables.attributes_table(record),
        meaning_tables.figure_kinds_table(record),
    )
    return (*told, meaning_tables.dictionary_table(told))
