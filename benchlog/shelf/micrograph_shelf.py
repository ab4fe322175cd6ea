"""What the shelf keeps of pictures through a microscope; every entry is for good."""

from __future__ import annotations

from sqlalchemy import Connection, insert, select

from benchlog.errors import OurFault
from benchlog.measure.instrument import Instrument
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer
from benchlog.measure.reading import Reading
from benchlog.shelf import changes, faults, photo_files, rows, tables
from benchlog.shelf import picture_rows as pictures
from benchlog.shelf.picture_tables import micrograph, microscope_set_up, picture_answer
from benchlog.shelf.publication_shelf import PublicationShelf


class MicrographShelf(PublicationShelf):
    """The part of the shelf that holds set-ups, fields of the media, and what they say.

    All come back in the order in which they were added.
    """

    def add_set_up(
        self, set_up: MicroscopeSetUp, instrument: Instrument, scale_picture: bytes | None = None
    ) -> None:
        """Put a set-up, its instrument and its scale's picture on the shelf: all or nothing.

        OurFault when the instrument has another id, or the picture is not the one it names.
        """
        self._session.refuse_view()
        if instrument.id != set_up.id:
            raise OurFault(f"The set-up {set_up.id} came with the instrument {instrument.id}.")
        kind = self._kept_scale_picture(set_up, scale_picture)
        row = rows.instrument_row(instrument)
        with self._session.writing() as connection:
            changes.save_row(connection, tables.instrument, {"id": row.pop("id")}, row, self._now())
            connection.execute(insert(microscope_set_up), pictures.set_up_row(set_up, kind))

    def set_ups(self) -> list[MicroscopeSetUp]:
        """Return every set-up, replaced ones too."""
        wanted = select(microscope_set_up).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, pictures.set_up_from)

    def scale_picture(self, set_up_id: str) -> bytes:
        """Return the picture of the stage micrometer that a set-up's scale comes from.

        Raises KeyError for an unknown set-up or one without, ShelfDamaged when it is gone.
        """
        table = microscope_set_up
        wanted = select(table.c.scale_picture, table.c.scale_media_type)
        with self._session.reading() as connection:
            found = connection.execute(wanted.where(table.c.id == set_up_id)).first()
        if found is None or not found[0]:
            raise KeyError(set_up_id)
        with faults.told(self._session.folder):
            return photo_files.read(self._session.folder, found[0], found[1])

    def add_micrograph(self, made: Micrograph, withdrawals: list[Reading]) -> None:
        """Put a field on the shelf, with what takes the readings of the one before back.

        Its photo must be there. Raises EntryRefused when the micrograph that it supersedes has
        been superseded already, or one of the readings has.
        """
        with self._session.writing() as connection:
            _refuse_lost_photo(connection, made)
            connection.execute(insert(micrograph), pictures.micrograph_row(made))
            _add_readings(connection, withdrawals)

    def micrographs(self, lineup_id: str) -> list[Micrograph]:
        """Return every micrograph of a line-up, retaken ones and takings-back too."""
        wanted = select(micrograph).where(micrograph.c.lineup_id == lineup_id).order_by("seq")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, pictures.micrograph_from)

    def add_picture_answer(self, answer: PictureAnswer, readings: list[Reading]) -> None:
        """Put what was measured on a micrograph on the shelf, with the readings it made.

        Raises EntryRefused when a reading supersedes one that has been superseded already.
        """
        with self._session.writing() as connection:
            _add_readings(connection, readings)
            connection.execute(insert(picture_answer), pictures.answer_row(answer))

    def picture_answers(self, lineup_id: str) -> list[PictureAnswer]:
        """Return every answer on the micrographs of a line-up; the latest of each counts."""
        wanted = (
            select(picture_answer)
            .join(micrograph, micrograph.c.id == picture_answer.c.micrograph_id)
            .where(micrograph.c.lineup_id == lineup_id)
            .order_by(picture_answer.c.seq)
        )
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, pictures.answer_from)

    def _kept_scale_picture(self, set_up: MicroscopeSetUp, data: bytes | None) -> str:
        """Keep the scale's picture as a file and return its media type, "" without one."""
        if data is None:
            if set_up.scale_picture:
                raise OurFault(f"The set-up {set_up.id} came without its scale's picture.")
            return ""
        kind = pictures.media_type_of(data)
        with faults.told(self._session.folder):
            photo_files.keep(self._session.folder, set_up.scale_picture, kind, data)
        return kind


def _add_readings(connection: Connection, made: list[Reading]) -> None:
    if made:
        connection.execute(insert(tables.reading), [rows.reading_row(one) for one in made])


def _refuse_lost_photo(connection: Connection, made: Micrograph) -> None:
    if made.withdrawn and not made.photo_id:
        return
    photo = tables.photo
    wanted = select(photo.c.seq).where(
        photo.c.id == made.photo_id,
        photo.c.lineup_id == made.lineup_id,
        photo.c.specimen_id == made.specimen_id,
    )
    if connection.execute(wanted.limit(1)).first() is None:
        raise OurFault(f"The micrograph {made.id} shows a photo that is not on the shelf.")
