"""Photos for title pictures: upright, cut to their area from the middle, made small once."""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PIL import Image, ImageOps

from benchlog.errors import WorldError
from benchlog.sheet.cards.card import PhotoArea
from benchlog.sheet.cards.look import BAND, HEIGHT
from benchlog.sheet.pictures import UNREADABLE

PhotoBytes = Callable[[str], bytes]
"""Returns a photo's bytes by its id; raises KeyError."""

CardPhotos = Mapping[str, Image.Image]
"""Readable photos by their ids."""


@dataclass(frozen=True)
class Cut:
    """A photo cut to its area: pixels, and the same as PNG."""

    image: Image.Image

    @property
    def png(self) -> bytes:
        """The picture as a PNG file, without any of the camera's notes."""
        out = io.BytesIO()
        self.image.save(out, "PNG")
        return out.getvalue()


def readable(ids: list[str], photo_bytes: PhotoBytes) -> dict[str, Image.Image]:
    """Return the photos that can be read, upright; others are left out."""
    found = {}
    for photo_id in ids:
        try:
            with Image.open(io.BytesIO(photo_bytes(photo_id))) as opened:
                opened.draft("RGB", (1600, 1600))
                upright = ImageOps.exif_transpose(opened)
                upright.thumbnail((1600, 1600))
                found[photo_id] = _plain(upright)
        except (*UNREADABLE, WorldError):
            continue
    return found


def _plain(image: Image.Image) -> Image.Image:
    ground = Image.new("RGB", image.size, BAND)
    see_through = image.convert("RGBA")
    ground.paste(see_through, mask=see_through.getchannel("A"))
    return ground


def photo_for(item: PhotoArea, photos: CardPhotos, height: int) -> Cut:
    """Return a photo as large as its area at an output height; raises KeyError."""
    scale = height / HEIGHT
    left, top, right, bottom = (
        round(n * scale) for n in (item.area.left, item.area.top, item.area.right, item.area.bottom)
    )
    size = (right - left, bottom - top)
    return Cut(ImageOps.fit(photos[item.photo_id], size, Image.Resampling.LANCZOS))
