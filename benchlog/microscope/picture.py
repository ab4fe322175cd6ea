"""A picture file turned into grey light, safely: whatever is wrong with it is said in plain words.

Grey here is linear: twice the value is twice the light. Files store light through the sRGB curve
(IEC 61966-2-1), which is taken back out. A microscope camera that writes 16-bit TIFF without the
curve is read with it all the same; edges move by a fraction of the blur then, and by the same
fraction in every picture of one set-up.
"""

from __future__ import annotations

import io
import math
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageOps

from benchlog.errors import PictureRefused

Grey = NDArray[np.float32]

MOST_BYTES = 400_000_000
MOST_PIXELS = 80_000_000
"""Larger pictures are refused before anything is unpacked: no bench camera takes them."""

FULL_PIXELS = 16_000_000
"""Up to here a picture is kept whole; a larger one is averaged down, so that memory is bounded."""

SHORTEST_SIDE = 64
FORMATS = ("JPEG", "PNG", "TIFF", "BMP", "WEBP")
SAVE_AGAIN = "Save it again as JPEG, PNG or TIFF, 8 or 16 bit, and take that."

_STRIP = 256  # rows turned into light at a time
_LUMINANCE = np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)  # ITU-R BT.709


@dataclass(frozen=True)
class GreyPicture:
    """Linear grey light from 0 (black) to 1 (the file's white), and what the file was.

    `reduced` is how many of the file's pixels lie along one side of a pixel here; a scale in
    µm per pixel of the file is multiplied by it.
    """

    light: Grey
    width: int
    height: int
    bits: int
    colour: bool
    reduced: int
    kind: str


def read_picture(source: Path | bytes, name: str = "") -> GreyPicture:
    """Read a picture from a path or from a file's bytes, turned upright as the camera noted.

    Raises PictureRefused with the reason in plain words: missing, too large, not a picture,
    cut short, of a kind without greys.
    """
    called = name or (source.name if isinstance(source, Path) else "The picture")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # own limits below; odd notes in a file do no harm
            return _read(_bytes_of(source, called), called)
    except PictureRefused:
        raise
    except Image.DecompressionBombError as fault:
        raise _too_large(called) from fault
    except MemoryError as fault:
        raise PictureRefused(
            f"{called} does not fit into this computer's memory.", "Save it smaller."
        ) from fault
    except Exception as fault:  # Pillow's decoders raise many kinds on hostile bytes
        raise PictureRefused(
            f"{called} could not be read as a picture; it may be cut short or damaged.", SAVE_AGAIN
        ) from fault


def coded(light: float | NDArray[Any]) -> NDArray[Any]:
    """Return linear light from 0 to 1 as the sRGB value from 0 to 255 that a file would hold."""
    linear = np.clip(np.asarray(light, dtype=np.float64), 0.0, 1.0)
    bent = 1.055 * np.power(linear, 1.0 / 2.4) - 0.055
    return np.asarray(255.0 * np.where(linear <= 0.0031308, 12.92 * linear, bent))


def linear_table(levels: int) -> Grey:
    """Return the linear light of each of `levels` evenly spaced sRGB values."""
    value = np.linspace(0.0, 1.0, levels)
    bent = np.power((value + 0.055) / 1.055, 2.4)
    return np.where(value <= 0.04045, value / 12.92, bent).astype(np.float32)


def _bytes_of(source: Path | bytes, called: str) -> bytes:
    if isinstance(source, bytes):
        size, data = len(source), source
    else:
        try:
            size = source.stat().st_size
            data = source.read_bytes() if size <= MOST_BYTES else b""
        except OSError as fault:
            reason = fault.strerror or "it cannot be read"
            raise PictureRefused(
                f"{called} could not be opened: {reason}.", "Look whether the file is there."
            ) from fault
    if size > MOST_BYTES:
        raise _too_large(called)
    if size == 0:
        raise PictureRefused(f"{called} is an empty file.", "Copy it from the camera again.")
    return data


