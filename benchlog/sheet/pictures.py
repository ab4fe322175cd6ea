"""Photos made small for print, and the frames that hold them.

A picture that cannot be read never stops a sheet: its frame says so instead.
"""

from __future__ import annotations

import io
import struct
import warnings
import zlib
from collections.abc import Container, Iterable
from dataclasses import dataclass

from PIL import Image, ImageOps
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from benchlog.errors import WorldError
from benchlog.sheet.tags import figure
from benchlog.sheet.text import draw_lines, lines_in
from benchlog.sheet.typography import BAND, FACE, HAIRLINE, MUTED, SMALL
from benchlog.tasks.ports import Photo, Progress, Shelf
from benchlog.tasks.record import Record

DOTS_PER_INCH = 200
JPEG_QUALITY = 82

# What Pillow is known to raise on bytes that are no sound picture.
UNREADABLE = (
    OSError, ValueError, SyntaxError, EOFError, TypeError, IndexError, KeyError, AttributeError,
    OverflowError, MemoryError, struct.error, zlib.error, Image.DecompressionBombError,
)  # fmt: skip


@dataclass(frozen=True)
class Picture:
    """A photo as it is printed: JPEG bytes and its size in pixels; no bytes when unreadable."""

    photo: Photo
    jpeg: bytes
    width: int
    height: int


def downscaled(data: bytes, points: tuple[float, float]) -> tuple[bytes, int, int]:
    """Return JPEG bytes and pixel size of a picture that fills a box of `points` at print size.

    Turned upright by what the camera noted; every other note in the file is left behind.
    Raises one of UNREADABLE.
    """
    box = (
        int(points[0] / 72 * DOTS_PER_INCH),
        int(points[1] / 72 * DOTS_PER_INCH),
    )
    longest = (max(box), max(box))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        with Image.open(io.BytesIO(data)) as opened:
            opened.draft("RGB", longest)
            image = ImageOps.exif_transpose(opened)
            image.thumbnail(box, Image.Resampling.BICUBIC, reducing_gap=2.0)
            flat = _on_white(image)
    out = io.BytesIO()
    flat.save(out, "JPEG", quality=JPEG_QUALITY)
    return out.getvalue(), flat.width, flat.height


def _on_white(image: Image.Image) -> Image.Image:
    """Return the picture as plain RGB, anything see-through laid on white."""
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        ground = Image.new("RGB", image.size, "white")
        see_through = image.convert("RGBA")
        ground.paste(see_through, mask=see_through.getchannel("A"))
        return ground
    clean = Image.new("RGB", image.size)
    clean.paste(image.convert("RGB"))
    return clean


class Pictures:
    """The record's photos, each read from the shelf and made small once.

    One picture may stand at several places, once for each.
    """

    def __init__(self, pictures: Iterable[Picture] = ()) -> None:
        self._pictures = tuple(pictures)

    def first_of(self, specimen_id: str) -> Picture | None:
        """Return the specimen's first picture, a readable one if there is any."""
        own = [p for p in self._pictures if p.photo.specimen_id == specimen_id]
        return next((p for p in own if p.jpeg), own[0] if own else None)

    def at(self, station: str, specimen_id: str) -> list[Picture]:
        """Return the pictures of one specimen at one station, in the record's order."""
        return [
            p for p in self._pictures
            if p.photo.station == station and p.photo.specimen_id == specimen_id
        ]  # fmt: skip

    def of(self, photo_id: str, specimen_id: str) -> Picture | None:
        """Return one picture as it stands with a specimen, None where there is none."""
        wanted = photo_id, specimen_id
        found = (p for p in self._pictures if (p.photo.id, p.photo.specimen_id) == wanted)
        return next(found, None)

    def without(self, photo_ids: Container[str]) -> Pictures:
        """Return all pictures but some."""
        return Pictures(p for p in self._pictures if p.photo.id not in photo_ids)

    def stations(self) -> list[str]:
        """Return the keys of stations that have a picture of a specimen."""
        return list(dict.fromkeys(p.photo.station for p in self._pictures))


Points = tuple[float, float]
"""Width and height of a box on paper."""


class Shrunk:
    """Makes photos small, each once for a size; a photo on the shelf never changes.

    What could not be read is tried again, as the shelf may have been put right.
    """

    MOST = 200
    """Pictures kept, of some 20 kB each."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, Points], tuple[bytes, int, int]] = {}

    def picture(self, photo: Photo, shelf: Shelf, points: Points) -> Picture:
        """Return a photo as it is printed in a box of `points`."""
        kept = self._kept.get((photo.id, points))
        if kept is None:
            try:
                kept = downscaled(shelf.photo_bytes(photo.id), points)
            except (*UNREADABLE, WorldError):
                return Picture(photo, b"", 0, 0)
            if len(self._kept) >= self.MOST:
                self._kept.clear()
            self._kept[photo.id, points] = kept
        return Picture(photo, *kept)


def prepare(
    record: Record,
    shelf: Shelf,
    points: Points,
    progress: Progress,
    steps: int,
    shrunk: Shrunk | None = None,
) -> Pictures:
    """Read and downscale every photo of the record, telling `progress` of each.

    What `shrunk` holds from before is not read again.
    """
    shrunk = shrunk or Shrunk()
    pictures = []
    for index, photo in enumerate(record.photos):
        progress.step(index, steps, f"picture {index + 1} of {len(record.photos)}")
        pictures.append(shrunk.picture(photo, shelf, points))
    return Pictures(pictures)


def photo_words(photo: Photo, whose: str = "") -> str:
    """Return a photo in words: whose part, where in the teardown, and what was written to it."""
    at = photo.station.replace("_", " ")
    said = ", ".join(filter(None, [whose, f"at the station {at}" if at else ""]))
    told = f"Photo of {said}" if whose else f"Photo {said}".rstrip()
    return f"{told}: {photo.caption}" if photo.caption else told


def draw_picture(
    canvas: Canvas,
    picture: Picture | None,
    x: float,
    y: float,
    width: float,
    height: float,
    missing: str,
    whose: str = "",
) -> None:
    """Draw a picture whole inside a box; without one, a frame that says what is missing.

    `whose` is the nickname of the specimen that a reader program is to be told.
    """
    canvas.saveState()
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.6)
    canvas.setFillColor(BAND)
    if picture is None or not picture.jpeg:
        canvas.setDash(2, 2)
        canvas.rect(x, y, width, height, fill=1, stroke=1)
        text = missing
        if picture is not None:
            text = f"cannot be read: {picture.photo.name or 'picture without a name'}"
        lines = lines_in(text, FACE, SMALL, width - 10, max(1, int((height - 8) // 11)))
        top = y + height / 2 + len(lines) * 5.5 - 8
        draw_lines(canvas, lines, x + 5, top, colour=MUTED)
    else:
        scale = min(width / picture.width, height / picture.height)
        w, h = picture.width * scale, picture.height * scale
        left, bottom = x + (width - w) / 2, y + (height - h) / 2
        canvas.rect(x, y, width, height, fill=1, stroke=0)
        reader = ImageReader(io.BytesIO(picture.jpeg))
        told = photo_words(picture.photo, whose)
        with figure(canvas, told, (left, bottom, left + w, bottom + h)):
            canvas.drawImage(reader, left, bottom, w, h)
    canvas.restoreState()
