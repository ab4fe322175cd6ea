"""A card as PNG with straight alpha: colours are never darkened by their transparency.

Where nothing stands the picture is clear and has the colour of the plates' rim, so that an editing
program that scales it finds no fringe of another colour. The same card gives the same bytes.
"""

from __future__ import annotations

import io
import json
import zlib

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageColor, PngImagePlugin

from benchlog.sheet.cards.card import Card, Mark, PhotoArea, Plate, Words
from benchlog.sheet.cards.coverage import coverage
from benchlog.sheet.cards.look import HEIGHT, INK, WIDTH
from benchlog.sheet.cards.photos import CardPhotos, photo_for

Canvas = NDArray[np.uint8]


def card_as_png(card: Card, height: int, photos: CardPhotos) -> bytes:
    """Return a card as a PNG file of that height in pixels; what it shows stands in its texts."""
    notes = PngImagePlugin.PngInfo()
    notes.add_itxt("Title", card.title)
    notes.add_itxt("Description", card.spoken)
    notes.add_itxt("Readings", json.dumps(list(card.readings)))
    out = io.BytesIO()
    # Runs of one colour are all that there is to find in plates and letters, and soonest found.
    how = zlib.Z_DEFAULT_STRATEGY if card.opaque else zlib.Z_RLE
    image = card_as_image(card, height, photos)
    image.save(out, "PNG", pnginfo=notes, compress_level=4, compress_type=how)
    return out.getvalue()


def card_as_image(card: Card, height: int, photos: CardPhotos) -> Image.Image:
    """Return a card's pixels, RGBA with straight alpha."""
    scale = height / HEIGHT
    canvas: Canvas = np.empty((height, round(WIDTH * scale), 4), np.uint8)
    _whole(canvas)[:] = _packed(INK, 0)
    for item in card.items:
        if isinstance(item, Plate):
            _fill(canvas, item, scale)
        elif isinstance(item, PhotoArea):
            _photo(canvas, item, scale, photos, height)
        else:
            _outline(canvas, item, scale)
    return Image.fromarray(canvas, "RGBA")


def _whole(canvas: Canvas) -> NDArray[np.uint32]:
    """Return the canvas with each pixel as one number, which is quick to fill."""
    return canvas.view(np.uint32)[:, :, 0]


def _packed(colour: str, alpha: int) -> NDArray[np.uint32]:
    return np.array([*ImageColor.getrgb(colour)[:3], alpha], np.uint8).view(np.uint32)


def _fill(canvas: Canvas, plate: Plate, scale: float) -> None:
    """Fill a plate; its edges stand on whole pixels, so that they are sharp."""
    area = plate.area
    left, top, right, bottom = (
        round(n * scale) for n in (area.left, area.top, area.right, area.bottom)
    )
    _whole(canvas)[top:bottom, left:right] = _packed(plate.colour, 255)


def _photo(canvas: Canvas, item: PhotoArea, scale: float, photos: CardPhotos, height: int) -> None:
    cut = np.asarray(photo_for(item, photos, height).image)
    left, top = round(item.area.left * scale), round(item.area.top * scale)
    place = canvas[top : top + cut.shape[0], left : left + cut.shape[1]]
    place[:, :, :3] = cut
    place[:, :, 3] = 255


def _outline(canvas: Canvas, item: Words | Mark, scale: float) -> None:
    covered = coverage(item.outline, scale)
    if covered is None:
        return
    left, top, share = covered
    rows = slice(max(0, top), min(canvas.shape[0], top + share.shape[0]))
    columns = slice(max(0, left), min(canvas.shape[1], left + share.shape[1]))
    share = share[rows.start - top : rows.stop - top, columns.start - left : columns.stop - left]
    touched = np.flatnonzero(share)
    over = share.ravel()[touched]
    row, column = np.divmod(touched, share.shape[1])
    place = (row + rows.start) * canvas.shape[1] + column + columns.start
    within = over >= 1.0
    _whole(canvas).reshape(-1)[place[within]] = _packed(item.colour, 255)
    _blend(canvas.reshape(-1, 4), place[~within], over[~within][:, None], item.colour)


def _blend(
    pixels: Canvas, place: NDArray[np.int64], over: NDArray[np.float64], colour: str
) -> None:
    """Lay a colour over pixels of which it covers a part."""
    there = pixels[place].astype(float)
    under = there[:, 3:] / 255 * (1 - over)
    of_colour = np.array(ImageColor.getrgb(colour)[:3], dtype=float)
    there[:, :3] = (of_colour * over + there[:, :3] * under) / (over + under)
    there[:, 3:] = (over + under) * 255
    pixels[place] = np.rint(there)