def _too_large(called: str) -> PictureRefused:
    return PictureRefused(
        f"{called} is larger than {MOST_PIXELS // 1_000_000} million pixels or "
        f"{MOST_BYTES // 1_000_000} megabytes.",
        "Take it at a smaller size; 2 to 12 million pixels are enough.",
    )


def _read(data: bytes, called: str) -> GreyPicture:
    with Image.open(io.BytesIO(data), formats=FORMATS) as opened:
        kind = opened.format or ""
        if opened.width * opened.height > MOST_PIXELS:
            raise _too_large(called)
        if min(opened.size) < SHORTEST_SIDE:
            raise PictureRefused(
                f"{called} is only {opened.width} by {opened.height} pixels.",
                f"At least {SHORTEST_SIDE} pixels along each side are needed.",
            )
        if opened.mode in ("1", "F"):
            what = "has black and white only, no greys" if opened.mode == "1" else "holds no light"
            raise PictureRefused(f"{called} {what}.", SAVE_AGAIN)
        opened.load()
        image = ImageOps.exif_transpose(opened)
        width, height = image.size
        reduced = max(1, math.ceil(math.sqrt(width * height / FULL_PIXELS)))
        if image.mode.startswith("I"):
            light, bits = _deep_grey(image, reduced, called)
            return GreyPicture(light, width, height, bits, False, reduced, kind)
        flat = image if image.mode in ("L", "RGB") else image.convert(_plain_mode(image))
        if flat is not opened:
            opened.close()
        light = _shallow_light(flat, reduced)
        return GreyPicture(light, width, height, 8, flat.mode == "RGB", reduced, kind)


def _plain_mode(image: Image.Image) -> str:
    return "L" if image.mode in ("LA", "La") else "RGB"


def _deep_grey(image: Image.Image, reduced: int, called: str) -> tuple[Grey, int]:
    """Return the light of a grey picture of more than 8 bits, and its bits a pixel.

    A camera of 10, 12 or 14 bits leaves the upper ones empty; white is its own fullest value.
    """
    values = np.asarray(image)
    top = int(values.max())
    if int(values.min()) < 0 or top > 65535:
        raise PictureRefused(f"{called} has more than 16 bits a pixel.", SAVE_AGAIN)
    bits = next(b for b in (8, 10, 12, 14, 16) if top < 2**b)
    table = linear_table(2**bits)
    light = np.empty((values.shape[0] // reduced, values.shape[1] // reduced), dtype=np.float32)
    for rows in _strips(light.shape[0]):
        light[rows] = _averaged(table[values[_source(rows, reduced)]], reduced)
    return light, bits


def _shallow_light(image: Image.Image, reduced: int) -> Grey:
    """Return the light of an 8-bit picture, grey or RGB, strip by strip."""
    table = linear_table(256)
    light = np.empty((image.height // reduced, image.width // reduced), dtype=np.float32)
    for rows in _strips(light.shape[0]):
        taken = _source(rows, reduced)
        strip = np.asarray(image.crop((0, taken.start, image.width, taken.stop)))
        grey = table[strip] if strip.ndim == 2 else table[strip] @ _LUMINANCE
        light[rows] = _averaged(grey, reduced)
    return light


def _strips(height: int) -> Iterator[slice]:
    for top in range(0, height, _STRIP):
        yield slice(top, min(top + _STRIP, height))


def _source(rows: slice, reduced: int) -> slice:
    return slice(rows.start * reduced, rows.stop * reduced)


def _averaged(grey: NDArray[Any], by: int) -> NDArray[Any]:
    """Return the means of squares of `by` × `by` pixels; what is left over at the right is cut."""
    if by == 1:
        return grey
    rows, columns = grey.shape[0] // by, grey.shape[1] // by
    squares = grey[: rows * by, : columns * by].reshape(rows, by, columns, by)
    return np.asarray(squares.mean(axis=(1, 3)))
