"""Where the bench stood, one place a line-up, and which was saved last."""

from __future__ import annotations

from sqlalchemy import Connection, func, select
from sqlalchemy.dialects.sqlite import insert

from benchlog.shelf.rows import place_from, place_row
from benchlog.shelf.session import Session
from benchlog.shelf.tables import place as places
from benchlog.tasks.ports import Place


def save(connection: Connection, place: Place) -> None:
    """Put a place where the line-up's place before it was, as the last one saved."""
    turn = select(func.coalesce(func.max(places.c.turn), 0) + 1).scalar_subquery()
    row = {**place_row(place), "turn": connection.execute(select(turn)).scalar_one()}
    put = insert(places).values(row)
    connection.execute(put.on_conflict_do_update(index_elements=["lineup_id"], set_=row))


def load(session: Session, connection: Connection, lineup_id: str) -> Place | None:
    """Return the place of a line-up, None when the bench never stood there."""
    wanted = select(places).where(places.c.lineup_id == lineup_id)
    return next(iter(session.records(connection, wanted, place_from)), None)


def last(connection: Connection) -> str | None:
    """Return the line-up whose place was saved last."""
    wanted = select(places.c.lineup_id).order_by(places.c.turn.desc()).limit(1)
    return connection.execute(wanted).scalar()
