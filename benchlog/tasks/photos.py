"""Add pictures to a line-up, at any station."""

from __future__ import annotations

import hashlib
import io

from benchlog.errors import PictureRefused
from benchlog.tasks.ports import Clock, Photo, Shelf

MEDIA_TYPES = {
    "JPEG": "image/jpeg",
    "MPO": "image/jpeg",  # a phone's JPEG with further pictures behind the first
    "PNG": "image/png",
    "TIFF": "image/tiff",
    "WEBP": "image/webp",
    "BMP": "image/bmp",
    "GIF": "image/gif",
}


def add_photo(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    specimen_id: str,
    station: str,
    name: str,
    data: bytes,
    caption: str = "",
) -> Photo:
    """Look at the bytes, put them on the shelf unchanged, and return the photo.

    `specimen_id` may be "" for a picture of several specimens. Raises PictureRefused when the
    bytes are no picture of a known kind; nothing is stored then.
    """
    media_type, width, height = looked_at(name, data)
    photo = Photo(
        id=hashlib.sha256(data).hexdigest(),
        lineup_id=lineup_id,
        specimen_id=specimen_id,
        station=station,
        name=name,
        media_type=media_type,
        width=width,
        height=height,
        at=clock.now(),
        caption=caption,
    )
    shelf.add_photo(photo, data)
    return photo


def looked_at(name: str, data: bytes) -> tuple[str, int, int]:
    """Return media type, width and height; raises PictureRefused when it is no sound picture."""
    from PIL import Image  # noqa: PLC0415 - only when a picture comes in

    try:
        with Image.open(io.BytesIO(data)) as picture:
            kind, size = picture.format, picture.size
            picture.verify()
    except Image.DecompressionBombError as fault:
        raise PictureRefused(
            f"{name} is larger than any camera's picture.", "Save it smaller, then add it again."
        ) from fault
    except Exception as fault:  # Pillow's decoders raise many kinds on hostile bytes
        raise PictureRefused(
            f"{name} could not be read as a picture.", "Add a JPEG, PNG, TIFF or WebP file."
        ) from fault
    if kind not in MEDIA_TYPES:
        raise PictureRefused(
            f"{name} is a {kind} file, which is not taken.", "Add a JPEG, PNG, TIFF or WebP file."
        )
    return MEDIA_TYPES[kind], size[0], size[1]
