"""The table of what the reviewer said by hand, that which was taken back included."""

from __future__ import annotations

from benchlog.sheet.data.table import Table, moment, row, text, yes_no
from benchlog.tasks.record import Record


def hand_tables(record: Record) -> tuple[Table, ...]:
    """Return the table; none where nothing was ever said by hand."""
    log = record.overruling_log or tuple(record.overrulings.values())
    if not log:
        return ()
    fields = (
        text("id", "names the entry", required=True),
        moment("at", "when it was said or taken back"),
        text("component", "the component", required=True),
        text("award", "what the reviewer says instead; empty where that was taken back"),
        text("winners", "the specimens that the reviewer puts ahead, as in specimens.csv"),
        text("reason", "the reviewer's reason"),
        yes_no("stands", "whether it stands beside the award of the rules"),
    )
    standing = {one.id for one in record.overrulings.values()}
    rows = tuple(
        row(*(o.id, o.at, o.component, o.kind, o.winners or None, o.reason), o.id in standing)
        for o in log
    )
    return (Table("overrulings", "What the reviewer said by hand", fields, rows, ("id",)),)
