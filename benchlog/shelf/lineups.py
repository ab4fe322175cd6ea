"""Line-ups and their specimens: saved whole, each difference to what was there logged."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from sqlalchemy import Connection, delete, func, select
from sqlalchemy.exc import IntegrityError

from benchlog.errors import PlanRefused
from benchlog.shelf.changes import log_added, log_removed, save_row
from benchlog.shelf.rows import (
    lineup_from,
    lineup_row,
    specimen_from,
    specimen_row,
)
from benchlog.shelf.session import Session
from benchlog.shelf.tables import lineup as lineups
from benchlog.shelf.tables import reading, specimen
from benchlog.tasks.ports import LineupBrief
from benchlog.trade.specimen import Lineup, Specimen


def save(connection: Connection, lineup: Lineup, at: datetime) -> None:
    """Save a line-up with its specimens in bench order.

    Raises PlanRefused when a specimen that has records is no longer in it.
    """
    row = lineup_row(lineup)
    new = save_row(connection, lineups, {"id": row.pop("id")}, row, at)
    _take_away(connection, lineup, at)
    for position, one in enumerate(lineup.specimens):
        row = {**specimen_row(one), "position": position}
        key = {"lineup_id": lineup.id, "id": row.pop("id")}
        if save_row(connection, specimen, key, row, at) and not new:
            log_added(connection, specimen, key, "nickname", one.nickname, at)


def _take_away(connection: Connection, lineup: Lineup, at: datetime) -> None:
    kept = {one.id for one in lineup.specimens}
    here = specimen.c.lineup_id == lineup.id
    for row in connection.execute(select(specimen).where(here)).mappings().all():
        if row["id"] in kept:
            continue
        try:
            connection.execute(delete(specimen).where(here, specimen.c.id == row["id"]))
        except IntegrityError as fault:
            raise PlanRefused(
                f"The specimen '{row['nickname']}' has readings, photos or remarks and stays in"
                " the line-up.",
                "Say at the bench why it is not measured any further.",
            ) from fault
        log_removed(connection, specimen, {"lineup_id": lineup.id, "id": row["id"]}, dict(row), at)


def load(session: Session, connection: Connection, lineup_id: str) -> Lineup:
    """Return a line-up with its specimens; raises KeyError for an unknown id."""
    wanted = select(lineups).where(lineups.c.id == lineup_id)
    found = session.records(connection, wanted, lambda row: lineup_from(row, ()))
    if not found:
        raise KeyError(lineup_id)
    return replace(found[0], specimens=_specimens(session, connection, lineup_id))


def _specimens(session: Session, connection: Connection, lineup_id: str) -> tuple[Specimen, ...]:
    wanted = select(specimen).where(specimen.c.lineup_id == lineup_id).order_by("position")
    return tuple(session.records(connection, wanted, specimen_from))


def briefs(session: Session, connection: Connection) -> list[LineupBrief]:
    """Return a brief of each line-up, the newest first; every reading counts, corrected or not."""
    counted = connection.execute(
        select(reading.c.lineup_id, func.count()).group_by(reading.c.lineup_id)
    )
    counts = {row[0]: row[1] for row in counted}
    wanted = select(lineups).order_by(lineups.c.created_at.desc(), lineups.c.seq.desc())
    return [
        LineupBrief(
            id=one.id,
            name=one.name,
            created_at=one.created_at,
            specimens=_specimens(session, connection, one.id),
            readings=counts.get(one.id, 0),
            rehearsal=one.rehearsal,
        )
        for one in session.records(connection, wanted, lambda row: lineup_from(row, ()))
    ]
