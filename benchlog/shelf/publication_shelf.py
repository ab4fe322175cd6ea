"""What the shelf keeps of each published revision: files, frozen record, and the entry of it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import RowMapping, insert, select

from benchlog.shelf import faults, publication_files
from benchlog.shelf.judging_shelf import JudgingShelf
from benchlog.shelf.publication_tables import publication as table
from benchlog.tasks.publication import Output, Publication

_ENTRY = [column for column in table.c if column.name not in ("seq", "record")]


class PublicationShelf(JudgingShelf):
    """The part of the shelf that holds what was published; every entry is for good."""

    @contextmanager
    def publication_draft(self) -> Iterator[Path]:
        """Give an empty folder on the shelf; gone at the end unless its files were published."""
        self._session.refuse_view()
        with faults.told(self._session.folder):
            made = publication_files.new_draft(self._session.folder)
        try:
            yield made
        finally:
            publication_files.throw_away(made)

    def add_publication(self, publication: Publication, record: str, draft: Path) -> None:
        """Publish the files of a draft: the files first, then the entry; all or nothing.

        OurFault when the line-up has that revision already, or the draft other files than listed.
        """
        self._session.refuse_view()
        folder = self._session.folder
        with faults.told(folder):
            publication_files.settle(publication, draft)
        placed: list[Path] = []
        try:
            with self._session.writing() as connection:
                # Inside, the row comes first: a revision that is there keeps its files. The row
                # counts once the transaction ends, and by then the files are in their place.
                connection.execute(insert(table), [_row(publication, record)])
                placed.append(publication_files.take_place(folder, publication, draft))
        except BaseException:
            for target in placed:
                publication_files.discard(target)
            raise

    def publications(self, lineup_id: str) -> list[Publication]:
        """Return what was published of a line-up, in the order of the revisions."""
        wanted = select(*_ENTRY).where(table.c.lineup_id == lineup_id).order_by("revision")
        with self._session.reading() as connection:
            return self._session.records(connection, wanted, _publication)

    def published_record(self, lineup_id: str, revision: int) -> str:
        """Return the frozen record of a revision as JSON; raises KeyError when there is none."""
        wanted = select(table.c.record).where(
            table.c.lineup_id == lineup_id, table.c.revision == revision
        )
        with self._session.reading() as connection:
            found = connection.execute(wanted).scalar()
        if found is None:
            raise KeyError((lineup_id, revision))
        return str(found)

    def publication_file(self, lineup_id: str, revision: int, name: str) -> bytes:
        """Return a published file's bytes.

        Raises KeyError for a file that was not published, ShelfDamaged when it is gone or another.
        """
        for one in self.publications(lineup_id):
            for output in one.outputs if one.revision == revision else ():
                if output.name == name:
                    with faults.told(self._session.folder):
                        return publication_files.read(self._session.folder, one, output)
        raise KeyError((lineup_id, revision, name))


def _row(publication: Publication, record: str) -> dict[str, Any]:
    outputs = [(o.name, o.kind, o.sha256, o.bytes) for o in publication.outputs]
    return {**vars(publication), "outputs": outputs, "record": record}


def _publication(row: RowMapping) -> Publication:
    return Publication(**{**row, "outputs": tuple(Output(*one) for one in row["outputs"])})
