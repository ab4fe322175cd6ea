"""The shelf over SQLite: what the tasks need of it, each saving durable before it returns."""

from __future__ import annotations

from pathlib import Path
from types import TracebackType

from sqlalchemy import insert, select

from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.shelf import changes, faults, lineups, photo_files, places, rows, tables
from benchlog.shelf.micrograph_shelf import MicrographShelf
from benchlog.tasks.ports import Change, LineupBrief, Moment, Photo, Place, Remark
from benchlog.trade.specimen import Lineup

_ADD_READING = insert(tables.reading)


class SqlShelf(MicrographShelf):
    """Everything recorded, in one folder; made by `open_shelf`, closed by `close` or `with`.

    May be called from any thread; calls are served one after another. All raise ShelfFault
    kinds; a record that points nowhere, or whose id is used already, raises OurFault.
    """

    @property
    def folder(self) -> Path:
        """The folder that everything lies in."""
        return self._session.folder

    @property
    def read_only(self) -> bool:
        """Whether this is a view of one moment, into which nothing can be written."""
        return self._session.read_only

    def close(self) -> None:
        """Let go of the shelf; closing twice does no harm."""
        self._session.close()

    def __enter__(self) -> SqlShelf:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def lineups(self) -> list[LineupBrief]:
        """Return a brief of each line-up, the newest first."""
        with self._session.reading() as connection:
            return lineups.briefs(self._session, connection)

    def lineup(self, lineup_id: str) -> Lineup:
        """Return a line-up with its specimens; raises KeyError for an unknown id."""
        with self._session.reading() as connection:
            return lineups.load(self._session, connection, lineup_id)

    def save_lineup(self, lineup: Lineup) -> None:
        """Save a line-up whole; raises PlanRefused when a specimen with records is missing."""
        with self._session.writing() as connection:
            lineups.save(connection, lineup, self._now())

    def instruments(self) -> list[Instrument]:
        """Return the instruments, in the order in which they were first saved."""
        wanted = select(tables.instrument).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.instrument_from)

    def save_instrument(self, instrument: Instrument) -> None:
        """Save an instrument; what differs from before is logged."""
        row = rows.instrument_row(instrument)
        with self._session.writing() as connection:
            changes.save_row(connection, tables.instrument, {"id": row.pop("id")}, row, self._now())

    def add_reading(self, reading: Reading, place: Place | None = None) -> None:
        """Put a reading on the shelf for good, and where the bench goes on, both or neither.

        Raises EntryRefused when the reading it supersedes has been superseded already.
        """
        row = rows.reading_row(reading)
        with self._session.writing() as connection:
            connection.execute(_ADD_READING, row)
            if place is not None:
                places.save(connection, place)

    def readings(self, lineup_id: str) -> list[Reading]:
        """Return every reading of a line-up, superseded ones too, in the order they came in."""
        reading = tables.reading
        wanted = select(reading).where(reading.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.reading_from)

    def add_check(self, check: Check) -> None:
        """Put a check of an instrument on the shelf for good."""
        with self._session.writing() as connection:
            connection.execute(insert(tables.instrument_check), rows.check_row(check))

    def checks(self, lineup_id: str) -> list[Check]:
        """Return every check of a line-up, in the order in which they were made."""
        check = tables.instrument_check
        wanted = select(check).where(check.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.check_from)

    def add_group_correction(self, correction: GroupCorrection, readings: list[Reading]) -> None:
        """Put a group correction and every reading that it makes on the shelf, all or nothing.

        Raises EntryRefused when one of the superseded readings has been superseded already.
        """
        row = rows.group_correction_row(correction)
        made = [rows.reading_row(reading) for reading in readings]
        with self._session.writing() as connection:
            connection.execute(insert(tables.group_correction), row)
            if made:
                connection.execute(_ADD_READING, made)

    def group_corrections(self, lineup_id: str) -> list[GroupCorrection]:
        """Return every group correction of a line-up, in the order in which they were made."""
        correction = tables.group_correction
        wanted = select(correction).where(correction.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.group_correction_from)

    def add_photo(self, photo: Photo, data: bytes) -> None:
        """Put a picture on the shelf: the file first, then the record of it.

        The same picture may be added at several places; its file is kept once. Added again at
        the same place, the record is changed and the difference logged.
        """
        self._session.refuse_view()
        with faults.told(self.folder):
            photo_files.keep(self.folder, photo.id, photo.media_type, data)
        row = rows.photo_row(photo)
        key = {name: row.pop(name) for name in ("id", "lineup_id", "specimen_id", "station")}
        with self._session.writing() as connection:
            changes.save_row(connection, tables.photo, key, row, self._now())

    def photos(self, lineup_id: str) -> list[Photo]:
        """Return the photos of a line-up, in the order in which they were added."""
        photo = tables.photo
        wanted = select(photo).where(photo.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.photo_from)

    def photo_bytes(self, photo_id: str) -> bytes:
        """Return a picture; raises KeyError for an unknown id, ShelfDamaged when it is gone."""
        photo = tables.photo
        wanted = select(photo.c.media_type).where(photo.c.id == photo_id).limit(1)
        with self._session.reading() as connection:
            media_type = connection.execute(wanted).scalar()
        if media_type is None:
            raise KeyError(photo_id)
        with faults.told(self.folder):
            return photo_files.read(self.folder, photo_id, media_type)

    def add_moment(self, moment: Moment) -> None:
        """Put a flagged moment on the shelf."""
        with self._session.writing() as connection:
            connection.execute(insert(tables.moment), rows.moment_row(moment))

    def moments(self, lineup_id: str) -> list[Moment]:
        """Return the moments of a line-up, in the order in which they were flagged."""
        moment = tables.moment
        wanted = select(moment).where(moment.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.moment_from)

    def add_remark(self, remark: Remark) -> None:
        """Put a remark on the shelf for good; a later one on the same thing takes its place."""
        with self._session.writing() as connection:
            connection.execute(insert(tables.remark), rows.remark_row(remark))

    def remarks(self, lineup_id: str) -> list[Remark]:
        """Return every remark of a line-up, in the order in which they were made."""
        remark = tables.remark
        wanted = select(remark).where(remark.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, rows.remark_from)

    def save_place(self, place: Place) -> None:
        """Save where the bench stands in a line-up."""
        with self._session.writing() as connection:
            places.save(connection, place)

    def place(self, lineup_id: str) -> Place | None:
        """Return where the bench stood in a line-up, None when it never did."""
        with self._session.reading() as connection:
            return places.load(self._session, connection, lineup_id)

    def last_lineup(self) -> str | None:
        """Return the id of the line-up whose place was saved last."""
        with self._session.reading() as connection:
            return places.last(connection)

    def plan_log(self, lineup_id: str) -> list[Change]:
        """Return what changed in a line-up and its specimens, oldest first."""
        with self._session.reading() as connection:
            return changes.read_plan_log(connection, lineup_id)

    def changes(self) -> list[Change]:
        """Return what changed in records that were saved again, oldest first."""
        with self._session.reading() as connection:
            return changes.read_log(connection)
