"""Photos as files, named by what is in them: photos/ab/cdef….jpg."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from benchlog.errors import OurFault, ShelfDamaged
from benchlog.shelf.files import HALF, write_whole

FOLDER = "photos"

_ENDINGS = {
    "image/jpeg": ".jpg",
    "image/png": ".png",
    "image/webp": ".webp",
    "image/tiff": ".tif",
    "image/bmp": ".bmp",
    "image/gif": ".gif",
    "image/heic": ".heic",
}


def fingerprint(data: bytes) -> str:
    """Return the SHA-256 of a picture's bytes in hexadecimal: the photo's id."""
    return hashlib.sha256(data).hexdigest()


def path_of(folder: Path, photo_id: str, media_type: str) -> Path:
    """Return where a photo lies in the shelf's folder."""
    ending = _ENDINGS.get(media_type, ".picture")
    return folder / FOLDER / photo_id[:2] / f"{photo_id[2:]}{ending}"


def keep(folder: Path, photo_id: str, media_type: str, data: bytes) -> None:
    """Put a picture on the disk, durably; one that is there and sound is left as it is."""
    if fingerprint(data) != photo_id:
        raise OurFault(f"The photo's id {photo_id} is not the SHA-256 of its bytes.")
    path = path_of(folder, photo_id, media_type)
    if path.is_file() and path.read_bytes() == data:
        return
    write_whole(path, data)


def read(folder: Path, photo_id: str, media_type: str) -> bytes:
    """Return a picture's bytes; raises ShelfDamaged when they are gone or no longer the same."""
    path = path_of(folder, photo_id, media_type)
    try:
        data = path.read_bytes()
    except FileNotFoundError as gone:
        raise ShelfDamaged(
            f"The photo {path} is missing.", "Put the file back from a copy of the shelf."
        ) from gone
    if fingerprint(data) != photo_id:
        raise ShelfDamaged(
            f"The photo {path} is no longer the picture that was added.",
            "Put the file back from a copy of the shelf.",
        )
    return data


def on_disk(folder: Path) -> Iterator[Path]:
    """Yield every file among the photos."""
    return (p for p in sorted((folder / FOLDER).rglob("*")) if p.is_file())


def is_half_written(path: Path) -> bool:
    """Whether a file was still being written when the program stopped."""
    return path.name.endswith(HALF)
