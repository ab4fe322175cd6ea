"""Pictures that come in: from files, dropped, or pasted; read and kept off the main thread."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData
from PySide6.QtGui import QImage

from benchlog.tasks.photos import add_photo
from benchlog.tasks.ports import Clock, Shelf
from benchlog.window.work import Work, begin


@dataclass(frozen=True)
class Where:
    """The line-up, specimen and station that a picture belongs to."""

    lineup_id: str
    specimen_id: str
    station: str


@dataclass(frozen=True)
class Incoming:
    """One picture on its way: a file to read, or the bytes themselves."""

    name: str
    path: Path | None = None
    data: bytes = b""


def incoming_from(mime: QMimeData) -> tuple[Incoming, ...]:
    """Return the pictures in what was dropped or pasted; none when it holds only text."""
    files = tuple(Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    if files:
        return from_files(files)
    if mime.hasImage():
        data = _png(QImage(mime.imageData()))
        return (Incoming("pasted picture.png", data=data),) if data else ()
    return ()


def from_files(paths: tuple[Path, ...]) -> tuple[Incoming, ...]:
    """Return pictures still to be read from files."""
    return tuple(Incoming(path.name, path=path) for path in paths)


def bring_in(
    shelf: Shelf,
    clock: Clock,
    where: Where,
    pictures: tuple[Incoming, ...],
    done: Callable[[int], None],
    failed: Callable[[BaseException], None],
    progressed: Callable[[int, int, str], None],
) -> None:
    """Put pictures on the shelf; `done` gets their number, `failed` the first that is none.

    Those before a refused one are kept.
    """

    def job(work: Work) -> int:
        for n, picture in enumerate(pictures):
            work.step(n, len(pictures), picture.name)
            data = picture.path.read_bytes() if picture.path else picture.data
            add_photo(
                shelf,
                clock,
                where.lineup_id,
                where.specimen_id,
                where.station,
                picture.name,
                data,
            )
        return len(pictures)

    begin(job, done, failed, progressed)


def _png(image: QImage) -> bytes:
    kept = QByteArray()
    buffer = QBuffer(kept)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    return bytes(kept) if image.save(buffer, "PNG") else b""
